import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { balancedLoads, fullLoads, piecesInJaws } from '../../src/shop/loads.ts';
import { asMm } from '../../src/shop/quantities.ts';
import { formatRefusal, sureOf } from '../../src/shop/refusal.ts';
import { inchesToMm } from '../../src/shop/units.ts';

describe('pieces in the jaws', () => {
  it('the worked batch: 1.5 in blocks in jaws that open 3.5 in: 2 in a row front to back', () => {
    const space = {
      opening: inchesToMm(3.5),
      jawWidth: inchesToMm(4),
      pieceAcross: inchesToMm(1.5),
      pieceAlong: inchesToMm(2.5),
    };
    expect(sureOf(piecesInJaws(space))).toEqual({ across: 2, along: 1, pieces: 2 });
  });

  it('exact fits count, gaps and overhang along the jaws too', () => {
    const space = { opening: asMm(0.3), jawWidth: asMm(100), pieceAcross: asMm(0.1), pieceAlong: asMm(50) };
    expect(sureOf(piecesInJaws(space))).toEqual({ across: 3, along: 2, pieces: 6 });
    expect(sureOf(piecesInJaws({ ...space, gap: asMm(1) })).along).toBe(1);
    expect(sureOf(piecesInJaws({ ...space, gap: asMm(1), overhang: asMm(0.5) })).along).toBe(2);
  });

  it('a piece wider than the jaws open does not fit', () => {
    expect(
      sureOf(piecesInJaws({ opening: asMm(80), jawWidth: asMm(100), pieceAcross: asMm(90), pieceAlong: asMm(20) }))
        .pieces,
    ).toBe(0);
  });

  it.each([
    ['opening', 'opening of the jaws'],
    ['jawWidth', 'width of the jaws'],
    ['pieceAcross', 'size of the piece across'],
    ['pieceAlong', 'size of the piece along'],
  ])('%s of zero, less or no number is refused', (key, words) => {
    const space = { opening: asMm(80), jawWidth: asMm(100), pieceAcross: asMm(20), pieceAlong: asMm(20) };
    for (const bad of [0, -1, Number.NaN, 1e9]) {
      const result = piecesInJaws({ ...space, [key]: asMm(bad) });
      expect(result.ok ? 'answered' : formatRefusal(result.problem)).toContain(words);
    }
    expect(piecesInJaws({ ...space, gap: asMm(-1) }).ok).toBe(false);
    expect(piecesInJaws({ ...space, overhang: asMm(-1) }).ok).toBe(false);
  });
});

describe('loads', () => {
  it('the worked batch: 63 pieces, 2 a load: 31 of 2 and 1 of 1', () => {
    const plan = {
      loads: 32,
      groups: [
        { loads: 31, pieces: 2 },
        { loads: 1, pieces: 1 },
      ],
      lastLoad: 1,
    };
    expect(sureOf(balancedLoads(63, 2))).toEqual(plan);
    expect(sureOf(fullLoads(63, 2))).toEqual(plan);
  });

  it('10 pieces, 4 a load: balanced 4, 3, 3; full 4, 4, 2', () => {
    expect(sureOf(balancedLoads(10, 4)).groups).toEqual([
      { loads: 1, pieces: 4 },
      { loads: 2, pieces: 3 },
    ]);
    expect(sureOf(fullLoads(10, 4)).groups).toEqual([
      { loads: 2, pieces: 4 },
      { loads: 1, pieces: 2 },
    ]);
  });

  it('an even share is one group', () => {
    expect(sureOf(balancedLoads(12, 4))).toEqual({ loads: 3, groups: [{ loads: 3, pieces: 4 }], lastLoad: 4 });
    expect(sureOf(fullLoads(12, 4))).toEqual({ loads: 3, groups: [{ loads: 3, pieces: 4 }], lastLoad: 4 });
    expect(sureOf(fullLoads(3, 4))).toEqual({ loads: 1, groups: [{ loads: 1, pieces: 3 }], lastLoad: 3 });
  });

  it('every piece is in a load, no load is over its capacity, and balanced takes no more loads than full', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 10_000 }), fc.integer({ min: 1, max: 1000 }), (pieces, capacity) => {
        const plans = [sureOf(balancedLoads(pieces, capacity)), sureOf(fullLoads(pieces, capacity))];
        for (const plan of plans) {
          expect(plan.groups.reduce((sum, group) => sum + group.loads * group.pieces, 0)).toBe(pieces);
          expect(plan.groups.every((group) => group.pieces <= capacity && group.pieces > 0)).toBe(true);
        }
        expect(plans[0]?.loads).toBe(plans[1]?.loads);
        const sizes = plans[0]?.groups.map((group) => group.pieces) ?? [];
        expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
      }),
    );
  });

  it.each([0, -1, 1.5, Number.NaN, 1e6])('%s pieces, or so many a load, are refused', (number) => {
    expect(balancedLoads(number, 2).ok).toBe(false);
    expect(fullLoads(number, 2).ok).toBe(false);
    expect(balancedLoads(10, number).ok).toBe(false);
    expect(fullLoads(10, number).ok).toBe(false);
  });
});
