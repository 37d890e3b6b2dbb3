/**
 * What the finished operations of this job teach about learning: how much slower first loads are than settled ones, and
 * whether they are slower at all. The next operation starts from here.
 */
import { constants } from './constants.ts';
import type { Moments } from './distributions.ts';
import { type FilterBank, shapeWeights } from './load-filter.ts';

export type LearningPool = {
  readonly excessSum: number;
  readonly weight: number;
  readonly varianceSum: number;
  /** Weights of the shapes without and with learning. */
  readonly shapes: readonly [number, number];
};

/** The pool before any operation is finished. */
export function startLearningPool(): LearningPool {
  return {
    excessSum: constants.learningExcess * constants.learningWeight,
    weight: constants.learningWeight,
    varianceSum: constants.learningScatter ** 2 * constants.learningWeight,
    shapes: [1, 1],
  };
}

/** Learning excess expected of an operation not begun: mean and variance on the log scale. */
export function pooledExcess(pool: LearningPool): Moments {
  return { mean: pool.excessSum / pool.weight, variance: pool.varianceSum / pool.weight };
}

/** The pool after an operation is finished. */
export function poolOperation(pool: LearningPool, bank: FilterBank): LearningPool {
  const [plain, learning] = shapeWeights(bank);
  const { excess, c } = bank.shapes[1];
  const prior = pooledExcess(pool);
  const taken = learning * Math.max(0, Math.min(1, 1 - c / prior.variance));
  return {
    excessSum: pool.excessSum + taken * excess,
    weight: pool.weight + taken,
    varianceSum: pool.varianceSum + taken * (0.7 * (excess - prior.mean) ** 2 + c),
    shapes: [pool.shapes[0] + 0.7 * plain, pool.shapes[1] + 0.7 * learning],
  };
}
