/** Readings as block digits, one under the other, all of one panel at the same size so that none shouts by chance. */
import { chooseDigitSize, type DigitSize, digitExtent, digitLines, hasDigits } from '../parts/digits.ts';
import { emptyLine, type Line, lineOf, type Segment } from '../parts/lines.ts';
import type { Reading, Room } from './panel.ts';

/** Lines of the readings in the room there is, at most `room.rows`; a gap row between readings where there is one to spare. */
export function readingLines(readings: readonly Reading[], room: Room): Line[] {
  if (readings.length === 0 || room.rows <= 0) return [];
  const below = readings.filter((one) => one.below !== null).length;
  const digitRows = Math.max(1, Math.floor((room.rows - below) / readings.length));
  const sizes = readings.map((one) => chooseLabelled(one, room, digitRows));
  const tallest = Math.min(...sizes.map((one) => digitExtent('0', one.size).rows));
  const same = readings.map((one, index) => {
    const own = sizes[index];
    return own !== undefined && digitExtent('0', own.size).rows === tallest ? own : chooseLabelled(one, room, tallest);
  });
  const used = same.reduce((sum, one) => sum + digitExtent('0', one.size).rows, below);
  const hasGaps = used + readings.length - 1 <= room.rows;
  return readings
    .flatMap((one, index) => {
      const drawn = same[index];
      return drawn === undefined ? [] : [...(hasGaps && index > 0 ? [emptyLine] : []), ...oneReading(one, drawn, room)];
    })
    .slice(0, room.rows);
}

type Labelled = { readonly size: DigitSize; readonly isLabelDrawn: boolean };

/** The label is drawn as large as the number where it can be drawn and costs the number no size. */
function chooseLabelled(reading: Reading, room: Room, rows: number): Labelled {
  const plainRoom = room.columns - labelWidth(reading);
  const size = chooseDigitSize({ text: reading.text, columns: plainRoom, rows, wantedRows: room.digitRows });
  const whole = `${reading.label} ${reading.text}`;
  if (reading.label !== '' && hasDigits(whole)) {
    const drawn = chooseDigitSize({ text: whole, columns: room.columns, rows, wantedRows: room.digitRows });
    if (digitExtent('0', drawn).rows >= digitExtent('0', size).rows) return { size: drawn, isLabelDrawn: true };
  }
  return { size, isLabelDrawn: false };
}

function labelWidth(reading: Reading): number {
  return reading.label === '' ? 0 : reading.label.length + 1;
}

function oneReading(reading: Reading, drawn: Labelled, room: Room): Line[] {
  const text = drawn.isLabelDrawn ? `${reading.label} ${reading.text}` : reading.text;
  const rows = digitLines(text, drawn.size);
  const indent = drawn.isLabelDrawn ? 0 : labelWidth(reading);
  const middle = Math.floor(rows.length / 2);
  const lines = rows.map((row, index) => {
    const label = indent === 0 ? '' : (index === middle ? reading.label : '').padEnd(indent);
    const ink =
      drawn.size.kind === 'line'
        ? lineOf(row, reading.fresh ? 'reverse' : 'strong')
        : inked(row, reading.fresh, room.ascii);
    return label === '' ? ink : [...lineOf(label, 'strong'), ...ink];
  });
  return reading.below === null ? lines : [...lines, lineOf(' '.repeat(indent) + reading.below)];
}

/** '#' pixels as reversed blanks (a number that has just changed: the ground is reversed instead); '#' itself in ASCII. */
function inked(row: string, fresh: boolean, ascii: boolean): Line {
  if (ascii) return lineOf(row, fresh ? 'reverse' : 'plain');
  const segments: Segment[] = [];
  for (const [run] of row.matchAll(/#+| +/g)) {
    const isInk = run.startsWith('#');
    segments.push({ text: ' '.repeat(run.length), role: isInk === fresh ? 'plain' : 'reverse' });
  }
  return segments;
}
