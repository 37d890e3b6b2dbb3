import fc from 'fast-check';
import { binomialDistribution } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { formatRefusal, sureOf } from '../../src/shop/refusal.ts';
import { chanceOfEnough, startsFor } from '../../src/shop/spares.ts';

/** Exact chance as a fraction of whole numbers: scrap in thousandths. An independent sum over the binomial distribution. */
function exactChance(starts: number, good: number, thousandths: number): number {
  const [bad, fine, whole] = [BigInt(thousandths), BigInt(1000 - thousandths), 1000n ** BigInt(starts)];
  let ways = 1n;
  let enough = 0n;
  for (let scrap = 0; scrap <= starts - good; scrap += 1) {
    enough += ways * bad ** BigInt(scrap) * fine ** BigInt(starts - scrap);
    ways = (ways * BigInt(starts - scrap)) / BigInt(scrap + 1);
  }
  return Number((enough * 10n ** 15n) / whole) / 1e15;
}

describe('how many to start', () => {
  it('the worked batch: 60 good at 2 %, 90 % sure: start 63; 62 gives .872, 63 gives .962', () => {
    const starts = sureOf(startsFor(60, 0.02, 0.9));
    expect(starts).toMatchObject({ start: 63, spares: 3 });
    expect(starts.chance).toBeCloseTo(0.96245, 5);
    expect(starts.chanceOneFewer).toBeCloseTo(0.872, 3);
    expect(sureOf(chanceOfEnough(62, 60, 0.02))).toBeCloseTo(0.872, 3);
  });

  it('no scrap needs no spares', () => {
    expect(sureOf(startsFor(40, 0, 0.99))).toEqual({ start: 40, spares: 0, chance: 1, chanceOneFewer: 0 });
    expect(sureOf(chanceOfEnough(41, 40, 0))).toBe(1);
  });

  it('agrees with exact fractions', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 120 }),
        fc.integer({ min: 1, max: 400 }),
        fc.integer({ min: 0, max: 30 }),
        (good, thousandths, more) => {
          expect(sureOf(chanceOfEnough(good + more, good, thousandths / 1000))).toBeCloseTo(
            exactChance(good + more, good, thousandths),
            10,
          );
        },
      ),
    );
  });

  it('agrees with the binomial distribution of an independent library', () => {
    const table = binomialDistribution(50, 0.93) ?? [];
    const chance = table.slice(45).reduce((sum, value) => sum + value, 0);
    expect(sureOf(chanceOfEnough(50, 45, 0.07))).toBeCloseTo(chance, 6);
  });

  it('starts the fewest that reach the certainty, and never fewer for more scrap or more certainty', () => {
    const share = fc.double({ min: 0, max: 0.5, noNaN: true });
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 300 }),
        share,
        fc.double({ min: 0.05, max: 0.99, noNaN: true }),
        (good, scrap, sure) => {
          const one = sureOf(startsFor(good, scrap, sure));
          expect(one.chance).toBeGreaterThanOrEqual(sure);
          expect(one.chanceOneFewer).toBeLessThan(sure);
          expect(sureOf(startsFor(good, scrap + 0.05, sure)).start).toBeGreaterThanOrEqual(one.start);
          expect(sureOf(startsFor(good, scrap, sure + 0.005)).start).toBeGreaterThanOrEqual(one.start);
        },
      ),
    );
  });

  it('large batches do not underflow: 10,000 good at 50 % scrap', () => {
    const starts = sureOf(startsFor(10_000, 0.5, 0.9));
    // Normal approximation: mean 20,000, deviation sqrt(10,000 x .5) / .5 = 141; 1.28 deviations above it.
    expect(starts.start).toBeGreaterThan(20_100);
    expect(starts.start).toBeLessThan(20_260);
  });

  it('fewer starts than good pieces never give enough', () => {
    expect(sureOf(chanceOfEnough(5, 6, 0.1))).toBe(0);
  });

  it.each([
    [0, 0.1, 0.9, 'good pieces wanted 0'],
    [2.5, 0.1, 0.9, 'a whole number'],
    [Number.NaN, 0.1, 0.9, 'good pieces wanted NaN'],
    [10, -0.1, 0.9, 'scrap rate -10 %: allowed is from 0 %, at most 90 %'],
    [10, 0.95, 0.9, 'scrap rate 95 %'],
    [10, 0.1, 0, 'wanted certainty 0'],
    [10, 0.1, 1, 'wanted certainty 1'],
    [10, 0.1, Number.NaN, 'wanted certainty NaN'],
  ])('%s good, %s scrap, %s sure is refused', (good, scrap, sure, words) => {
    const result = startsFor(good, scrap, sure);
    expect(result.ok ? 'answered' : formatRefusal(result.problem)).toContain(words);
  });

  it('half a start is refused', () => {
    expect(chanceOfEnough(5.5, 5, 0.1).ok).toBe(false);
    expect(chanceOfEnough(5, 5, 1).ok).toBe(false);
  });
});
