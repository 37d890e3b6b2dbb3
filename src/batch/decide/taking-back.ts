/** Taking back the newest count, point, scrap, rework, recount, allotment or correction. */
import type { BatchEvent, EventOf } from '../events.ts';
import { throughAt } from '../flow.ts';
import type { Instant } from '../instant.ts';
import type { Batch, Entry } from '../state.ts';
import { type Decision, refused, whenHere } from './decision.ts';
import { ifSound } from './rejecting.ts';

/** Done from any operation, so that they are taken back from any as long as nothing came after them. */
const ofTheBatch: ReadonlySet<Entry['what']> = new Set<Entry['what']>(['MoreStarted', 'SuspectsSettled']);

/**
 * Takes back the newest entry of the operation at hand; when nothing was done here yet, the newest of the batch. More pieces
 * and settled suspects are taken back wherever work is while they are the newest of all.
 * Refused while a later operation has used the piece.
 */
export function decideTakeBack(batch: Batch, at: Instant): Decision {
  return whenHere(batch, () => {
    const entry = entryToTakeBack(batch);
    if (entry === null) return refused('nothing to take back');
    const of = piecesOf(batch, entry);
    const said = of === null ? {} : { of };
    const event: BatchEvent = { kind: 'TakenBack', entry: entry.entry, what: entry.what, ...said };
    return ifSound(batch, at, event);
  });
}

/** The pieces that a count added, the newest of their cell; null for what counted none. */
function piecesOf(batch: Batch, { entry, what, good, scrap }: Entry): EventOf<'TakenBack'>['of'] | null {
  const cell = batch.cells.find((one) => one.entries?.item.entry === entry);
  const pieces = good + scrap;
  if (what !== 'LoadCounted' || cell === undefined || pieces < 1) return null;
  const to = throughAt(cell);
  return { operation: cell.operation, lane: cell.lane, from: to - pieces + 1, to };
}

/** What the next take-back would undo: null when there is nothing. */
export function entryToTakeBack(batch: Batch): Entry | null {
  const entries = batch.cells.flatMap((cell) => (cell.entries === null ? [] : [cell.entries.item]));
  const newest = entries.reduce<Entry | null>(
    (best, one) => (best === null || one.entry > best.entry ? one : best),
    null,
  );
  if (newest !== null && ofTheBatch.has(newest.what)) return newest;
  const here = batch.current === null ? undefined : batch.cells[batch.current]?.entries?.item;
  return here ?? newest;
}
