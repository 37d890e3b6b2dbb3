/** Lines of which the wanted one is always in sight: a list with its question, and a page that is leafed through. */
import { wrapText } from '../parts/lines.ts';

/** As in the text of a panel: a sentence never takes more rows. */
const mostRows = 4;

const rowsOf = (text: string, columns: number): number => Math.max(1, wrapText(text, columns, mostRows).length);

const sumRows = (lines: readonly string[], columns: number): number =>
  lines.reduce((sum, line) => sum + rowsOf(line, columns), 0);

type ListRoom = { readonly columns: number; readonly rows: number };

/** Stands for what a list has no room for. */
const more = '     ...';

/**
 * A question's words and its options in `rows`: the chosen option is always there, then as many others as fit, from the
 * first on; what is said above them gets the rows that are left.
 *
 * Example: ten options of one row in 5 rows, the eighth chosen: "...", options 6 to 8, "...".
 */
export function listInSight(
  about: readonly string[],
  options: readonly string[],
  chosen: number,
  { columns, rows }: ListRoom,
): readonly string[] {
  const [from, to] = windowAround(options, chosen, { columns, rows });
  const shown = [...(from > 0 ? [more] : []), ...options.slice(from, to), ...(to < options.length ? [more] : [])];
  const left = rows - sumRows(shown, columns);
  return [...wholeWithin(about, columns, left), ...shown];
}

/** The options shown: from the first that leaves the chosen one in sight to the last that fits. */
function windowAround(options: readonly string[], chosen: number, { columns, rows }: ListRoom): [number, number] {
  const taken = (from: number, to: number): number =>
    sumRows(options.slice(from, to), columns) + (from > 0 ? 1 : 0) + (to < options.length ? 1 : 0);
  let from = 0;
  while (from < chosen && taken(from, chosen + 1) > rows) from += 1;
  let to = chosen + 1;
  while (to < options.length && taken(from, to + 1) <= rows) to += 1;
  return [from, to];
}

/** Lines from the first on as far as they fit whole; the last row says when some are left out. */
function wholeWithin(lines: readonly string[], columns: number, rows: number): readonly string[] {
  if (sumRows(lines, columns) <= rows) return lines;
  const kept: string[] = [];
  for (const line of lines) {
    if (sumRows([...kept, line], columns) > rows - 1) break;
    kept.push(line);
  }
  return rows < 1 ? [] : [...kept, '...'];
}

/** Rows that every panel has for a page, so that leafing by them passes no line over. */
const pageRows = 9;

/**
 * Where a page goes on or back from line `from`: by as many lines as fit into the rows that the smallest panel has for it,
 * at least one, never past the last line.
 */
export function leafFrom(lines: readonly string[], from: number, way: 1 | -1, columns: number): number {
  let [at, used] = [from, 0];
  for (;;) {
    const next = way > 0 ? at : at - 1;
    const rows = rowsOf(lines[next] ?? '', columns);
    if (next < 0 || next >= lines.length || (used > 0 && used + rows > pageRows)) break;
    used += rows;
    at += way;
  }
  return Math.max(0, Math.min(lines.length - 1, at));
}
