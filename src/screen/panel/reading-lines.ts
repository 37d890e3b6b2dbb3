/**
 * Readings as block digits. The main ones have one size, so that none shouts by chance; a second one stands beside a
 * single main reading where it fits, else under it, as blocks where rows are left and as a bold line where not.
 */
import { chooseDigitSize, type DigitSize, digitExtent, digitLines, hasDigits } from '../parts/digits.ts';
import { besideLines, emptyLine, type Line, lineOf, type Segment, widthOf } from '../parts/lines.ts';
import type { Reading, Room } from './panel.ts';

/** Rows of the smallest block digit: what a second reading is drawn in. */
export const smallestBlock = 5;

/** Lines of the readings in the room there is, at most `room.rows`; the main ones in `room.digitRows` or more if they fit. */
export function readingLines(readings: readonly Reading[], room: Room): readonly Line[] {
  if (readings.length === 0 || room.rows <= 0) return [];
  const mains = readings.filter((one) => one.rank === 'main');
  const seconds = readings.filter((one) => one.rank === 'second');
  if (mains.length === 0) return stacked(seconds, { ...room, digitRows: smallestBlock });
  const beside = sideBySide(mains, seconds, room);
  if (beside !== null) return beside;
  const spare = room.rows - Math.max(fewestRows(mains), rowsWanted(mains, room.digitRows));
  const secondRows =
    spare >= seconds.length * (smallestBlock + 1) ? seconds.length * (smallestBlock + 1) : seconds.length;
  const large = stacked(mains, { ...room, rows: room.rows - secondRows });
  const gap = seconds.length > 0 && large.length + secondRows < room.rows ? [emptyLine] : [];
  const left = room.rows - large.length - gap.length;
  const small = stacked(seconds, { ...room, rows: left, digitRows: smallestBlock });
  return [...large, ...gap, ...small].slice(0, room.rows);
}

/** Rows that readings take at a digit size, with a gap row between. */
export function rowsWanted(readings: readonly Reading[], digitRows: number): number {
  const below = readings.filter((one) => one.below !== null).length;
  return readings.length * Math.max(smallestBlock, digitRows) + below + Math.max(0, readings.length - 1);
}

/** Rows that show every main reading as a small block digit and every second one as a line. */
export function fewestRows(readings: readonly Reading[]): number {
  return readings.reduce(
    (sum, one) => sum + (one.rank === 'main' ? smallestBlock + (one.below === null ? 0 : 1) : 1),
    0,
  );
}

/** One main reading and one second, next to each other, their feet level; null when they do not fit. */
function sideBySide(mains: readonly Reading[], seconds: readonly Reading[], room: Room): readonly Line[] | null {
  const [main, second] = [mains[0], seconds[0]];
  if (main === undefined || second === undefined || mains.length + seconds.length > 2) return null;
  const large = stacked([main], room);
  const width = Math.max(...large.map(widthOf));
  const gap = Math.min(6, Math.max(3, Math.floor(room.columns / 20)));
  const columns = room.columns - width - gap;
  const small = stacked([second], { ...room, columns, rows: large.length, digitRows: smallestBlock });
  const isDrawn = large.length >= smallestBlock && small.length >= smallestBlock;
  if (!isDrawn || Math.max(...small.map(widthOf)) > columns) return null;
  const lead = Array.from({ length: large.length - small.length }, () => emptyLine);
  return besideLines(large, [...lead, ...small], width, gap);
}

/** Readings one under the other, all at one size. */
function stacked(readings: readonly Reading[], whole: Room): readonly Line[] {
  if (readings.length === 0 || whole.rows <= 0) return [];
  const fresh = readings.filter((one) => one.fresh).length;
  const room = { ...whole, rows: whole.rows - 2 * fresh, columns: whole.columns - (fresh > 0 ? 2 * marginColumns : 0) };
  const below = readings.filter((one) => one.below !== null).length;
  const digitRows = Math.max(1, Math.floor((room.rows - below) / readings.length));
  const sizes = readings.map((one) => chooseLabelled(one, room, digitRows));
  const tallest = Math.min(...sizes.map((one) => digitExtent('0', one.size).rows));
  const same = readings.map((one, index) => {
    const own = sizes[index];
    const isSame = own !== undefined && digitExtent('0', own.size).rows === tallest;
    return isSame ? own : chooseLabelled(one, { ...room, digitRows: tallest }, tallest);
  });
  const even = evenWidths(readings, same);
  const used = even.reduce((sum, one) => sum + digitExtent('0', one.size).rows, below);
  const hasGaps = tallest > 1 && used + readings.length - 1 <= room.rows;
  return readings
    .flatMap((one, index) => {
      const drawn = even[index];
      return drawn === undefined ? [] : [...(hasGaps && index > 0 ? [emptyLine] : []), ...oneReading(one, drawn, room)];
    })
    .slice(0, whole.rows);
}

/** Columns of ground left and right of a reversed number, so that no stroke melts into the dark around it. */
const marginColumns = 2;

type Labelled = { readonly size: DigitSize; readonly isLabelDrawn: boolean };

/** Of equally tall readings all take the narrowest pixel, so that X and Y look alike. */
function evenWidths(readings: readonly Reading[], drawn: readonly Labelled[]): readonly Labelled[] {
  const blocks = drawn.flatMap(({ size }) => (size.kind === 'block' ? [size] : []));
  const [first] = blocks;
  if (first === undefined || blocks.length < readings.length) return drawn;
  if (blocks.some(({ font, pixelRows }) => font !== first.font || pixelRows !== first.pixelRows)) return drawn;
  const pixelColumns = Math.min(...blocks.map((size) => size.pixelColumns));
  const isLabelDrawn = drawn.every((one) => one.isLabelDrawn);
  return drawn.map(() => ({ size: { ...first, pixelColumns }, isLabelDrawn }));
}

/** The label is drawn as large as the number where it can be drawn and costs the number no size. */
function chooseLabelled(reading: Reading, room: Room, rows: number): Labelled {
  const plainRoom = room.columns - labelWidth(reading);
  const size = chooseDigitSize({ text: reading.text, columns: plainRoom, rows, wantedRows: room.digitRows });
  const whole = `${reading.label} ${reading.text}`;
  if (reading.label.length === 1 && hasDigits(whole)) {
    const drawn = chooseDigitSize({ text: whole, columns: room.columns, rows, wantedRows: room.digitRows });
    if (digitExtent('0', drawn).rows >= digitExtent('0', size).rows) return { size: drawn, isLabelDrawn: true };
  }
  return { size, isLabelDrawn: false };
}

function labelWidth(reading: Reading): number {
  return reading.label === '' ? 0 : reading.label.length + 1;
}

function oneReading(reading: Reading, drawn: Labelled, room: Room): readonly Line[] {
  const below = reading.below;
  if (drawn.size.kind === 'line') {
    const short = [reading.label, reading.text].filter((part) => part !== '').join(' ');
    const long = below === null ? short : `${short} ${below}`;
    return [lineOf(long.length <= room.columns ? long : short, reading.fresh ? 'reverse' : 'strong')];
  }
  const text = drawn.isLabelDrawn ? `${reading.label} ${reading.text}` : reading.text;
  const indent = drawn.isLabelDrawn ? 0 : labelWidth(reading);
  const rows = reading.fresh ? withMargin(digitLines(text, drawn.size)) : digitLines(text, drawn.size);
  const middle = Math.floor(rows.length / 2);
  const lines = rows.map((row, index): Line => {
    const label = indent === 0 ? '' : (index === middle ? reading.label : '').padEnd(indent);
    const ink = inked(row, reading.fresh, room.ascii);
    return label === '' ? ink : [...lineOf(label, 'strong'), ...ink];
  });
  return below === null ? lines : [...lines, lineOf(' '.repeat(indent) + below)];
}

/** A drawing with ground all round it. */
function withMargin(rows: readonly string[]): readonly string[] {
  const side = ' '.repeat(marginColumns);
  const blank = ' '.repeat((rows[0]?.length ?? 0) + 2 * marginColumns);
  return [blank, ...rows.map((row) => `${side}${row}${side}`), blank];
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
