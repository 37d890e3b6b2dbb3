import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drillName, letterDrill, numberDrill } from '../../src/shop/drill-sizes.ts';
import { parseDiameter, parseLength } from '../../src/shop/parse-length.ts';
import { asMm } from '../../src/shop/quantities.ts';
import { formatRefusal, sureOf } from '../../src/shop/refusal.ts';
import { formatInches, formatMm, mmToInches } from '../../src/shop/units.ts';
import drills from './fixtures/drill-sizes.json' with { type: 'json' };

const mm = (text: string | number, unit?: 'mm' | 'inch') => sureOf(parseLength(text, unit));
const problem = (text: string | number, unit?: 'mm' | 'inch') => {
  const read = parseLength(text, unit);
  return read.ok ? `read as ${read.value}` : formatRefusal(read.problem);
};

describe('reading a length', () => {
  it.each([
    ['6 mm', 6],
    ['6mm', 6],
    [' 6  MM ', 6],
    ['1/4 in', 6.35],
    ['1/4"', 6.35],
    ['1/4 \u2033', 6.35],
    ["1/4''", 6.35],
    ['0.5in', 12.7],
    ['.5 inch', 12.7],
    ['1-3/16 in', 30.1625],
    ['1 3/16 in', 30.1625],
    ['5/16', 7.9375],
    ['1 3/16', 30.1625],
    ['2 cm', 20],
    ['6 ft', 1828.8],
    ['3 m', 3000],
    ['2 thou', 0.0508],
    ['50 um', 0.05],
    ['50 µm', 0.05],
    ['-12.5 mm', -12.5],
    ['\u221212.5 mm', -12.5],
    ['+3 mm', 3],
    ['-0 mm', 0],
    ['1/2 mm', 0.5],
    ['2.5 in.', 63.5],
  ])('%s is %f mm without a default unit', (text, expected) => expect(mm(text)).toBeCloseTo(expected, 9));

  it('a bare number has the default unit, a bare fraction is inches whatever it is', () => {
    expect(mm('.750', 'inch')).toBeCloseTo(19.05, 9);
    expect(mm('12', 'mm')).toBe(12);
    expect(mm(12.34, 'mm')).toBe(12.34);
    expect(mm(0.0000001, 'mm')).toBeCloseTo(1e-7, 12);
    expect(mm('5/16', 'mm')).toBe(7.9375);
    expect(problem('12')).toContain('a unit of mm, cm, m, in, ft or thou');
  });

  it('a minus zero comes out as zero', () => expect(Object.is(mm('-0 mm'), 0)).toBe(true));

  // #7 and F: ASME B94.11M.
  it.each([
    ['no. 7', 5.1054],
    ['no 7', 5.1054],
    ['#7', 5.1054],
    ['number 7', 5.1054],
    ['letter F', 6.5278],
    ['Letter f drill', 6.5278],
    ['no. 29 drill', 3.4544],
  ])('%s is the drill of %f mm', (text, expected) => expect(mm(text)).toBeCloseTo(expected, 9));

  it.each([
    ['6,5 mm', 'write 6.5 mm if the comma is the decimal mark'],
    ['1,000 mm', 'a decimal point and no comma'],
    ['1e9 mm', 'plain digits without an exponent'],
    ['NaN', 'a finite number'],
    ['Infinity mm', 'a finite number'],
    ['', 'write a value'],
    ['   ', 'write a value'],
    ['6 kg', 'a unit of mm'],
    ['M5', 'a length like 6 mm'],
    ['1/4-20 UNC', 'a length like 6 mm'],
    ['1/0 in', 'a proper fraction'],
    ['1-5/4 in', 'a proper fraction'],
    ['30 m/min', 'a length like'],
    ['1.2.3 mm', 'a length like'],
    ['6 mm 7', 'a length like'],
    ['no. 0', 'no. 1 to no. 80'],
    ['no. 81', 'no. 1 to no. 80'],
    ['21 m', 'at most 20000 mm'],
    ['x'.repeat(61), 'short plain text'],
    ['6\u0000mm', 'short plain text'],
    ['6\nmm', 'short plain text'],
  ])('%j is refused and told so', (text, words) => expect(problem(text)).toContain(words));

  it.each([Number.NaN, Number.POSITIVE_INFINITY, -Number.POSITIVE_INFINITY, 1e300])(
    'the number %f is refused',
    (value) => {
      expect(problem(value, 'mm')).toMatch(/allowed is/);
    },
  );

  it('a refusal of range names the value as read, and as written where that differs', () => {
    const said = (text: string) => {
      const read = parseDiameter(text, 'mm');
      return read.ok ? '' : formatRefusal(read.problem);
    };
    expect(said('16 in')).toBe(
      'tool diameter 406.4 mm (16 in): allowed is above 0 mm, at most 250 mm; check the diameter and its unit',
    );
    expect(said('400 mm')).toContain('tool diameter 400 mm: allowed');
    expect(said('400')).toContain('tool diameter 400 mm: allowed');
    expect(parseDiameter('0 mm', 'mm').ok).toBe(false);
    expect(parseDiameter('-3 mm', 'mm').ok).toBe(false);
  });

  it('what is written with enough decimals is read back, in mm and in inches', () => {
    fc.assert(
      fc.property(fc.double({ min: -9999, max: 9999, noNaN: true }), (value) => {
        expect(mm(`${formatMm(asMm(value), 6)} mm`)).toBeCloseTo(value, 5);
        expect(mm(`${formatInches(asMm(value), 6)} in`)).toBeCloseTo(value, 4);
      }),
    );
  });

  it('every sixty-fourth written as a fraction is that many sixty-fourths', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 11 }), fc.integer({ min: 1, max: 63 }), (whole, top) => {
        expect(mmToInches(mm(`${whole}-${top}/64 in`))).toBeCloseTo(whole + top / 64, 12);
      }),
    );
  });

  it('no text makes it throw or answer with something that is no number', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string(), fc.string({ unit: fc.constantFrom(...'0123456789./-" inmft#no,xeE') })),
        (text) => {
          const read = parseLength(text, 'mm');
          if (read.ok) expect(Number.isFinite(read.value)).toBe(true);
        },
      ),
      { numRuns: 2000 },
    );
  });
});

describe('number and letter drills (ASME B94.11M)', () => {
  it.each(drills.rows.map((row) => [row.name, row.diameter_in, row.diameter_mm] as const))(
    '%s is %f in',
    (name, inches, millimetres) => {
      const found = name.startsWith('#') ? numberDrill(Number(name.slice(1))) : letterDrill(name);
      expect(mmToInches(sureOf(found))).toBeCloseTo(inches, 9);
      expect(Math.abs(sureOf(found) - millimetres)).toBeLessThan(0.000051);
    },
  );

  it.each([
    [5.1054, 'no. 7'],
    [8.4328, 'letter Q'],
    [7.9375, '5/16 in'],
    [6.35, '1/4 in'],
    [25.4, '1 in'],
    [6.8, '6.8 mm'],
    [5.188, '5.188 mm'],
    [9.128125, '23/64 in'],
    [30.1625, '30.163 mm'],
  ])('%f mm is called %s', (size, name) => expect(drillName(asMm(size))).toBe(name));

  it('a letter that is none is refused', () => {
    expect(letterDrill('7').ok).toBe(false);
    expect(letterDrill('').ok).toBe(false);
    expect(numberDrill(Number.NaN).ok).toBe(false);
  });

  it('a drill by its name is within 0.001 in of itself', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.4, max: 25, noNaN: true }), (size) => {
        expect(Math.abs(mm(drillName(asMm(size))) - size)).toBeLessThan(0.0255);
      }),
    );
  });
});
