/**
 * The distance trial: once, at the first start, samples in three sizes stand on the screen, the reader walks to the machine
 * and says which is the smallest that can be read from there. Any answer does; z changes it later.
 */

import { digitOf } from '../flow/flow.ts';
import { type DigitSize, digitLines } from '../parts/digits.ts';
import {
  besideLines,
  centreLine,
  cropLine,
  emptyLine,
  type Line,
  lineOf,
  type Segment,
  wrapText,
} from '../parts/lines.ts';
import type { Key } from '../terminal/key.ts';

/** Rows of the samples, smallest first. */
const trialRows = [5, 7, 10] as const;
const middle = 1;
const small = { kind: 'block', font: '3x5', pixelColumns: 2, pixelRows: 1 } as const;
const medium = { kind: 'block', font: '5x7', pixelColumns: 2, pixelRows: 1 } as const;
const large = { kind: 'block', font: '3x5', pixelColumns: 4, pixelRows: 2 } as const;
const largeNarrow = { ...large, pixelColumns: 3 } as const;
/** From so many columns on the samples have a blank behind their number. */
const wideColumns = 72;

/** The rows that a key chooses: its digit, or the middle one for Enter; null for a key that chooses nothing. */
export function chosenRows(key: Key): number | null {
  if (key.name === 'enter' || key.name === 'kp-enter') return trialRows[middle];
  const digit = Number(digitOf(key) ?? 'NaN');
  return trialRows[digit - 1] ?? null;
}

const question = 'Walk to the machine. Which is the smallest line you can read?';

/** Exactly `rows` lines of at most `columns`: the question, the samples with their numbers, what the keys do. */
export function trialLines(columns: number, rows: number, ascii: boolean): readonly Line[] {
  const isWide = columns >= wideColumns;
  const head = wrapText(question, columns - 2, 2, 'reverse').map((line) => centreLine(line, columns));
  const foot = lineOf(
    isWide
      ? 'Press its number: 1, 2 or 3.   Enter: 2.   z changes it later.'
      : 'Press its first digit: 1, 2, 3; Enter: 2; z later.',
    'strong',
  );
  const top = isWide || rows > 15 ? [...head, emptyLine] : head;
  const room = Math.max(0, rows - top.length - 1);
  const body = samples(isWide, room, ascii).slice(0, room);
  const blank = Array.from({ length: room - body.length }, () => emptyLine);
  return [...top, ...body, ...blank, foot].slice(0, rows).map((line) => cropLine(line, columns));
}

/** Small over medium and large beside them, so that all three are there on the smallest screen; large below where it can. */
function samples(isWide: boolean, room: number, ascii: boolean): readonly Line[] {
  const drawn = (number: number, size: DigitSize): readonly Line[] =>
    digitLines(isWide ? `${number} 68` : `${number}6`, size).map((row) => inkOf(row, ascii));
  if (isWide && room >= 18)
    return [...besideLines(drawn(1, small), drawn(2, medium), 28, 4), emptyLine, ...drawn(3, large)];
  const stacked = [...drawn(1, small), ...(room > 12 ? [emptyLine] : []), ...drawn(2, medium)];
  return isWide
    ? besideLines(
        stacked,
        digitLines('36', large).map((row) => inkOf(row, ascii)),
        42,
        2,
      )
    : besideLines(stacked, drawn(3, largeNarrow), 22, 4);
}

function inkOf(row: string, ascii: boolean): Line {
  if (ascii) return lineOf(row);
  return [...row.matchAll(/#+| +/g)].map(
    ([run]): Segment => ({ text: ' '.repeat(run.length), role: run.startsWith('#') ? 'reverse' : 'plain' }),
  );
}
