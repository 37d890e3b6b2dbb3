import type { Elapsed, Money } from './model.ts';
import type { ReportSettings } from './settings.ts';

/**
 * What a batch costs, and one good piece of it. Charged are set-up, run, check and delay at the rate; material for every
 * piece started. For one good piece: set-up shared by the good ones; work and material shared by all pieces that were
 * finished or scrapped; `scrap` what the scrapped ones add. The four shares add up to the cost; the price adds the margin.
 *
 * @param pieces `good` through the last operation, `scrap` in all; material is taken for both
 * @returns `null` without a rate; `per_good_piece` is `null` while no good piece is through (all scrap included)
 *
 * Example: 60 an hour, 1 h set-up, 2 h run, 9 good, 1 scrap, no material: set-up 6.67, work 12.00, scrap 1.33, cost 20.00.
 */
export function costOf(
  elapsed: Elapsed,
  pieces: { readonly good: number; readonly scrap: number },
  rate: { readonly amount: number; readonly currency: string } | null,
  settings: Pick<ReportSettings, 'material_per_piece' | 'margin_pct'>,
): Money | null {
  if (rate === null) return null;
  const work_s = elapsed.run + elapsed.check + elapsed.delay;
  const setup = (elapsed.setup / 3600) * rate.amount;
  const work = (work_s / 3600) * rate.amount;
  const material = (settings.material_per_piece ?? 0) * (pieces.good + pieces.scrap);
  const total = setup + work + material;
  return {
    currency: rate.currency.trim(),
    rate_per_hour: rate.amount,
    charged_s: elapsed.setup + work_s,
    total,
    per_good_piece: pieces.good === 0 ? null : sharesOf({ setup, work, material, total }, pieces, settings.margin_pct),
  };
}

function sharesOf(
  cost: { readonly setup: number; readonly work: number; readonly material: number; readonly total: number },
  pieces: { readonly good: number; readonly scrap: number },
  margin_pct: number | null,
): NonNullable<Money['per_good_piece']> {
  const made = pieces.good + pieces.scrap;
  const each = cost.total / pieces.good;
  return {
    setup: cost.setup / pieces.good,
    work: cost.work / made,
    material: cost.material / made,
    scrap: (cost.work + cost.material) * (1 / pieces.good - 1 / made),
    cost: each,
    margin_pct,
    price: margin_pct === null ? null : each * (1 + margin_pct / 100),
  };
}
