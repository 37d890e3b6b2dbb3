import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asMm } from '../../src/shop/quantities.ts';
import { formatRefusal, sureOf } from '../../src/shop/refusal.ts';
import { inchesToMm, mmToInches } from '../../src/shop/units.ts';
import { type ZeroMethod, zeroSetting } from '../../src/shop/zero.ts';

const set = (method: ZeroMethod): number => sureOf(zeroSetting(method)).set;

describe('zero of a setup', () => {
  it('the half tip takes the sign of the side on which the finder stands', () => {
    const finder = { kind: 'edge-finder', edgeAt: asMm(0), tip: asMm(10) } as const;
    expect(set({ ...finder, side: 'minus' })).toBe(-5);
    expect(set({ ...finder, side: 'plus' })).toBe(5);
  });

  it('a tip of .200 in left of the edge: from there to a hole .500 in from the edge it is .600 in (half tip + distance)', () => {
    const touch = set({ kind: 'edge-finder', edgeAt: asMm(0), tip: inchesToMm(0.2), side: 'minus' });
    expect(mmToInches(asMm(inchesToMm(0.5) - touch))).toBeCloseTo(0.6, 9);
  });

  it('writes the sum out, face first, and the way the tool moves to touch', () => {
    expect(
      sureOf(zeroSetting({ kind: 'block', edgeAt: asMm(100), block: asMm(20), pin: asMm(6), side: 'minus' })),
    ).toEqual({
      set: 77,
      terms: [
        { what: 'edge', amount: 100 },
        { what: 'block', amount: -20 },
        { what: 'half pin', amount: -3 },
      ],
      touchMoves: 'plus',
    });
    expect(sureOf(zeroSetting({ kind: 'pin', edgeAt: asMm(0), pin: asMm(6), side: 'plus' }))).toMatchObject({
      set: 3,
      touchMoves: 'minus',
    });
  });

  it('a bore or a scribed line sets its own place and is touched from no side', () => {
    expect(sureOf(zeroSetting({ kind: 'indicator', centreAt: asMm(12.5) }))).toMatchObject({
      set: 12.5,
      touchMoves: 'none',
    });
    expect(sureOf(zeroSetting({ kind: 'line', lineAt: asMm(-8) }))).toMatchObject({ set: -8, touchMoves: 'none' });
  });

  it('a tool on a feeler stands a feeler above the surface', () => {
    expect(sureOf(zeroSetting({ kind: 'feeler', surfaceAt: asMm(0), feeler: asMm(0.05) }))).toMatchObject({
      set: 0.05,
      touchMoves: 'minus',
    });
  });

  it('the terms add up to the value, and the other side mirrors it about the edge', () => {
    const length = fc.double({ min: -300, max: 300, noNaN: true });
    fc.assert(
      fc.property(
        length,
        fc.double({ min: 0.1, max: 50, noNaN: true }),
        fc.double({ min: 0, max: 100, noNaN: true }),
        (edge, pin, block) => {
          const method = { kind: 'block', edgeAt: asMm(edge), block: asMm(block), pin: asMm(pin) } as const;
          const left = sureOf(zeroSetting({ ...method, side: 'minus' }));
          expect(left.terms.reduce((sum, term) => sum + term.amount, 0)).toBeCloseTo(left.set, 9);
          expect((left.set + set({ ...method, side: 'plus' })) / 2).toBeCloseTo(edge, 9);
        },
      ),
    );
  });

  it.each<[string, ZeroMethod, string]>([
    ['a tip of 0', { kind: 'edge-finder', edgeAt: asMm(0), tip: asMm(0), side: 'plus' }, 'finder tip 0 mm'],
    [
      'an edge nowhere',
      { kind: 'edge-finder', edgeAt: asMm(Number.NaN), tip: asMm(10), side: 'plus' },
      'place of the edge NaN mm',
    ],
    [
      'a negative block',
      { kind: 'block', edgeAt: asMm(0), block: asMm(-1), pin: asMm(6), side: 'plus' },
      'block thickness -1 mm',
    ],
    ['a pin of 400', { kind: 'pin', edgeAt: asMm(0), pin: asMm(400), side: 'plus' }, 'pin diameter 400 mm'],
    ['a bore far away', { kind: 'indicator', centreAt: asMm(1e7) }, 'place of the centre'],
    ['a line nowhere', { kind: 'line', lineAt: asMm(Number.POSITIVE_INFINITY) }, 'place of the line'],
    ['a negative feeler', { kind: 'feeler', surfaceAt: asMm(0), feeler: asMm(-0.05) }, 'feeler thickness -0.05 mm'],
  ])('%s is refused', (_name, method, words) => {
    const result = zeroSetting(method);
    expect(result.ok ? 'answered' : formatRefusal(result.problem)).toContain(words);
  });
});
