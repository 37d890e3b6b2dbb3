import { readFileSync } from 'node:fs';
import stdlibT from '@stdlib/stats-base-dists-t-quantile';
import fc from 'fast-check';
import * as simple from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import {
  mean,
  median,
  normalQuantile,
  predictionInterval,
  quantile,
  standardDeviation,
  tQuantile,
} from '../../src/forecast/statistics.ts';

// Sources stand inside the file: NIST StRD, R qt() and qnorm(), Devore examples 7.12 and 7.13.
const reference = JSON.parse(readFileSync(new URL('./fixtures/statistics.json', import.meta.url), 'utf8')) as {
  nist_strd: { name: string; certified_mean: number; certified_stdev_n_minus_1: number; data: number[] }[];
  t_quantiles: { rows: { df: number; t_0_90: number; t_0_95: number; t_0_975: number; t_0_995: number }[] };
  normal_quantiles: { z_0_90: number; z_0_95: number; z_0_975: number; z_0_995: number };
  prediction_interval_one_future: { data: number[]; pi95_low: number; pi95_high: number };
  prediction_interval_total_of_m_future: {
    example: { piece_times_s: number[]; m_remaining: number; total_low_s: number; total_high_s: number };
  };
};

describe('the statistics', () => {
  it.each(reference.nist_strd)('reach the certified mean and deviation of NIST $name', (set) => {
    expect(mean(set.data)).toBeCloseTo(set.certified_mean, 9);
    const deviation = standardDeviation(set.data) ?? 0;
    expect(Math.abs(deviation / set.certified_stdev_n_minus_1 - 1)).toBeLessThan(1e-11);
  });

  it.each(reference.t_quantiles.rows)('give the t quantiles of R for $df degrees', (row) => {
    expect(tQuantile(0.9, row.df)).toBeCloseTo(row.t_0_90, 5);
    expect(tQuantile(0.95, row.df)).toBeCloseTo(row.t_0_95, 5);
    expect(tQuantile(0.975, row.df)).toBeCloseTo(row.t_0_975, 5);
    expect(tQuantile(0.995, row.df)).toBeCloseTo(row.t_0_995, 5);
  });

  it('give t quantiles that agree with an independent library', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 0.999, noNaN: true }),
        fc.double({ min: 0.5, max: 400, noNaN: true }),
        (p, df) => {
          const other = stdlibT(p, df);
          expect(Math.abs((tQuantile(p, df) ?? 0) - other)).toBeLessThan(1e-6 * Math.max(1, Math.abs(other)));
        },
      ),
      { numRuns: 200, seed: 5 },
    );
  });

  it('give the normal quantiles of R', () => {
    const { z_0_90, z_0_95, z_0_975, z_0_995 } = reference.normal_quantiles;
    expect(normalQuantile(0.9)).toBeCloseTo(z_0_90, 5);
    expect(normalQuantile(0.95)).toBeCloseTo(z_0_95, 5);
    expect(normalQuantile(0.975)).toBeCloseTo(z_0_975, 5);
    expect(normalQuantile(0.995)).toBeCloseTo(z_0_995, 4);
    expect(normalQuantile(0.5)).toBeCloseTo(0, 6);
  });

  it('give the published prediction interval (Devore, fat in hot dogs)', () => {
    const { data, pi95_low, pi95_high } = reference.prediction_interval_one_future;
    const interval = predictionInterval(data, 0.95);
    expect(interval?.low).toBeCloseTo(pi95_low, 5);
    expect(interval?.high).toBeCloseTo(pi95_high, 5);
  });

  it('give the interval of a total of twelve future pieces', () => {
    const { piece_times_s, m_remaining, total_low_s, total_high_s } =
      reference.prediction_interval_total_of_m_future.example;
    const interval = predictionInterval(piece_times_s, 0.95, m_remaining);
    expect((interval?.low ?? 0) * m_remaining).toBeCloseTo(total_low_s, 2);
    expect((interval?.high ?? 0) * m_remaining).toBeCloseTo(total_high_s, 2);
  });

  it('agree with an independent library on any list', () => {
    const list = fc.array(fc.double({ min: 0.1, max: 1e5, noNaN: true }), { minLength: 2, maxLength: 60 });
    fc.assert(
      fc.property(list, (values) => {
        expect(mean(values)).toBeCloseTo(simple.mean(values), 6);
        expect(standardDeviation(values)).toBeCloseTo(simple.sampleStandardDeviation(values), 6);
        expect(median(values)).toBeCloseTo(simple.median(values), 9);
      }),
      { numRuns: 200, seed: 7 },
    );
  });

  it('interpolate quantiles between neighbours', () => {
    expect(quantile([1, 2, 3, 4], 0.5)).toBe(2.5);
    expect(quantile([4, 1, 3, 2], 0.1)).toBeCloseTo(1.3, 12);
    expect(quantile([7], 0.9)).toBe(7);
  });

  it('answer null where there is nothing to say', () => {
    expect(mean([])).toBeNull();
    expect(median([])).toBeNull();
    expect(standardDeviation([5])).toBeNull();
    expect(predictionInterval([5], 0.95)).toBeNull();
    expect(tQuantile(1, 5)).toBeNull();
    expect(tQuantile(0.5, 0)).toBeNull();
    expect(normalQuantile(0)).toBeNull();
  });
});
