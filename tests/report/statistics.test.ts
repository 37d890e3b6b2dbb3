import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import fc from 'fast-check';
import { linearRegression, linearRegressionLine, standardDeviation as populationDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { capabilityOf, trendOf } from '../../src/report/statistics.ts';

const someValues = (least: number) =>
  fc
    .array(fc.integer({ min: -100_000, max: 100_000 }), { minLength: least, maxLength: 60 })
    .map((all) => all.map((v) => v / 100));

describe('the trend of values in order', () => {
  it('has the slope of an independent least-squares line', () => {
    fc.assert(
      fc.property(someValues(3), (values) => {
        const line = linearRegression(values.map((value, index) => [index + 1, value]));
        expect(trendOf(values)?.slope).toBeCloseTo(line.m, 7);
      }),
    );
  });

  it('has the interval t s / sqrt(Sxx) worked out from an independent line and t quantile', () => {
    fc.assert(
      fc.property(someValues(4), (values) => {
        const line = linearRegression(values.map((value, index) => [index + 1, value]));
        const at = linearRegressionLine(line);
        const rest = values.reduce((sum, value, index) => sum + (value - at(index + 1)) ** 2, 0);
        const middle = (values.length + 1) / 2;
        const spread = values.reduce((sum, _, index) => sum + (index + 1 - middle) ** 2, 0);
        const reach = tQuantile(0.975, values.length - 2) * Math.sqrt(rest / (values.length - 2) / spread);
        const trend = trendOf(values)!;
        expect(trend.high - trend.slope).toBeCloseTo(reach, 5);
        expect(trend.slope - trend.low).toBeCloseTo(reach, 5);
      }),
      { numRuns: 40 },
    );
  });

  it('is not given for fewer than three values', () => {
    expect(trendOf([])).toBeNull();
    expect(trendOf([1])).toBeNull();
    expect(trendOf([1, 2])).toBeNull();
  });

  it('of values on a line leaves no doubt', () => {
    const trend = trendOf([10, 8, 6, 4])!;
    expect(trend.slope).toBeCloseTo(-2, 12);
    expect(trend.high - trend.low).toBeCloseTo(0, 9);
  });
});

/** So many values of exactly this mean and sample deviation: pairs about the mean, an odd one on it. */
function valuesWith(count: number, mean: number, deviation: number): number[] {
  const pairs = Math.floor(count / 2);
  const half = deviation * Math.sqrt((count - 1) / (2 * pairs));
  const values = Array.from({ length: pairs }, () => [mean - half, mean + half]).flat();
  return count % 2 === 1 ? [...values, mean] : values;
}

describe('capability', () => {
  it('of mean 16 and deviation 2 in 8 to 20 is C_p 1.0 and C_pk 0.6667 (NIST/SEMATECH e-Handbook 6.1.6, its example)', () => {
    const found = capabilityOf(valuesWith(50, 16, 2), 8, 20)!;
    expect(found.spreadIndex).toBeCloseTo(1, 9);
    expect(found.index).toBeCloseTo(0.6667, 4);
  });

  it('of 45 values with C_pk 1.15 lies between 0.89 and 1.41 (Quality Digest, May 2000, its example)', () => {
    const found = capabilityOf(valuesWith(45, 0, 1), -3.45, 3.45)!;
    expect(found.index).toBeCloseTo(1.15, 9);
    expect(found.low).toBeCloseTo(0.89, 2);
    expect(found.high).toBeCloseTo(1.41, 2);
  });

  it('agrees with deviations of an independent library', () => {
    fc.assert(
      fc.property(someValues(3), (values) => {
        const found = capabilityOf(values, -2000, 2000);
        if (found === null) return;
        const sample = populationDeviation(values) * Math.sqrt(values.length / (values.length - 1));
        expect(found.spreadIndex).toBeCloseTo(4000 / (6 * sample), 6);
        expect(found.low).toBeLessThan(found.index);
        expect(found.high).toBeGreaterThan(found.index);
      }),
    );
  });

  it('is not given without scatter, for one value, or for limits out of order', () => {
    expect(capabilityOf([5, 5, 5], 4, 6)).toBeNull();
    expect(capabilityOf([5], 4, 6)).toBeNull();
    expect(capabilityOf([5, 6], 6, 4)).toBeNull();
  });
});
