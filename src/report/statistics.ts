/**
 * What a handful of piece times or measured dimensions can honestly bear: a trend with its interval, and capability with
 * its interval. Means, deviations and quantiles are in src/forecast/statistics.ts. Nothing answers NaN or Infinity: a list
 * too short for the question answers `null`.
 */
import { mean, normalQuantile, standardDeviation, tQuantile } from '../forecast/statistics.ts';

/** A least-squares line through values taken in order, with what its slope may be at 95 % confidence. */
export interface Trend {
  /** Change from one value to the next. */
  readonly slope: number;
  readonly low: number;
  readonly high: number;
}

/**
 * The trend of values taken in order (x = 1, 2, ...), with the 95 % interval of the slope from Student's t on n - 2
 * degrees of freedom; `null` for fewer than three values.
 *
 * Example: 10, 8, 6, 4 has slope -2, low -2 and high -2: the points lie on the line.
 */
export function trendOf(values: readonly number[]): Trend | null {
  const centre = mean(values);
  const count = values.length;
  const factor = tQuantile(0.975, count - 2);
  if (centre === null || factor === null) return null;
  const middle = (count + 1) / 2;
  const spread = (count * (count * count - 1)) / 12;
  const slope = values.reduce((sum, value, index) => sum + (index + 1 - middle) * (value - centre), 0) / spread;
  const rest = values.reduce((sum, value, index) => sum + (value - centre - slope * (index + 1 - middle)) ** 2, 0);
  const reach = factor * Math.sqrt(rest / (count - 2) / spread);
  return { slope, low: slope - reach, high: slope + reach };
}

/** How well measured dimensions lie inside their limits. */
export interface Capability {
  /** Width of the limits over six deviations (C_p). */
  readonly spreadIndex: number;
  /** Distance from the mean to the nearer limit over three deviations (C_pk). */
  readonly index: number;
  /** 95 % interval of `index`. */
  readonly low: number;
  readonly high: number;
}

/**
 * Capability of measured values against two limits: C_p, C_pk and the 95 % interval
 * C_pk +- 1.96 sqrt(1/(9 n) + C_pk^2/(2 (n - 1))) (NIST/SEMATECH e-Handbook of Statistical Methods, 6.1.6). It supposes a
 * steady process and values that scatter like a normal distribution; the caller says so. `null` when the values do not
 * scatter at all or are fewer than two, or when the limits do not lie in order.
 *
 * Example: 45 values with C_pk 1.15 have the interval 0.89 to 1.41.
 */
export function capabilityOf(values: readonly number[], lower: number, upper: number): Capability | null {
  const centre = mean(values);
  const deviation = standardDeviation(values);
  if (centre === null || deviation === null || !(deviation > 1e-9) || lower >= upper) return null;
  const count = values.length;
  const index = Math.min(upper - centre, centre - lower) / (3 * deviation);
  const reach = (normalQuantile(0.975) ?? 0) * Math.sqrt(1 / (9 * count) + index ** 2 / (2 * (count - 1)));
  return { spreadIndex: (upper - lower) / (6 * deviation), index, low: index - reach, high: index + reach };
}
