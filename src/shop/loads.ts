/**
 * How many pieces the jaws hold at once, and how a batch is shared out over loads. Whole pieces only; sums of lengths, no
 * rounding. Whether pieces side by side are equal enough to be gripped together is for the plan to check.
 */
import type { Mm } from './quantities.ts';
import { ALLOWANCE, POSITIVE_LENGTH } from './ranges.ts';
import { type Range, type Result, refuseOutside, sureRow, whenSound } from './refusal.ts';
import { refuseUnlessWhole } from './whole.ts';

/** A vice and how pieces lie in it. */
export interface JawSpace {
  /** How far the jaws open: room from jaw to jaw. */
  readonly opening: Mm;
  /** Width of the jaws: room along them. */
  readonly jawWidth: Mm;
  /** Size of a piece from jaw to jaw. */
  readonly pieceAcross: Mm;
  /** Size of a piece along the jaws. */
  readonly pieceAlong: Mm;
  /** Gap between neighbours along the jaws; 0 when left out. */
  readonly gap?: Mm;
  /** How far the outer pieces may stand out beyond the jaws at each end; 0 when left out. */
  readonly overhang?: Mm;
}

/** How many pieces a vice takes. */
export interface JawFit {
  /** In a row from jaw to jaw. */
  readonly across: number;
  /** In a row along the jaws. */
  readonly along: number;
  readonly pieces: number;
}

/** Loads of one size. */
export interface LoadGroup {
  readonly loads: number;
  readonly pieces: number;
}

/** A batch shared out over loads. */
export interface LoadPlan {
  readonly loads: number;
  /** Larger loads first; one or two groups. */
  readonly groups: readonly LoadGroup[];
  readonly lastLoad: number;
}

/** Forgiven when pieces fill the jaws exactly but for binary fractions. */
const HAIR_MM = 1e-6;
const PIECES: Range = {
  what: 'number of pieces',
  unit: '',
  from: 1,
  upTo: 10_000,
  remedy: 'give the whole number of pieces',
};
const CAPACITY: Range = { ...PIECES, what: 'pieces in a load', upTo: 1000 };

/**
 * How many pieces the jaws hold.
 *
 * @returns 0 pieces when not even one fits; a refusal only for sizes out of range.
 *
 * Example: jaws that open 3.5 in and are 4.0 in wide, pieces 1.5 in across and 2.5 in along: 2 across, 1 along, 2 in all.
 */
export function piecesInJaws(space: JawSpace): Result<JawFit> {
  const gap = space.gap ?? 0;
  const overhang = space.overhang ?? 0;
  const positive = (value: number, what: string) => refuseOutside(value, { ...POSITIVE_LENGTH, what });
  const checks = [
    positive(space.opening, 'opening of the jaws'),
    positive(space.jawWidth, 'width of the jaws'),
    positive(space.pieceAcross, 'size of the piece across'),
    positive(space.pieceAlong, 'size of the piece along'),
    refuseOutside(gap, { ...ALLOWANCE, what: 'gap between pieces' }),
    refuseOutside(overhang, { ...ALLOWANCE, what: 'overhang' }),
  ];
  return whenSound(checks, () => {
    const across = Math.floor((space.opening + HAIR_MM) / space.pieceAcross);
    const along = Math.floor((space.jawWidth + 2 * overhang + gap + HAIR_MM) / (space.pieceAlong + gap));
    return { across, along, pieces: across * along };
  });
}

/**
 * Shares pieces out over as few loads as the capacity allows, sizes as equal as can be: a last load of one where the others
 * are full grips unevenly and asks for packing.
 *
 * @param pieces 1 to 10,000. @param capacity pieces that one load holds, 1 to 1000.
 *
 * Example: 63 pieces, 2 a load: 32 loads, 31 of 2 and 1 of 1. 10 pieces, 4 a load: 1 of 4 and 2 of 3.
 */
export const balancedLoads = (pieces: number, capacity: number): Result<LoadPlan> =>
  whenSound([refuseUnlessWhole(pieces, PIECES), refuseUnlessWhole(capacity, CAPACITY)], () => {
    const loads = Math.ceil(pieces / capacity);
    const smaller = Math.floor(pieces / loads);
    const larger = pieces - smaller * loads;
    return planOf([
      { loads: larger, pieces: smaller + 1 },
      { loads: loads - larger, pieces: smaller },
    ]);
  });

/**
 * Shares pieces out over full loads with what is left in the last one.
 *
 * Example: 10 pieces, 4 a load: 2 of 4 and 1 of 2.
 */
export const fullLoads = (pieces: number, capacity: number): Result<LoadPlan> =>
  whenSound([refuseUnlessWhole(pieces, PIECES), refuseUnlessWhole(capacity, CAPACITY)], () =>
    planOf([
      { loads: Math.floor(pieces / capacity), pieces: capacity },
      { loads: pieces % capacity === 0 ? 0 : 1, pieces: pieces % capacity },
    ]),
  );

function planOf(all: readonly LoadGroup[]): LoadPlan {
  const groups = all.filter((group) => group.loads > 0);
  return {
    loads: groups.reduce((sum, group) => sum + group.loads, 0),
    groups,
    lastLoad: sureRow(groups.at(-1)).pieces,
  };
}
