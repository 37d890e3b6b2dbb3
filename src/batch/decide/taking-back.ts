/** Taking back the newest count, point, scrap, rework, recount, allotment or correction. */
import type { BatchEvent } from '../events.ts';
import type { Instant } from '../instant.ts';
import type { Batch, Entry } from '../state.ts';
import { type Decision, refused, whenHere } from './decision.ts';
import { ifSound } from './rejecting.ts';

/**
 * Takes back the newest entry of the operation at hand; when nothing was done here yet, the newest of the batch.
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
  const here = batch.current === null ? undefined : batch.cells[batch.current]?.entries?.item;
  if (here !== undefined) return here;
  const newest = batch.cells.flatMap((cell) => (cell.entries === null ? [] : [cell.entries.item]));
  return newest.reduce<Entry | null>((best, entry) => (best === null || entry.entry > best.entry ? entry : best), null);
}
