/** What came out of the batch so far: pieces through the last operation of their lane. */
import { cellAt } from './flow.ts';
import { commonLane, orderedIn } from './lanes.ts';
import type { Batch } from './state.ts';

/** Good pieces that came out of the last operation of every lane. */
export function goodOf(batch: Batch): number {
  return finishedPieces(batch).reduce((sum, { good }) => sum + good, 0);
}

/** Pieces of one variant that are through, beside its order. */
export type FinishedPieces = { readonly variant: string; readonly ordered: number; readonly good: number };

/**
 * Finished pieces by variant. While the lanes never part, what is good fills the orders in the plan's order and what is
 * over belongs to the last; a variant without an operation of its own is finished with the parting.
 *
 * Example: orders 20 and 10, nothing parts, 25 good: 20 and 5.
 */
export function finishedPieces(batch: Batch): readonly FinishedPieces[] {
  const { variants } = batch.plan;
  let common = batch.lanes.parted.length === 0 ? goodAtEnd(batch, commonLane) : 0;
  return variants.map((variant, i) => {
    const ordered = orderedIn(batch.plan, variant.id);
    if (batch.lanes.parted.length > 0) return { variant: variant.id, ordered, good: goodAtEnd(batch, variant.id) };
    const good = i === variants.length - 1 ? common : Math.min(common, ordered);
    common -= good;
    return { variant: variant.id, ordered, good };
  });
}

function goodAtEnd(batch: Batch, lane: string): number {
  const at = batch.lanes.places.findLastIndex((place) => place.lane === lane);
  return at === -1 ? (batch.allotted[lane] ?? 0) : cellAt(batch, at).good;
}
