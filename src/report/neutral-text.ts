/**
 * Text from plans and operators made harmless for each place where a report may land: a terminal, a page, a Markdown
 * file, a spreadsheet. Promises P8 and P9: no byte of a name reaches the terminal raw, no name runs as a formula or as
 * markup.
 */

/** Controls, line breaks, and the invisible marks that turn the direction of writing. */
const UNSAFE = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/gu;

/**
 * One line of printable text: each control, line break or direction mark becomes `?`, a tab a space.
 *
 * Example: a name holding an escape sequence comes out as `?[31mPlate`.
 */
export const plainLine = (text: string): string => text.replace(/\t/g, ' ').replace(UNSAFE, '?');

/** Text inside a page or an attribute: `<b>&"` becomes `&lt;b&gt;&amp;&quot;`. Controls are replaced as in `plainLine`. */
export function escapeHtml(text: string): string {
  return plainLine(text)
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;')
    .replace(/'/g, '&#39;');
}

/** Text inside a line or table cell of Markdown (CommonMark backslash escapes): `a|b*` becomes `a\|b\*`. */
export const escapeMarkdown = (text: string): string => plainLine(text).replace(/[\\`*_{}[\]<>()#|~!&]/g, '\\$&');

/** A cell of a spreadsheet: a number stays a number, text is guarded, nothing is an empty cell. */
export type CsvCell = string | number | null;

/**
 * One line of RFC 4180, ending in CR LF: cells with a comma, quote or line break are quoted, quotes doubled. Text that a
 * spreadsheet would run as a formula (it begins with = + - @ or a control) gets an apostrophe in front; numbers do not.
 *
 * Example: `csvLine(['=1+1', -2, null, 'a "b"'])` is `'=1+1,-2,,"a ""b"""` and CR LF.
 */
export const csvLine = (cells: readonly CsvCell[]): string => `${cells.map(csvCell).join(',')}\r\n`;

function csvCell(cell: CsvCell): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return Number.isFinite(cell) ? String(cell) : '';
  const line = cell.replace(/\r\n?|\n/g, ' ');
  const guarded = /^[\s\p{Cc}]*[=+\-@\uff1d\uff0b\uff0d\uff20]|^[\t\r]/u.test(line)
    ? `'${plainLine(line)}`
    : plainLine(line);
  return /[",\r\n]/.test(guarded) ? `"${guarded.replace(/"/g, '""')}"` : guarded;
}

/**
 * Columns that a text takes on a terminal: two for the wide signs of East Asia, none for a combining mark.
 *
 * Example: `columnsOf('Plate')` is 5.
 */
export function columnsOf(text: string): number {
  if (isPlain(text)) return text.length;
  let columns = 0;
  for (const sign of text) columns += /\p{M}/u.test(sign) ? 0 : WIDE.test(sign) ? 2 : 1;
  return columns;
}

/** Whether every sign is one of the printable ones of ASCII: nearly every text there is, and far quicker to deal with. */
export const isPlain = (text: string): boolean => /^[ -~]*$/.test(text);

const WIDE =
  /[\u1100-\u115f\u2e80-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6\u{1f300}-\u{1faff}\u{20000}-\u{3fffd}]/u;
