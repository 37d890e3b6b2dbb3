/** Where suspect pieces can lie by now: pieces are counted, not numbered, so only the operator knows. */
import { cellAt, placeAt, waitingAt } from '../flow.ts';
import { commonLane } from '../lanes.ts';
import type { Batch, Suspects } from '../state.ts';

/** An operation that good pieces have come through last, and how many lie behind it. */
export type PlaceBehind = {
  readonly at: number;
  readonly operation: number;
  readonly lane: string;
  readonly pieces: number;
};

/**
 * Every place where pieces of a suspect range can lie: behind its own operation or a later one on their way, good and not
 * yet used further on. In the order of the plan.
 *
 * Example: 5 pieces drilled, 3 of them tapped: 2 lie behind the drilling, 3 behind the tapping.
 */
export function placesBehind(batch: Batch, range: Pick<Suspects, 'operation' | 'lane'>): readonly PlaceBehind[] {
  return batch.cells.flatMap((cell, at) => {
    const { operation, lane } = cell;
    const isOnTheWay = operation >= range.operation && (lane === range.lane || range.lane === commonLane);
    const pieces = isOnTheWay ? Math.min(cell.good, freeBehind(batch, at)) : 0;
    return pieces > 0 ? [{ at, operation, lane, pieces }] : [];
  });
}

/** Suspect ranges whose pieces can lie among those of a cell: of its own operation or of an earlier one on their way. */
export function suspectsAround(batch: Batch, at: number): readonly Suspects[] {
  const { operation, lane } = cellAt(batch, at);
  return batch.suspects.filter(
    (one) => one.operation <= operation && (one.lane === lane || one.lane === commonLane || lane === commonLane),
  );
}

/** How many pieces that is: one that is suspect in two checks of an operation counts once. */
export function suspectCount(ranges: readonly Suspects[]): number {
  const pieces = ranges.flatMap(({ operation, lane, from, to }) =>
    Array.from({ length: to - from + 1 }, (_, i) => `${operation}/${lane}/${from + i}`),
  );
  return new Set(pieces).size;
}

/** Good pieces of a cell that no later cell has counted, holds or has sent out. */
function freeBehind(batch: Batch, at: number): number {
  const { good } = cellAt(batch, at);
  const { next } = placeAt(batch, at);
  if (batch.lanes.poolCell === at) return good - Object.values(batch.allotted).reduce((sum, some) => sum + some, 0);
  if (next === null) return good;
  const { load } = cellAt(batch, next);
  const held = load.size > 0 ? load.size - load.rejected.length : 0;
  return waitingAt(batch, next) - held;
}
