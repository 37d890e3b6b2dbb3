/**
 * A frame of text as cells: what each place of the screen shows, character and style. Parsing is the last gate before
 * the terminal (P8): control characters and escape sequences other than colours and attributes never pass it.
 */
import stringWidth from 'string-width';

/** Attributes and colours of a cell in one fixed order, as SGR parameters ('' is plain, '1;31' bold red). */
export type Style = string;

/** `text` is one grapheme ('' for the right half of a wide one before it), `width` the columns it takes. */
export type Cell = { readonly text: string; readonly style: Style; readonly width: 0 | 1 | 2 };

export type Row = readonly Cell[];
/** Always `rows` rows of `columns` cells. */
export type Grid = readonly Row[];

const blank: Cell = { text: ' ', style: '', width: 1 };
const wideTail: Cell = { text: '', style: '', width: 0 };

/** A grid of plain blanks. Example: `blankGrid(2, 3)` has two rows of three blanks. */
export function blankGrid(rows: number, columns: number): Grid {
  const row = new Array<Cell>(columns).fill(blank);
  return new Array<Row>(rows).fill(row);
}

/** Whether two cells look the same. */
export function isSameCell(a: Cell, b: Cell): boolean {
  return a === b || (a.text === b.text && a.style === b.style && a.width === b.width);
}

/**
 * Parses a frame (lines parted by newlines, styled with SGR sequences) into a grid of `rows` x `columns`; what lies
 * beyond is cut off, what is missing is blank. A character that would stand half outside is left out.
 * Example: `parseFrame('\u001b[7mab\u001b[27m', 1, 3)` is a and b in reverse, then a blank.
 */
export function parseFrame(frame: string, rows: number, columns: number): Grid {
  return makeFrameParser()(frame, rows, columns);
}

/**
 * `parseFrame` for one frame after another: a line that stood in the frame before gives the very same row again, so
 * that a screen of which little changes costs little.
 */
export function makeFrameParser(): (frame: string, rows: number, columns: number) => Grid {
  let known = new Map<string, ParsedLine>();
  let knownColumns = 0;

  return (frame, rows, columns) => {
    const found = new Map<string, ParsedLine>();
    const grid: Row[] = [];
    let pen = plainPen;
    for (const line of frame.split('\n').slice(0, rows)) {
      const before = pen === plainPen && columns === knownColumns ? known.get(line) : undefined;
      const parsed = before ?? parseLine(line, columns, pen);
      if (pen === plainPen) found.set(line, parsed);
      pen = parsed.pen;
      grid.push(parsed.row);
    }
    known = found;
    knownColumns = columns;
    return [...grid, ...blankGrid(rows - grid.length, columns)];
  };
}

type ParsedLine = { readonly row: Row; readonly pen: Pen };

/** SGR attributes in force, by slot; a slot holds the parameters that set it. */
type Pen = Readonly<Partial<Record<Slot, string>>>;
type Slot = 'bold' | 'dim' | 'italic' | 'underline' | 'blink' | 'reverse' | 'hidden' | 'strike' | 'ground' | 'back';
const slots: readonly Slot[] = [
  'bold',
  'dim',
  'italic',
  'underline',
  'blink',
  'reverse',
  'hidden',
  'strike',
  'ground',
  'back',
];
const plainPen: Pen = {};

const ESC = String.fromCharCode(0x1b);
const CSI = String.fromCharCode(0x9b);
/** One of: an SGR sequence; any other escape or control sequence; a control character; text without any. */
const tokens = new RegExp(`${ESC}\\[([0-9;:]*)m|(?:${ESC}\\[?|${CSI})[0-?]*[ -/]*[@-~]|\\p{Cc}|\\P{Cc}+`, 'gu');
/** OSC, DCS, SOS, PM and APC with the text they carry, ended or not. */
const controlString = new RegExp(`${ESC}[\\]PX^_]\\P{Cc}*(?:${ESC}\\\\|\\p{Cc}|$)`, 'gu');
const control = /^\p{Cc}/u;

function parseLine(line: string, columns: number, startPen: Pen): ParsedLine {
  let pen = startPen;
  const row: Cell[] = [];
  for (const [token, sgr] of line.replace(controlString, '').matchAll(tokens)) {
    if (sgr !== undefined) pen = penAfter(pen, sgr);
    else if (!control.test(token)) appendText(row, token, pen, columns);
  }
  while (row.length < columns) row.push(blank);
  return { row, pen };
}

function styleOf(pen: Pen, shown: readonly Slot[] = slots): Style {
  return shown.flatMap((slot) => pen[slot] ?? []).join(';');
}

/** A blank in no reverse shows neither weight nor letter colour, so those must not make it differ. */
const slotsOfBlank: readonly Slot[] = ['underline', 'strike', 'back'];

const graphemes = new Intl.Segmenter(undefined, { granularity: 'grapheme' });
const printableAscii = /^[ -~]*$/;

function appendText(row: Cell[], text: string, pen: Pen, columns: number): void {
  const style = styleOf(pen);
  const blankStyle = pen.reverse ? style : styleOf(pen, slotsOfBlank);
  const parts = printableAscii.test(text) ? text : Array.from(graphemes.segment(text), (part) => part.segment);
  for (const part of parts) {
    const width = columnsOf(part);
    if (width === 0) continue;
    if (row.length + width > columns) return;
    row.push({ text: part, style: part === ' ' ? blankStyle : style, width });
    if (width === 2) row.push(wideTail);
  }
}

/** The columns of a grapheme, by the same table that Ink lays out with. */
function columnsOf(grapheme: string): 0 | 1 | 2 {
  if (grapheme.length === 1 && grapheme >= ' ' && grapheme <= '~') return 1;
  const columns = stringWidth(grapheme);
  return columns === 0 ? 0 : columns === 1 ? 1 : 2;
}

function penAfter(pen: Pen, sgr: string): Pen {
  const codes = sgr === '' ? ['0'] : sgr.split(';');
  let next = pen;
  for (let at = 0; at < codes.length; at += 1) {
    const code = Number(codes[at]?.split(':')[0] || 0);
    const taken = (code === 38 || code === 48) && !codes[at]?.includes(':') ? (codes[at + 1] === '5' ? 3 : 5) : 1;
    next = penAfterCode(next, code, codes.slice(at, at + taken).join(';'));
    at += taken - 1;
  }
  return next;
}

const setters: Readonly<Record<number, Slot>> = {
  1: 'bold',
  2: 'dim',
  3: 'italic',
  4: 'underline',
  5: 'blink',
  7: 'reverse',
  8: 'hidden',
  9: 'strike',
};
const clearers: Readonly<Record<number, readonly Slot[]>> = {
  22: ['bold', 'dim'],
  23: ['italic'],
  24: ['underline'],
  25: ['blink'],
  27: ['reverse'],
  28: ['hidden'],
  29: ['strike'],
  39: ['ground'],
  49: ['back'],
};

function penAfterCode(pen: Pen, code: number, parameters: string): Pen {
  if (code === 0) return plainPen;
  const cleared = clearers[code];
  if (cleared) {
    const left = Object.entries(pen).filter(([slot]) => !cleared.includes(slot as Slot));
    return left.length === 0 ? plainPen : Object.fromEntries(left);
  }
  const slot = setters[code] ?? slotOfColour(code);
  return slot ? { ...pen, [slot]: parameters } : pen;
}

function slotOfColour(code: number): Slot | undefined {
  if ((code >= 30 && code <= 38) || (code >= 90 && code <= 97)) return 'ground';
  if ((code >= 40 && code <= 48) || (code >= 100 && code <= 107)) return 'back';
  return undefined;
}
