import { describe, expect, it } from 'vitest';
import { type DrilledPlace, grabRisks } from '../../src/shop/grabbing.ts';
import { asDegrees, asMm } from '../../src/shop/quantities.ts';
import { sureOf } from '../../src/shop/refusal.ts';

const place = (diameter: number, rest: Omit<DrilledPlace, 'drill'> = {}): DrilledPlace => ({
  drill: { diameter: asMm(diameter), angle: asDegrees(118) },
  ...rest,
});

// Facts of the trade, common practice without a published source.
describe('when a drill may grab (common practice)', () => {
  it('brass is drilled with the lips dulled to no rake', () => {
    expect(sureOf(grabRisks(place(10, { material: 'brass' })))).toEqual(['brass']);
    expect(sureOf(grabRisks(place(10, { material: 'mild steel' })))).toEqual([]);
    expect(sureOf(grabRisks(place(10)))).toEqual([]);
  });

  it('a drill that opens a hole only slightly smaller grabs most, one that opens a pilot hole does not', () => {
    expect(sureOf(grabRisks(place(10, { hole: asMm(9) })))).toEqual(['opening a hole']);
    expect(sureOf(grabRisks(place(10, { hole: asMm(7.5) })))).toEqual(['opening a hole']);
    expect(sureOf(grabRisks(place(10, { hole: asMm(7.4) })))).toEqual([]);
    expect(sureOf(grabRisks(place(10, { hole: asMm(3) })))).toEqual([]);
    expect(sureOf(grabRisks(place(10, { hole: asMm(9.5), material: 'brass' })))).toEqual(['brass', 'opening a hole']);
  });

  it('stock thinner than the point is long does not guide the drill as it breaks through', () => {
    // Point of 8 mm at 118 degrees: 2.40 mm.
    expect(sureOf(grabRisks(place(8, { thickness: asMm(1.5) })))).toEqual(['thin stock']);
    expect(sureOf(grabRisks(place(8, { thickness: asMm(2.5) })))).toEqual([]);
  });

  it.each([
    place(10, { hole: asMm(0) }),
    place(10, { hole: asMm(10) }),
    place(10, { hole: asMm(Number.NaN) }),
    place(10, { thickness: asMm(0) }),
    place(400, { thickness: asMm(5) }),
  ])('%o is refused', (given) => expect(grabRisks(given).ok).toBe(false));
});
