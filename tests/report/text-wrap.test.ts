import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { greatestOf, leastOf } from '../../src/report/extremes.ts';
import { wrapText } from '../../src/report/forms/text-table.ts';

describe('text broken into lines', () => {
  it.each([
    ['gate hardware', 8, ['gate', 'hardware']],
    ['', 8, ['']],
    ['a  b', 8, ['a  b']],
    ['keeperplates x', 5, ['keepe', 'rplat', 'es x']],
    ['ab cd ef', 5, ['ab cd', 'ef']],
    [' ab', 5, ['ab']],
  ])('"%s" within %i columns', (text, width, lines) => {
    expect(wrapText(text, width)).toEqual(lines);
  });

  it('breaks text of plain signs where it breaks the same text with signs that are measured one by one', () => {
    const words = fc.string({ unit: fc.constantFrom('e', 'x', ' '), maxLength: 60 });
    fc.assert(
      fc.property(words, fc.integer({ min: 1, max: 14 }), (plain, width) => {
        const text = `${plain}e`;
        const measured = wrapText(text.replaceAll('e', 'é'), width);
        expect(wrapText(text, width)).toEqual(measured.map((line) => line.replaceAll('é', 'e')));
      }),
      { numRuns: 500 },
    );
  });

  it('[P8] takes a note of a million words', () => {
    const lines = wrapText('vice slips '.repeat(500_000), 80);
    expect(lines.every((line) => line.length <= 80)).toBe(true);
    expect(
      lines
        .join(' ')
        .split(' ')
        .filter((word) => word !== ''),
    ).toHaveLength(1_000_000);
  });
});

describe('least and greatest', () => {
  it('[P8] of more values than the stack takes arguments', () => {
    const values = Array.from({ length: 500_000 }, (_, at) => at);
    expect([leastOf(values), greatestOf(values)]).toEqual([0, 499_999]);
    expect([leastOf([], 4), greatestOf([], 4)]).toEqual([4, 4]);
  });
});
