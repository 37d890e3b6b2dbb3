/**
 * The few distributions that the forecast needs: the normal, the log-normal matched to a mean and a variance, the
 * negative binomial of a count whose rate is only known by past counts, and the quantiles of a mixture of log-normals.
 */

/** A mean and a variance of the same quantity (seconds and seconds squared, or natural logarithms). */
export type Moments = { readonly mean: number; readonly variance: number };

const sqrtTwoPi = Math.sqrt(2 * Math.PI);

/**
 * Normal distribution function, quick form: absolute error below 7.5e-8.
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.2.17. Example: normalCdf(1.2815515655) = 0.9.
 */
export function normalCdf(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const poly = t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const tail = (Math.exp(-0.5 * z * z) / sqrtTwoPi) * poly;
  return z >= 0 ? 1 - tail : tail;
}

/**
 * Logarithm of the upper tail P(Z > z) of the standard normal, right far into the tail (relative error below 1e-9 for
 * z above 3, by the continued fraction of Mills' ratio; below that from the power series). Example: z = 0 gives ln 0.5.
 */
export function lnNormalTail(z: number): number {
  if (z > 3) {
    let fraction = z;
    for (let k = 60; k >= 1; k -= 1) fraction = z + k / fraction;
    return -0.5 * z * z - Math.log(sqrtTwoPi * fraction);
  }
  if (z < -8) return 0;
  let term = z;
  let sum = z;
  for (let k = 1; k < 120 && Math.abs(term) > 1e-17 * Math.abs(sum); k += 1) {
    term *= (z * z) / (2 * k + 1);
    sum += term;
  }
  return Math.log(Math.max(1e-300, 0.5 - (Math.exp(-0.5 * z * z) / sqrtTwoPi) * sum));
}

/** Log-normal with the given mean and variance, as the mean and variance of its logarithm. Mean must be above 0. */
export function lnMoments({ mean, variance }: Moments): Moments {
  const s2 = Math.log1p(variance / (mean * mean));
  return { mean: Math.log(mean) - s2 / 2, variance: s2 };
}

/**
 * What is left of a log-normal time of which `elapsed` seconds have already passed: mean and variance of X - elapsed
 * given X > elapsed, from the truncated moments. `ln` holds the mean and variance of ln X. Never below zero.
 */
export function restOfLogNormal(ln: Moments, elapsed: number): Moments & { readonly lnSurvival: number } {
  const s2 = Math.max(1e-8, ln.variance);
  const s = Math.sqrt(s2);
  if (elapsed <= 0) {
    const mean = Math.exp(ln.mean + s2 / 2);
    return { mean, variance: mean * mean * Math.expm1(s2), lnSurvival: 0 };
  }
  const z = (Math.log(elapsed) - ln.mean) / s;
  const lnSurvival = lnNormalTail(z);
  const first = Math.exp(ln.mean + s2 / 2 + lnNormalTail(z - s) - lnSurvival);
  const second = Math.exp(2 * ln.mean + 2 * s2 + lnNormalTail(z - 2 * s) - lnSurvival);
  return { mean: Math.max(0, first - elapsed), variance: Math.max(0, second - first * first), lnSurvival };
}

/** A range of possible numbers of happenings: its mean, the variance inside it, and how likely it is. */
export type CountPoint = { readonly count: number; readonly variance: number; readonly weight: number };

/** Shares at which the possible counts are cut into ranges: finer where a 90 % point may lie. */
const cuts = [0.15, 0.3, 0.45, 0.6, 0.72, 0.82, 0.9, 0.96, 1];
const mostListed = 150;

/**
 * Distribution of a count that was seen `shape` times over a `seenOver` stretch and is now awaited over an `ahead`
 * stretch of the same unit: negative binomial with that shape and mean shape x ahead / seenOver, gathered into at most nine
 * ranges. Mean and variance are kept to the last 0.1 %. Example: shape 0.4, ahead = seenOver gives P(0) = 2^-0.4 = 0.758.
 */
export function countPoints(shape: number, ahead: number, seenOver: number): readonly CountPoint[] {
  const mean = (shape * ahead) / seenOver;
  if (!(mean > 1e-9)) return [{ count: 0, variance: 0, weight: 1 }];
  // Large counts scale like the rate behind them: list a smaller one and stretch it.
  const stretch = Math.max(1, mean / mostListed);
  const points = gatherCounts(shape, mean / stretch / shape);
  if (stretch === 1) return points;
  return points.map((point) => ({
    count: point.count * stretch,
    variance: point.variance * stretch * stretch,
    weight: point.weight,
  }));
}

/** Lists P(0), P(1), ... by their recursion until 0.999 is covered, gathering them into ranges on the way. */
function gatherCounts(shape: number, t: number): CountPoint[] {
  const points: CountPoint[] = [];
  const ratio = t / (1 + t);
  let p = (1 + t) ** -shape;
  let covered = 0;
  let range = 0;
  let weight = 0;
  let sum = 0;
  let squares = 0;
  for (let m = 0; m < 20_000; m += 1) {
    weight += p;
    sum += p * m;
    squares += p * m * m;
    covered += p;
    p *= ((shape + m) / (m + 1)) * ratio;
    const last = covered >= 0.999;
    if (!last && covered < (cuts[range] ?? 1)) continue;
    const count = sum / weight;
    points.push({ count, variance: Math.max(0, squares / weight - count * count), weight });
    if (last) break;
    while (covered >= (cuts[range] ?? 1)) range += 1;
    weight = 0;
    sum = 0;
    squares = 0;
  }
  return points.map((point) => ({ ...point, weight: point.weight / covered }));
}

/** One log-normal of a mixture: its weight, mean and sd on the log scale. */
export type LogNormalPart = { readonly weight: number; readonly mu: number; readonly sigma: number };

/** Share of the mixture at or below exp(x). */
export function mixtureCdf(parts: readonly LogNormalPart[], x: number): number {
  let sum = 0;
  for (const part of parts) sum += part.weight * normalCdf((x - part.mu) / part.sigma);
  return sum;
}

/**
 * The value (not its logarithm) below which the share `p` of a mixture of log-normals lies: Newton's steps kept inside a
 * bracket, to 1e-6 relative. Weights must sum to one. Example: one part mu 0, sigma 1, p 0.5 gives 1.
 */
export function mixtureQuantile(parts: readonly LogNormalPart[], p: number): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  let start = 0;
  for (const part of parts) {
    low = Math.min(low, part.mu - 8 * part.sigma);
    high = Math.max(high, part.mu + 8 * part.sigma);
    start += part.weight * part.mu;
  }
  let x = start;
  for (let step = 0; step < 60; step += 1) {
    let cdf = 0;
    let density = 0;
    for (const part of parts) {
      const z = (x - part.mu) / part.sigma;
      cdf += part.weight * normalCdf(z);
      density += (part.weight * Math.exp(-0.5 * z * z)) / (part.sigma * sqrtTwoPi);
    }
    if (cdf < p) low = x;
    else high = x;
    const newton = x - (cdf - p) / density;
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - x) < 1e-7) return Math.exp(next);
    x = next;
  }
  return Math.exp(x);
}
