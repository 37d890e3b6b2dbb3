/**
 * The parting: good pieces of the last common operation go to the variants. Orders come first, a shortage is shared in
 * proportion, and what is over goes where most work, and so most scrap, is still to come.
 */
import { needOf } from './flow.ts';
import { orderedIn } from './lanes.ts';
import type { Batch } from './state.ts';

/** Pieces for each variant, by its id. */
export type Shares = Readonly<Record<string, number>>;

/**
 * How `pieces` of the pool go to the variants; the shares add up to `pieces`.
 *
 * Example: orders 20 and 10, nothing given yet: 31 pieces give 21 and 10 (the larger order gets the spare); 27 give 18
 * and 9 (each a tenth short).
 */
export function proposeShares(batch: Batch, pieces: number): Shares {
  const { parted } = batch.lanes;
  const needs = parted.map((lane) => needOf(batch, lane));
  const needed = needs.reduce((sum, need) => sum + need, 0);
  const shares = pieces < needed ? inProportion(needs, pieces) : withSpares(batch, needs, pieces - needed);
  return Object.fromEntries(parted.map((lane, i) => [lane, shares[i] ?? 0]));
}

/** Whole parts of `pieces` in proportion to `weights`: the largest remainders get the odd ones, the first of equals. */
function inProportion(weights: readonly number[], pieces: number): number[] {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const exact = weights.map((weight) => (weight * pieces) / total);
  const shares = exact.map(Math.floor);
  const odd = pieces - shares.reduce((sum, share) => sum + share, 0);
  const byRemainder = exact.map((value, i) => ({ i, rest: value - Math.floor(value) })).sort((a, b) => b.rest - a.rest);
  for (const { i } of byRemainder.slice(0, odd)) shares[i] = (shares[i] ?? 0) + 1;
  return shares;
}

function withSpares(batch: Batch, needs: readonly number[], spares: number): number[] {
  const { parted, places } = batch.lanes;
  const risk = parted.map(
    (lane) => orderedIn(batch.plan, lane) * Math.max(1, places.filter((place) => place.lane === lane).length),
  );
  const given = parted.map(() => 0);
  for (let spare = 0; spare < spares; spare += 1) {
    const merit = risk.map((value, i) => value / ((given[i] ?? 0) + 1));
    const most = merit.indexOf(Math.max(...merit));
    given[most] = (given[most] ?? 0) + 1;
  }
  return needs.map((need, i) => need + (given[i] ?? 0));
}
