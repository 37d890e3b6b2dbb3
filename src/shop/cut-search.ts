/**
 * The search behind a cut list: bars are filled one after the other, each with the longest blank still wanted; every filling to
 * which nothing can be added is tried; a branch is left as soon as the bar that it must still use cannot beat the best list so
 * far. It knows sizes with their kerfs, rooms of bars and numbers; words and refusals are in cut-list.ts.
 */
import { sureRow } from './refusal.ts';
import { HAIR_MM } from './stock.ts';

/** How many blanks of each size, on one bar or in all. */
export type Filling = readonly number[];

/** A length of bar. */
export interface SearchBar {
  readonly length: number;
  /** What blanks with their kerfs may take up. */
  readonly room: number;
  /** How many there are; infinite where any number can be had. */
  readonly count: number;
}

/** What is to be cut from what. */
export interface CutProblem {
  /** Length of each size of blank with its kerf, longest first. */
  readonly sizes: readonly number[];
  readonly bars: readonly SearchBar[];
}

/** One bar with what is cut from it. */
export interface FilledBar {
  /** Index of the bar in the problem. */
  readonly bar: number;
  readonly filling: Filling;
}

/** The list found. */
export interface CutSolution {
  readonly filled: readonly FilledBar[];
  /** Whether all blanks are on it. */
  readonly complete: boolean;
  /** Whether nothing is better: no complete list takes less bar, or none is complete at all. */
  readonly proven: boolean;
}

/** The search goes no deeper than so many bars; longer lists are left as the quick ones made them. */
const DEEPEST = 400;

/** A list under construction, its newest bar first. */
interface Chain {
  readonly newest: FilledBar;
  readonly rest: Chain | undefined;
  readonly depth: number;
}

interface Search {
  readonly problem: CutProblem;
  readonly seen: Map<string, number>;
  best: readonly FilledBar[] | undefined;
  bestTaken: number;
  /** Steps that may still be spent; the answer is proven only when some are left. */
  work: number;
}

interface Standing {
  readonly wanted: Filling;
  /** Bars left of each length. */
  readonly stock: readonly number[];
  readonly taken: number;
  readonly chain: Chain | undefined;
}

/**
 * The list that takes the least length of bar.
 *
 * @param wanted how many of each size. @param workLimit steps to spend before the search settles for the best list so far.
 *
 * Example: sizes 482 and 252 (three and four wanted), bars of 1002: three bars, proven.
 */
export function searchCuts(problem: CutProblem, wanted: Filling, workLimit: number): CutSolution {
  const quick = quickLists(problem, wanted);
  const best = quick
    .filter((list) => isComplete(list, wanted))
    .toSorted((a, b) => takenBy(a, problem) - takenBy(b, problem))[0];
  const bestTaken = best === undefined ? Number.POSITIVE_INFINITY : takenBy(best, problem);
  const search: Search = { problem, seen: new Map(), best, bestTaken, work: workLimit };
  explore(search, { wanted, stock: problem.bars.map((bar) => bar.count), taken: 0, chain: undefined });
  const proven = search.work > 0;
  return search.best === undefined
    ? { filled: fullest(quick, problem), complete: false, proven }
    : { filled: search.best, complete: true, proven };
}

/** Tries all ways to go on from here; `search.best` keeps the best complete list met. */
function explore(search: Search, standing: Standing): void {
  const { problem } = search;
  const { wanted, stock, taken, chain } = standing;
  const longest = wanted.findIndex((left) => left > 0);
  if (longest < 0) {
    search.best = unchain(chain);
    search.bestTaken = taken;
    return;
  }
  if (taken + leastTaken(problem, wanted, stock) >= search.bestTaken - HAIR_MM) return;
  if (wasSeen(search, standing)) return;
  search.work = (chain?.depth ?? 0) >= DEEPEST ? 0 : search.work - problem.sizes.length;
  for (const [bar, { length, room }] of problem.bars.entries()) {
    const left = sureRow(stock[bar]);
    if (left < 1) continue;
    for (const filling of fullFillings(search, wanted, longest, room)) {
      if (search.work <= 0) return;
      explore(search, {
        wanted: wanted.map((number, size) => number - sureRow(filling[size])),
        stock: stock.with(bar, left - 1),
        taken: taken + length,
        chain: { newest: { bar, filling }, rest: chain, depth: (chain?.depth ?? 0) + 1 },
      });
    }
  }
}

function unchain(chain: Chain | undefined): readonly FilledBar[] {
  const filled: FilledBar[] = [];
  for (let link = chain; link !== undefined; link = link.rest) filled.unshift(link.newest);
  return filled;
}

/** Whether the same blanks were wanted before from the same bars with no more bar taken; remembers the better of the two. */
function wasSeen(search: Search, { wanted, stock, taken }: Standing): boolean {
  const key = `${wanted.join()};${stock.join()}`;
  const before = search.seen.get(key);
  if (before !== undefined && before <= taken + HAIR_MM) return true;
  search.seen.set(key, taken);
  return false;
}

/**
 * Every filling of a bar with at least one of the longest blank to which no wanted blank can be added, fullest first.
 * Spends the work of the search; stops when it is spent.
 */
function fullFillings(search: Search, wanted: Filling, longest: number, room: number): readonly Filling[] {
  const { sizes } = search.problem;
  const found: { readonly filling: Filling; readonly left: number }[] = [];
  const fill = (index: number, filling: Filling, left: number): void => {
    if (search.work <= 0) return;
    if (index === sizes.length) {
      search.work -= 1;
      const full = sizes.every((size, other) => sureRow(filling[other]) >= sureRow(wanted[other]) || size > left);
      if (full) found.push({ filling, left });
      return;
    }
    const size = sureRow(sizes[index]);
    const most = Math.min(sureRow(wanted[index]), Math.floor(left / size));
    const least = Math.max(index === longest ? 1 : 0, index === sizes.length - 1 ? most : 0);
    for (let number = most; number >= least; number -= 1) fill(index + 1, [...filling, number], left - number * size);
  };
  fill(0, [], room);
  return found.toSorted((a, b) => a.left - b.left).map(({ filling }) => filling);
}

/**
 * A length of bar that cannot be beaten for what is wanted: the larger of two kinds of bound. One takes blanks as soft as
 * dough; the other takes all blanks from some size up as if each had just that size.
 */
function leastTaken(problem: CutProblem, wanted: Filling, stock: readonly number[]): number {
  const { sizes, bars } = problem;
  const dough = wanted.reduce((sum, number, size) => sum + number * sureRow(sizes[size]), 0);
  const soft = leastCover(bars, stock, dough, (room) => room);
  let atLeastSoBig = 0;
  const stiff = sizes.map((size, index) => {
    atLeastSoBig += sureRow(wanted[index]);
    return leastCover(bars, stock, atLeastSoBig, (room) => Math.floor(room / size));
  });
  return Math.max(soft, ...stiff);
}

/** Steps that one bound may spend before it settles for the weaker one without whole bars. */
const COVER_STEPS = 200;

/** The least length of bars whose yields add up to what is needed; infinite when all bars together do not. */
function leastCover(
  bars: readonly SearchBar[],
  stock: readonly number[],
  needed: number,
  yieldOf: (room: number) => number,
): number {
  const usable = bars
    .map((bar, index) => ({ length: bar.length, yields: yieldOf(bar.room), left: sureRow(stock[index]) }))
    .filter((bar) => bar.yields > 0)
    .toSorted((a, b) => a.length / a.yields - b.length / b.yields);
  let best = Number.POSITIVE_INFINITY;
  let steps = COVER_STEPS;
  const cover = (index: number, missing: number, length: number): void => {
    steps -= 1;
    const bar = usable[index];
    if (missing <= HAIR_MM) best = Math.min(best, length);
    if (missing <= HAIR_MM || bar === undefined || steps <= 0) return;
    if (length + (missing * bar.length) / bar.yields >= best - HAIR_MM) return;
    const most = Math.min(bar.left, Math.ceil((missing - HAIR_MM) / bar.yields));
    for (let number = most; number >= 0 && steps > 0; number -= 1) {
      cover(index + 1, missing - number * bar.yields, length + number * bar.length);
    }
  };
  cover(0, needed, 0);
  const densest = usable[0];
  const loose = densest === undefined ? 0 : (needed * densest.length) / densest.yields;
  return steps > 0 ? best : Math.min(best, loose);
}

/** Lists made by filling bars longest blank first: one with each length of bar preferred, one with the best filled bar. */
function quickLists(problem: CutProblem, wanted: Filling): readonly (readonly FilledBar[])[] {
  const preferred = problem.bars.map((_, bar) => quickList(problem, wanted, bar));
  return [...preferred, quickList(problem, wanted, undefined)];
}

function quickList(problem: CutProblem, wanted: Filling, preferred: number | undefined): readonly FilledBar[] {
  const filled: FilledBar[] = [];
  let left = wanted;
  let stock = problem.bars.map((bar) => bar.count);
  for (;;) {
    const next = quickBar(problem, left, stock, preferred);
    if (next === undefined) return filled;
    filled.push(next);
    left = left.map((number, size) => number - sureRow(next.filling[size]));
    stock = stock.with(next.bar, sureRow(stock[next.bar]) - 1);
  }
}

/** The next bar of a quick list: the shortest that takes all that is left, else the preferred, else the best filled. */
function quickBar(
  problem: CutProblem,
  wanted: Filling,
  stock: readonly number[],
  preferred: number | undefined,
): FilledBar | undefined {
  const ways = problem.bars.flatMap(({ length, room }, bar) => {
    const filling = fillLongestFirst(problem.sizes, wanted, room);
    const used = filling.reduce((sum, number, size) => sum + number * sureRow(problem.sizes[size]), 0);
    const all = filling.every((number, size) => number === wanted[size]);
    return sureRow(stock[bar]) >= 1 && used > 0 ? [{ bar, filling, all, length, share: used / length }] : [];
  });
  const last = ways.filter((way) => way.all).toSorted((a, b) => a.length - b.length)[0];
  return last ?? ways.find((way) => way.bar === preferred) ?? ways.toSorted((a, b) => b.share - a.share)[0];
}

function fillLongestFirst(sizes: readonly number[], wanted: Filling, room: number): Filling {
  let left = room;
  return sizes.map((size, index) => {
    const number = Math.max(0, Math.min(sureRow(wanted[index]), Math.floor(left / size)));
    left -= number * size;
    return number;
  });
}

const takenBy = (filled: readonly FilledBar[], problem: CutProblem): number =>
  filled.reduce((sum, { bar }) => sum + sureRow(problem.bars[bar]).length, 0);

const cutOf = (filled: readonly FilledBar[], size: number): number =>
  filled.reduce((sum, { filling }) => sum + sureRow(filling[size]), 0);

const isComplete = (filled: readonly FilledBar[], wanted: Filling): boolean =>
  wanted.every((number, size) => cutOf(filled, size) === number);

/** Of several lists that fall short, the one with the most length of blanks on it. */
function fullest(lists: readonly (readonly FilledBar[])[], problem: CutProblem): readonly FilledBar[] {
  const yielded = (list: readonly FilledBar[]): number =>
    problem.sizes.reduce((sum, length, size) => sum + length * cutOf(list, size), 0);
  return sureRow(lists.toSorted((a, b) => yielded(b) - yielded(a))[0]);
}
