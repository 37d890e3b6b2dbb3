/**
 * What is still to come: how many pieces each cell can expect, if nothing more is lost. Pieces that no variant has been
 * given yet are counted where the parting would send them.
 */
import { cellAt, throughAt, unallotted, unallottedAlive, waitingAt } from './flow.ts';
import { startQuantity } from './lanes.ts';
import { proposeShares } from './parting.ts';
import type { Batch } from './state.ts';

/** Pieces that each cell, in the order of `lanes.places`, will have got in all. */
function expectedArrivals(batch: Batch): readonly number[] {
  const shares = batch.lanes.parted.length === 0 ? {} : proposeShares(batch, unallottedAlive(batch));
  const expected: number[] = [];
  for (const { inlet, lane } of batch.lanes.places) {
    if (inlet.kind === 'start') expected.push(startQuantity(batch.plan) + batch.more);
    else if (inlet.kind === 'pool') expected.push((batch.allotted[lane] ?? 0) + (shares[lane] ?? 0));
    else expected.push((expected[inlet.at] ?? 0) - cellAt(batch, inlet.at).scrap);
  }
  return expected;
}

/** Pieces still to be counted in each cell, those that have not come yet included. */
export function leftByCell(batch: Batch): readonly number[] {
  return expectedArrivals(batch).map((expected, at) => expected - throughAt(cellAt(batch, at)));
}

/**
 * Where work goes on when nothing waits here: the earliest operation with pieces waiting, in the variant in hand when it
 * has some; then one whose pieces are out of the house; then the first after the parting while its pool is full. Null
 * when every piece is through.
 */
export function nextCellAt(batch: Batch): number | null {
  const waiting = batch.cells.flatMap((_, at) => (waitingAt(batch, at) > 0 ? [at] : []));
  const first = waiting[0];
  if (first !== undefined) {
    const operation = cellAt(batch, first).operation;
    const sameVariant = waiting.find((at) => {
      const cell = cellAt(batch, at);
      return cell.operation === operation && cell.lane === batch.variantInHand;
    });
    return sameVariant ?? first;
  }
  const away = batch.cells.findIndex((cell) => cell.out > 0);
  if (away !== -1) return away;
  const parting = batch.lanes.places.findIndex((place) => place.inlet.kind === 'pool');
  return unallotted(batch) > 0 && parting !== -1 ? parting : null;
}
