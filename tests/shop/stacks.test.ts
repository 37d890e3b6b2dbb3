import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asMm } from '../../src/shop/quantities.ts';
import { formatRefusal, sureOf } from '../../src/shop/refusal.ts';
import { chainAgainstAbsolute, type Link, stackOf } from '../../src/shop/stacks.ts';
import { linearTolerance } from '../../src/shop/tolerances.ts';

const link = (nominal: number, plus: number, minus = plus): Link => ({
  nominal: asMm(nominal),
  plus: asMm(plus),
  minus: asMm(minus),
});

describe('tolerance stacks', () => {
  it('five holes at 20 mm, each spacing ISO 2768-m: the chain drifts 0.8, the absolute dimension holds 0.3', () => {
    const each = sureOf(linearTolerance(asMm(20), 'medium')).plusMinus;
    const whole = sureOf(linearTolerance(asMm(80), 'medium')).plusMinus;
    const spacings = Array.from({ length: 4 }, () => link(20, each));
    const both = sureOf(chainAgainstAbsolute(spacings, { plus: whole, minus: whole }));
    expect(both.chain.nominal).toBe(80);
    expect(both.chain.worstCase.plusMinus).toBeCloseTo(0.8, 9);
    expect(both.chain.rootSumSquare.plusMinus).toBeCloseTo(0.4, 9);
    expect(both.absolute.plusMinus).toBeCloseTo(0.3, 9);
    expect(both.ratio).toBeCloseTo(8 / 3, 9);
  });

  it('a link that goes back changes its plus and minus over', () => {
    // 50 +0.1/-0.2 less 20 +0.3/-0: 30, from 30 - 0.2 - 0.3 to 30 + 0.1 + 0.
    const { nominal, worstCase, rootSumSquare } = sureOf(stackOf([link(50, 0.1, 0.2), link(-20, 0.3, 0)]));
    expect(nominal).toBe(30);
    expect(worstCase.lowest).toBeCloseTo(29.5, 9);
    expect(worstCase.highest).toBeCloseTo(30.1, 9);
    // Middles 49.95 and 20.15, halves 0.15 and 0.15.
    expect(rootSumSquare.lowest).toBeCloseTo(29.8 - Math.hypot(0.15, 0.15), 9);
    expect(rootSumSquare.highest).toBeCloseTo(29.8 + Math.hypot(0.15, 0.15), 9);
  });

  it('root-sum-square lies inside the worst case, and a further link never narrows either', () => {
    const tolerance = fc.double({ min: 0, max: 1, noNaN: true });
    const links = fc.array(
      fc.record({ nominal: fc.double({ min: -100, max: 100, noNaN: true }), plus: tolerance, minus: tolerance }),
      { minLength: 1, maxLength: 8 },
    );
    fc.assert(
      fc.property(links, tolerance, (raw, more) => {
        const chain = raw.map((one) => link(one.nominal, one.plus, one.minus));
        const one = sureOf(stackOf(chain));
        const longer = sureOf(stackOf([...chain, link(10, more)]));
        expect(one.rootSumSquare.lowest).toBeGreaterThanOrEqual(one.worstCase.lowest - 1e-9);
        expect(one.rootSumSquare.highest).toBeLessThanOrEqual(one.worstCase.highest + 1e-9);
        expect(longer.worstCase.plusMinus).toBeGreaterThanOrEqual(one.worstCase.plusMinus - 1e-9);
        expect(longer.rootSumSquare.plusMinus).toBeGreaterThanOrEqual(one.rootSumSquare.plusMinus - 1e-9);
      }),
    );
  });

  it.each([
    ['no link', []],
    ['a nominal that is no number', [link(Number.NaN, 0.1)]],
    ['a negative tolerance', [link(10, -0.1, 0.1)]],
    ['an absurd tolerance', [link(10, 0.1, 5000)]],
  ])('%s is refused', (_name, links) => {
    expect(stackOf(links).ok).toBe(false);
    expect(chainAgainstAbsolute(links, { plus: asMm(0.1), minus: asMm(0.1) }).ok).toBe(false);
  });

  it('an absolute dimension without tolerance is refused, by name', () => {
    const result = chainAgainstAbsolute([link(10, 0.1)], { plus: asMm(0), minus: asMm(0) });
    expect(result.ok ? '' : formatRefusal(result.problem)).toContain('absolute tolerance 0 mm');
  });
});
