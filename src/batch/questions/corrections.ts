/** Corrections that alter a target now. */
import type { Batch, CorrectedTarget, Correction } from '../state.ts';

/**
 * The corrections in force for a cut of an operation, in all its lanes: what was found out about tool and setup on one
 * variant holds for the next, and a target that was right must not go wrong with the change-over.
 *
 * @param point position of a hole of the cut: with it those of this hole are among them, else only those of all holes
 */
export function correctionsInForce(
  batch: Batch,
  operation: number,
  cut: number,
  point: number | null = null,
): readonly Correction[] {
  return batch.corrections.filter(
    (one) =>
      !one.takenBack &&
      one.operation === operation &&
      one.cut === cut &&
      (one.point === undefined || one.point === point),
  );
}

/** By how much an axis is corrected in all, in mm; 0 when it is not. `point` as above. */
export function correctedBy(
  batch: Batch,
  operation: number,
  cut: number,
  axis: Correction['axis'],
  point: number | null = null,
): number {
  const inForce = correctionsInForce(batch, operation, cut, point);
  return inForce.reduce((sum, one) => (one.axis === axis ? sum + one.by : sum), 0);
}

/** By how much just this target was corrected, in mm: one hole apart from what holds for the whole cut. */
export function correctedJust(batch: Batch, { operation, cut, axis, point }: CorrectedTarget): number {
  return batch.corrections
    .filter((one) => one.operation === operation && one.cut === cut && one.axis === axis && one.point === point)
    .reduce((sum, one) => (one.takenBack ? sum : sum + one.by), 0);
}

/** One name for each target. */
export const correctedKey = ({ operation, cut, axis, point }: CorrectedTarget): string =>
  `${operation}/${cut}/${point ?? '*'}/${axis}`;
