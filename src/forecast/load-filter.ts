/**
 * The filter bank of one operation: what its loads so far say about the loads to come.
 *
 * ln(time of load j) = level + excess x g(j) + noise. Three small Kalman filters run side by side: one without learning
 * (g = 0), one with quick and one with slow learning (g(j) = exp(-(j-1)/tau), tau 5 and 14 loads); their likelihoods weigh
 * them. The level may wander slowly (drift, wear). How far a load is to be believed arrives from outside (load-shares.ts):
 * this file knows nothing of hiccups or interruptions. A filter is six numbers, whatever the number of loads. Times are in
 * seconds, levels in natural logarithms. A test holds the filters to the closed-form posterior of the same model.
 */
import { constants } from './constants.ts';
import type { Moments } from './distributions.ts';

/** One filter: level and learning excess with their covariance (a, b, c) and the log of its weight. */
type ShapeFilter = {
  /** Loads in which the excess decays to a third; 0 for the shape without learning. */
  readonly decayLoads: number;
  readonly level: number;
  readonly excess: number;
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly lnWeight: number;
};

export type FilterBank = {
  readonly loads: number;
  readonly noiseSum: number;
  readonly noiseWeight: number;
  /** What was believed of the level before the first load: needed to tell what the loads alone say. */
  readonly prior: Moments;
  /** Variance that the level gains from one load to the next. */
  readonly wanderPerLoad: number;
  readonly shapes: readonly ShapeFilter[];
};

/** Share of the learning excess that load `j` (from 1) still carries. Example: learningShare(8, 3) = 0.78. */
export function learningShare(decayLoads: number, j: number): number {
  return decayLoads > 0 ? Math.exp(-(j - 1) / decayLoads) : 0;
}

/** Sum of the learning shares of `count` loads after `done` loads; `count` may have a fraction. */
export function learningShares(decayLoads: number, done: number, count: number): number {
  if (decayLoads <= 0) return 0;
  const decay = Math.exp(-1 / decayLoads);
  return (decay ** done * (1 - decay ** count)) / (1 - decay);
}

export type BankStart = {
  /** Prior of ln(time of a full load). */
  readonly level: Moments;
  /** Shapes of learning: what is expected of each excess, and its weight on any scale. */
  readonly shapes: readonly { readonly decayLoads: number; readonly excess: Moments; readonly weight: number }[];
  /** Noise variance of one load on the log scale. */
  readonly noise: number;
  /** Loads that the operation will take in all. */
  readonly loadsInAll: number;
};

/** The bank of an operation of which no load has been seen. */
export function startBank(start: BankStart): FilterBank {
  return {
    loads: 0,
    noiseSum: constants.noiseWeight * start.noise,
    noiseWeight: constants.noiseWeight,
    prior: start.level,
    wanderPerLoad: constants.wander ** 2 / Math.max(constants.wanderLoads, start.loadsInAll),
    shapes: start.shapes.map(({ decayLoads, excess, weight }) => ({
      decayLoads,
      level: start.level.mean,
      excess: excess.mean,
      a: start.level.variance,
      b: 0,
      c: excess.variance,
      lnWeight: Math.log(weight),
    })),
  };
}

/** Variance of the noise of one load on the log scale. */
export function noiseVariance(bank: FilterBank): number {
  return bank.noiseSum / bank.noiseWeight;
}

/** Weights of the filters, summing to one. */
export function shapeWeights(bank: FilterBank): readonly number[] {
  let best = Number.NEGATIVE_INFINITY;
  for (const shape of bank.shapes) best = Math.max(best, shape.lnWeight);
  const weights: number[] = [];
  let total = 0;
  for (const shape of bank.shapes) {
    const weight = Math.exp(shape.lnWeight - best);
    weights.push(weight);
    total += weight;
  }
  for (let i = 0; i < weights.length; i += 1) weights[i] = (weights[i] ?? 0) / total;
  return weights;
}

/** Mean and variance of the level of ln(time of a full load) in the next load, without that load's own noise. */
export function predictLoad(bank: FilterBank): Moments {
  return mixed(bank, bank.loads + 1);
}

/** Mean and variance of the settled level, over both filters. */
export function settledLevel(bank: FilterBank): Moments {
  return mixed(bank, null);
}

/** Noise variance expected of the next load: the first one of an operation or after a break scatters more. */
export function nextNoiseVariance(bank: FilterBank, afterBreak = false): number {
  if (bank.loads === 0) return noiseVariance(bank) * constants.firstLoadNoise;
  return noiseVariance(bank) * (afterBreak ? constants.afterBreak.noise : 1);
}

/**
 * Takes in one load of a full load's log time `y`, believed by `share` (0 to 1): a doubtful load moves the level little.
 * Opening a batch of 10,000 loads comes through here as often before anything is compiled, so it makes few objects;
 * `expected` is `predictLoad(bank)`, for whoever has it already.
 */
export function takeLoad(
  bank: FilterBank,
  y: number,
  share: number,
  afterBreak = false,
  expected = predictLoad(bank),
): FilterBank {
  const s2 = noiseVariance(bank);
  const noise = nextNoiseVariance(bank, afterBreak);
  const spread = expected.variance + bank.wanderPerLoad + noise;
  const error = y - expected.mean;
  const step = { y, load: bank.loads + 1, noise, believed: noise / Math.max(share, 1e-4), wander: bank.wanderPerLoad };
  const shapes: ShapeFilter[] = [];
  for (const shape of bank.shapes) shapes.push(stepShape(shape, step));
  return {
    loads: bank.loads + 1,
    noiseSum: bank.noiseSum + (share * Math.min(error * error, 9 * spread) * s2) / spread,
    noiseWeight: bank.noiseWeight + share,
    prior: bank.prior,
    wanderPerLoad: bank.wanderPerLoad,
    shapes,
  };
}

type Step = {
  readonly y: number;
  readonly load: number;
  readonly noise: number;
  readonly believed: number;
  readonly wander: number;
};

function stepShape(shape: ShapeFilter, { y, load, noise, believed, wander }: Step): ShapeFilter {
  const g = learningShare(shape.decayLoads, load);
  const a = shape.a + wander;
  const gainLevel = a + shape.b * g;
  const gainExcess = shape.b + shape.c * g;
  const error = y - shape.level - shape.excess * g;
  const signal = gainLevel + gainExcess * g;
  const spread = signal + believed;
  const usual = signal + noise;
  return {
    decayLoads: shape.decayLoads,
    level: shape.level + (gainLevel * error) / spread,
    excess: shape.excess + (gainExcess * error) / spread,
    a: a - (gainLevel * gainLevel) / spread,
    b: shape.b - (gainLevel * gainExcess) / spread,
    c: shape.c - (gainExcess * gainExcess) / spread,
    lnWeight: shape.lnWeight + Math.log((0.96 * Math.exp((-error * error) / (2 * usual))) / Math.sqrt(usual) + 0.024),
  };
}

/** The bank with its level forgotten and begun again at `level` (ln of a full load's time): learning and noise stay. */
export function relevel(bank: FilterBank, level: number): FilterBank {
  const again = (shape: ShapeFilter): ShapeFilter => ({ ...shape, level, a: 1, b: 0 });
  return { ...bank, prior: { mean: level, variance: 1 }, shapes: bank.shapes.map(again) };
}

/** Counts `count` loads that were made but not timed: learning and wander go on, nothing is learned of the level. */
export function passLoads(bank: FilterBank, count: number): FilterBank {
  const pass = (shape: ShapeFilter): ShapeFilter => ({ ...shape, a: shape.a + bank.wanderPerLoad * count });
  return { ...bank, loads: bank.loads + count, shapes: bank.shapes.map(pass) };
}

/**
 * What the operation's loads alone say of the settled level (the prior taken out again): the mean and variance of
 * ln(time of a full load). The variance is huge while little is known.
 */
export function levelFromLoads(bank: FilterBank): Moments {
  const { mean, variance } = settledLevel(bank);
  const own = 1 / Math.max(1e-6, 1 / variance - 1 / bank.prior.variance);
  return { mean: own * (mean / variance - bank.prior.mean / bank.prior.variance), variance: own };
}

/**
 * Seconds that `count` further loads take (fractions allowed), without hiccups and interruptions: the mean and the
 * variance of the sum. Zero for no loads.
 */
export function secondsAhead(bank: FilterBank, count: number): Moments {
  if (count <= 0) return { mean: 0, variance: 0 };
  const s2 = noiseVariance(bank);
  const weights = shapeWeights(bank);
  let mean = 0;
  let square = 0;
  bank.shapes.forEach((shape, i) => {
    const sum = learningShares(shape.decayLoads, bank.loads, count);
    const length = Math.max(0.05 * count, count + Math.expm1(shape.excess) * sum);
    const slope = (Math.exp(shape.excess) * sum) / length;
    const variance = shape.a + 2 * shape.b * slope + shape.c * slope * slope + (bank.wanderPerLoad * count) / 3;
    const total = Math.exp(shape.level + s2 / 2 + variance / 2) * length;
    mean += (weights[i] ?? 0) * total;
    square += (weights[i] ?? 0) * total * total * Math.exp(variance);
  });
  const each = mean / count;
  return { mean, variance: square - mean * mean + 1.3 * count * each * each * Math.expm1(s2) };
}

/** Level of ln(time) in load `j` (from 1), or the settled one, over all filters. Loops without closures: see takeLoad. */
function mixed(bank: FilterBank, j: number | null): Moments {
  const weights = shapeWeights(bank);
  const origin = bank.shapes[0]?.level ?? 0;
  let mean = 0;
  let square = 0;
  let inner = 0;
  for (let i = 0; i < bank.shapes.length; i += 1) {
    const shape = bank.shapes[i];
    if (shape === undefined) continue;
    const weight = weights[i] ?? 0;
    const share = j === null ? 0 : learningShare(shape.decayLoads, j);
    const off = shape.level + shape.excess * share - origin;
    mean += weight * off;
    square += weight * off ** 2;
    inner += weight * (shape.a + 2 * shape.b * share + shape.c * share * share);
  }
  return { mean: origin + mean, variance: inner + Math.max(0, square - mean * mean) };
}
