/** Layout of help texts. */

const COLUMNS = 80;

/**
 * Text broken at spaces to 80 columns, the first line behind a lead and the others below its end.
 *
 * Example: `hanging('--json  ', 'as JSON')` is `['--json  as JSON']`.
 */
export function hanging(lead: string, text: string): readonly string[] {
  const lines: string[] = [];
  let line = lead;
  for (const [index, word] of text.split(' ').entries()) {
    const joined = line.length === lead.length || index === 0 ? `${line}${word}` : `${line} ${word}`;
    if (joined.length > COLUMNS && line.trim() !== '') {
      lines.push(line);
      line = `${' '.repeat(lead.length)}${word}`;
    } else {
      line = joined;
    }
  }
  return [...lines, line];
}
