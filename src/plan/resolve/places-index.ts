/** Finding what stands at one place among many, without comparing every pair. */
import type { Position } from '../../shop/patterns.ts';

/** Places nearer than this are one hole. */
const SAME_PLACE_MM = 0.001;
/** Side of a cell; larger than a hole's slack, so that the neighbours of a cell hold everything near. */
const CELL_MM = 0.01;

/** Answers with the items at a place, in their given order. */
export type AtPlace<Item> = (place: Position) => readonly Item[];

/** Sorts items into cells by where they stand. */
export function indexPlaces<Item>(items: readonly Item[], placeOf: (item: Item) => Position): AtPlace<Item> {
  const cells = new Map<string, { readonly item: Item; readonly at: Position; readonly order: number }[]>();
  for (const [order, item] of items.entries()) {
    const at = placeOf(item);
    const key = cellKey(at, 0, 0);
    const cell = cells.get(key);
    if (cell === undefined) cells.set(key, [{ item, at, order }]);
    else cell.push({ item, at, order });
  }
  const find = (place: Position): readonly Item[] =>
    NEIGHBOURS.flatMap(([right, up]) => cells.get(cellKey(place, right, up)) ?? [])
      .filter(({ at }) => Math.abs(at.x - place.x) < SAME_PLACE_MM && Math.abs(at.y - place.y) < SAME_PLACE_MM)
      .sort((a, b) => a.order - b.order)
      .map(({ item }) => item);
  // A place is one object in every operation that comes to it, and every rule asks for it again.
  const known = new WeakMap<Position, readonly Item[]>();
  return (place) => {
    const found = known.get(place) ?? find(place);
    known.set(place, found);
    return found;
  };
}

const NEIGHBOURS = [-1, 0, 1].flatMap((right) => [-1, 0, 1].map((up) => [right, up] as const));

const cellKey = (place: Position, right: number, up: number): string =>
  `${Math.round(place.x / CELL_MM) + right},${Math.round(place.y / CELL_MM) + up}`;
