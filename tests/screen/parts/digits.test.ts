import { describe, expect, it } from 'vitest';
import {
  chooseDigitSize,
  type DigitSize,
  digitExtent,
  digitLines,
  hasDigits,
  rowsFor,
} from '../../../src/screen/parts/digits.ts';

const block = (font: '3x5' | '5x7', pixelColumns: number, pixelRows: number): DigitSize => ({
  kind: 'block',
  font,
  pixelColumns,
  pixelRows,
});
const all = '0123456789+-.,/:? ABCDEFGHIJKLMNOPQRSTUVWXYZ';

describe('block digits', () => {
  it.each(['3x5', '5x7'] as const)('every character of %s is drawn, no two alike, all rows equally long', (font) => {
    const drawings = [...all].map((char) => digitLines(char, block(font, 1, 1)).join('\n'));
    expect(new Set(drawings).size).toBe(all.length);
    for (const [index, drawing] of drawings.entries()) {
      const lines = drawing.split('\n');
      expect(lines.length).toBe(font === '3x5' ? 5 : 7);
      expect(new Set(lines.map((line) => line.length)).size).toBe(1);
      expect(drawing.includes('#')).toBe(all[index] !== ' ');
    }
    expect(hasDigits(all)).toBe(true);
    expect(hasDigits('12 mm')).toBe(false);
  });

  it('takes the widths on which the layouts were planned: 70, 58 and 78 columns', () => {
    expect(digitExtent('-123.45', block('5x7', 2, 1))).toEqual({ rows: 7, columns: 70 });
    expect(digitExtent('-123.456', block('3x5', 2, 1))).toEqual({ rows: 5, columns: 58 });
    expect(digitExtent('137/200', block('5x7', 2, 1))).toEqual({ rows: 7, columns: 78 });
  });

  it('draws what it says it takes', () => {
    for (const size of [block('3x5', 1, 1), block('5x7', 2, 1), block('5x7', 3, 2), { kind: 'line' } as const]) {
      const lines = digitLines('-12.3', size);
      const { rows, columns } = digitExtent('-12.3', size);
      expect([lines.length, lines[0]?.length]).toEqual([rows, columns]);
    }
  });

  it('a picture of 12 at two columns a pixel', () => {
    expect(digitLines('12', block('3x5', 2, 1))).toEqual([
      '  ##    ######',
      '####        ##',
      '  ##    ######',
      '  ##    ##    ',
      '######  ######',
    ]);
  });
});

describe('the size of a number', () => {
  it.each([
    [80, 9, 7, block('5x7', 2, 1)],
    [60, 9, 7, block('5x7', 1, 1)],
    [60, 6, 7, block('3x5', 2, 1)],
    [60, 9, 5, block('3x5', 2, 1)],
    [80, 9, 3, block('3x5', 2, 1)],
    [30, 9, 7, block('3x5', 1, 1)],
    [20, 9, 7, { kind: 'line' }],
    [80, 4, 5, { kind: 'line' }],
    [200, 40, 10, block('3x5', 4, 2)],
    [200, 40, Number.POSITIVE_INFINITY, block('5x7', 5, 5)],
  ])('-123.45 in %i columns, %i rows, %d wanted', (columns, rows, wantedRows, size) => {
    expect(chooseDigitSize({ text: '-123.45', columns, rows, wantedRows })).toEqual(size);
  });

  it('never takes more room than there is, and a longer text is never larger', () => {
    for (let columns = 1; columns <= 200; columns += 7) {
      for (let rows = 1; rows <= 60; rows += 5) {
        const sizes = ['1', '12', '-12.5', '-123.456'].map((text) => {
          const size = chooseDigitSize({ text, columns, rows, wantedRows: 7 });
          const extent = digitExtent(text, size);
          if (size.kind === 'block') expect(extent.rows <= rows && extent.columns <= columns).toBe(true);
          return extent.rows;
        });
        expect([...sizes].sort((a, b) => b - a)).toEqual(sizes);
      }
    }
  });

  it('a text that has no block drawing is a line', () => {
    expect(chooseDigitSize({ text: '12 mm', columns: 200, rows: 50, wantedRows: 5 })).toEqual({ kind: 'line' });
  });
});

describe('rows that can be read', () => {
  // A 7-inch 80x24 panel is about 86.6 mm high: rows of 3.61 mm. Worked by hand from ceil(0.291 x arcmin x m / mm).
  it.each([
    [1, 3.61, 22, 2],
    [1, 3.61, 33, 3],
    [2, 3.61, 33, 6],
    [3, 3.61, 33, 8],
    [2, 7.2, 33, 3],
  ])('%d m, rows of %d mm, %d arcmin: %d', (metres, row, arcmin, rows) => {
    expect(rowsFor(metres, row, arcmin)).toBe(rows);
  });

  it('is at least 1 and never NaN', () => {
    expect(rowsFor(0, 3.6, 33)).toBe(1);
    expect(rowsFor(1, 0, 33)).toBe(1);
    expect(rowsFor(Number.NaN, 3.6, 33)).toBe(1);
  });
});
