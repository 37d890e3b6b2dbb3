/**
 * Lays a panel out in the room there is: a pure function of panel and room. Readings take what they need to be read from
 * across the shop and grow into what is left; the picture stands beside them where that costs them nothing. Nothing
 * wraps or scrolls: the answer has exactly `rows` lines of at most `columns`.
 */
import {
  besideLines,
  centreLine,
  cropLine,
  emptyLine,
  type Line,
  lineOf,
  textOf,
  widthOf,
  wrapText,
} from '../parts/lines.ts';
import { bannerLine } from './banner-line.ts';
import type { Panel, Picture, Room } from './panel.ts';
import { pictureLines } from './picture-lines.ts';
import { asWords, fewestRows, mainDigitRows, readingLines, rowsWanted, smallestBlock } from './reading-lines.ts';
import { showablePanel } from './showable-panel.ts';
import { textLines, textRows } from './text-lines.ts';

/** Smaller than this, numbers are shown as plain text; it still counts. */
const smallestFullScreen = { columns: 50, rows: 15 } as const;
/** Who wants digits of so many rows reads no facts from where he stands: they keep one row. */
const farRows = 10;
/** From so many rows on there is a blank row under the headline and two rows of times. */
const roomyRows = 20;

/** Exactly `room.rows` lines, each at most `room.columns` wide, in characters that the terminal can show. */
export function layoutPanel(given: Panel, room: Room): readonly Line[] {
  const panel = showablePanel(given, room.ascii);
  if (room.columns < smallestFullScreen.columns || room.rows < smallestFullScreen.rows) return layoutSmall(panel, room);
  const { headline } = panel;
  const whole = layoutUnder(headline?.text ?? '', panel, room);
  const brief = headline?.brief;
  if (brief === undefined || widthOf(lineOf(brief.text)) + 2 > room.columns) return whole;
  const shown = whole
    .map(textOf)
    .map((text) => text.trim())
    .join(' ');
  return brief.insteadOf.every((fact) => shown.includes(wordsOf(fact))) ? whole : layoutUnder(brief.text, panel, room);
}

/** The words of a fact with one blank between, as they stand in lines that were broken and joined again. */
const wordsOf = (fact: string): string => fact.trim().replace(/ +/g, ' ');

/** The screen under a headline in full or in brief. */
function layoutUnder(headline: string, panel: Panel, room: Room): readonly Line[] {
  const head = [bannerLine(panel.banner, room.columns), ...headlineLines(headline, panel, room)];
  const { shown, foot } = footLines(panel, room, room.rows - head.length);
  const bodyRows = room.rows - head.length - foot.length;
  const body = bodyLines(shown, { ...room, rows: bodyRows });
  return [...head, ...padRows(body, bodyRows), ...foot].map((line) => cropLine(line, room.columns));
}

/** Rows that a panel of words under `headline`, without times, has for its facts. */
export function bodyRows(columns: number, rows: number, headline: string): number {
  if (columns < smallestFullScreen.columns || rows < smallestFullScreen.rows) return Math.max(1, rows - 4);
  const head = widthOf(lineOf(headline)) + 2 <= columns ? 1 : 2;
  return rows - head - (rows >= roomyRows ? 4 : 3);
}

/** Fewer than 50x15: the numbers in plain text, what was said, where we are, the keys. */
function layoutSmall(panel: Panel, room: Room): readonly Line[] {
  const readings = panel.readings.map((one) => `${one.label} ${one.text}`.trim()).join('  ');
  const { place, counts } = panel.banner;
  const lines = [
    lineOf(readings === '' ? (panel.headline?.text ?? '') : readings, 'strong'),
    panel.message === null ? lineOf(panel.headline?.text ?? '') : lineOf(panel.message.text, panel.message.role),
    lineOf([place.at(-1) ?? '', counts].filter((part) => part !== '').join('  ')),
    lineOf(panel.hints.join('  ')),
    ...panel.facts.map((fact) => lineOf(fact)),
  ];
  return padRows(lines, room.rows).map((line) => cropLine(line, room.columns));
}

function headlineLines(text: string, panel: Panel, room: Room): readonly Line[] {
  if (panel.headline === null) return [];
  const { role } = panel.headline;
  const whole =
    widthOf(lineOf(text)) + 2 <= room.columns ? [lineOf(` ${text} `, role)] : wrapText(text, room.columns, 2, role);
  const lines = whole.map((line) => centreLine(line, room.columns));
  return room.rows >= roomyRows ? [...lines, emptyLine] : lines;
}

/** What stands at the bottom, and the panel that is left for the body. */
type Foot = { readonly shown: Panel; readonly foot: readonly Line[] };

/**
 * Message, times and keys at the bottom: the message takes the place of the times where rows are few. A reason is never cut
 * short: one that is wider than the screen takes a second row while it stands.
 */
function footLines(panel: Panel, room: Room, rows: number): Foot {
  const message = messageLines(panel, room);
  const hints = lineOf(packed(panel.hints, room.columns, 1)[0] ?? '', 'strong');
  if (room.rows < roomyRows) {
    const lowered = loweredSeconds(panel, room, rows);
    if (lowered !== null) return { shown: lowered.shown, foot: [lowered.line, ...(message ?? [hints])] };
    const pace = lineOf(packed(panel.pace, room.columns, 1)[0] ?? '');
    return { shown: panel, foot: [...(message ?? [pace]), hints] };
  }
  const pace = packed(panel.pace, room.columns, 2).map((text) => lineOf(text));
  return { shown: panel, foot: [...(message ?? [emptyLine]), ...pace, hints] };
}

/**
 * Where X and Y would touch only because the depth takes a row under them, it stands before the times instead: two numbers
 * without a blank row between are read as one. Their small print goes: the headline has it in brief. A message then takes the
 * place of the keys. Null where nothing is won by it.
 */
function loweredSeconds(panel: Panel, room: Room, rows: number): { readonly shown: Panel; readonly line: Line } | null {
  const mains = panel.readings.flatMap((one) => (one.rank === 'main' ? [{ ...one, below: null }] : []));
  const seconds = panel.readings.filter((one) => one.rank === 'second');
  const left = rows - 2;
  if (panel.weight !== 'digits' || mains.length < 2 || seconds.length === 0) return null;
  if (fewestRows(panel.readings) <= left || fewestRows(mains) > left) return null;
  const [words] = packed([...seconds.map((one) => asWords(one, room.columns)), ...panel.pace], room.columns, 1);
  return { shown: { ...panel, readings: mains }, line: lineOf(words ?? '', 'strong') };
}

function messageLines({ message }: Panel, { columns }: Room): readonly Line[] | null {
  if (message === null) return null;
  const whole = lineOf(` ${message.text} `, message.role);
  return widthOf(whole) <= columns ? [whole] : wrapText(message.text, columns, 2, message.role);
}

/** Whole items side by side, three blanks between, on at most `rows` lines; what does not fit is left out. */
function packed(items: readonly string[], columns: number, rows: number): readonly string[] {
  const lines: string[] = [];
  for (const item of items) {
    const last = lines.at(-1);
    const joined = last === undefined ? item : `${last}   ${item}`;
    if (last !== undefined && joined.length <= columns) lines[lines.length - 1] = joined;
    else if (lines.length < rows && item.length <= columns) lines.push(item);
  }
  return lines;
}

function bodyLines(panel: Panel, room: Room): readonly Line[] {
  return panel.weight === 'words' ? wordsBody(panel, room) : digitsBody(panel, room);
}

/** Words first: the first of these that has room for every word; else words alone, and how to see the rest. */
function wordsBody(panel: Panel, room: Room): readonly Line[] {
  const { picture } = panel;
  return (
    (picture === null ? null : wordsBeside(panel, picture, room)) ??
    (picture === null ? null : wordsUnder(panel, picture, room)) ??
    wordsAlone(panel, room)
  );
}

/** Picture at the left, readings and words at its right. */
function wordsBeside(panel: Panel, picture: Picture, room: Room): readonly Line[] | null {
  const drawn = pictureIn(picture, room, room.rows);
  if (drawn === null || drawn.columns < 40) return null;
  const right = { ...room, columns: drawn.columns };
  const words = textRows(panel, right.columns);
  const least = leastReadings(panel, right);
  if (words + least > right.rows) return null;
  return besideLines(drawn.lines, column(panel, right), drawn.width, 2);
}

/** Picture and readings side by side above, words under them. */
function wordsUnder(panel: Panel, picture: Picture, room: Room): readonly Line[] | null {
  const rows = room.rows - textRows(panel, room.columns);
  const drawn = rows < smallestBlock ? null : pictureIn(picture, room, rows);
  if (drawn === null) return null;
  const readings = readingLines(panel.readings, { ...room, columns: drawn.columns, rows });
  if (readings.length < leastReadings(panel, { ...room, columns: drawn.columns })) return null;
  const top = besideLines(drawn.lines, readings, drawn.width, 2);
  return [...top, ...textLines(panel, room.columns, room.rows - top.length)];
}

function wordsAlone(panel: Panel, room: Room): readonly Line[] {
  return column(panel, room);
}

/**
 * Readings above, words under them, in one column: the words get all they need, the readings the rest, yet a main
 * reading is never less than a block digit.
 */
function column(panel: Panel, room: Room): readonly Line[] {
  const words = textRows(panel, room.columns);
  const mains = panel.readings.filter((one) => one.rank === 'main').length;
  const least = mains === 0 ? panel.readings.length : fewestRows(panel.readings);
  const spare = Math.max(room.rows - words, Math.min(least, room.rows - 1));
  const wanted = { ...room, rows: spare, digitRows: wantedRows(panel, { ...room, rows: spare + 2 }) };
  const readings = readingLines(panel.readings, wanted);
  const gap = readings.length > 0 && readings.length + words < room.rows ? [emptyLine] : [];
  const top = [...readings, ...gap];
  return [...top, ...textLines(panel, room.columns, room.rows - top.length)];
}

/** Rows below which readings are not worth drawing: blocks for the main ones that can be, a line for each other. */
function leastReadings(panel: Panel, room: Room): number {
  return panel.readings.length === 0 ? 0 : Math.min(rowsWanted(panel.readings, room.digitRows), room.rows - 1);
}

/** Digits first: they keep the wanted size, grow while every word has its place, and share their rows with the picture. */
function digitsBody(panel: Panel, room: Room): readonly Line[] {
  const words = textRows(panel, room.columns);
  const isFar = room.digitRows >= farRows;
  const fewest = Math.min(words, room.rows < 12 || isFar ? 1 : Math.floor(room.rows / 4));
  const rows = Math.max(
    room.rows - words - 1,
    Math.min(room.rows - fewest, rowsWanted(panel.readings, room.digitRows)),
    Math.min(room.rows, fewestRows(panel.readings)),
  );
  const top = digitsTop(panel, { ...room, rows, digitRows: wantedRows(panel, room) }, room.digitRows);
  const left = room.rows - top.length;
  const gap = top.length > 0 && words < left ? [emptyLine] : [];
  return [...top, ...gap, ...textLines(panel, room.columns, left - gap.length)];
}

/** Shares of the columns that the picture may take: it becomes narrower before the digits beside it do. */
const pictureShares = [0.32, 0.27, 0.22] as const;
/** Of the width that the digits have alone, what they keep beside a picture that becomes no narrower for them. */
const keptWidth = 0.7;

/** The digits, with the picture beside them as long as they keep the rows that were asked for. */
function digitsTop(panel: Panel, room: Room, askedRows: number): readonly Line[] {
  const alone = readingLines(panel.readings, room);
  const { picture } = panel;
  if (picture === null) return alone;
  const rowsAlone = mainDigitRows(panel.readings, room);
  const shown = pictureShares.flatMap((share) => {
    const drawn = pictureIn(picture, room, room.rows, share);
    if (drawn === null) return [];
    const narrow = { ...room, columns: drawn.columns };
    const beside = readingLines(panel.readings, narrow);
    const isSmaller = mainDigitRows(panel.readings, narrow) < Math.min(rowsAlone, askedRows);
    return isSmaller ? [] : [{ drawn, beside }];
  });
  const best = shown.find(({ beside }) => widest(beside) >= keptWidth * widest(alone)) ?? shown[0];
  return best === undefined ? alone : besideLines(best.drawn.lines, best.beside, best.drawn.width, 2);
}

const widest = (lines: readonly Line[]): number => Math.max(0, ...lines.map(widthOf));

/** Rows wanted for a main reading: what the distance asks for, and more where the panel is large or the number alone. */
function wantedRows(panel: Panel, room: Room): number {
  const mains = panel.readings.filter((one) => one.rank === 'main').length;
  const share =
    mains <= 1 ? Math.min(14, Math.floor(room.rows * 0.5)) : Math.min(10, Math.floor(room.rows / mains / 1.5));
  return Math.max(room.digitRows, share);
}

type DrawnPicture = { readonly lines: readonly Line[]; readonly width: number; readonly columns: number };

/** The picture in at most a third of the columns, with what is left beside it; null when it does not fit. */
function pictureIn(picture: Picture, room: Room, rows: number, share: number = pictureShares[0]): DrawnPicture | null {
  const lines = pictureLines(picture(Math.min(Math.floor(room.columns * share), 60), rows));
  if (lines.length === 0) return null;
  const width = Math.max(...lines.map(widthOf));
  return { lines, width, columns: room.columns - width - 2 };
}

function padRows(lines: readonly Line[], rows: number): readonly Line[] {
  return Array.from({ length: Math.max(0, rows) }, (_, row) => lines[row] ?? emptyLine);
}
