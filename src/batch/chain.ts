/**
 * A chain: a list that grows at its newest end without copying, so that folding ten thousand counts stays quick and
 * every earlier state stays as it was. `null` is the empty chain.
 */
export type Chain<Item> = { readonly item: Item; readonly older: Chain<Item>; readonly length: number } | null;

/** The chain with one newer item: `chained(null, 1)` has length 1. */
export function chained<Item>(older: Chain<Item>, item: Item): Chain<Item> {
  return { item, older, length: (older?.length ?? 0) + 1 };
}

/** The items in the order in which they were added: oldest first. */
export function oldestFirst<Item>(chain: Chain<Item>): readonly Item[] {
  return newestFirst(chain).reverse();
}

/** The newest items, at most `most` of them, newest first. */
export function newestFirst<Item>(chain: Chain<Item>, most = Number.POSITIVE_INFINITY): Item[] {
  const items: Item[] = [];
  for (let link = chain; link !== null && items.length < most; link = link.older) items.push(link.item);
  return items;
}
