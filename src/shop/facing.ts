/**
 * Facing a measured load: the height at which every piece cleans up, and the pieces that never will.
 *
 * A face cleans up when at least the stated least cut comes off it all over. Pieces of one load are faced to one height, so
 * the lowest of them decides. Geometry and common practice; heights unrounded.
 */
import { asMm, type Mm } from './quantities.ts';
import { ALLOWANCE, POSITIVE_LENGTH } from './ranges.ts';
import { type Range, type Result, refuseOutside, whenSound } from './refusal.ts';
import { refuseUnlessWhole } from './whole.ts';

/** What is known before a load is faced. */
export interface LoadToFace {
  /** Measured height (or length) of each piece, lowest point of the sawn face. */
  readonly measured: readonly Mm[];
  readonly finished: Mm;
  /** The least that must come off a face for it to clean up. */
  readonly leastCut: Mm;
  /** Faces still to be cut: this one only, or this one and the opposite. */
  readonly faces: 1 | 2;
  /** A height at which the first face is to be cut; left out: only the range is worked out. */
  readonly cutAt?: Mm;
}

/** Heights of the first cut at which all pieces that can be saved clean up on every face. */
export interface FacingHeights {
  readonly highest: Mm;
  readonly lowest: Mm;
}

/** What the measurements say. */
export interface FacingAnswer {
  /** Undefined when no piece can be saved. */
  readonly heights: FacingHeights | undefined;
  /** Indexes of pieces too low to clean up on all faces at whatever height. */
  readonly never: readonly number[];
  /** Indexes of pieces that do not clean up when cut at the height stated; empty when none was stated. */
  readonly uncleanAtCut: readonly number[];
}

const PIECES: Range = {
  what: 'measured pieces',
  unit: '',
  from: 1,
  upTo: 200,
  remedy: 'measure each piece of the load',
};

/**
 * The heights at which a load cleans up.
 *
 * @param load 1 to 200 pieces, each above 0; finished above 0; least cut 0 to 1000 mm (at 0 a piece of the very height of the
 * cut counts as clean).
 *
 * Example: pieces of 40.9, 41.2 and 40.3 mm to finish at 40, least cut 0.2 on both faces: 40.3 never; the others at 40.2 to
 * 40.7 mm.
 */
export function facingOf(load: LoadToFace): Result<FacingAnswer> {
  const checks = [
    refuseUnlessWhole(load.measured.length, PIECES),
    ...load.measured.map((mm, index) => refuseOutside(mm, { ...POSITIVE_LENGTH, what: `measured piece ${index + 1}` })),
    refuseOutside(load.finished, { ...POSITIVE_LENGTH, what: 'finished height' }),
    refuseOutside(load.leastCut, { ...ALLOWANCE, what: 'least cut' }),
    load.cutAt === undefined ? undefined : refuseOutside(load.cutAt, { ...POSITIVE_LENGTH, what: 'height of the cut' }),
  ];
  return whenSound(checks, () => {
    const needed = load.finished + load.faces * load.leastCut;
    const never = indexesBelow(load.measured, needed);
    const saved = load.measured.filter((_, index) => !never.includes(index));
    const heights = {
      highest: asMm(Math.min(...saved) - load.leastCut),
      lowest: asMm(needed - load.leastCut),
    };
    return {
      heights: saved.length === 0 ? undefined : heights,
      never,
      uncleanAtCut: load.cutAt === undefined ? [] : indexesBelow(load.measured, load.cutAt + load.leastCut),
    };
  });
}

/** Forgiven when a height is reached but for binary fractions. */
const HAIR_MM = 1e-9;

const indexesBelow = (heights: readonly Mm[], limit: number): readonly number[] =>
  heights.flatMap((height, index) => (height < limit - HAIR_MM ? [index] : []));
