/** Ranges of suspect pieces, cut into and out of each other. */
import type { Suspects } from '../state.ts';

/** Pieces of one cell; of every check when none is named. */
export type Pieces = Pick<Suspects, 'operation' | 'lane' | 'from' | 'to'> & { readonly check?: string };

/** The suspects without these pieces: `2 to 6` without `4 to 4` is `2 to 3` and `5 to 6`. */
export function withoutPieces(suspects: readonly Suspects[], cut: Pieces): Suspects[] {
  return suspects.flatMap((range) => {
    if (!touches(range, cut)) return [range];
    const rest = [
      { ...range, to: cut.from - 1 },
      { ...range, from: cut.to + 1 },
    ];
    return rest.filter((left) => left.from <= left.to);
  });
}

/** The suspects among these pieces: `2 to 6` among `4 to 9` is `4 to 6`. */
export function amongPieces(suspects: readonly Suspects[], cut: Pieces): Suspects[] {
  return suspects.flatMap((range) =>
    touches(range, cut) ? [{ ...range, from: Math.max(range.from, cut.from), to: Math.min(range.to, cut.to) }] : [],
  );
}

function touches(range: Suspects, cut: Pieces): boolean {
  const same = range.operation === cut.operation && range.lane === cut.lane;
  return same && (cut.check ?? range.check) === range.check && cut.from <= range.to && range.from <= cut.to;
}
