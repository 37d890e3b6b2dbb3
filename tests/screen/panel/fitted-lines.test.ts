import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { leafFrom, listInSight } from '../../../src/screen/panel/fitted-lines.ts';
import { wrapText } from '../../../src/screen/parts/lines.ts';

const options = Array.from({ length: 10 }, (_, index) => `  ${index + 1}  option`);
const words = fc.string({ unit: fc.constantFrom('a', 'b', ' '), minLength: 1, maxLength: 120 });
const rowsOf = (lines: readonly string[], columns: number): number =>
  lines.reduce((sum, line) => sum + Math.max(1, wrapText(line, columns, 4).length), 0);

describe('a list with its question', () => {
  it('shows all where there is room', () => {
    expect(listInSight(['why'], options, 9, { columns: 50, rows: 11 })).toEqual(['why', ...options]);
  });

  it('keeps the chosen one in sight and says where more are', () => {
    expect(listInSight([], options, 7, { columns: 50, rows: 5 })).toEqual([
      '     ...',
      ...options.slice(5, 8),
      '     ...',
    ]);
    expect(listInSight([], options, 9, { columns: 50, rows: 4 })).toEqual(['     ...', ...options.slice(7)]);
  });

  it('gives the question what the options leave, in whole lines', () => {
    expect(listInSight(['one', 'two', 'three'], options.slice(0, 3), 0, { columns: 50, rows: 5 })).toEqual([
      'one',
      '...',
      ...options.slice(0, 3),
    ]);
  });

  it('always holds the chosen option whole, in the rows there are', () => {
    const lists = fc.tuple(fc.array(words, { maxLength: 8 }), fc.array(words, { minLength: 1, maxLength: 20 }));
    fc.assert(
      fc.property(
        lists,
        fc.nat(),
        fc.integer({ min: 40, max: 120 }),
        fc.integer({ min: 8, max: 40 }),
        ([about, list], nth, columns, rows) => {
          const chosen = nth % list.length;
          const shown = listInSight(about, list, chosen, { columns, rows });
          expect(shown).toContain(list[chosen]);
          expect(rowsOf(shown, columns)).toBeLessThanOrEqual(rows);
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe('leafing through a page', () => {
  it('passes no line over, comes to the end and back to the beginning', () => {
    fc.assert(
      fc.property(
        fc.array(words, { minLength: 1, maxLength: 60 }),
        fc.integer({ min: 50, max: 120 }),
        (lines, columns) => {
          let from = 0;
          for (let press = 0; press < lines.length; press += 1) {
            const next = leafFrom(lines, from, 1, columns);
            // A panel of 50x15 has eleven rows for a page, one of them for the word that there is more.
            expect(rowsOf(lines.slice(from, next), columns)).toBeLessThanOrEqual(10);
            if (next === from) break;
            from = next;
          }
          expect(from).toBe(lines.length - 1);
          for (let press = 0; press < lines.length; press += 1) from = leafFrom(lines, from, -1, columns);
          expect(from).toBe(0);
        },
      ),
      { numRuns: 200 },
    );
  });
});
