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

/** One possible number of happenings and how likely it is. */
export type CountPoint = { readonly count: number; readonly weight: number };

/**
 * Distribution of a count that was seen `shape` times over a `seenOver` stretch and is now awaited over an `ahead`
 * stretch of the same unit: negative binomial with that shape and mean shape x ahead / seenOver. Small means are listed
 * until 0.998 is covered (pooled in pairs above eight points), larger ones stand as three points of equal mean and variance.
 * Example: shape 0.4, ahead = seenOver gives P(0) = 2^-0.4 = 0.758.
 */
export function countPoints(shape: number, ahead: number, seenOver: number): readonly CountPoint[] {
  const t = ahead / seenOver;
  const mean = shape * t;
  if (!(mean > 1e-9)) return [{ count: 0, weight: 1 }];
  if (mean > 5) return threePoints(mean, mean * (1 + t));
  let p = (1 + t) ** -shape;
  const points: { count: number; weight: number }[] = [];
  let covered = 0;
  for (let m = 0; m < 400 && covered < 0.998; m += 1) {
    points.push({ count: m, weight: p });
    covered += p;
    p *= ((shape + m) / (m + 1)) * (t / (1 + t));
  }
  let list: readonly CountPoint[] = points;
  while (list.length > 8) list = pooledInPairs(list);
  return list.map((point) => ({ count: point.count, weight: point.weight / covered }));
}

function threePoints(mean: number, variance: number): readonly CountPoint[] {
  const step = Math.sqrt(3 * variance);
  const low = Math.max(0, mean - step);
  const high = mean + step;
  // Equal mean and variance also where the lower point is held at zero.
  const down = mean - low;
  const weightLow = variance / (down * (down + step));
  const weightHigh = variance / (step * (down + step));
  const middle = 1 - weightLow - weightHigh;
  if (middle >= 0) {
    return [
      { count: low, weight: weightLow },
      { count: mean, weight: middle },
      { count: high, weight: weightHigh },
    ];
  }
  const far = mean + variance / mean;
  const weightFar = mean / far;
  return [
    { count: 0, weight: 1 - weightFar },
    { count: far, weight: weightFar },
  ];
}

function pooledInPairs(points: readonly CountPoint[]): readonly CountPoint[] {
  const pooled: CountPoint[] = [];
  for (let i = 0; i < points.length; i += 2) {
    const a = points[i] as CountPoint;
    const b = points[i + 1];
    if (b === undefined) pooled.push(a);
    else {
      const weight = a.weight + b.weight;
      pooled.push({ count: weight > 0 ? (a.count * a.weight + b.count * b.weight) / weight : a.count, weight });
    }
  }
  return pooled;
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
