/**
 * Limits and fits by ISO 286 for sizes to 120 mm: the deviations of a hole or shaft zone, and the clearance or
 * interference of a pair.
 *
 * Zones: holes D, E, F, G, H, shafts d, e, f, g, h, k, n, p in grades 5 to 11 (k to grade 7: above it the standard gives
 * other deviations). The lower deviation of a hole D to G is the upper one of the shaft of that letter, turned about.
 * Sources: standard tolerances ISO 286-1:2010 table 1; fundamental deviations ISO 286-1:2010 tables 4 and 5, checked
 * against the limit deviations of ISO 286-2:2010 in the tests. Bands are "over ... up to and including".
 */
import { asMm, type Mm } from './quantities.ts';
import { andThen, answer, type Range, type Result, refuse, refuseOutside, sureRow } from './refusal.ts';

/** The limits of one zone at one size. */
export interface ZoneLimits {
  readonly kind: 'hole' | 'shaft';
  /** The zone as written: `H7`, `g6`. */
  readonly zone: string;
  /** Deviations from the nominal size in micrometres, whole numbers, signed. */
  readonly lowerUm: number;
  readonly upperUm: number;
  /** Limits of size. */
  readonly smallest: Mm;
  readonly largest: Mm;
}

/** What a hole and a shaft of one nominal size make of each other. */
export interface Fit {
  readonly kind: 'clearance' | 'transition' | 'interference';
  readonly hole: ZoneLimits;
  readonly shaft: ZoneLimits;
  /** Largest hole less smallest shaft, in micrometres; negative: interference even then. */
  readonly largestClearanceUm: number;
  /** Smallest hole less largest shaft, in micrometres; negative: interference. */
  readonly smallestClearanceUm: number;
}

interface Band {
  readonly upToMm: number;
  /** IT5 to IT11. */
  readonly gradesUm: readonly [number, number, number, number, number, number, number];
  /** Upper deviation of d, e, f and g shafts. */
  readonly d: number;
  readonly e: number;
  readonly f: number;
  readonly g: number;
  /** Lower deviation of k (grades 4 to 7), n and p shafts. */
  readonly k: number;
  readonly n: number;
  readonly p: number;
}

// ISO 286-1:2010 table 1 (IT5 to IT11) and tables 4 and 5 (d, e, f, g, k, n, p), micrometres.
const BANDS: readonly Band[] = [
  { upToMm: 3, gradesUm: [4, 6, 10, 14, 25, 40, 60], d: -20, e: -14, f: -6, g: -2, k: 0, n: 4, p: 6 },
  { upToMm: 6, gradesUm: [5, 8, 12, 18, 30, 48, 75], d: -30, e: -20, f: -10, g: -4, k: 1, n: 8, p: 12 },
  { upToMm: 10, gradesUm: [6, 9, 15, 22, 36, 58, 90], d: -40, e: -25, f: -13, g: -5, k: 1, n: 10, p: 15 },
  { upToMm: 18, gradesUm: [8, 11, 18, 27, 43, 70, 110], d: -50, e: -32, f: -16, g: -6, k: 1, n: 12, p: 18 },
  { upToMm: 30, gradesUm: [9, 13, 21, 33, 52, 84, 130], d: -65, e: -40, f: -20, g: -7, k: 2, n: 15, p: 22 },
  { upToMm: 50, gradesUm: [11, 16, 25, 39, 62, 100, 160], d: -80, e: -50, f: -25, g: -9, k: 2, n: 17, p: 26 },
  { upToMm: 80, gradesUm: [13, 19, 30, 46, 74, 120, 190], d: -100, e: -60, f: -30, g: -10, k: 2, n: 20, p: 32 },
  { upToMm: 120, gradesUm: [15, 22, 35, 54, 87, 140, 220], d: -120, e: -72, f: -36, g: -12, k: 3, n: 23, p: 37 },
];
const LOWEST_GRADE = 5;
const HIGHEST_GRADE = 11;
const HIGHEST_K_GRADE = 7;

const SIZE: Range = {
  what: 'nominal size',
  unit: 'mm',
  above: 0,
  upTo: 120,
  remedy: 'take larger sizes from ISO 286-2',
};

/** Zones that people ask for most, named when another is not known here. */
const USUAL_ZONES = 'H6 to H11, F8, D10 for holes; f7, g6, h6, h7, h9, h11, k6, n6, p6 for shafts';

/**
 * The standard tolerance of a grade at a size, in micrometres.
 *
 * @param size above 0, at most 120 mm. @param grade 5 to 11.
 *
 * Example: IT7 at 10 mm is 15 um (the tabulated value; 10 belongs to the band over 6 up to 10).
 */
export function standardTolerance(size: Mm, grade: number): Result<number> {
  return andThen(bandOf(size), (band) => {
    const um = Number.isInteger(grade) ? band.gradesUm[grade - LOWEST_GRADE] : undefined;
    return um === undefined ? refuse(unknownZone(`IT${grade}`)) : answer(um);
  });
}

/**
 * The limits of a hole or shaft zone. A capital letter means a hole, a small letter a shaft.
 *
 * @param size nominal, above 0 and at most 120 mm. @param zone such as `H7` or `g6`.
 * @returns whole micrometres and limits of size, or a refusal that names the known zones.
 *
 * Example: 20 H7 is 0 to +21 um; 25 g6 is -20 to -7 um; 50 p6 is +26 to +42 um.
 */
export function zoneLimits(size: Mm, zone: string): Result<ZoneLimits> {
  const parts = /^\s*([A-Za-z]{1,2})\s*(\d{1,2})\s*$/.exec(zone);
  const letter = parts?.[1] ?? '';
  const grade = Number(parts?.[2]);
  return andThen(bandOf(size), (band) =>
    andThen(deviationsOf(band, letter, grade, zone), ([lowerUm, upperUm]) =>
      answer({
        kind: letter === letter.toUpperCase() ? 'hole' : 'shaft',
        zone: `${letter}${grade}`,
        lowerUm,
        upperUm,
        smallest: asMm(size + lowerUm / 1000),
        largest: asMm(size + upperUm / 1000),
      } as const),
    ),
  );
}

/**
 * What a hole zone and a shaft zone make of each other at one nominal size.
 *
 * Example: 50 H7/p6 is an interference fit, 1 to 42 um; 25 H7/g6 a clearance fit, 7 to 41 um; 20 H7/k6 a transition fit.
 */
export function fitOf(size: Mm, holeZone: string, shaftZone: string): Result<Fit> {
  return andThen(zoneLimits(size, holeZone), (hole) =>
    andThen(zoneLimits(size, shaftZone), (shaft) => {
      if (hole.kind !== 'hole') return refuse(wrongKind(holeZone, 'a hole zone (capital letter)'));
      if (shaft.kind !== 'shaft') return refuse(wrongKind(shaftZone, 'a shaft zone (small letter)'));
      const largestClearanceUm = hole.upperUm - shaft.lowerUm;
      const smallestClearanceUm = hole.lowerUm - shaft.upperUm;
      return answer({
        kind: kindOf(smallestClearanceUm, largestClearanceUm),
        hole,
        shaft,
        largestClearanceUm,
        smallestClearanceUm,
      });
    }),
  );
}

function kindOf(smallestUm: number, largestUm: number): Fit['kind'] {
  if (smallestUm >= 0) return 'clearance';
  return largestUm <= 0 ? 'interference' : 'transition';
}

function bandOf(size: Mm): Result<Band> {
  const problem = refuseOutside(size, SIZE);
  return problem === undefined ? answer(sureRow(BANDS.find((candidate) => size <= candidate.upToMm))) : refuse(problem);
}

function deviationsOf(band: Band, letter: string, grade: number, zone: string): Result<readonly [number, number]> {
  const highest = letter === 'k' ? HIGHEST_K_GRADE : HIGHEST_GRADE;
  const width = grade > highest ? undefined : band.gradesUm[grade - LOWEST_GRADE];
  if (width === undefined) return refuse(unknownZone(zone));
  switch (letter) {
    case 'H':
      return answer([0, width]);
    case 'h':
      return answer([-width, 0]);
    case 'D':
    case 'E':
    case 'F':
    case 'G': {
      const lower = -band[letter.toLowerCase() as 'd' | 'e' | 'f' | 'g'];
      return answer([lower, lower + width]);
    }
    case 'd':
    case 'e':
    case 'f':
    case 'g':
      return answer([band[letter] - width, band[letter]]);
    case 'k':
    case 'n':
    case 'p':
      return answer([band[letter], band[letter] + width]);
    default:
      return refuse(unknownZone(zone));
  }
}

const unknownZone = (zone: string) => ({
  what: 'tolerance zone',
  found: zone.trim() === '' ? '(empty)' : zone,
  allowed: `H, f, g, h, n, p with grade ${LOWEST_GRADE} to ${HIGHEST_GRADE}, D, E, F, G, d, e likewise, k with grade ${LOWEST_GRADE} to ${HIGHEST_K_GRADE}`,
  remedy: `take one of the usual zones: ${USUAL_ZONES}`,
});

const wrongKind = (zone: string, allowed: string) => ({
  what: 'tolerance zone',
  found: zone,
  allowed,
  remedy: 'give the hole first, then the shaft',
});
