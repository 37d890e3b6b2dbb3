/** Seeded chance for the invented runs: the same seed always gives the same numbers (mulberry32, a public-domain mixer). */
export type Random = {
  readonly uniform: () => number;
  readonly normal: () => number;
  readonly between: (low: number, high: number) => number;
  readonly whole: (low: number, high: number) => number;
  readonly poisson: (mean: number) => number;
  readonly gamma: (shape: number) => number;
};

export function seededRandom(seed: number): Random {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return (((mixed ^ (mixed >>> 14)) >>> 0) + 0.5) / 4294967296;
  };
  const normal = (): number => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
  const between = (low: number, high: number): number => low + (high - low) * uniform();
  const poisson = (mean: number): number => {
    if (mean > 60) return Math.max(0, Math.round(mean + Math.sqrt(mean) * normal()));
    let count = 0;
    for (let left = Math.exp(-mean), product = uniform(); product > left; product *= uniform()) count += 1;
    return count;
  };
  // Marsaglia and Tsang's squeeze, with the usual lift for shapes below one.
  const gamma = (shape: number): number => {
    if (shape < 1) return gamma(shape + 1) * uniform() ** (1 / shape);
    const d = shape - 1 / 3;
    const c = 1 / Math.sqrt(9 * d);
    for (;;) {
      const x = normal();
      const v = (1 + c * x) ** 3;
      if (v > 0 && Math.log(uniform()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v;
    }
  };
  return {
    uniform,
    normal,
    between,
    whole: (low, high) => Math.floor(between(low, high + 1)),
    poisson,
    gamma,
  };
}
