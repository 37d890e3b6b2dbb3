/** Corrections that alter a target now. */
import type { Batch, Correction } from '../state.ts';

/**
 * The corrections in force for a cut of an operation, in all its lanes: what was found out about tool and setup on one
 * variant holds for the next, and a target that was right must not go wrong with the change-over.
 */
export function correctionsInForce(batch: Batch, operation: number, cut: number): readonly Correction[] {
  return batch.corrections.filter((one) => !one.takenBack && one.operation === operation && one.cut === cut);
}

/** By how much an axis is corrected in all, in mm; 0 when it is not. */
export function correctedBy(batch: Batch, operation: number, cut: number, axis: Correction['axis']): number {
  return correctionsInForce(batch, operation, cut).reduce((sum, one) => (one.axis === axis ? sum + one.by : sum), 0);
}
