/** What the loads of one operation and lane say about the time of a piece. */
import { median, quantile, standardDeviation } from '../forecast/statistics.ts';
import type { LoadRow, OperationRow, PieceTimes } from './model.ts';
import { trendOf } from './statistics.ts';

/** Timed loads below this number show no trend: learning and chance look alike. Our own judgement. */
const LOADS_FOR_TREND = 8;

type TimedLoad = Pick<LoadRow, 'pieces' | 'time_s' | 'left_out'>;

/**
 * Median, band, mean, first and last five, and trend of the seconds a piece, from the loads that count as timed (none of
 * them left out); `null` when there is none. A load's seconds are shared by its pieces; the mean is all timed seconds over
 * all timed pieces. First and last five are `null` below ten timed loads, the trend below eight.
 *
 * Example: loads of 2 pieces in 80 s and 1 piece in 50 s: values 40 and 50, median 45, mean 43.33.
 */
export function pieceTimesOf(loads: readonly TimedLoad[]): PieceTimes | null {
  const timed = loads.flatMap((load) =>
    load.left_out === null && load.time_s !== null && load.pieces > 0
      ? [{ pieces: load.pieces, total_s: load.time_s, each_s: load.time_s / load.pieces }]
      : [],
  );
  const values = timed.map((load) => load.each_s);
  const [median_s, p10_s, p90_s] = [median(values), quantile(values, 0.1), quantile(values, 0.9)];
  if (median_s === null || p10_s === null || p90_s === null) return null;
  const pieces = timed.reduce((sum, load) => sum + load.pieces, 0);
  return {
    timed_loads: timed.length,
    timed_pieces: pieces,
    median_s,
    p10_s,
    p90_s,
    mean_s: timed.reduce((sum, load) => sum + load.total_s, 0) / pieces,
    deviation_s: standardDeviation(values),
    first_five_s: values.length < 10 ? null : median(values.slice(0, 5)),
    last_five_s: values.length < 10 ? null : median(values.slice(-5)),
    trend: values.length < LOADS_FOR_TREND ? null : namedTrend(values),
  };
}

function namedTrend(values: readonly number[]): PieceTimes['trend'] {
  const trend = trendOf(values);
  if (trend === null) return null;
  const verdict = trend.high < 0 ? 'quicker' : trend.low > 0 ? 'slower' : 'steady';
  return { per_load_s: trend.slope, low_s: trend.low, high_s: trend.high, verdict };
}

/** The loads left out of the timing, gathered by reason in the order in which the reasons first came up. */
export function leftOutOf(loads: readonly TimedLoad[]): OperationRow['left_out'] {
  const byReason = new Map<string, OperationRow['left_out'][number]>();
  for (const load of loads) {
    if (load.left_out === null) continue;
    const before = byReason.get(load.left_out) ?? { reason: load.left_out, loads: 0, pieces: 0, total_s: 0 };
    byReason.set(load.left_out, {
      ...before,
      loads: before.loads + 1,
      pieces: before.pieces + load.pieces,
      total_s: before.total_s + (load.time_s ?? 0),
    });
  }
  return [...byReason.values()];
}
