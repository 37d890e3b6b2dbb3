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
  // All of them beside it, or the first of two; X and Y are never parted.
  for (const count of new Set(seconds.length <= 2 ? [seconds.length, 1] : [seconds.length])) {
    const beside = sideBySide(mains, seconds.slice(0, count), { ...room, rows: room.rows - (seconds.length - count) });
    if (beside !== null) return [...beside, ...asLines(seconds.slice(count), room)];
  }
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

/** Rows that show every main reading as a small block digit, with a blank row between, and every second one as a line. */
export function fewestRows(readings: readonly Reading[]): number {
  const mains = readings.filter((one) => one.rank === 'main').length;
  return readings.reduce(
    (sum, one) => sum + (one.rank === 'main' ? smallestBlock + (one.below === null ? 0 : 1) : 1),
    Math.max(0, mains - 1),
  );
}

/** One main reading and the second ones, next to each other, their feet level; null when they do not fit. */
function sideBySide(mains: readonly Reading[], seconds: readonly Reading[], room: Room): readonly Line[] | null {
  const [main] = mains;
  if (main === undefined || mains.length > 1 || seconds.length === 0) return null;
  const large = stacked([main], room);
  const width = Math.max(...large.map(widthOf));
  const gap = Math.min(8, Math.max(5, Math.floor(room.columns / 12)));
  const columns = room.columns - width - gap;
  const small = stacked(seconds, { ...room, columns, rows: large.length, digitRows: smallestBlock });
  const isDrawn = large.length >= smallestBlock && small.length >= smallestBlock * seconds.length;
  if (!isDrawn || Math.max(...small.map(widthOf)) > columns) return null;
  const lead = Array.from({ length: large.length - small.length }, () => emptyLine);
  return besideLines(large, [...lead, ...small], width, gap);
}

/** Second readings for which no blocks are left, side by side on one row where they fit. */
function asLines(readings: readonly Reading[], room: Room): readonly Line[] {
  if (readings.length === 0) return [];
  const words = readings.map((one) => `${one.label} ${one.text}`.trim());
  const joined = words.join('   ');
  return (joined.length <= room.columns ? [joined] : words).map((text) => lineOf(text, 'strong'));
}

/** Rows of the main digits as `readingLines` draws them; 1 where they are plain text, Infinity without any. */
export function mainDigitRows(readings: readonly Reading[], room: Room): number {
  const mains = readings.filter((one) => one.rank === 'main');
  const rows = room.rows - (readings.length - mains.length);
  return Math.min(...evenSizes(mains, { ...room, rows }).map((one) => digitExtent('0', one.size).rows));
}

/** Readings one under the other, all at one size. */
function stacked(readings: readonly Reading[], whole: Room): readonly Line[] {
  if (readings.length === 0 || whole.rows <= 0) return [];
  const fresh = readings.filter((one) => one.fresh).length;
  const room = { ...whole, rows: whole.rows - 2 * fresh, columns: whole.columns - (fresh > 0 ? 2 * marginColumns : 0) };
  const even = evenSizes(readings, room);
  const used = even.reduce((sum, one) => sum + digitExtent('0', one.size).rows, belowRows(readings));
  const tallest = Math.min(...even.map((one) => digitExtent('0', one.size).rows));
  const hasGaps = tallest > 1 && used + readings.length - 1 <= room.rows;
  return readings
    .flatMap((one, index) => {
      const drawn = even[index];
      return drawn === undefined ? [] : [...(hasGaps && index > 0 ? [emptyLine] : []), ...oneReading(one, drawn, room)];
    })
    .slice(0, whole.rows);
}

const belowRows = (readings: readonly Reading[]): number => readings.filter((one) => one.below !== null).length;

/** Size and label of each reading, all with equally tall digits. */
function evenSizes(readings: readonly Reading[], room: Room): readonly Labelled[] {
  const digitRows = Math.max(1, Math.floor((room.rows - belowRows(readings)) / readings.length));
  const sizes = readings.map((one) => chooseLabelled(one, room, digitRows));
  const tallest = Math.min(...sizes.map((one) => digitExtent('0', one.size).rows));
  const same = sizes.map((own, index) => {
    const reading = readings[index];
    const isSame = reading === undefined || digitExtent('0', own.size).rows === tallest;
    return isSame ? own : chooseLabelled(reading, { ...room, digitRows: tallest }, tallest);
  });
  return evenWidths(readings, same);
}

/** Columns of ground left and right of a reversed number, so that no stroke melts into the dark around it. */
const marginColumns = 2;

/** How a label is shown: in one drawing with its number, as blocks of its own before it, or as plain text. */
type DrawnLabel =
  | { readonly kind: 'none' | 'whole' | 'text' }
  | { readonly kind: 'blocks'; readonly size: Extract<DigitSize, { kind: 'block' }> };

type Labelled = { readonly text: string; readonly size: DigitSize; readonly label: DrawnLabel };

/** Of equally tall readings all take the narrowest pixel, so that X and Y look alike. */
function evenWidths(readings: readonly Reading[], drawn: readonly Labelled[]): readonly Labelled[] {
  const blocks = drawn.flatMap(({ size }) => (size.kind === 'block' ? [size] : []));
  const [first] = blocks;
  if (first === undefined || blocks.length < readings.length) return drawn;
  if (blocks.some(({ font, pixelRows }) => font !== first.font || pixelRows !== first.pixelRows)) return drawn;
  const pixelColumns = Math.min(...blocks.map((size) => size.pixelColumns));
  const areWhole = drawn.every((one) => one.label.kind === 'whole');
  return drawn.map((one) => ({
    text: one.text,
    size: { ...first, pixelColumns },
    label: one.label.kind === 'whole' && !areWhole ? { kind: 'text' } : one.label,
  }));
}

/**
 * The number as it is drawn alone, with its label in blocks or as plain text where that costs it no row and little of its
 * width. A main reading goes without a word that the headline says too; a second one has its label in any case.
 */
function chooseLabelled(reading: Reading, room: Room, rows: number): Labelled {
  const { label } = reading;
  const sizeIn = (text: string, columns: number): DigitSize =>
    chooseDigitSize({ text, columns, rows, wantedRows: room.digitRows });
  const plainRoom = room.columns - labelWidth(reading);
  const text = fittingText(reading.text, (one) => sizeIn(one, label.length > 1 ? room.columns : plainRoom));
  const plain: Labelled = { text, size: sizeIn(text, plainRoom), label: { kind: label === '' ? 'none' : 'text' } };
  if (label === '') return plain;
  if (label.length === 1) {
    const whole = `${label} ${text}`;
    const drawn = hasDigits(whole) ? sizeIn(whole, room.columns) : ({ kind: 'line' } as const);
    // An axis is read with its number or not at all.
    return drawn.kind === 'block' ? { text, size: drawn, label: { kind: 'whole' } } : plain;
  }
  const alone = sizeIn(text, room.columns);
  if (alone.kind === 'line') return { text, size: alone, label: { kind: 'text' } };
  const before = digitExtent(text, alone);
  const keeps = ({ size }: Labelled): boolean => {
    const now = digitExtent(text, size);
    return now.rows >= before.rows && now.columns >= keptWidth * before.columns;
  };
  const labelled = [...blockLabels(label, text, sizeIn, room), plain].find(keeps);
  return labelled ?? (reading.rank === 'second' ? plain : { text, size: alone, label: { kind: 'none' } });
}

/** The text, or without the blanks round its plus where only that can be drawn. Example: `4 + 117`, `4+117`. */
function fittingText(text: string, sizeOf: (text: string) => DigitSize): string {
  const tight = text.replace(' + ', '+');
  return sizeOf(text).kind === 'line' && sizeOf(tight).kind === 'block' ? tight : text;
}

/** Of the width that a number has alone, what it keeps beside a label. */
const keptWidth = 0.7;

/** The number with its label in blocks of their own, the wider ones first; none where the label cannot be drawn. */
function blockLabels(
  label: string,
  text: string,
  sizeIn: (text: string, columns: number) => DigitSize,
  room: Room,
): readonly Labelled[] {
  if (!hasDigits(label)) return [];
  return [2, 1].map((pixelColumns) => {
    const size = { kind: 'block', font: '3x5', pixelColumns, pixelRows: 1 } as const;
    return { text, size: sizeIn(text, room.columns - blockLabelWidth(label, size)), label: { kind: 'blocks', size } };
  });
}

const blockLabelWidth = (label: string, size: Extract<DigitSize, { kind: 'block' }>): number =>
  digitExtent(label, size).columns + 2 + size.pixelColumns;

function labelWidth(reading: Reading): number {
  return reading.label === '' ? 0 : reading.label.length + 1;
}

/** A reading in words, with its small print where `columns` have room for it. Example: `Z 1 + 40 (top .280 in)`. */
export function asWords({ label, text, below }: Reading, columns: number): string {
  const short = [label, text].filter((part) => part !== '').join(' ');
  const long = below === null ? short : `${short} ${below}`;
  return long.length <= columns ? long : short;
}

function oneReading(reading: Reading, drawn: Labelled, room: Room): readonly Line[] {
  const below = reading.below;
  if (drawn.size.kind === 'line') {
    return [lineOf(asWords({ ...reading, text: drawn.text }, room.columns), reading.fresh ? 'reverse' : 'strong')];
  }
  const text = drawn.label.kind === 'whole' ? `${reading.label} ${drawn.text}` : drawn.text;
  const rows = reading.fresh ? withMargin(digitLines(text, drawn.size)) : digitLines(text, drawn.size);
  const number = rows.map((row) => inked(row, reading.fresh, room.ascii));
  const { indent, lines } = besideLabel(reading, drawn.label, number, room);
  if (below === null) return lines;
  return [...lines, lineOf(' '.repeat(Math.max(0, Math.min(indent, room.columns - below.length))) + below)];
}

/** The number with its label before it: blocks with their feet level, plain text at half height. */
function besideLabel(
  reading: Reading,
  label: DrawnLabel,
  number: readonly Line[],
  room: Room,
): { readonly indent: number; readonly lines: readonly Line[] } {
  switch (label.kind) {
    case 'none':
    case 'whole':
      return { indent: 0, lines: number };
    case 'text': {
      const indent = labelWidth(reading);
      const middle = Math.floor(number.length / 2);
      const lines = number.map((row, index) => [
        ...lineOf((index === middle ? reading.label : '').padEnd(indent), 'strong'),
        ...row,
      ]);
      return { indent, lines };
    }
    case 'blocks': {
      const indent = blockLabelWidth(reading.label, label.size);
      const word = digitLines(reading.label, label.size).map((row) => inked(row, false, room.ascii));
      const lead = Array.from({ length: Math.max(0, number.length - word.length) }, () => emptyLine);
      return { indent, lines: besideLines([...lead, ...word], number, indent, 0) };
    }
    default:
      return label satisfies never;
  }
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
