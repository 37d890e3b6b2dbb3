/**
 * What the finished operations of this job teach about the next: how much slower first loads are than settled ones and
 * whether they are slower at all, and how evenly this person works. The next operation starts from here.
 */
import { constants } from './constants.ts';
import { type BankStart, type FilterBank, noiseVariance, shapeWeights } from './load-filter.ts';

type ShapePool = {
  readonly decayLoads: number;
  readonly excessSum: number;
  readonly weight: number;
  readonly varianceSum: number;
  /** Operations that this shape has suited, as a weight against the other shapes. */
  readonly suited: number;
};

export type LearningPool = {
  readonly shapes: readonly ShapePool[];
  /** Sum of ln(noise variance) over operations, and their weight. */
  readonly lnNoiseSum: number;
  readonly noiseWeight: number;
};

/** The pool before any operation is finished. */
export function startLearningPool(): LearningPool {
  const shapes = constants.learning.map((shape) => ({
    decayLoads: shape.loads,
    excessSum: shape.excess * constants.learningWeight,
    weight: constants.learningWeight,
    varianceSum: shape.scatter ** 2 * constants.learningWeight,
    suited: shape.weight,
  }));
  const noiseWeight = constants.noisePoolWeight;
  return { shapes, lnNoiseSum: noiseWeight * Math.log(constants.noise ** 2), noiseWeight };
}

/** Noise variance of one load expected in an operation not begun. */
export function pooledNoise(pool: LearningPool): number {
  return Math.exp(pool.lnNoiseSum / pool.noiseWeight);
}

/** Shapes for an operation not begun: what is expected of each excess (log scale), and weights that sum to one. */
export function pooledShapes(pool: LearningPool): BankStart['shapes'] {
  const total = pool.shapes.reduce((sum, shape) => sum + shape.suited, 0);
  return pool.shapes.map((shape) => ({
    decayLoads: shape.decayLoads,
    excess: { mean: shape.excessSum / shape.weight, variance: shape.varianceSum / shape.weight },
    weight: shape.suited / total,
  }));
}

/** The pool after an operation is finished. */
export function poolOperation(pool: LearningPool, bank: FilterBank): LearningPool {
  const weights = shapeWeights(bank);
  const shapes = pool.shapes.map((shape, i) => {
    const filter = bank.shapes[i];
    const weight = weights[i] ?? 0;
    if (filter === undefined) return shape;
    const suited = shape.suited + 0.7 * weight;
    if (shape.decayLoads <= 0) return { ...shape, suited };
    const mean = shape.excessSum / shape.weight;
    const taken = weight * Math.max(0, Math.min(1, 1 - filter.c / (shape.varianceSum / shape.weight)));
    return {
      ...shape,
      excessSum: shape.excessSum + taken * filter.excess,
      weight: shape.weight + taken,
      varianceSum: shape.varianceSum + taken * (0.7 * (filter.excess - mean) ** 2 + filter.c),
      suited,
    };
  });
  const known = bank.noiseWeight - constants.noiseWeight;
  const weight = Math.max(0, known / (known + 4));
  return {
    shapes,
    lnNoiseSum: pool.lnNoiseSum + weight * Math.log(noiseVariance(bank)),
    noiseWeight: pool.noiseWeight + weight,
  };
}
