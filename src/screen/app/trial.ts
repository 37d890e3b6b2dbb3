/**
 * The distance trial: once, at the first start, samples in three sizes stand on the screen, the reader walks to the machine
 * and says which is the smallest that can be read from there. Any answer does; z changes it later.
 */

import { digitOf } from '../flow/flow.ts';
import { digitLines } from '../parts/digits.ts';
import { besideLines, centreLine, emptyLine, type Line, lineOf, type Segment } from '../parts/lines.ts';
import type { Key } from '../terminal/key.ts';

/** Rows of the samples, smallest first. */
const trialRows = [5, 7, 10] as const;
const middle = 1;
const sizes = [
  { kind: 'block', font: '3x5', pixelColumns: 2, pixelRows: 1 },
  { kind: 'block', font: '5x7', pixelColumns: 2, pixelRows: 1 },
  { kind: 'block', font: '3x5', pixelColumns: 4, pixelRows: 2 },
] as const;

/** The rows that a key chooses: its digit, or the middle one for Enter; null for a key that chooses nothing. */
export function chosenRows(key: Key): number | null {
  if (key.name === 'enter' || key.name === 'kp-enter') return trialRows[middle];
  const digit = Number(digitOf(key) ?? 'NaN');
  return trialRows[digit - 1] ?? null;
}

/** Exactly `rows` lines: the question, the samples with their numbers, what the keys do. */
export function trialLines(columns: number, rows: number, ascii: boolean): readonly Line[] {
  const sample = (index: number): readonly Line[] =>
    digitLines(`${index + 1} 68`, sizes[index] ?? { kind: 'line' }).map((row) => inkOf(row, ascii));
  const [small, medium, large] = [sample(0), sample(1), sample(2)];
  const head = [
    lineOf(' Walk to the machine. Which is the smallest line you can read? '.slice(0, columns), 'reverse'),
    emptyLine,
  ];
  const foot = [lineOf('Press its number: 1, 2 or 3.   Enter: 2.   z changes it later.'.slice(0, columns), 'strong')];
  const room = rows - head.length - foot.length;
  const beside = besideLines(small, medium, 30, 4);
  const isWide = columns >= 72;
  const upper = isWide ? beside : [...small, emptyLine, ...medium];
  const all = upper.length + 1 + large.length <= room ? [...upper, emptyLine, ...large] : upper;
  const body = all.slice(0, Math.max(0, room));
  const blank = Array.from({ length: Math.max(0, room - body.length) }, () => emptyLine);
  return [...head.map((line) => centreLine(line, columns)), ...body, ...blank, ...foot].slice(0, rows);
}

function inkOf(row: string, ascii: boolean): Line {
  if (ascii) return lineOf(row);
  return [...row.matchAll(/#+| +/g)].map(
    ([run]): Segment => ({ text: ' '.repeat(run.length), role: run.startsWith('#') ? 'reverse' : 'plain' }),
  );
}
