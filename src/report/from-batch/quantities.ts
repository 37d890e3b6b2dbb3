/** How many pieces a batch has through, by variant and in all. */
import { finishedPieces } from '../../batch/finished-pieces.ts';
import { startQuantity } from '../../batch/lanes.ts';
import type { Batch } from '../../batch/state.ts';
import type { ReportModel } from '../model.ts';

/** Pieces started, scrap in all, and good pieces through the last operation of their lane, by variant and in all. */
export function quantitiesOf(batch: Batch): Pick<ReportModel, 'ordered' | 'started' | 'good' | 'scrap' | 'variants'> {
  const titles = new Map(batch.plan.variants.map((variant) => [variant.id, variant.title]));
  const variants = finishedPieces(batch).map(({ variant, ordered, good }) => ({
    id: variant,
    title: titles.get(variant) ?? variant,
    ordered,
    good,
    short: Math.max(0, ordered - good),
  }));
  return {
    ordered: sumOf(variants.map((one) => one.ordered)),
    started: startQuantity(batch.plan) + batch.more,
    good: sumOf(variants.map((one) => one.good)),
    scrap: sumOf(batch.cells.map((cell) => cell.scrap)),
    variants,
  };
}

const sumOf = (counts: readonly number[]): number => counts.reduce((sum, count) => sum + count, 0);
