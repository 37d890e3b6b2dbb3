import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { probableHole } from '../../src/shop/drilled-size.ts';
import { asMm } from '../../src/shop/quantities.ts';
import { sureOf } from '../../src/shop/refusal.ts';
import { allThreads } from '../../src/shop/thread-list.ts';
import { inchesToMm, mmToInches } from '../../src/shop/units.ts';

describe('the hole that a drill probably makes', () => {
  // Common practice, a tapping-drill chart.
  it.each([
    [0.0469, 0.0484],
    [0.089, 0.091],
    [0.136, 0.1389],
    [0.201, 0.2048],
    [0.3125, 0.3169],
    [0.4219, 0.4266],
  ])('a drill of %f in cuts %f in', (drill, hole) => {
    expect(mmToInches(sureOf(probableHole(inchesToMm(drill))))).toBeCloseTo(hole, 9);
  });

  it('is larger than the drill, by more the larger the drill, level above the last row', () => {
    const size = fc.double({ min: 0.3, max: 200, noNaN: true });
    fc.assert(
      fc.property(size, size, (a, b) => {
        const over = (drill: number) => sureOf(probableHole(asMm(drill))) - drill;
        expect(over(a)).toBeGreaterThan(0);
        expect(over(Math.max(a, b))).toBeGreaterThanOrEqual(over(Math.min(a, b)) - 1e-9);
      }),
    );
    expect(sureOf(probableHole(asMm(40))) - 40).toBeCloseTo(0.0047 * 25.4, 9);
  });

  it('still lies within the 6H limits for the standard drill of every coarse metric thread from M2', () => {
    const coarse = allThreads().filter(({ series, major }) => series === 'metric coarse' && major >= 2);
    const outside = coarse.filter(({ tapDrill, limits }) => sureOf(probableHole(tapDrill.diameter)) > limits.max);
    expect(coarse.length).toBeGreaterThan(10);
    expect(outside.map(({ name }) => name)).toEqual([]);
  });

  it.each([0, -1, 400, Number.NaN])('%f mm is refused', (drill) => expect(probableHole(asMm(drill)).ok).toBe(false));
});
