/** Tables as plain text within so many columns: cells wrap, nothing is cut off. */
import type { Column } from '../document.ts';
import { greatestOf } from '../extremes.ts';
import { columnsOf, isPlain, plainLine } from '../neutral-text.ts';

const GAP = 2;
/** A left-aligned column is not squeezed below this. */
const NARROWEST = 8;

/**
 * The lines of a table no wider than `columns` (20 or more). Columns of text give way first, the widest most; a table
 * whose numbers alone are too wide is set as one block of `name: value` lines for each row.
 *
 * Example: a heading line, a line of dashes, then each row; no line ends in a blank.
 */
export function textTable(heads: readonly Column[], rows: readonly (readonly string[])[], columns: number): string[] {
  const safe = rows.map((row) => heads.map((_, index) => plainLine(row[index] ?? '')));
  const widths = fittedWidths(heads, safe, columns);
  if (widths === null) return stacked(heads, safe, columns);
  const titles = tableRow(
    heads,
    heads.map((head) => head.title),
    widths,
  );
  const rule = widths.map((width) => '-'.repeat(width)).join(' '.repeat(GAP));
  return [...titles, rule, ...safe.flatMap((row) => tableRow(heads, row, widths))];
}

function fittedWidths(
  heads: readonly Column[],
  rows: readonly (readonly string[])[],
  columns: number,
): number[] | null {
  const widths = heads.map((head, index) =>
    greatestOf(
      rows.map((row) => columnsOf(row[index] ?? '')),
      longestWord(head.title),
    ),
  );
  const least = heads.map((head, index) => {
    const word = Math.max(longestWord(head.title), NARROWEST);
    return head.align === 'left' ? Math.min(word, widths[index] ?? 0) : (widths[index] ?? 0);
  });
  const room = columns - GAP * (heads.length - 1);
  while (widths.reduce((sum, width) => sum + width, 0) > room) {
    const spare = widths.map((width, index) => width - (least[index] ?? 0));
    const widest = spare.indexOf(Math.max(...spare));
    if ((spare[widest] ?? 0) <= 0) return null;
    widths[widest] = (widths[widest] ?? 0) - 1;
  }
  return widths;
}

const longestWord = (text: string): number => greatestOf(text.split(' ').map(columnsOf), 0);

function tableRow(heads: readonly Column[], cells: readonly string[], widths: readonly number[]): string[] {
  const wrapped = cells.map((cell, index) => wrapText(cell, widths[index] ?? 1));
  const height = Math.max(1, ...wrapped.map((lines) => lines.length));
  return Array.from({ length: height }, (_, line) =>
    heads
      .map((head, index) => padded(wrapped[index]?.[line] ?? '', widths[index] ?? 1, head.align))
      .join(' '.repeat(GAP))
      .trimEnd(),
  );
}

function padded(text: string, width: number, align: Column['align']): string {
  const blank = ' '.repeat(Math.max(0, width - columnsOf(text)));
  return align === 'right' ? blank + text : text + blank;
}

function stacked(heads: readonly Column[], rows: readonly (readonly string[])[], columns: number): string[] {
  return rows.flatMap((row) =>
    heads.flatMap((head, index) =>
      wrapText(`${head.title}: ${row[index] ?? ''}`, columns - 2).map((line, at) =>
        index === 0 && at === 0 ? line : `  ${line}`,
      ),
    ),
  );
}

/**
 * Text broken at blanks into lines of at most `width` columns; a longer word is broken where it must. Empty text is one
 * empty line.
 *
 * Example: `wrapText('gate hardware', 8)` is `['gate', 'hardware']`.
 */
export function wrapText(text: string, width: number): string[] {
  return isPlain(text) ? wrapPlain(text, width) : wrapAny(text, width);
}

/** Every sign is one column: lines are cut out of the text by their places, without a string for each word. */
function wrapPlain(text: string, given: number): string[] {
  const width = Math.max(1, given);
  const lines: string[] = [];
  let [start, end] = [0, 0];
  const take = (from: number, to: number): void => {
    if (end > start && to - start <= width) {
      end = to;
      return;
    }
    if (end > start) lines.push(text.slice(start, end));
    [start, end] = [from, to];
  };
  for (let from = 0; from <= text.length; ) {
    const blank = text.indexOf(' ', from);
    const to = blank === -1 ? text.length : blank;
    for (; to - from > width; from += width) take(from, from + width);
    take(from, to);
    from = to + 1;
  }
  lines.push(text.slice(start, end));
  return lines;
}

function wrapAny(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ').flatMap((long) => brokenWord(long, width))) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (columnsOf(longer) <= width) line = longer;
    else {
      lines.push(line);
      line = word;
    }
  }
  return [...lines, line];
}

function brokenWord(word: string, width: number): string[] {
  if (columnsOf(word) <= width) return [word];
  const parts: string[] = [];
  let part = '';
  for (const sign of word) {
    if (columnsOf(part + sign) > width) {
      parts.push(part);
      part = '';
    }
    part += sign;
  }
  return part === '' ? parts : [...parts, part];
}
