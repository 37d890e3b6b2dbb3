import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { asMm, type Mm } from '../../src/shop/quantities.ts';
import { formatRefusal, type Result, sureOf } from '../../src/shop/refusal.ts';
import {
  angularTolerance,
  decimalPlacesOf,
  linearTolerance,
  parseToleranceClass,
  radiusTolerance,
  type ToleranceClass,
  toleranceByPlaces,
} from '../../src/shop/tolerances.ts';
import { inchesToMm } from '../../src/shop/units.ts';

type Row = Readonly<Record<string, number | null>>;
// ISO 2768-1:1989 tables 1, 2, 3.
const tables = JSON.parse(readFileSync(new URL('fixtures/tolerances-iso2768.json', import.meta.url), 'utf8')) as {
  readonly linear: readonly Row[];
  readonly radii_and_chamfers: readonly Row[];
  readonly angular: readonly Row[];
};
const plusMinus = (result: Result<{ readonly plusMinus: Mm }>): number | null =>
  result.ok ? result.value.plusMinus : null;
const number = (row: Row, key: string, otherwise: number): number => row[key] ?? otherwise;

describe('ISO 2768-1 table 1, linear', () => {
  const columns: readonly (readonly [ToleranceClass, string])[] = [
    ['fine', 'fine_f_mm'],
    ['medium', 'medium_m_mm'],
    ['coarse', 'coarse_c_mm'],
    ['very coarse', 'very_coarse_v_mm'],
  ];

  it.each(tables.linear)('over $over_mm up to and including $up_to_mm', (row) => {
    const sizes = [number(row, 'over_mm', 0) + 0.001, number(row, 'up_to_mm', 0)];
    for (const [name, key] of columns) {
      for (const size of sizes) expect(plusMinus(linearTolerance(asMm(size), name))).toBe(row[key]);
    }
  });

  it.each([
    [3, 'medium', 0.1],
    [3.001, 'coarse', 0.3],
    [6, 'medium', 0.1],
    [6.001, 'medium', 0.2],
    [10, 'medium', 0.2],
    [25, 'medium', 0.2],
    [30, 'medium', 0.2],
    [30, 'coarse', 0.5],
    [30.001, 'medium', 0.3],
    [121, 'fine', 0.2],
    [0.5, 'fine', 0.05],
  ] as const)('%s mm %s is +-%s (band edges belong to the smaller band)', (size, name, expected) => {
    expect(plusMinus(linearTolerance(asMm(size), name))).toBe(expected);
  });

  it.each([0, -1, 0.49, Number.NaN, 4001, Number.POSITIVE_INFINITY])(
    '%s mm has none: the drawing must state it',
    (size) => {
      const result = linearTolerance(asMm(size), 'medium');
      expect(result.ok ? '' : formatRefusal(result.problem)).toMatch(
        /from 0\.5 mm, at most 4000 mm.*state the tolerance itself/,
      );
    },
  );

  it('a class without a value in the band is refused by name', () => {
    const result = linearTolerance(asMm(2), 'very coarse');
    expect(result.ok ? '' : formatRefusal(result.problem)).toContain('2 mm in class very coarse');
    expect(linearTolerance(asMm(3000), 'fine').ok).toBe(false);
  });
});

describe('ISO 2768-1 table 2, radii and chamfers', () => {
  it.each(tables.radii_and_chamfers)('over $over_mm up to and including $up_to_mm', (row) => {
    for (const size of [number(row, 'over_mm', 0) + 0.001, number(row, 'up_to_mm', 4000)]) {
      for (const name of ['fine', 'medium'] as const) {
        expect(plusMinus(radiusTolerance(asMm(size), name))).toBe(row['fine_medium_mm']);
      }
      for (const name of ['coarse', 'very coarse'] as const) {
        expect(plusMinus(radiusTolerance(asMm(size), name))).toBe(row['coarse_very_coarse_mm']);
      }
    }
    expect(radiusTolerance(asMm(0.2), 'medium').ok).toBe(false);
  });
});

describe('ISO 2768-1 table 3, angles', () => {
  it.each(tables.angular)('shorter leg over $shorter_leg_over_mm up to and including $shorter_leg_up_to_mm', (row) => {
    for (const leg of [number(row, 'shorter_leg_over_mm', 0) + 0.001, number(row, 'shorter_leg_up_to_mm', 4000)]) {
      const minutes = (name: ToleranceClass) => sureOf(angularTolerance(asMm(leg), name)).plusMinusArcMinutes;
      expect([minutes('fine'), minutes('medium')]).toEqual([row['fine_medium_arcmin'], row['fine_medium_arcmin']]);
      expect(minutes('coarse')).toBe(row['coarse_arcmin']);
      expect(minutes('very coarse')).toBe(row['very_coarse_arcmin']);
    }
  });

  it('says which values are from memory: coarse over 120 up to 400, and the last row', () => {
    expect(sureOf(angularTolerance(asMm(200), 'coarse')).fromMemory).toBe(true);
    expect(sureOf(angularTolerance(asMm(200), 'medium')).fromMemory).toBe(false);
    expect(sureOf(angularTolerance(asMm(500), 'medium')).fromMemory).toBe(true);
  });

  it.each([0, -2, Number.NaN, 5000])('a leg of %s mm is refused', (leg) => {
    expect(angularTolerance(asMm(leg), 'medium').ok).toBe(false);
  });
});

describe('names of tolerance classes', () => {
  it.each([
    ['m', 'medium'],
    ['Medium', 'medium'],
    ['ISO 2768-mK', 'medium'],
    ['2768-f', 'fine'],
    ['very-coarse', 'very coarse'],
    ['v', 'very coarse'],
    ['C', 'coarse'],
  ])('%s is %s', (text, name) => {
    expect(sureOf(parseToleranceClass(text))).toBe(name);
  });

  it.each(['', 'x', 'middling'])('%j is refused with the four names', (text) => {
    const result = parseToleranceClass(text);
    expect(result.ok ? '' : formatRefusal(result.problem)).toContain(
      'fine (f), medium (m), coarse (c), very coarse (v)',
    );
  });
});

describe('inch tolerances by decimal places', () => {
  // The block of the drawing in the worked batch: three places +-.005, two +-.01.
  const block = new Map([
    [2, inchesToMm(0.01)],
    [3, inchesToMm(0.005)],
  ]);

  it.each([
    ['2.500', 3],
    ['.75', 2],
    ['1', 0],
    ['1.', 0],
    ['2.500 in', 3],
    ['-.5"', 1],
  ])('%s is written with %s places', (text, places) => {
    expect(sureOf(decimalPlacesOf(text))).toBe(places);
  });

  it.each(['3/8', '', '.', 'two', '1.2.3'])('%j has no decimal places', (text) => {
    expect(decimalPlacesOf(text).ok).toBe(false);
  });

  it('2.500 is +-.005 in, 2.50 is +-.01 in', () => {
    expect(sureOf(toleranceByPlaces(3, block)).plusMinus).toBeCloseTo(0.127, 9);
    expect(sureOf(toleranceByPlaces(2, block)).plusMinus).toBeCloseTo(0.254, 9);
  });

  it('places that the block does not state, or no number of places, are refused', () => {
    const result = toleranceByPlaces(4, block);
    expect(result.ok ? '' : formatRefusal(result.problem)).toContain("those of the drawing's block: 2, 3");
    expect(toleranceByPlaces(2.5, block).ok).toBe(false);
    const empty = toleranceByPlaces(2, new Map());
    expect(empty.ok ? '' : empty.problem.allowed).toContain('none stated');
  });
});
