import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitOf, standardTolerance, zoneLimits } from '../../src/shop/fits.ts';
import { asMm } from '../../src/shop/quantities.ts';
import { formatRefusal, sureOf } from '../../src/shop/refusal.ts';

// ISO 286-1:2010 table 1 and ISO 286-2:2010, copied from the tables of limit deviations (not from the code's own form).
const table = JSON.parse(readFileSync(new URL('fixtures/fits-iso286.json', import.meta.url), 'utf8')) as {
  readonly rows: readonly Readonly<Record<string, number>>[];
};
const at = (row: Readonly<Record<string, number>>, key: string): number => row[key] ?? Number.NaN;
const limits = table.rows.flatMap((row) =>
  Object.keys(row)
    .filter((key) => key.endsWith('_lower_um'))
    .map((key) => key.replace('_lower_um', ''))
    .map((zone) => ({
      zone,
      over: at(row, 'over_mm'),
      upTo: at(row, 'up_to_mm'),
      lower: at(row, `${zone}_lower_um`),
      upper: at(row, `${zone}_upper_um`),
    })),
);

describe('ISO 286 zones', () => {
  it('covers 8 bands with 14 zones each', () => {
    expect(limits).toHaveLength(8 * 14);
  });

  it.each(limits)('$zone over $over up to and including $upTo', ({ zone, over, upTo, lower, upper }) => {
    for (const size of [over + 0.001, upTo]) {
      expect(sureOf(zoneLimits(asMm(size), zone))).toMatchObject({ lowerUm: lower, upperUm: upper });
    }
  });

  it.each(table.rows)('IT5 to IT11 up to $up_to_mm', (row) => {
    for (const grade of [5, 6, 7, 8, 9, 10, 11]) {
      expect(sureOf(standardTolerance(asMm(at(row, 'up_to_mm')), grade))).toBe(at(row, `IT${grade}_um`));
    }
  });

  it('10 H7 is 0 to +15: 10 belongs to the band over 6 up to 10 (ISO 286-2; a formula would give 14)', () => {
    expect(sureOf(zoneLimits(asMm(10), 'H7'))).toMatchObject({ lowerUm: 0, upperUm: 15 });
    expect(sureOf(zoneLimits(asMm(10.001), 'H7'))).toMatchObject({ upperUm: 18 });
  });

  it('20 H7 is 0 to +21, from 20.000 to 20.021', () => {
    const hole = sureOf(zoneLimits(asMm(20), ' H 7 '));
    expect(hole).toMatchObject({ kind: 'hole', zone: 'H7', lowerUm: 0, upperUm: 21, smallest: 20 });
    expect(hole.largest).toBeCloseTo(20.021, 9);
  });

  it('every zone is as wide as its grade, and a larger size never has a narrower grade', () => {
    const zone = fc.constantFrom('H7', 'f7', 'g6', 'h6', 'k6', 'n6', 'p6');
    const size = fc.double({ min: 0.01, max: 119, noNaN: true });
    fc.assert(
      fc.property(zone, size, fc.double({ min: 0, max: 1, noNaN: true }), (name, mm, more) => {
        const one = sureOf(zoneLimits(asMm(mm), name));
        const larger = sureOf(zoneLimits(asMm(mm + more), name));
        const width = one.upperUm - one.lowerUm;
        expect(width).toBe(sureOf(standardTolerance(asMm(mm), Number(name.slice(1)))));
        expect(larger.upperUm - larger.lowerUm).toBeGreaterThanOrEqual(width);
      }),
    );
  });
});

describe('holes D to G and shafts d, e', () => {
  // Limit deviations as tabulated in ISO 286-2:2010 (holes tables 2 to 5, shafts tables 17 and 18), micrometres.
  it.each([
    [3, 'D9', 20, 45],
    [5, 'D10', 30, 78],
    [10, 'F8', 13, 35],
    [10, 'D10', 40, 98],
    [20, 'E9', 40, 92],
    [20, 'F7', 20, 41],
    [25, 'G7', 7, 28],
    [40, 'D9', 80, 142],
    [60, 'F8', 30, 76],
    [100, 'E8', 72, 126],
    [20, 'd9', -117, -65],
    [10, 'e8', -47, -25],
    [70, 'd11', -290, -100],
  ])('%d %s is %d to %d um', (size, zone, lower, upper) => {
    expect(sureOf(zoneLimits(asMm(size), zone))).toMatchObject({
      kind: /^[A-Z]/.test(zone) ? 'hole' : 'shaft',
      lowerUm: lower,
      upperUm: upper,
    });
  });
});

describe('ISO 286 fits', () => {
  it('50 H7/p6 holds by 1 to 42 um (ISO 286-2)', () => {
    expect(sureOf(fitOf(asMm(50), 'H7', 'p6'))).toMatchObject({
      kind: 'interference',
      largestClearanceUm: -1,
      smallestClearanceUm: -42,
    });
  });

  it('25 H7/g6 runs with 7 to 41 um, 20 H7/k6 may do either', () => {
    expect(sureOf(fitOf(asMm(25), 'H7', 'g6'))).toMatchObject({
      kind: 'clearance',
      smallestClearanceUm: 7,
      largestClearanceUm: 41,
    });
    expect(sureOf(fitOf(asMm(20), 'H7', 'k6'))).toMatchObject({
      kind: 'transition',
      smallestClearanceUm: -15,
      largestClearanceUm: 19,
    });
  });
});

describe('ISO 286 refusals', () => {
  const refusal = (size: number, zone: string): string => {
    const result = zoneLimits(asMm(size), zone);
    return result.ok ? 'answered' : formatRefusal(result.problem);
  };

  it.each([0, -5, Number.NaN, Number.POSITIVE_INFINITY, 120.1])('a size of %s mm is refused with the range', (size) => {
    expect(refusal(size, 'H7')).toContain('at most 120 mm');
    expect(standardTolerance(asMm(size), 7).ok).toBe(false);
  });

  it.each(['H12', 'H4', 'z6', 'k8', 'seven', '', 'H', '7'])('the zone %j is refused with the known ones', (zone) => {
    expect(refusal(20, zone)).toContain('H, f, g, h, n, p with grade 5 to 11');
  });

  it('names the value, and a grade between two has no tolerance', () => {
    expect(refusal(20, 'z6')).toContain('z6');
    expect(standardTolerance(asMm(20), 6.5).ok).toBe(false);
  });

  it('a shaft where the hole belongs is refused, and the other way round', () => {
    const wrong = fitOf(asMm(20), 'h7', 'g6');
    expect(wrong.ok ? '' : wrong.problem.allowed).toContain('hole zone');
    const alsoWrong = fitOf(asMm(20), 'H7', 'H6');
    expect(alsoWrong.ok ? '' : alsoWrong.problem.allowed).toContain('shaft zone');
    expect(fitOf(asMm(20), 'H7', 'q9').ok).toBe(false);
    expect(fitOf(asMm(20), 'Q7', 'g6').ok).toBe(false);
  });
});
