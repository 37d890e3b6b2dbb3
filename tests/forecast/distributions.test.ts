import { describe, expect, it } from 'vitest';
import {
  countPoints,
  lnMoments,
  lnNormalTail,
  mixtureQuantile,
  normalCdf,
  restOfLogNormal,
} from '../../src/forecast/distributions.ts';
import { startAccounts } from '../../src/forecast/load-shares.ts';
import { chanceWithin, quantilesOf, withMishaps } from '../../src/forecast/projection.ts';
import { type Random, seededRandom } from '../bench/random.ts';

describe('the normal distribution', () => {
  it('reaches the tabled values (R pnorm)', () => {
    expect(normalCdf(1.2815515655)).toBeCloseTo(0.9, 6);
    expect(normalCdf(-1.9599639845)).toBeCloseTo(0.025, 6);
    expect(normalCdf(0)).toBeCloseTo(0.5, 7);
  });

  it('keeps its tail far out, where the plain function has none left', () => {
    // R pnorm(-10, log.p = TRUE) and pnorm(-2, log.p = TRUE).
    expect(lnNormalTail(10)).toBeCloseTo(-53.23128515, 6);
    expect(lnNormalTail(2)).toBeCloseTo(-3.78318433, 7);
    expect(lnNormalTail(0)).toBeCloseTo(Math.log(0.5), 12);
    expect(lnNormalTail(-9)).toBeCloseTo(0, 12);
  });
});

describe('the log-normal', () => {
  it('matches a mean and a variance', () => {
    const ln = lnMoments({ mean: 100, variance: 400 });
    expect(Math.exp(ln.mean + ln.variance / 2)).toBeCloseTo(100, 9);
    expect(100 ** 2 * Math.expm1(ln.variance)).toBeCloseTo(400, 6);
  });

  it('tells what is left of a running time as drawn times do', () => {
    const random = seededRandom(11);
    const ln = { mean: Math.log(300), variance: 0.09 };
    const rests: number[] = [];
    for (let i = 0; i < 200_000; i += 1) {
      const time = Math.exp(ln.mean + 0.3 * random.normal());
      if (time > 350) rests.push(time - 350);
    }
    const mean = rests.reduce((sum, rest) => sum + rest, 0) / rests.length;
    expect(restOfLogNormal(ln, 350).mean / mean).toBeCloseTo(1, 1);
    expect(Math.abs(restOfLogNormal(ln, 350).mean / mean - 1)).toBeLessThan(0.02);
  });
});

describe('the count of mishaps', () => {
  it.each([
    [0.4, 1, 1],
    [0.5, 200, 40],
    [2.5, 3, 1],
    [8, 30, 6],
    [3, 9000, 10],
  ])('keeps mean and variance of the negative binomial: seen %d, ahead %d over %d', (shape, ahead, over) => {
    const points = countPoints(shape, ahead, over);
    const mean = points.reduce((sum, point) => sum + point.weight * point.count, 0);
    const variance = points.reduce(
      (sum, point) => sum + point.weight * (point.variance + (point.count - mean) ** 2),
      0,
    );
    const exact = (shape * ahead) / over;
    expect(points.length).toBeLessThanOrEqual(9);
    expect(Math.abs(variance / (exact * (1 + ahead / over)) - 1)).toBeLessThan(0.12);
    expect(points.reduce((sum, point) => sum + point.weight, 0)).toBeCloseTo(1, 9);
    expect(points.every((point) => point.count >= 0 && point.weight >= 0)).toBe(true);
    expect(Math.abs(mean / exact - 1)).toBeLessThan(0.02);
  });

  it('says nothing happens with the probability of the closed form', () => {
    expect(countPoints(0.4, 1, 1)[0]?.weight).toBeCloseTo(2 ** -0.4, 2);
    expect(countPoints(0.4, 0, 1)).toEqual([{ count: 0, variance: 0, weight: 1 }]);
  });
});

/** A drawn time: log-normal work, and as many hiccups and interruptions as a drawn rate gives. */
function drawTime(random: Random, body: { mean: number; variance: number }, loads: number, load_s: number): number {
  const accounts = startAccounts();
  const drawn = (mean: number, variance: number): number => {
    const ln = lnMoments({ mean, variance });
    return Math.exp(ln.mean + Math.sqrt(ln.variance) * random.normal());
  };
  let time = drawn(body.mean, body.variance);
  const hiccup_s = (accounts.hiccupSizeSum / accounts.hiccupSizeWeight) * load_s;
  const away_s = accounts.interruptionSizeSum_s / accounts.interruptionSizeWeight;
  const hiccups = random.poisson((random.gamma(accounts.hiccups) * loads) / accounts.hiccupLoads);
  const aways = random.poisson((random.gamma(accounts.interruptions) * body.mean) / 3600 / accounts.interruptionHours);
  for (let i = 0; i < hiccups; i += 1) time += drawn(hiccup_s, (0.6 * hiccup_s) ** 2);
  for (let i = 0; i < aways; i += 1) time += drawn(away_s, (0.75 * away_s) ** 2);
  return time;
}

describe('the quantiles of the mixture', () => {
  it.each([
    ['a short job', { mean: 2400, variance: 600 ** 2 }, 20, 60],
    ['a long job', { mean: 40_000, variance: 5000 ** 2 }, 400, 100],
    ['one load', { mean: 300, variance: 60 ** 2 }, 1, 300],
  ] as const)('agree with a million draws: %s', (_, body, loads, load_s) => {
    const random = seededRandom(loads);
    const draws = Float64Array.from({ length: 1_000_000 }, () => drawTime(random, body, loads, load_s)).sort();
    const said = quantilesOf(withMishaps(startAccounts(), body, loads, load_s));
    // The far end of a short job is carried by a few long interruptions: two per cent there, one elsewhere.
    expect(Math.abs(said.p10 / (draws[100_000] ?? 0) - 1)).toBeLessThan(0.012);
    expect(Math.abs(said.p50 / (draws[500_000] ?? 0) - 1)).toBeLessThan(0.012);
    expect(Math.abs(said.p90 / (draws[900_000] ?? 0) - 1)).toBeLessThan(0.02);
  });

  it('are where the mixture says so', () => {
    const parts = withMishaps(startAccounts(), { mean: 5000, variance: 1e6 }, 50, 90);
    expect(chanceWithin(parts, mixtureQuantile(parts, 0.9))).toBeCloseTo(0.9, 5);
    expect(mixtureQuantile([{ weight: 1, mu: 0, sigma: 1 }], 0.5)).toBeCloseTo(1, 6);
  });
});
