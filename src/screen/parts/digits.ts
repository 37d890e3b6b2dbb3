/**
 * Block digits that can be read from the machine: two pixel fonts of our own drawing, the choice of size, and the
 * sum that tells how tall a digit must be. Pure: text in, lines out.
 */

import { type DigitFont, fonts } from './fonts.ts';

/** How a number is shown: as blocks (pixels of so many columns and rows), or as one line of plain text. */
export type DigitSize =
  | { readonly kind: 'block'; readonly font: DigitFont; readonly pixelColumns: number; readonly pixelRows: number }
  | { readonly kind: 'line' };

const fontRows: Readonly<Record<DigitFont, number>> = { '3x5': 5, '5x7': 7 };

/** Whether every character of `text` can be drawn in blocks: digits, capital letters, + - . , / : ? and space. */
export function hasDigits(text: string): boolean {
  return [...text].every((char) => fonts['5x7'][char] !== undefined);
}

/**
 * The rows and columns that `text` takes at `size`; one blank pixel stands between characters.
 * Example: '-123.45' in 5x7 at two columns a pixel takes 70 columns and 7 rows.
 */
export function digitExtent(text: string, size: DigitSize): { readonly rows: number; readonly columns: number } {
  if (size.kind === 'line') return { rows: 1, columns: text.length };
  const widths = glyphsOf(text, size.font).map((glyph) => glyph[0]?.length ?? 0);
  const pixels = widths.reduce((sum, width) => sum + width, 0) + Math.max(0, widths.length - 1);
  return { rows: fontRows[size.font] * size.pixelRows, columns: pixels * size.pixelColumns };
}

/**
 * `text` drawn at `size`, one string a row, '#' for ink and blanks for ground, all rows equally long. A character
 * that has no drawing is left blank (see `hasDigits`). A 'line' size gives the text itself.
 * Example: `digitLines('1', { kind: 'block', font: '3x5', pixelColumns: 1, pixelRows: 1 })` begins ' # ', '## '.
 */
export function digitLines(text: string, size: DigitSize): string[] {
  if (size.kind === 'line') return [text];
  const glyphs = glyphsOf(text, size.font);
  return Array.from({ length: fontRows[size.font] }, (_, row) =>
    glyphs.map((glyph) => glyph[row] ?? '').join(' '),
  ).flatMap((line) => new Array<string>(size.pixelRows).fill(widened(line, size.pixelColumns)));
}

function glyphsOf(text: string, font: DigitFont): (readonly string[])[] {
  return [...text].map((char) => fonts[font][char] ?? fonts[font][' '] ?? []);
}

function widened(line: string, times: number): string {
  return [...line].map((pixel) => pixel.repeat(times)).join('');
}

export type DigitRoom = {
  readonly text: string;
  /** Columns and rows there are for the number. */
  readonly columns: number;
  readonly rows: number;
  /** Rows that the reader needs (`rowsFor`); give Infinity for the largest that fits. */
  readonly wantedRows: number;
};

/**
 * The size to draw a number in: the smallest block size that has the wanted rows, else the largest that fits, else
 * one line of text. Of two equally tall sizes the wider one, whose pixels are closer to squares. The smallest block
 * digit has 5 rows, so fewer wanted rows are met by it.
 * Example: '-123.45' in 80 columns and 9 rows, 7 wanted: 5x7, two columns a pixel; in 60 columns: 5x7, one column.
 */
export function chooseDigitSize(room: DigitRoom): DigitSize {
  if (!hasDigits(room.text) || room.text === '') return { kind: 'line' };
  const fitting = blockSizes
    .map((size) => ({ size, ...digitExtent(room.text, size) }))
    .filter(({ rows, columns }) => rows <= room.rows && columns <= room.columns)
    .sort((a, b) => a.rows - b.rows || b.columns - a.columns);
  const enough = fitting.find(({ rows }) => rows >= room.wantedRows);
  const tallest = fitting.filter(({ rows }) => rows === fitting.at(-1)?.rows)[0];
  return (enough ?? tallest)?.size ?? { kind: 'line' };
}

const MOST_ROWS_A_PIXEL = 6;

/** Every size worth drawing: a cell is about twice as tall as wide, so a pixel takes from one to two columns a row. */
const blockSizes: readonly DigitSize[] = (['3x5', '5x7'] as const).flatMap((font) =>
  Array.from({ length: MOST_ROWS_A_PIXEL }, (_, index) => index + 1).flatMap((pixelRows) =>
    Array.from({ length: pixelRows + 1 }, (_, more) => pixelRows + more).map(
      (pixelColumns): DigitSize => ({ kind: 'block', font, pixelColumns, pixelRows }),
    ),
  ),
);

/** One minute of arc at one metre, in mm: 1000 x tan(1/60 degree) = 0.2909. */
const MM_A_METRE_AND_ARCMIN = 0.291;

/**
 * Rows that a digit needs to be read: ceil(0.291 x arcmin x metres / row height), at least 1. `metres` from the eyes
 * to the panel (over 0), `rowHeightMm` of one text row (over 0), `arcmin` the wanted angle: 33 for what is read in
 * mid-cycle, 22 the usual comfort for young eyes (ISO 9241-3 style guidance). NaN in gives 1.
 * Example: 2 m, a row of 3.6 mm, 33 arcmin: 19.2 / 3.6 -> 6 rows.
 */
export function rowsFor(metres: number, rowHeightMm: number, arcmin: number): number {
  const rows = Math.ceil((MM_A_METRE_AND_ARCMIN * arcmin * metres) / rowHeightMm);
  return Number.isFinite(rows) ? Math.max(1, rows) : 1;
}
