/**
 * The planner's factor: how far the plan's times are from the truth, learned from the operations that have been timed.
 *
 * Each timed operation gives a reading of ln(true/plan). The factor b common to all operations and the scatter from one
 * operation to the next are judged together, over five classes of planner quality: a planner whose first operations all
 * came out 30 % over is corrected with confidence, one who was far under and far over is not trusted either way.
 */
import { constants } from './constants.ts';
import type { Moments } from './distributions.ts';

/** A reading of ln(true/plan) of one operation or setup, and the variance with which it is known. */
export type Reading = {
  readonly value: number;
  readonly variance: number;
  /** How far the estimate lay from the job's mean estimate, on the log scale. */
  readonly deviation: number;
};

/** A reading of one setup, and the share of it that was setting up rather than an interruption. */
export type SetupReading = { readonly value: number; readonly share: number };

export type PlannerFactor = {
  /** ln of the common factor and the variance with which it is known. */
  readonly mean: number;
  readonly variance: number;
  /** Variance of one operation around the common factor. */
  readonly scatter: number;
  /** Part of an estimate's deviation from the job's mean that is not believed. */
  readonly pull: number;
};

/** What is believed of the planner before the first reading: the mean of ln(true/plan). */
export type PlannerPrior = { readonly cycle: number; readonly setup: number };

/**
 * The factor after the given readings. Without any it is the prior: mean as given, variance 0.116, scatter 0.081.
 */
export function plannerFactor(readings: readonly Reading[], prior: PlannerPrior): PlannerFactor {
  const classes = plannerClasses.map(({ scatter, weight }) => judgeClass(readings, prior, scatter, weight));
  const best = Math.max(...classes.map((entry) => entry.score));
  const weights = classes.map((entry) => Math.exp(entry.score - best));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const average = (of: (entry: (typeof classes)[number]) => number): number =>
    classes.reduce((sum, entry, i) => sum + ((weights[i] ?? 0) / total) * of(entry), 0);
  const mean = average((entry) => entry.mean);
  const variance = average((entry) => entry.variance + (entry.mean - mean) ** 2);
  const scatter = average((entry) => entry.own);
  // Wider than this a band says nothing more, and sums of log-normals lose their order.
  const held = Math.min(1, constants.widestVariance / (variance + scatter));
  return { mean, variance: variance * held, scatter: scatter * held, pull: average((entry) => entry.pull) };
}

const plannerClasses = [
  ...constants.plannerScatter.map((scatter, i) => ({ scatter, weight: constants.plannerWeight[i] ?? 0 })),
  { scatter: constants.wildScatter, weight: constants.wildWeight },
];

type JudgedClass = {
  readonly mean: number;
  readonly variance: number;
  readonly own: number;
  readonly pull: number;
  /** Log of the class's weight after the readings. */
  readonly score: number;
};

/** What one class of planner makes of the readings. A reading far off is taken for a slip of the pen and moves little. */
function judgeClass(readings: readonly Reading[], prior: PlannerPrior, scatter: number, weight: number): JudgedClass {
  const own = scatter * scatter;
  const pull = pullOf(own);
  const { grossError } = constants;
  let mean = prior.cycle;
  let variance = own * constants.commonScatterRatio ** 2;
  let score = Math.log(weight);
  for (const reading of readings) {
    const spread = variance + own + reading.variance;
    const error = reading.value + pull * reading.deviation - mean;
    const usual = (1 - grossError.share) * density(error, spread);
    const gross = grossError.share * density(error, spread + grossError.scatter ** 2);
    score += Math.log(usual + gross + 1e-300);
    const share = usual / (usual + gross + 1e-300);
    const believed = variance + (spread - variance) / Math.max(share, 1e-3);
    mean += (variance * error) / believed;
    variance -= (variance * variance) / believed;
  }
  return { mean, variance, own, pull, score };
}

function density(error: number, variance: number): number {
  return Math.exp((-error * error) / (2 * variance)) / Math.sqrt(variance);
}

/**
 * Estimates that scatter also spread too far: of an estimate far from the job's mean, part is the planner's error. The
 * regression of truth on estimate gives the part; it is taken by 70 %, because not every planner errs that way.
 */
function pullOf(scatter: number): number {
  const { trueSpread, part } = constants.estimatePull;
  return (part * scatter) / (scatter + trueSpread ** 2);
}

/** The factor of the setups: mean and variance of ln(true/plan), tied in part to the factor of the cycles. */
export function setupFactor(readings: readonly SetupReading[], cycle: PlannerFactor, prior: PlannerPrior): Moments {
  const { commonScatter, ownScatter, tie } = constants.setup;
  let mean = prior.setup + tie * (cycle.mean - prior.cycle);
  let variance = commonScatter ** 2;
  for (const reading of readings) {
    const spread = variance + ownScatter ** 2 / Math.max(0.05, reading.share);
    mean += (variance * (reading.value - mean)) / spread;
    variance -= (variance * variance) / spread;
  }
  return { mean, variance };
}

/** Reading of one setup, clipped so that one stray setup cannot run away with the factor. */
export function setupReading(took_s: number, estimate_s: number): number {
  return Math.max(-1.2, Math.min(1, Math.log(Math.max(took_s, 1) / estimate_s)));
}
