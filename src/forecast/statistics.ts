/**
 * Plain statistics of a list of times, for the report and for tests of the forecast: mean, standard deviation, quantiles,
 * Student's t and the prediction interval. Everything refuses what it cannot answer with `null` rather than NaN.
 */
import { normalCdf } from './distributions.ts';

/** Mean of a list, null when it is empty. Example: mean([62, 58, 65]) = 61.67. */
export function mean(values: readonly number[]): number | null {
  if (values.length === 0) return null;
  // Around the first value, so that long digits (10000001, 10000003) lose nothing.
  const origin = values[0] ?? 0;
  return origin + values.reduce((sum, value) => sum + (value - origin), 0) / values.length;
}

/** Standard deviation with n - 1, null for fewer than two values. Source of the test: NIST StRD univariate sets. */
export function standardDeviation(values: readonly number[]): number | null {
  const centre = mean(values);
  if (centre === null || values.length < 2) return null;
  const squares = values.reduce((sum, value) => sum + (value - centre) ** 2, 0);
  // Second pass of the corrected two-pass method: takes out what rounding left in the mean.
  const rest = values.reduce((sum, value) => sum + (value - centre), 0);
  return Math.sqrt((squares - (rest * rest) / values.length) / (values.length - 1));
}

/**
 * Quantile by linear interpolation between order statistics (Hyndman and Fan's type 7, the usual one); null when empty.
 * `p` from 0 to 1. Example: quantile([1, 2, 3, 4], 0.5) = 2.5.
 */
export function quantile(values: readonly number[], p: number): number | null {
  if (values.length === 0) return null;
  const sorted = [...values].sort((a, b) => a - b);
  const position = Math.max(0, Math.min(1, p)) * (sorted.length - 1);
  const below = sorted[Math.floor(position)] ?? 0;
  const above = sorted[Math.ceil(position)] ?? below;
  return below + (above - below) * (position - Math.floor(position));
}

/** Median; null when empty. */
export function median(values: readonly number[]): number | null {
  return quantile(values, 0.5);
}

/**
 * Quantile of the standard normal, `p` strictly between 0 and 1, else null. Newton's steps on the distribution function;
 * error below 1e-6. Example: normalQuantile(0.9) = 1.28155.
 */
export function normalQuantile(p: number): number | null {
  if (!(p > 0 && p < 1)) return null;
  return solve((z) => normalCdf(z), p, -40, 40);
}

/**
 * Quantile of Student's t with `degrees` of freedom (above 0), `p` strictly between 0 and 1, else null; error below 1e-6
 * of its size. Example: tQuantile(0.975, 9) = 2.262157.
 */
export function tQuantile(p: number, degrees: number): number | null {
  if (!(p > 0 && p < 1) || !(degrees > 0)) return null;
  if (p < 0.5) return -(tQuantile(1 - p, degrees) ?? 0);
  if (p === 0.5) return 0;
  let high = 2;
  while (tCdf(high, degrees) < p && high < 1e300) high *= 2;
  return solve((t) => tCdf(t, degrees), p, 0, high);
}

/** Distribution function of Student's t, by the regularised incomplete beta function. */
function tCdf(t: number, degrees: number): number {
  const tail = incompleteBeta(degrees / 2, 0.5, degrees / (degrees + t * t)) / 2;
  return t >= 0 ? 1 - tail : tail;
}

/**
 * Interval in which the mean of the next `count` values lies with probability `confidence`, from past ones: mean plus and
 * minus t s sqrt(1/count + 1/n). Null for fewer than two past values. With count 1 the usual prediction interval of one
 * value. Source of the test: Devore, Probability and Statistics, examples 7.12 and 7.13.
 */
export function predictionInterval(
  values: readonly number[],
  confidence: number,
  count = 1,
): { readonly low: number; readonly high: number } | null {
  const centre = mean(values);
  const spread = standardDeviation(values);
  const t = tQuantile((1 + confidence) / 2, values.length - 1);
  if (centre === null || spread === null || t === null || !(count > 0)) return null;
  const half = t * spread * Math.sqrt(1 / count + 1 / values.length);
  return { low: centre - half, high: centre + half };
}

/** Solves an increasing function for `p` by bisection: 200 halvings reach the last digit. */
function solve(f: (x: number) => number, p: number, from: number, to: number): number {
  let low = from;
  let high = to;
  for (let step = 0; step < 200 && high - low > 1e-13 * Math.max(1, Math.abs(low)); step += 1) {
    const middle = (low + high) / 2;
    if (f(middle) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * Regularised incomplete beta function by its continued fraction (Abramowitz and Stegun 26.5.8), evaluated with Lentz's
 * method; `x` from 0 to 1.
 */
function incompleteBeta(a: number, b: number, x: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(b, a, 1 - x);
  const front = Math.exp(a * Math.log(x) + b * Math.log1p(-x) - lnBeta(a, b)) / a;
  const tiny = 1e-300;
  let c = 1;
  let d = 1 / guarded(1 - ((a + b) * x) / (a + 1), tiny);
  let fraction = d;
  for (let m = 1; m < 500; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / guarded(1 + even * d, tiny);
    c = guarded(1 + even / c, tiny);
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / guarded(1 + odd * d, tiny);
    c = guarded(1 + odd / c, tiny);
    fraction *= d * c;
    if (Math.abs(d * c - 1) < 1e-15) break;
  }
  return front * fraction;
}

function guarded(value: number, tiny: number): number {
  return Math.abs(value) < tiny ? tiny : value;
}

function lnBeta(a: number, b: number): number {
  return lnGamma(a) + lnGamma(b) - lnGamma(a + b);
}

/** ln of the gamma function, by Stirling's series after lifting the argument above 12 (Abramowitz and Stegun 6.1.41). */
function lnGamma(x: number): number {
  let lifted = x;
  let product = 1;
  while (lifted < 12) {
    product *= lifted;
    lifted += 1;
  }
  const r = 1 / (lifted * lifted);
  const series = (1 / 12 - r * (1 / 360 - r * (1 / 1260 - r * (1 / 1680 - r / 1188)))) / lifted;
  return (lifted - 0.5) * Math.log(lifted) - lifted + Math.log(2 * Math.PI) / 2 + series - Math.log(product);
}
