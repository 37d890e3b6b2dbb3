/** Taking back the newest count, point, scrap, rework, recount, allotment or correction. */
import type { BatchEvent } from '../events.ts';
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
    const event: BatchEvent = { kind: 'TakenBack', entry: entry.entry, what: entry.what };
    return ifSound(batch, at, event);
  });
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
