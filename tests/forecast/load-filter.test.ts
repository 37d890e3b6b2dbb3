import { describe, expect, it } from 'vitest';
import {
  type FilterBank,
  learningShare,
  learningShares,
  nextNoiseVariance,
  predictLoad,
  secondsAhead,
  startBank,
  takeLoad,
} from '../../src/forecast/load-filter.ts';

const start = {
  level: { mean: Math.log(60), variance: 0.2 },
  shapes: [
    { decayLoads: 0, excess: { mean: 0, variance: 0 }, weight: 1 },
    { decayLoads: 8, excess: { mean: 0.22, variance: 0.0625 }, weight: 1 },
  ],
  noise: 0.04,
  loadsInAll: 40,
};

const times = [95, 71, 83, 66, 79, 64, 61, 70, 58, 66, 60, 63];

/** Solves a x = b by elimination: small dense systems only. */
function solve(a: readonly (readonly number[])[], b: readonly number[]): number[] {
  const rows = a.map((row, i) => [...row, b[i] ?? 0]);
  const n = rows.length;
  for (let k = 0; k < n; k += 1) {
    const pivot = rows[k] as number[];
    for (let i = k + 1; i < n; i += 1) {
      const row = rows[i] as number[];
      const factor = (row[k] ?? 0) / (pivot[k] ?? 1);
      for (let j = k; j <= n; j += 1) row[j] = (row[j] ?? 0) - factor * (pivot[j] ?? 0);
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let i = n - 1; i >= 0; i -= 1) {
    const row = rows[i] as number[];
    let sum = row[n] ?? 0;
    for (let j = i + 1; j < n; j += 1) sum -= (row[j] ?? 0) * (x[j] ?? 0);
    x[i] = sum / (row[i] ?? 1);
  }
  return x;
}

/**
 * The posterior of (level, excess) after all loads in closed form: everything is jointly normal, so it is one linear
 * system over the loads, with none of the filter's steps.
 */
function closedForm(
  decayLoads: number,
  excess: { mean: number; variance: number },
  noises: readonly number[],
  q: number,
) {
  const g = times.map((_, i) => learningShare(decayLoads, i + 1));
  const n = times.length;
  const covariance = times.map((_, i) =>
    times.map((__, j) => {
      const level = start.level.variance + q * (Math.min(i, j) + 1);
      return level + excess.variance * (g[i] ?? 0) * (g[j] ?? 0) + (i === j ? (noises[i] ?? 0) : 0);
    }),
  );
  const off = times.map((time, i) => Math.log(time) - start.level.mean - excess.mean * (g[i] ?? 0));
  const weights = solve(covariance, off);
  const levelCovariance = times.map((_, j) => start.level.variance + q * (Math.min(n - 1, j) + 1));
  const excessCovariance = times.map((_, j) => excess.variance * (g[j] ?? 0));
  const dot = (a: readonly number[], b: readonly number[]): number => a.reduce((sum, x, i) => sum + x * (b[i] ?? 0), 0);
  return {
    level: start.level.mean + dot(levelCovariance, weights),
    excess: excess.mean + dot(excessCovariance, weights),
    a: start.level.variance + q * n - dot(levelCovariance, solve(covariance, levelCovariance)),
    b: -dot(levelCovariance, solve(covariance, excessCovariance)),
    c: excess.variance - dot(excessCovariance, solve(covariance, excessCovariance)),
  };
}

describe('the filter bank', () => {
  it('equals the closed-form posterior of the same normal model', () => {
    let bank: FilterBank = startBank(start);
    const noises: number[] = [];
    for (const time of times) {
      noises.push(nextNoiseVariance(bank));
      bank = takeLoad(bank, Math.log(time), 1);
    }
    bank.shapes.forEach((shape, i) => {
      const { decayLoads, excess } = start.shapes[i] ?? { decayLoads: 0, excess: { mean: 0, variance: 0 } };
      const exact = closedForm(decayLoads, excess, noises, bank.wanderPerLoad);
      expect(shape.level).toBeCloseTo(exact.level, 9);
      expect(shape.excess).toBeCloseTo(exact.excess, 9);
      expect(shape.a).toBeCloseTo(exact.a, 9);
      expect(shape.b).toBeCloseTo(exact.b, 9);
      expect(shape.c).toBeCloseTo(exact.c, 9);
    });
  });

  it('moves with the scale of time and not otherwise', () => {
    const scale = Math.log(7);
    let one = startBank(start);
    let other = startBank({ ...start, level: { ...start.level, mean: start.level.mean + scale } });
    for (const time of times) {
      one = takeLoad(one, Math.log(time), 1);
      other = takeLoad(other, Math.log(time) + scale, 1);
    }
    expect(predictLoad(other).mean - predictLoad(one).mean).toBeCloseTo(scale, 9);
    expect(predictLoad(other).variance).toBeCloseTo(predictLoad(one).variance, 9);
    expect(secondsAhead(other, 10).mean / secondsAhead(one, 10).mean).toBeCloseTo(7, 9);
  });

  it('a load that is hardly believed hardly moves it', () => {
    const bank = takeLoad(startBank(start), Math.log(60), 1);
    const before = predictLoad(bank).mean;
    expect(Math.abs(predictLoad(takeLoad(bank, Math.log(600), 0)).mean - before)).toBeLessThan(0.05);
    expect(predictLoad(takeLoad(bank, Math.log(90), 1)).mean - before).toBeGreaterThan(0.05);
  });

  it('sums the learning shares as adding them one by one does', () => {
    let sum = 0;
    for (let j = 4; j <= 9; j += 1) sum += learningShare(8, j);
    expect(learningShares(8, 3, 6)).toBeCloseTo(sum, 12);
    expect(learningShares(0, 3, 6)).toBe(0);
  });

  it('expects nothing of no loads', () => {
    expect(secondsAhead(startBank(start), 0)).toEqual({ mean: 0, variance: 0 });
  });
});
