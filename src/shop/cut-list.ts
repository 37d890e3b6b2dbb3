/**
 * A cut list: which blanks to saw from which bars so that the least bar is used up.
 *
 * Least means the smallest total length of bar taken. The search (cut-search.ts) is exact with a limit on its work; whether
 * the answer is proven least is part of the answer.
 */
import { type CutProblem, type CutSolution, type FilledBar, type Filling, searchCuts } from './cut-search.ts';
import { asMm, type Mm } from './quantities.ts';
import { POSITIVE_LENGTH } from './ranges.ts';
import { type Refusal, type Result, refuseOutside, sureRow, whenSound } from './refusal.ts';
import { HAIR_MM, leftAfter, refuseSaw, roomFor, type SawRules } from './stock.ts';
import { refuseUnlessWhole } from './whole.ts';

/** Bars of one length at hand. */
export interface BarStock {
  readonly length: Mm;
  /** How many there are; left out: as many as are needed. */
  readonly count?: number;
}

/** Blanks of one length that are wanted. */
export interface BlankWish {
  readonly length: Mm;
  readonly count: number;
}

/** Bars that are cut alike. */
export interface BarCut {
  readonly bar: Mm;
  /** How many bars are cut so. */
  readonly times: number;
  /** Blanks of each wish on one such bar, in the order of the wishes. */
  readonly blanks: readonly number[];
  /** Length left on each such bar. */
  readonly left: Mm;
  /** Whether what is left is worth keeping: as long as the given length, or as one more of the shortest blanks needs. */
  readonly worthKeeping: boolean;
}

/** A cut list. */
export interface CutList {
  /** `short` when the bars at hand do not yield all blanks: then `missing` says how many of each. */
  readonly kind: 'enough' | 'short';
  readonly cuts: readonly BarCut[];
  readonly bars: number;
  /** Total length of the bars taken. */
  readonly taken: Mm;
  /** Length of the bars taken that becomes neither a blank nor an offcut worth keeping. */
  readonly waste: Mm;
  /** Blanks of each wish that are not on the list. */
  readonly missing: readonly number[];
  /** True when no list uses less bar (or, when short, when all blanks cannot be had). */
  readonly proven: boolean;
}

/** Choices beside the saw's own rules. */
export interface CutListOptions {
  /** Offcuts from this length on are worth keeping; left out: what yields one more of the shortest blanks. */
  readonly keepFrom?: Mm;
  /** Steps that the search may spend before it stops; 100,000 when left out. */
  readonly workLimit?: number;
}

const MOST_KINDS = 20;
const DEFAULT_WORK = 100_000;
const count = (what: string, upTo: number) => ({ what, unit: '', from: 1, upTo, remedy: 'give a whole number' });

/**
 * The cut list that takes the least bar.
 *
 * @param bars 1 to 20 lengths, each above 0 and at most 20 m. @param wishes 1 to 20 lengths, 1 to 10,000 of each.
 * @param saw kerf, crop, grip. @returns the list, or a refusal when a number is out of range or a blank fits no bar.
 *
 * Example: bars of 1000 mm, kerf 2: 3 blanks of 480 and 4 of 250 take 3 bars (480 + 480, 480 + 250 + 250, 250 + 250).
 */
export function cutList(
  bars: readonly BarStock[],
  wishes: readonly BlankWish[],
  saw: SawRules,
  options: CutListOptions = {},
): Result<CutList> {
  const checks = [...refuseLists(bars, wishes, options), ...refuseSaw(saw), refuseMisfit(bars, wishes, saw)];
  return whenSound(checks, () => {
    const longestFirst = wishes.map((_, index) => index).sort((a, b) => lengthAt(wishes, b) - lengthAt(wishes, a));
    const problem: CutProblem = {
      sizes: longestFirst.map((index) => lengthAt(wishes, index) + saw.kerf),
      bars: bars.map((bar) => ({
        length: bar.length,
        room: roomFor(bar.length, saw) + HAIR_MM,
        count: bar.count ?? Number.POSITIVE_INFINITY,
      })),
    };
    const wanted = longestFirst.map((index) => sureRow(wishes[index]).count);
    const found = searchCuts(problem, wanted, options.workLimit ?? DEFAULT_WORK);
    return describeList(found, { bars, wishes, saw, options, longestFirst });
  });
}

const lengthAt = (wishes: readonly BlankWish[], index: number): number => sureRow(wishes[index]).length;

interface Asked {
  readonly bars: readonly BarStock[];
  readonly wishes: readonly BlankWish[];
  readonly saw: SawRules;
  readonly options: CutListOptions;
  readonly longestFirst: readonly number[];
}

function describeList(found: CutSolution, asked: Asked): CutList {
  const inWishOrder = (filling: Filling): Filling =>
    asked.wishes.map((_, index) => sureRow(filling[asked.longestFirst.indexOf(index)]));
  const groups = new Map<string, { filled: FilledBar; times: number }>();
  for (const filled of found.filled) {
    const key = `${filled.bar};${filled.filling.join()}`;
    groups.set(key, { filled, times: (groups.get(key)?.times ?? 0) + 1 });
  }
  const cuts = [...groups.values()].map(({ filled, times }) =>
    describeCut(asked, inWishOrder(filled.filling), sureRow(asked.bars[filled.bar]).length, times),
  );
  const total = (of: (cut: BarCut) => number): number => cuts.reduce((sum, cut) => sum + of(cut) * cut.times, 0);
  const blanks = total((cut) =>
    cut.blanks.reduce((sum, number, wish) => sum + number * lengthAt(asked.wishes, wish), 0),
  );
  const kept = total((cut) => (cut.worthKeeping ? cut.left : 0));
  const taken = total((cut) => cut.bar);
  return {
    kind: found.complete ? 'enough' : 'short',
    cuts,
    bars: total(() => 1),
    taken: asMm(taken),
    waste: asMm(Math.max(0, taken - blanks - kept)),
    missing: asked.wishes.map((wish, index) => wish.count - total((cut) => sureRow(cut.blanks[index]))),
    proven: found.proven,
  };
}

function describeCut(asked: Asked, blanks: Filling, bar: Mm, times: number): BarCut {
  const { saw, wishes, options } = asked;
  const taken = blanks.reduce((sum, number, wish) => sum + number * (lengthAt(wishes, wish) + saw.kerf), 0);
  const left = leftAfter(bar, taken, saw);
  const oneMore = Math.min(...wishes.map((wish) => wish.length)) + saw.kerf + saw.grip;
  return { bar, times, blanks, left, worthKeeping: left >= (options.keepFrom ?? oneMore) - HAIR_MM };
}

function refuseLists(
  bars: readonly BarStock[],
  wishes: readonly BlankWish[],
  options: CutListOptions,
): readonly (Refusal | undefined)[] {
  return [
    refuseUnlessWhole(bars.length, count('bar lengths', MOST_KINDS)),
    refuseUnlessWhole(wishes.length, count('blank lengths', MOST_KINDS)),
    ...bars.flatMap((bar) => [
      refuseOutside(bar.length, { ...POSITIVE_LENGTH, what: 'bar length' }),
      bar.count === undefined ? undefined : refuseUnlessWhole(bar.count, count('bars at hand', 10_000)),
    ]),
    ...wishes.flatMap((wish) => [
      refuseOutside(wish.length, { ...POSITIVE_LENGTH, what: 'blank length' }),
      refuseUnlessWhole(wish.count, count('blanks wanted', 10_000)),
    ]),
    options.keepFrom === undefined
      ? undefined
      : refuseOutside(options.keepFrom, { ...POSITIVE_LENGTH, what: 'shortest offcut worth keeping' }),
    options.workLimit === undefined ? undefined : refuseUnlessWhole(options.workLimit, count('work limit', 10_000_000)),
  ];
}

function refuseMisfit(bars: readonly BarStock[], wishes: readonly BlankWish[], saw: SawRules): Refusal | undefined {
  const most = Math.max(0, ...bars.map((bar) => roomFor(bar.length, saw) - saw.kerf));
  const misfit = wishes.find((wish) => wish.length > most + HAIR_MM);
  return misfit === undefined
    ? undefined
    : {
        what: 'blank length',
        found: `${misfit.length} mm`,
        allowed: `at most ${Number(most.toFixed(3))} mm from the longest bar (crop, kerf and grip taken off)`,
        remedy: 'take a longer bar or a saw that holds a shorter end',
      };
}
