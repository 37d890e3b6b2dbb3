/** Whether the measured values of a check wander toward a limit, so that it can be said before one lies outside. */
import { newestFirst } from '../chain.ts';
import { cellAt, placeAt } from '../flow.ts';
import type { Batch } from '../state.ts';

/** Values that a drift is read from: fewer say nothing, more are too old. A rule of our own. */
const fewest = 3;
const most = 6;

/** One measured value and the ordinal of its piece. */
export type Measured = { readonly piece: number; readonly value: number };

/** The limit that the values wander toward, and the piece at which they would reach it. */
export type Drift = { readonly toward: 'upper' | 'lower'; readonly reachedAtPiece: number };

/**
 * The drift of values, oldest first; null when there is none to speak of. A straight line is laid through the last six;
 * it counts as a drift when every step goes its way, it has used up at least a quarter of the limits' width, and it
 * reaches the limit within as many pieces again as it was watched.
 *
 * Example: 3.00, 3.02, 3.04 at pieces 1, 6, 11 with limits 2.95 to 3.05: upper, reached at piece 14.
 */
export function driftOf(values: readonly Measured[], lower: number, upper: number): Drift | null {
  const last = values.slice(-most);
  const [first, newest] = [last[0], last.at(-1)];
  if (last.length < fewest || first === undefined || newest === undefined) return null;
  const rise = newest.value - first.value;
  const watched = newest.piece - first.piece;
  const steady = last.every((item, i) => i === 0 || (item.value - (last[i - 1]?.value ?? 0)) * rise > 0);
  if (!steady || watched <= 0 || Math.abs(rise) < (upper - lower) / 4) return null;
  const limit = rise > 0 ? upper : lower;
  const toGo = (limit - newest.value) / slopeOf(last);
  if (!(toGo <= watched)) return null;
  return { toward: rise > 0 ? 'upper' : 'lower', reachedAtPiece: newest.piece + Math.max(0, Math.ceil(toGo)) };
}

/** Least squares: change of the value for each piece. */
function slopeOf(values: readonly Measured[]): number {
  const mean = (numbers: readonly number[]) => numbers.reduce((sum, number) => sum + number, 0) / numbers.length;
  const piece = mean(values.map((item) => item.piece));
  const value = mean(values.map((item) => item.value));
  const spread = values.reduce((sum, item) => sum + (item.piece - piece) ** 2, 0);
  return values.reduce((sum, item) => sum + (item.piece - piece) * (item.value - value), 0) / spread;
}

/**
 * The drift of a measured check in a cell, from the values since the tool was last corrected; null when there is none or
 * the check is answered yes or no.
 */
export function checkDrift(batch: Batch, at: number, id: string): Drift | null {
  const check = placeAt(batch, at).operation.checks.find((candidate) => candidate.id === id);
  if (check === undefined || check.what.kind !== 'measured') return null;
  const { operation, lane, checkLog } = cellAt(batch, at);
  const corrected = batch.corrections
    .filter((c) => c.operation === operation && c.lane === lane && !c.takenBack)
    .at(-1);
  const since = corrected?.at.wall_ms ?? Number.NEGATIVE_INFINITY;
  const values = newestFirst(checkLog).flatMap(({ check: of, result, piece, void: isVoid, at: when }) =>
    of === id && !isVoid && result.kind === 'measured' && when.wall_ms >= since ? [{ piece, value: result.value }] : [],
  );
  return driftOf(values.reverse(), check.what.lower, check.what.upper);
}
