/**
 * The bytes that turn one grid of cells into another: only cells that differ are written, each move and each change
 * of style in its shortest form. Pure. Every sequence used is understood by a VT220, the Linux console and xterm.
 */
import { type Cell, type Grid, isSameCell, type Row, type Style } from './cells.ts';

/** Where the terminal's cursor stands and what style it writes in; `at` undefined when we cannot be sure. */
export type Cursor = {
  readonly at: { readonly row: number; readonly column: number } | undefined;
  readonly style: Style;
};

export type Difference = { readonly bytes: string; readonly cursor: Cursor };

type Span = { readonly row: number; readonly from: number; readonly to: number };

/**
 * The bytes that turn `before` (what the terminal shows) into `after` of the same size, and the cursor they leave.
 * Two ways of going about it are tried, by place and by style (first all cells of one style, then of the next),
 * and the shorter one is taken. Empty when nothing differs.
 */
export function difference(before: Grid, after: Grid, cursor: Cursor): Difference {
  const spans = changedSpans(before, after);
  if (spans.length === 0) return { bytes: '', cursor };
  const byPlace = write(after, spans, cursor);
  const styles = stylesOf(after, spans);
  if (styles.length < 2) return byPlace;
  // The style in force goes first, so that it need not be set again.
  const order = [...styles].sort((a, b) => Number(b === cursor.style) - Number(a === cursor.style));
  const byStyle = write(
    after,
    order.flatMap((style) => spansOfStyle(after, spans, style)),
    cursor,
  );
  return byStyle.bytes.length < byPlace.bytes.length ? byStyle : byPlace;
}

function changedSpans(before: Grid, after: Grid): Span[] {
  return after.flatMap((row, index) => {
    const old = before[index] ?? [];
    return row === old
      ? []
      : spansWhere(row, index, (cell, column) => {
          const was = old[column];
          return was === undefined || !isSameCell(cell, was);
        });
  });
}

function spansWhere(row: Row, index: number, isWanted: (cell: Cell, column: number) => boolean): Span[] {
  const spans: Span[] = [];
  let from = -1;
  for (let column = 0; column <= row.length; column += 1) {
    const cell = row[column];
    const wanted = cell !== undefined && isWanted(cell, column);
    if (wanted && from < 0) from = column;
    if (!wanted && from >= 0) {
      spans.push({ row: index, from: wholeStart(row, from), to: wholeEnd(row, column) });
      from = -1;
    }
  }
  return spans;
}

/** A wide character is written as a whole, though only one of its halves differs. */
function wholeStart(row: Row, column: number): number {
  return row[column]?.width === 0 ? column - 1 : column;
}

function wholeEnd(row: Row, column: number): number {
  return row[column]?.width === 0 ? column + 1 : column;
}

function stylesOf(grid: Grid, spans: readonly Span[]): Style[] {
  const found = new Set<Style>();
  for (const span of spans) for (const cell of cellsOf(grid, span)) if (cell.width > 0) found.add(cell.style);
  return [...found];
}

function spansOfStyle(grid: Grid, spans: readonly Span[], style: Style): Span[] {
  return spans.flatMap((span) => {
    const row = grid[span.row] ?? [];
    const isOfStyle = (cell: Cell, column: number): boolean =>
      column >= span.from && column < span.to && (cell.width === 0 ? row[column - 1]?.style : cell.style) === style;
    return spansWhere(row, span.row, isOfStyle);
  });
}

function cellsOf(grid: Grid, span: Span): Row {
  return (grid[span.row] ?? []).slice(span.from, span.to);
}

/** Erasing to the end of the line takes three bytes. */
const ERASE_FROM = 3;

function write(grid: Grid, spans: readonly Span[], cursor: Cursor): Difference {
  let bytes = '';
  let now = cursor;
  for (const span of spans) {
    const row = grid[span.row] ?? [];
    const moved = moveTo(row, span, now);
    const written = writeCells(row, span, { at: { row: span.row, column: span.from }, style: now.style });
    bytes += moved + written.bytes;
    now = written.cursor;
  }
  return { bytes, cursor: now };
}

/** NEL: the first column of the next row. A newline would be lengthened by the terminal's output settings. */
const NEXT_LINE = '\u001bE';

/** The shortest way from the cursor to the beginning of `span`; over a small gap the cells there are written again. */
function moveTo(row: Row, span: Span, cursor: Cursor): string {
  const { at } = cursor;
  const absolute = span.from === 0 ? `\u001b[${span.row + 1}H` : `\u001b[${span.row + 1};${span.from + 1}H`;
  if (!at) return span.row === 0 && span.from === 0 ? '\u001b[H' : absolute;
  const down = span.row - at.row;
  const vertical = down === 0 ? '' : `\u001b[${Math.abs(down) > 1 ? Math.abs(down) : ''}${down > 0 ? 'B' : 'A'}`;
  const ways = [absolute, vertical + sideways(at.column, span.from), `${vertical}\r${sideways(0, span.from)}`];
  if (down === 1) ways.push(`${NEXT_LINE}${sideways(0, span.from)}`);
  if (down === 0 && span.from >= at.column) {
    const gap = row.slice(at.column, span.from);
    if (gap.every((cell) => cell.style === cursor.style && isPlainText(cell)))
      ways.push(gap.map((cell) => cell.text).join(''));
  }
  return ways.reduce((best, way) => (way.length < best.length ? way : best));
}

function sideways(from: number, to: number): string {
  const by = to - from;
  if (by === 0) return '';
  if (by < 0 && by >= -3) return '\b'.repeat(-by);
  const count = Math.abs(by) > 1 ? Math.abs(by) : '';
  return `\u001b[${count}${by > 0 ? 'C' : 'D'}`;
}

/** One byte a column, the same on every terminal: after anything else the cursor's place is not relied upon. */
function isPlainText(cell: Cell): boolean {
  return cell.text.length === 1 && cell.text >= ' ' && cell.text <= '~';
}

/** Box, block and arrow characters take one column on every terminal, though more than one byte. */
const oneColumn = /^[\u00a1-\u02ff\u2190-\u2193\u2500-\u25ff]$/u;

function writeCells(row: Row, span: Span, cursor: Cursor): Difference {
  let bytes = '';
  let style = cursor.style;
  let isSure = true;
  for (let column = span.from; column < span.to; column += 1) {
    const cell = row[column];
    if (!cell || cell.width === 0) continue;
    if (!isSure) bytes += `\u001b[${span.row + 1};${column + 1}H`;
    bytes += styleChange(style, cell.style);
    style = cell.style;
    const blanks = style === '' ? blanksFrom(row, column) : 0;
    if (column + blanks === row.length && span.to - column > ERASE_FROM) {
      return { bytes: `${bytes}\u001b[K`, cursor: { at: { row: span.row, column }, style } };
    }
    bytes += cell.text;
    isSure = isPlainText(cell) || oneColumn.test(cell.text);
  }
  // After the last column a terminal may or may not have wrapped: the next move must be absolute.
  const at = isSure && span.to < row.length ? { row: span.row, column: span.to } : undefined;
  return { bytes, cursor: { at, style } };
}

function blanksFrom(row: Row, column: number): number {
  let end = column;
  while (row[end]?.text === ' ' && row[end]?.style === '') end += 1;
  return end - column;
}

/** The shortest SGR sequence from one style to another: added to what is in force, or set anew from plain. */
function styleChange(from: Style, to: Style): string {
  if (from === to) return '';
  if (to === '') return '\u001b[m';
  if (from === '') return `\u001b[${to}m`;
  const had = from.split(';');
  const has = to.split(';');
  const isAddition = had.every((part) => has.includes(part)) && !has.includes('38') && !has.includes('48');
  return isAddition ? `\u001b[${has.filter((part) => !had.includes(part)).join(';')}m` : `\u001b[;${to}m`;
}
