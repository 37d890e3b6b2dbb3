import type { Mm } from './quantities.ts';
import { type Result, refuse } from './refusal.ts';
import { LETTER_DRILLS_IN, NUMBER_DRILLS_IN } from './tables/drill-sizes-inch.ts';
import { formatTrimmed, inchesToMm, mmToInches } from './units.ts';

/**
 * Drills by their inch names: numbers 1 to 80 and letters A to Z (ASME B94.11M), and sixty-fourths.
 */

/** How near a diameter must be to a named drill to be called by its name: half of what the tables round away. */
const NAME_SLACK_IN = 0.00006;

/**
 * Diameter of a number drill. Whole numbers 1 to 80; anything else is refused.
 *
 * Example: 7 is 5.1054 mm, 29 is 3.4544 mm (.136 in).
 */
export function numberDrill(number: number): Result<Mm> {
  const inches = NUMBER_DRILLS_IN[number];
  if (inches !== undefined) return { ok: true, value: inchesToMm(inches) };
  return refuse({
    what: 'number drill',
    found: `no. ${number}`,
    allowed: 'no. 1 to no. 80',
    remedy: 'give its diameter',
  });
}

/**
 * Diameter of a letter drill, `A` to `Z` in either case; anything else is refused.
 *
 * Example: `F` is 6.5278 mm (.257 in), `Q` is 8.4328 mm (.332 in).
 */
export function letterDrill(letter: string): Result<Mm> {
  const inches = LETTER_DRILLS_IN[letter.toUpperCase()];
  if (inches !== undefined) return { ok: true, value: inchesToMm(inches) };
  return refuse({ what: 'letter drill', found: `letter ${letter}`, allowed: 'A to Z', remedy: 'give its diameter' });
}

/**
 * What a drill of this diameter is called at the bench: a metric size, a number, a letter or a fraction up to 1 in; plain
 * millimetres when it is none of them. Metric sizes are multiples of 0.05 mm.
 *
 * Example: 5.1054 mm is `no. 7`, 7.9375 mm is `5/16 in`, 6.8 mm is `6.8 mm`, 6.35 mm is `1/4 in`.
 */
export function drillName(diameter: Mm): string {
  const inches = mmToInches(diameter);
  const near = (size: number) => Math.abs(size - inches) < NAME_SLACK_IN;
  const sixtyFourths = Math.round(inches * 64);
  const isFraction = sixtyFourths >= 1 && sixtyFourths <= 64 && near(sixtyFourths / 64);
  const isMetric = Math.abs(diameter * 20 - Math.round(diameter * 20)) < 1e-6;
  const isQuarterInch = isFraction && sixtyFourths % 16 === 0;
  if (isMetric && !isQuarterInch) return `${formatTrimmed(diameter, 3)} mm`;
  if (isFraction) return `${formatSixtyFourths(sixtyFourths)} in`;
  const number = Object.entries(NUMBER_DRILLS_IN).find(([, size]) => near(size));
  if (number !== undefined) return `no. ${number[0]}`;
  const letter = Object.entries(LETTER_DRILLS_IN).find(([, size]) => near(size));
  return letter === undefined ? `${formatTrimmed(diameter, 3)} mm` : `letter ${letter[0]}`;
}

/** A count of sixty-fourths as a fraction in lowest terms: 20 is `5/16`, 64 is `1`. */
function formatSixtyFourths(count: number): string {
  let top = count;
  let bottom = 64;
  while (top % 2 === 0 && bottom > 1) {
    top /= 2;
    bottom /= 2;
  }
  return bottom === 1 ? String(top) : `${top}/${bottom}`;
}
