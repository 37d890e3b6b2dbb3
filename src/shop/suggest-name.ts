/** Finding the name that was probably meant, for every message that says "unknown". */

/**
 * The known names nearest to a written one, nearest first, at most `limit`; none that differ by more than about half
 * their letters. Case, spaces and dashes do not count. Ties keep the order of `known`.
 *
 * Example: `suggestNames('alluminium', ['aluminium', 'brass'])` is `['aluminium']`.
 */
export function suggestNames(written: string, known: readonly string[], limit = 3): readonly string[] {
  const wanted = plainName(written);
  return known
    .map((name) => ({ name, distance: editDistance(wanted, plainName(name)) }))
    .filter(
      ({ name, distance }) => distance <= Math.max(1, Math.floor(Math.max(wanted.length, plainName(name).length) / 2)),
    )
    .sort((a, b) => a.distance - b.distance)
    .slice(0, limit)
    .map(({ name }) => name);
}

/** The one nearest known name, or `undefined` when none is near. */
export const suggestName = (written: string, known: readonly string[]): string | undefined =>
  suggestNames(written, known, 1)[0];

/**
 * Fewest single-letter changes that turn one text into the other: insert, delete, replace, or swap two neighbours
 * (the restricted Damerau-Levenshtein distance). Length of either text at most 80; longer ones are cut.
 *
 * Example: `brsas` to `brass` is 1; `mild` to `mill` is 1; '' to `tap` is 3.
 */
export function editDistance(from: string, to: string): number {
  const [a, b] = [from.slice(0, 80), to.slice(0, 80)];
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row += 1) {
    const current = [row];
    for (let column = 1; column <= b.length; column += 1) {
      const replaced = cell(last, column - 1) + (a[row - 1] === b[column - 1] ? 0 : 1);
      const swapped =
        row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1]
          ? cell(beforeLast, column - 2) + 1
          : Number.POSITIVE_INFINITY;
      current.push(Math.min(cell(last, column) + 1, cell(current, column - 1) + 1, replaced, swapped));
    }
    beforeLast = last;
    last = current;
  }
  return cell(last, b.length);
}

const cell = (row: readonly number[], column: number): number => row[column] ?? Number.POSITIVE_INFINITY;

const plainName = (name: string): string => name.toLowerCase().replace(/[\s\-_.]+/gu, '');
