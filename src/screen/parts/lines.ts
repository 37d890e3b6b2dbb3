/**
 * Screens are drawn as lines of styled text before Ink sees them, so that a layout is a plain function with a test that
 * reads as a picture. A line never wraps: it is cropped to its columns. Widths are terminal columns, not characters.
 */

import stringWidth from 'string-width';
import { plainLine } from '../../report/neutral-text.ts';

/** What a piece of text is for; the theme turns a role into bold, reverse or colour. */
export type Role = 'plain' | 'strong' | 'reverse' | 'good' | 'alarm' | 'mark';
export type Segment = { readonly text: string; readonly role: Role };
export type Line = readonly Segment[];

export const emptyLine: Line = [];

/** A line of one role. Control characters are shown as '?', so that no text of a file reaches the terminal raw. */
export function lineOf(text: string, role: Role = 'plain'): Line {
  return text === '' ? emptyLine : [{ text: plainLine(text), role }];
}

/** Columns of a text: its length where every character is plainly one column wide, which it nearly always is. */
function textWidth(text: string): number {
  for (let index = 0; index < text.length; index += 1) {
    const code = text.charCodeAt(index);
    const isPlain = (code >= 0x20 && code < 0x7f) || (code > 0xa0 && code < 0x300) || (code >= 0x2190 && code < 0x2600);
    if (!isPlain) return stringWidth(text);
  }
  return text.length;
}

export function widthOf(line: Line): number {
  return line.reduce((sum, segment) => sum + textWidth(segment.text), 0);
}

/** Cut to at most `columns`; text that is cut ends in '~' so that a shortened number is never taken for a whole one. */
export function cropLine(line: Line, columns: number): Line {
  if (widthOf(line) <= columns) return line;
  if (columns <= 0) return emptyLine;
  const kept: Segment[] = [];
  let left = columns - 1;
  let role: Role = 'plain';
  for (const segment of line) {
    const text = cutText(segment.text, left);
    if (text !== '') kept.push({ text, role: segment.role });
    left -= textWidth(text);
    role = segment.role;
    if (text !== segment.text) break;
  }
  return [...kept, { text: '~', role }];
}

/** Exactly `columns` wide: cropped or filled with spaces of `role`. */
export function fillLine(line: Line, columns: number, role: Role = 'plain'): Line {
  const cropped = cropLine(line, columns);
  const missing = columns - widthOf(cropped);
  return missing > 0 ? [...cropped, { text: ' '.repeat(missing), role }] : cropped;
}

export function centreLine(line: Line, columns: number): Line {
  const cropped = cropLine(line, columns);
  const before = Math.floor((columns - widthOf(cropped)) / 2);
  return before > 0 ? [{ text: ' '.repeat(before), role: 'plain' }, ...cropped] : cropped;
}

/** Two blocks side by side; the left one is filled to `leftColumns`, with `gap` columns between. */
export function besideLines(left: readonly Line[], right: readonly Line[], leftColumns: number, gap: number): Line[] {
  const rows = Math.max(left.length, right.length);
  return Array.from({ length: rows }, (_, row) => [
    ...fillLine(left[row] ?? emptyLine, leftColumns),
    { text: ' '.repeat(gap), role: 'plain' as const },
    ...(right[row] ?? emptyLine),
  ]);
}

/** What stands before the words of a list's line: blanks, its mark, its number, a step's number with a point. */
const mark = /^ *(?:[>!] +)?(?:\d+\. +|\d {2,})?/;
/** A name with a gap behind it, as in the list of keys: what follows has a column of its own. */
const name = /^[^\s.:]+(?: [^\s.:]+)* {2,}/;
const widestName = 24;

/** Columns by which the further lines of a text are indented, so that its mark or name stands out. */
function hangOf(text: string, columns: number): number {
  const marked = mark.exec(text)?.[0].length ?? 0;
  const named = marked === 0 ? (name.exec(text)?.[0].length ?? 0) : 0;
  const hang = named <= widestName ? Math.max(marked, named) : 0;
  return hang <= columns / 2 ? hang : 0;
}

/**
 * Words of a text broken into lines of at most `columns`; a longer word is cut. At most `rows` lines, the last cropped.
 * Further lines hang under the words, not under a mark, a number or a name before them.
 */
export function wrapText(text: string, columns: number, rows: number, role: Role = 'plain'): Line[] {
  const plain = plainLine(text);
  // A text that fits keeps its own spacing: columns, and the marks of a list.
  if (rows > 0 && textWidth(plain) <= columns) return [lineOf(text, role)];
  const hang = hangOf(plain, columns);
  const room = columns - hang;
  const lines: string[] = [];
  let current = '';
  for (const word of plain
    .slice(hang)
    .split(' ')
    .filter((part) => part !== '')) {
    const joined = current === '' ? word : `${current} ${word}`;
    if (textWidth(joined) <= room || current === '') current = joined;
    else {
      lines.push(current);
      current = word;
    }
  }
  if (current !== '') lines.push(current);
  const shown = lines.slice(0, rows);
  if (lines.length > rows && rows > 0) shown[rows - 1] = lines.slice(rows - 1).join(' ');
  return shown.map((line, row) =>
    cropLine([{ text: `${row === 0 ? plain.slice(0, hang) : ' '.repeat(hang)}${line}`, role }], columns),
  );
}

/** Plain text of a line, for tests and the plain-line mode. */
export function textOf(line: Line): string {
  return line.map((segment) => segment.text).join('');
}

function cutText(text: string, columns: number): string {
  if (textWidth(text) <= columns) return text;
  let kept = '';
  for (const character of text) {
    if (textWidth(kept + character) > columns) break;
    kept += character;
  }
  return kept;
}
