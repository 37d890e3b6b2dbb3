/**
 * What the finished operations of this job teach about learning: how much slower first loads are than settled ones, and
 * whether they are slower at all. The next operation starts from here.
 */
import { constants } from './constants.ts';
import { type BankStart, type FilterBank, shapeWeights } from './load-filter.ts';

type ShapePool = {
  readonly decayLoads: number;
  readonly excessSum: number;
  readonly weight: number;
  readonly varianceSum: number;
  /** Operations that this shape has suited, as a weight against the other shapes. */
  readonly suited: number;
};

export type LearningPool = readonly ShapePool[];

/** The pool before any operation is finished. */
export function startLearningPool(): LearningPool {
  return constants.learning.map((shape) => ({
    decayLoads: shape.loads,
    excessSum: shape.excess * constants.learningWeight,
    weight: constants.learningWeight,
    varianceSum: shape.scatter ** 2 * constants.learningWeight,
    suited: shape.weight,
  }));
}

/** Shapes for an operation not begun: what is expected of each excess (log scale), and weights that sum to one. */
export function pooledShapes(pool: LearningPool): BankStart['shapes'] {
  const total = pool.reduce((sum, shape) => sum + shape.suited, 0);
  return pool.map((shape) => ({
    decayLoads: shape.decayLoads,
    excess: { mean: shape.excessSum / shape.weight, variance: shape.varianceSum / shape.weight },
    weight: shape.suited / total,
  }));
}

/** The pool after an operation is finished. */
export function poolOperation(pool: LearningPool, bank: FilterBank): LearningPool {
  const weights = shapeWeights(bank);
  return pool.map((shape, i) => {
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
}
