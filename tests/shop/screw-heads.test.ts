import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coneDepth, coneTravelInHole } from '../../src/shop/cones.ts';
import { capHead, judgeCounterbore } from '../../src/shop/counterbores.ts';
import {
  countersunkHead,
  HEAD_STANDARDS,
  type HeadStandard,
  mouthForHead,
  parseHeadStandard,
  seatOfHead,
} from '../../src/shop/countersunk-heads.ts';
import { asMm } from '../../src/shop/quantities.ts';
import { sureOf } from '../../src/shop/refusal.ts';
import { INCH_CAP_HEADS, METRIC_CAP_HEADS } from '../../src/shop/tables/cap-heads.ts';
import { mmToInches } from '../../src/shop/units.ts';
import caps from './fixtures/cap-heads.json' with { type: 'json' };
import heads from './fixtures/countersunk-heads.json' with { type: 'json' };
import inchCaps from './fixtures/inch-cap-heads.json' with { type: 'json' };

interface HeadRow {
  readonly standard: string;
  readonly size: string;
  readonly height_mm: number;
  readonly sharp_mm?: number;
  readonly least_mm?: number;
  readonly largest_mm?: number;
  readonly countersink_mm?: number;
}
const rows: readonly HeadRow[] = heads.rows;
const head = (standard: HeadStandard, size: string) => sureOf(countersunkHead(standard, size));

describe('countersunk heads', () => {
  // ISO 10642; ISO 2009, ISO 7046, ISO 15065; DIN 963/965 with DIN 74-1; DIN 7991.
  it.each(rows.map((row) => [row.standard, row.size, row] as const))(
    '%s %s has the published numbers',
    (standard, size, row) => {
      const found = head(standard as HeadStandard, size);
      expect(found.height).toBe(row.height_mm);
      expect(found.least).toBe(row.least_mm);
      expect(found.largest).toBe(row.largest_mm);
      if (row.sharp_mm !== undefined) expect(found.sharp).toBe(row.sharp_mm);
      expect(found.countersink).toBe(row.countersink_mm ?? found.sharp);
      expect(found.withdrawn).toBe(standard.startsWith('DIN'));
    },
  );

  it('the sharp diameter is the shank and twice the height at 90 degrees, in every ISO row', () => {
    for (const row of rows.filter((one) => one.sharp_mm !== undefined)) {
      expect(row.sharp_mm).toBeCloseTo(Number(row.size.slice(1)) + 2 * row.height_mm, 6);
    }
  });

  it('old and present M4 heads differ, and each says which it is', () => {
    expect(head('DIN 963/965', 'M4')).toMatchObject({ largest: 7.5, countersink: 8.6, withdrawn: true });
    expect(head('ISO 2009/7046', 'M4')).toMatchObject({ largest: 8.4, sharp: 9.4, withdrawn: false });
  });

  it('ISO 10642 M5 is 11.2 mm (a slip elsewhere says 12.2), M14 30.8 mm (elsewhere 30.0)', () => {
    expect([head('ISO 10642', 'M5').sharp, head('ISO 10642', 'M14').sharp]).toEqual([11.2, 30.8]);
  });

  it('flush wants the sharp diameter; 0.2 mm below wants 0.4 mm more; the head of M5 takes 2.85 mm from contact in 5.5 mm', () => {
    const m5 = head('ISO 10642', 'M5');
    const flush = sureOf(mouthForHead(m5, asMm(0)));
    expect(flush).toBe(11.2);
    expect(sureOf(mouthForHead(m5, asMm(0.2)))).toBeCloseTo(11.6, 9);
    expect(sureOf(coneTravelInHole(asMm(5.5), flush, { angle: m5.angle, tip: asMm(0) }))).toBeCloseTo(2.85, 9);
    const m4 = head('ISO 2009/7046', 'M4');
    expect(sureOf(coneDepth(sureOf(mouthForHead(m4, asMm(0))), { angle: m4.angle, tip: asMm(0) }))).toBeCloseTo(4.7, 9);
  });

  it('a smaller mouth leaves the head proud by half of what it lacks', () => {
    expect(sureOf(seatOfHead(head('ISO 10642', 'M5'), asMm(10)))).toEqual({
      kind: 'proud',
      by: expect.closeTo(0.6, 9),
    });
    expect(sureOf(seatOfHead(head('ISO 10642', 'M5'), asMm(11.2)))).toEqual({ kind: 'flush or below', below: 0 });
  });

  it('no countersink that a standard asks for leaves its head proud', () => {
    for (const row of rows) {
      const found = head(row.standard as HeadStandard, row.size);
      expect(sureOf(seatOfHead(found, found.countersink)).kind, `${row.standard} ${row.size}`).toBe('flush or below');
    }
  });

  it('what is asked for below the face is what it gets', () => {
    fc.assert(
      fc.property(fc.constantFrom(...rows), fc.double({ min: 0, max: 5, noNaN: true }), (row, below) => {
        const found = head(row.standard as HeadStandard, row.size);
        const seat = sureOf(seatOfHead(found, sureOf(mouthForHead(found, asMm(below)))));
        expect(seat.kind === 'flush or below' ? seat.below : -1).toBeCloseTo(below, 8);
      }),
    );
  });

  it.each([-0.1, Number.NaN, 1e9])('%f mm below the face is refused', (below) => {
    expect(mouthForHead(head('ISO 10642', 'M5'), asMm(below)).ok).toBe(false);
  });
  it.each([0, -1, Number.NaN, 400])('a mouth of %f mm is refused', (mouth) => {
    expect(seatOfHead(head('ISO 10642', 'M5'), asMm(mouth)).ok).toBe(false);
  });

  it.each([
    ['ISO 10642', 'ISO 10642'],
    ['iso10642', 'ISO 10642'],
    ['ISO 7046', 'ISO 2009/7046'],
    ['ISO 2009', 'ISO 2009/7046'],
    ['iso 2009/7046', 'ISO 2009/7046'],
    ['din 965', 'DIN 963/965'],
    ['DIN-963', 'DIN 963/965'],
    ['DIN 7991', 'DIN 7991'],
  ])('%s names %s', (text, standard) => expect(sureOf(parseHeadStandard(text))).toBe(standard));
  it('an unknown standard or size is refused with those known', () => {
    expect(parseHeadStandard('DIN 912')).toMatchObject({ ok: false, problem: { allowed: HEAD_STANDARDS.join(', ') } });
    expect(parseHeadStandard('').ok).toBe(false);
    expect(countersunkHead('ISO 10642', 'M7')).toMatchObject({
      ok: false,
      problem: { remedy: expect.stringContaining('nearest') },
    });
    expect(countersunkHead('ISO 10642', 'nonsense').ok).toBe(false);
  });
});

describe('counterbores', () => {
  // ISO 4762, DIN 974-1 series 1.
  it.each(caps.rows.map((row) => [row.size, row] as const))(
    '%s has the published head and counterbore',
    (size, row) => {
      expect(sureOf(capHead(size))).toMatchObject({
        head: row.head_diameter_knurled_max_mm,
        height: row.head_height_max_mm,
        counterbore: row.counterbore_diameter_mm,
        counterboreDepth: row.counterbore_depth_mm,
        confirmed: true,
      });
      const tabled = METRIC_CAP_HEADS.find((one) => one.size === size);
      expect([tabled?.plainMaxMm, tabled?.keyMm]).toEqual([row.head_diameter_plain_max_mm, row.key_across_flats_mm]);
    },
  );

  // ASME B18.3 table 1A.
  it.each(inchCaps.rows.map((row) => [row.size, row] as const))('inch %s has the published head', (size, row) => {
    const found = sureOf(capHead(size));
    expect(mmToInches(found.head)).toBeCloseTo(row.head_diameter_max_in, 9);
    expect(mmToInches(found.height)).toBeCloseTo(row.head_height_max_in, 9);
    expect(found).toMatchObject({ confirmed: false, source: expect.stringContaining('from memory') });
  });

  it('every counterbore of the tables clears its knurled head and hides it', () => {
    for (const { size } of [...METRIC_CAP_HEADS, ...INCH_CAP_HEADS]) {
      const cap = sureOf(capHead(size));
      expect(sureOf(judgeCounterbore(cap, cap.counterbore, cap.counterboreDepth)).kind, size).toBe('clears');
    }
  });

  it('M3 clears by 0.16 mm a side in 6 mm, not at all in 5.5 mm, and stands proud when shallow', () => {
    const m3 = sureOf(capHead('m3'));
    expect(sureOf(judgeCounterbore(m3, asMm(6), asMm(3.4)))).toEqual({
      kind: 'clears',
      aSide: expect.closeTo(0.16, 9),
      below: expect.closeTo(0.4, 9),
    });
    expect(sureOf(judgeCounterbore(m3, asMm(5.5), asMm(3.4)))).toEqual({
      kind: 'too small',
      head: 5.68,
      short: expect.closeTo(0.18, 9),
    });
    expect(sureOf(judgeCounterbore(m3, asMm(6), asMm(2.5)))).toEqual({ kind: 'proud', by: 0.5 });
  });

  it.each([0, -1, Number.NaN, 1e9])('%f mm is refused as a counterbore and as its depth', (bad) => {
    const m3 = sureOf(capHead('M3'));
    expect(judgeCounterbore(m3, asMm(bad), asMm(3)).ok).toBe(false);
    expect(judgeCounterbore(m3, asMm(6), asMm(bad)).ok).toBe(false);
  });
  it('an unknown size is refused with the nearest, or told to measure', () => {
    expect(capHead('M7')).toMatchObject({ ok: false, problem: { remedy: expect.stringContaining('nearest known') } });
    expect(capHead('woodscrew').ok).toBe(false);
    expect(capHead('1/4 in').ok).toBe(true);
  });
});
