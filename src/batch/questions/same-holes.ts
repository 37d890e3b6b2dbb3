/**
 * Later cuts that come to the same holes by the same zero: what is found out about the place of a hole when it is spotted
 * holds for its drill and its tap, or they enter off centre.
 */
import type { ResolvedCut, ResolvedPoint } from '../../plan/resolved.ts';
import { placeAt } from '../flow.ts';
import type { Batch } from '../state.ts';

/** A cut of an operation that comes to the same holes: all of its own, or the one at `point`. */
export type SameHoles = { readonly operation: number; readonly cut: number; readonly point?: number | undefined };

/** Two holes this near in mm are one: less than any readout shows. */
const sameWithin = 1e-6;

/**
 * Cuts after the cut `at` of the operation at hand, in its setup, that come to its holes or to the one at `point`.
 *
 * Example: spotted at 60, drilled at 70, tapped at 80 in one setup; at 60: the cuts of 70 and 80.
 */
export function sameHolesLater(batch: Batch, at: number, point: number | null): readonly SameHoles[] {
  if (batch.current === null) return [];
  const here = placeAt(batch, batch.current).operation;
  const holes = (here.cuts[at]?.points ?? []).filter((_, i) => point === null || i === point);
  if (here.setup === null || holes.length === 0) return [];
  return batch.plan.operations
    .filter((one) => one.setup === here.setup && one.number >= here.number)
    .flatMap(({ number, cuts }) =>
      cuts.flatMap((cut, i) =>
        number === here.number && i <= at ? [] : sameIn(number, cut, i, holes, point === null),
      ),
    );
}

function sameIn(
  operation: number,
  { points }: ResolvedCut,
  cut: number,
  holes: readonly ResolvedPoint[],
  isWhole: boolean,
): readonly SameHoles[] {
  const isAmong = (one: ResolvedPoint): boolean =>
    holes.some((hole) => Math.abs(hole.x - one.x) < sameWithin && Math.abs(hole.y - one.y) < sameWithin);
  if (isWhole && points.length > 0 && points.every(isAmong)) return [{ operation, cut }];
  return points.flatMap((one, point) => (isAmong(one) ? [{ operation, cut, point }] : []));
}
