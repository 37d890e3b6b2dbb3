/** How many pieces a batch has through, by variant and in all. */
import { cellAt } from '../../batch/flow.ts';
import { commonLane, startQuantity } from '../../batch/lanes.ts';
import type { Batch } from '../../batch/state.ts';
import type { ReportModel } from '../model.ts';

/** Pieces started, scrap in all, and good pieces through the last operation of their lane. */
export function quantitiesOf(batch: Batch): Pick<ReportModel, 'ordered' | 'started' | 'good' | 'scrap' | 'variants'> {
  const variants = variantsOf(batch);
  return {
    ordered: batch.plan.variants.reduce((sum, one) => sum + one.quantity, 0),
    started: startQuantity(batch.plan) + batch.more,
    good: batch.lanes.parted.length === 0 ? throughLane(batch, commonLane) : sumOf(variants.map((one) => one.good)),
    scrap: sumOf(batch.cells.map((cell) => cell.scrap)),
    variants,
  };
}

/** Variants that never part share the good pieces in the plan's order, each up to what was ordered, the last the rest. */
function variantsOf(batch: Batch): ReportModel['variants'] {
  const { variants } = batch.plan;
  let pool = batch.lanes.parted.length === 0 ? throughLane(batch, commonLane) : 0;
  return variants.map(({ id, title, quantity }, index) => {
    const isLast = index === variants.length - 1;
    const good = batch.lanes.parted.includes(id) ? throughLane(batch, id) : isLast ? pool : Math.min(pool, quantity);
    pool = Math.max(0, pool - good);
    return { id, title, ordered: quantity, good, short: Math.max(0, quantity - good) };
  });
}

/** Good pieces of the last operation in a lane; a lane without operations after the parting has what it was given. */
function throughLane(batch: Batch, lane: string): number {
  const at = batch.lanes.places.findLastIndex((place) => place.lane === lane);
  return at === -1 ? (batch.allotted[lane] ?? 0) : cellAt(batch, at).good;
}

const sumOf = (counts: readonly number[]): number => counts.reduce((sum, count) => sum + count, 0);
