/**
 * Stops: the steps of one load, in working order. Counted by point, every point and pass of every place is a stop, tool
 * after tool, so that nothing is unclamped in between; with each tool all points of a place, then the next place, so that
 * the winding between stays short and a piece is done with when it is left. Counted by piece or load there is one stop for each tool of the
 * group, so that a change of tool and speed is never passed over. The last stop counts the load.
 */
import type { ResolvedCut, ResolvedOperation } from '../plan/resolved.ts';

/** One step of a load. `cut` is a position in the operation's cuts, `place` counts from 1, `index` is the point or pass. */
export type Stop =
  | { readonly kind: 'point'; readonly cut: number; readonly place: number; readonly index: number }
  /** `place` is null where the pass goes across several pieces. */
  | { readonly kind: 'pass'; readonly cut: number; readonly place: number | null; readonly index: number }
  /** The whole load at once; `place` is null because it stands for all of them. */
  | { readonly kind: 'whole'; readonly cut: number; readonly place: null; readonly index: 0 };

export type Counting = ResolvedOperation['counting'];

/**
 * The stops of a load, first to last; never empty.
 *
 * @param pieces - pieces held when the load began, 1 or more
 *
 * Example: two points counted by point in a load of two: places 1, 1, 2, 2; the fourth stop counts both pieces.
 */
export function stopsOf(operation: ResolvedOperation, counting: Counting, pieces: number): readonly Stop[] {
  if (operation.cuts.length === 0) return [wholeStop(0)];
  return operation.cuts.flatMap((cut, i) => (counting === 'point' ? stopsOfCut(cut, i, pieces) : [wholeStop(i)]));
}

function stopsOfCut(cut: ResolvedCut, at: number, pieces: number): readonly Stop[] {
  if (cut.points.length + cut.passes.length === 0) return [wholeStop(at)];
  const places = Array.from({ length: pieces }, (_, i) => i + 1);
  // A plan resolved before passes went by load has those of the first piece alone, for every place.
  const own = cut.loadPasses === undefined ? cut.passes : [];
  return [
    ...places.flatMap((place) => [
      ...cut.points.map((_, index): Stop => ({ kind: 'point', cut: at, place, index })),
      ...own.map((_, index): Stop => ({ kind: 'pass', cut: at, place, index })),
    ]),
    ...loadPassStops(cut, at, pieces),
  ];
}

/** The passes of a load over the places that hold a piece. */
function loadPassStops(cut: ResolvedCut, at: number, pieces: number): readonly Stop[] {
  return (cut.loadPasses ?? []).flatMap(({ places }, index): readonly Stop[] => {
    const held = places.filter((place) => place <= pieces);
    const [only] = held;
    if (only === undefined) return [];
    return [{ kind: 'pass', cut: at, place: held.length === 1 ? only : null, index }];
  });
}

const wholeStop = (cut: number): Stop => ({ kind: 'whole', cut, place: null, index: 0 });

/**
 * The first stop at or after `from` whose place still holds its piece; the number of stops when there is none left.
 *
 * Example: stops of places 1, 1, 2, 2 with place 1 rejected, from 1: 2.
 */
export function stopFrom(stops: readonly Stop[], from: number, rejected: readonly number[]): number {
  const found = stops.findIndex((stop, i) => i >= from && (stop.place === null || !rejected.includes(stop.place)));
  return found === -1 ? stops.length : found;
}
