import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asMm } from '../../src/shop/quantities.ts';
import { sureOf } from '../../src/shop/refusal.ts';
import { bowOfLength } from '../../src/shop/strip-bow.ts';

describe('the bow of a strip released from drawn bar', () => {
  // Common practice, no published source: some millimetres in 300 mm. Cut to 60 mm first, it is within a usual allowance.
  it.each([
    [1, 0.04],
    [3, 0.12],
    [5, 0.2],
  ])('%f mm in 300 mm is %f mm in a piece of 60 mm: cut to length before milling', (bow, left) => {
    expect(sureOf(bowOfLength(asMm(bow), asMm(300), asMm(60)))).toBeCloseTo(left, 9);
  });

  it('agrees with the exact arc to a thousandth of the length', () => {
    // Sagitta of a chord: r - sqrt(r^2 - (l/2)^2).
    const sagitta = (radius: number, chord: number) => radius - Math.sqrt(radius ** 2 - (chord / 2) ** 2);
    fc.assert(
      fc.property(
        fc.double({ min: 2000, max: 50_000, noNaN: true }),
        fc.double({ min: 1, max: 300, noNaN: true }),
        (radius, length) => {
          const found = sureOf(bowOfLength(asMm(sagitta(radius, 300)), asMm(300), asMm(length)));
          expect(Math.abs(found - sagitta(radius, length))).toBeLessThan(length / 1000);
        },
      ),
    );
  });

  it('the whole length bows as measured, a shorter one less', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 20, noNaN: true }),
        fc.double({ min: 1, max: 299, noNaN: true }),
        (bow, length) => {
          expect(sureOf(bowOfLength(asMm(bow), asMm(300), asMm(300)))).toBeCloseTo(bow, 9);
          expect(sureOf(bowOfLength(asMm(bow), asMm(300), asMm(length)))).toBeLessThan(bow);
        },
      ),
    );
  });

  it.each([
    [-1, 300, 60],
    [40, 300, 60],
    [3, 0, 60],
    [3, 300, 0],
    [3, 300, 301],
    [Number.NaN, 300, 60],
    [3, Number.POSITIVE_INFINITY, 60],
    [3, 300, Number.NaN],
  ])('%f mm over %f mm, a piece of %f mm, is refused', (bow, over, length) => {
    expect(bowOfLength(asMm(bow), asMm(over), asMm(length)).ok).toBe(false);
  });
});
