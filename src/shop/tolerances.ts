/**
 * General tolerances of dimensions that carry none of their own: by ISO 2768-1 on a metric drawing, by decimal places on an
 * inch drawing (from the block printed on that drawing, never from ISO 2768).
 *
 * Source: ISO 2768-1:1989 tables 1 (linear), 2 (radii and chamfers) and 3 (angles). Bands are "over ... up to and
 * including"; the first linear band includes 0.5 mm. Two rows of table 3 are from memory and say so in the answer.
 */
import { asMm, type Mm } from './quantities.ts';
import { answer, type Range, type Refusal, type Result, refuse, refuseOutside, sureRow } from './refusal.ts';
import { refuseUnlessWhole } from './whole.ts';

/** Tolerance class of ISO 2768-1: f, m, c and v. */
export type ToleranceClass = 'fine' | 'medium' | 'coarse' | 'very coarse';

/** A general tolerance, the same amount up and down. */
export interface PlusMinus {
  readonly plusMinus: Mm;
}

/** A general tolerance of an angle. */
export interface AnglePlusMinus {
  readonly plusMinusArcMinutes: number;
  /** True where the row is from memory and not checked against the standard. */
  readonly fromMemory: boolean;
}

interface LengthBand {
  readonly upToMm: number;
  readonly plusMinusMm: Readonly<Record<ToleranceClass, number | null>>;
}

interface AngleBand {
  readonly upToMm: number;
  readonly arcMinutes: Readonly<Record<ToleranceClass, number>>;
  readonly fromMemory: readonly ToleranceClass[];
}

const linear = (
  upToMm: number,
  fine: number | null,
  medium: number,
  coarse: number,
  very: number | null,
): LengthBand => ({
  upToMm,
  plusMinusMm: { fine, medium, coarse, 'very coarse': very },
});

// ISO 2768-1:1989 table 1, mm.
const LINEAR: readonly LengthBand[] = [
  linear(3, 0.05, 0.1, 0.2, null),
  linear(6, 0.05, 0.1, 0.3, 0.5),
  linear(30, 0.1, 0.2, 0.5, 1),
  linear(120, 0.15, 0.3, 0.8, 1.5),
  linear(400, 0.2, 0.5, 1.2, 2.5),
  linear(1000, 0.3, 0.8, 2, 4),
  linear(2000, 0.5, 1.2, 3, 6),
  linear(4000, null, 2, 4, 8),
];

// ISO 2768-1:1989 table 2, mm.
const RADII: readonly LengthBand[] = [
  linear(3, 0.2, 0.2, 0.4, 0.4),
  linear(6, 0.5, 0.5, 1, 1),
  linear(Number.POSITIVE_INFINITY, 1, 1, 2, 2),
];

const angles = (
  upToMm: number,
  [fineMedium, coarse, veryCoarse]: readonly [number, number, number],
  fromMemory: readonly ToleranceClass[] = [],
): AngleBand => ({
  upToMm,
  arcMinutes: { fine: fineMedium, medium: fineMedium, coarse, 'very coarse': veryCoarse },
  fromMemory,
});

// ISO 2768-1:1989 table 3, minutes of arc, by the shorter leg. Coarse over 120 up to 400 mm is 15 from memory of the
// standard (other lists print 20); the last row is from memory.
const ANGULAR: readonly AngleBand[] = [
  angles(10, [60, 90, 180]),
  angles(50, [30, 60, 120]),
  angles(120, [20, 30, 60]),
  angles(400, [10, 15, 30], ['coarse']),
  angles(Number.POSITIVE_INFINITY, [5, 10, 20], ['fine', 'medium', 'coarse', 'very coarse']),
];

const SIZE: Range = {
  what: 'nominal size',
  unit: 'mm',
  from: 0.5,
  upTo: 4000,
  remedy: 'below 0.5 mm and above 4000 mm the drawing must state the tolerance itself',
};
const RADIUS: Range = { ...SIZE, what: 'radius or chamfer' };
const LEG: Range = { ...SIZE, what: 'shorter leg of the angle', above: 0, from: 0 };

const CLASSES: Readonly<Record<string, ToleranceClass>> = {
  f: 'fine',
  fine: 'fine',
  m: 'medium',
  medium: 'medium',
  c: 'coarse',
  coarse: 'coarse',
  v: 'very coarse',
  'very coarse': 'very coarse',
};

/**
 * Reads the name of a tolerance class: `f`, `m`, `c`, `v` or the words, also as `ISO 2768-m` or `2768-mK` (the second letter,
 * of ISO 2768-2, is left aside).
 *
 * Example: `parseToleranceClass('ISO 2768-mK')` is `medium`.
 */
export function parseToleranceClass(text: string): Result<ToleranceClass> {
  const bare = text.trim().replace(/^(?:ISO\s*)?2768\s*-\s*([fmcv])[HKL]?$/i, '$1');
  const found = CLASSES[bare.toLowerCase().replace(/[\s_-]+/g, ' ')];
  return found !== undefined
    ? answer(found)
    : refuse({
        what: 'tolerance class',
        found: text.trim() === '' ? '(empty)' : text,
        allowed: 'fine (f), medium (m), coarse (c), very coarse (v)',
        remedy: 'take the class from the title block of the drawing, such as ISO 2768-m',
      });
}

/**
 * General tolerance of a length, diameter or distance.
 *
 * @param size nominal, 0.5 to 4000 mm. @returns plus and minus the same amount, or a refusal where the table has none.
 *
 * Example: 30 mm medium is 0.2 (30 belongs to the band over 6 up to 30); 6 mm medium is 0.1.
 */
export const linearTolerance = (size: Mm, toleranceClass: ToleranceClass): Result<PlusMinus> =>
  lookUp(LINEAR, size, toleranceClass, refuseOutside(size, SIZE));

/**
 * General tolerance of an outside radius or a chamfer height.
 *
 * @param size nominal, 0.5 to 4000 mm. Example: a 5 mm radius, medium, is plus and minus 0.5.
 */
export const radiusTolerance = (size: Mm, toleranceClass: ToleranceClass): Result<PlusMinus> =>
  lookUp(RADII, size, toleranceClass, refuseOutside(size, RADIUS));

/**
 * General tolerance of an angle, by the length of its shorter leg.
 *
 * @param shorterLeg above 0, at most 4000 mm. Example: a leg of 10 mm, medium, is plus and minus 60 minutes of arc.
 */
export function angularTolerance(shorterLeg: Mm, toleranceClass: ToleranceClass): Result<AnglePlusMinus> {
  const problem = refuseOutside(shorterLeg, LEG);
  if (problem !== undefined) return refuse(problem);
  const band = sureRow(ANGULAR.find((candidate) => shorterLeg <= candidate.upToMm));
  return answer({
    plusMinusArcMinutes: band.arcMinutes[toleranceClass],
    fromMemory: band.fromMemory.includes(toleranceClass),
  });
}

function lookUp(
  bands: readonly LengthBand[],
  size: Mm,
  toleranceClass: ToleranceClass,
  problem: Refusal | undefined,
): Result<PlusMinus> {
  const plusMinusMm = bands.find((band) => size <= band.upToMm)?.plusMinusMm[toleranceClass] ?? null;
  if (problem !== undefined) return refuse(problem);
  return plusMinusMm === null
    ? refuse(noneGiven(SIZE, size, toleranceClass))
    : answer({ plusMinus: asMm(plusMinusMm) });
}

const noneGiven = (range: Range, size: Mm, toleranceClass: ToleranceClass): Refusal => ({
  what: range.what,
  found: `${size} mm in class ${toleranceClass}`,
  allowed: 'a size for which ISO 2768-1 gives that class',
  remedy: 'the drawing must state this tolerance itself, or take another class',
});

/** The tolerance block of an inch drawing: plus and minus by number of decimal places. */
export type DecimalPlacesBlock = ReadonlyMap<number, Mm>;

const PLACES: Range = {
  what: 'decimal places',
  unit: '',
  from: 0,
  upTo: 5,
  remedy: 'write the size as the drawing does',
};

/**
 * How many decimal places a size is written with: `2.500` has 3, `1.5` has 1, `3/8` is a fraction and is refused.
 */
export function decimalPlacesOf(text: string): Result<number> {
  const match = /^\s*[+-]?\d*(?:\.(\d*))?\s*(?:in|inch|")?\s*$/i.exec(text);
  if (match === null || !/\d/.test(text)) {
    return refuse({
      what: 'size',
      found: text.trim() === '' ? '(empty)' : text,
      allowed: 'a decimal size as on the drawing, such as 2.500',
      remedy: 'a fraction has no decimal places: take its own tolerance from the drawing',
    });
  }
  return answer(match[1]?.length ?? 0);
}

/**
 * The tolerance that an inch drawing's block gives to a size written with so many decimal places.
 *
 * Example: with a block of two places .01 and three places .005, `2.500` (three places) is plus and minus .005 in.
 */
export function toleranceByPlaces(places: number, block: DecimalPlacesBlock): Result<PlusMinus> {
  const problem = refuseUnlessWhole(places, PLACES);
  const plusMinus = block.get(places);
  if (problem !== undefined) return refuse(problem);
  return plusMinus === undefined
    ? refuse({
        what: 'decimal places',
        found: String(places),
        allowed: `those of the drawing's block: ${[...block.keys()].sort((a, b) => a - b).join(', ') || 'none stated'}`,
        remedy: 'state the tolerance of this size, or add its number of places to the block',
      })
    : answer({ plusMinus });
}
