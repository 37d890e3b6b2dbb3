import { letterDrill, numberDrill } from './drill-sizes.ts';
import { type QuantityText, refuseForm, tidyText } from './number-text.ts';
import { asMm, type Mm } from './quantities.ts';
import { LENGTH, TOOL_DIAMETER } from './ranges.ts';
import { type Range, type Result, refuse, refuseOutside } from './refusal.ts';
import { type LengthUnit, MM_PER_INCH } from './units.ts';

/**
 * Reading a length from untrusted text. Taken: `6 mm`, `0.5in`, `1/4 in`, `1/4"`, `1-3/16 in`, `1 3/16 in`, `5/16` (a
 * fraction without a unit is inches), `.750` and `12` (a number without a unit has the default unit), and drills by name:
 * `no. 7`, `#7`, `letter F`. Not taken: a comma, an exponent, a unit that is not a length.
 */

/** Millimetres in each unit that may be written behind a length. */
const MM_PER_UNIT: Readonly<Record<string, number>> = {
  mm: 1,
  millimetre: 1,
  millimetres: 1,
  millimeter: 1,
  millimeters: 1,
  cm: 10,
  m: 1000,
  um: 0.001,
  µm: 0.001,
  μm: 0.001,
  in: MM_PER_INCH,
  inch: MM_PER_INCH,
  inches: MM_PER_INCH,
  '"': MM_PER_INCH,
  ft: 12 * MM_PER_INCH,
  thou: MM_PER_INCH / 1000,
};
const FORMS = 'a length like 6 mm, 1/4 in, 1-3/16 in, .750 in, no. 7 or letter F';
const VALUE = /^([+-]?) ?(?:(\d+)[ -](\d+)\/(\d+)|(\d+)\/(\d+)|(\d+\.?\d*|\.\d+)) ?([a-zµμ"]*)\.?$/u;

/**
 * Reads a length.
 *
 * @param given untrusted text, or a number that a file gave without quotes
 * @param defaultUnit unit of a bare number; `undefined` refuses a bare number
 * @param range in millimetres, ends as the caller needs them; by default -20 m to 20 m
 * @returns millimetres, unrounded; or a refusal
 *
 * Example: `1-3/16 in` is 30.1625 mm; `.750` with `inch` is 19.05 mm; `#7` is 5.1054 mm; `6,5 mm` is refused.
 */
export function parseLength(
  given: QuantityText,
  defaultUnit: LengthUnit | undefined,
  range: Range = LENGTH,
): Result<Mm> {
  const tidy = tidyText(given, range.what, '6 mm or 1/4 in');
  if (!tidy.ok) return tidy;
  const read = readDrillName(tidy.value) ?? readMeasured(tidy.value, defaultUnit, range.what);
  if (!read.ok) return read;
  const problem = refuseOutside(read.value, range);
  if (problem === undefined) return read;
  const isSame = [problem.found, problem.found.replace(/ mm$/u, '')].includes(tidy.value);
  return refuse(isSame ? problem : { ...problem, found: `${problem.found} (${tidy.value})` });
}

/**
 * Reads a diameter of a tool: a length above 0, at most 250 mm.
 *
 * Example: `no. 29` is 3.4544 mm; `400 mm` is refused.
 */
export const parseDiameter = (given: QuantityText, defaultUnit: LengthUnit | undefined): Result<Mm> =>
  parseLength(given, defaultUnit, TOOL_DIAMETER);

function readDrillName(text: string): Result<Mm> | undefined {
  const number = /^(?:no\.? ?|number ?|# ?)(\d{1,3})(?: drill)?$/u.exec(text)?.[1];
  if (number !== undefined) return numberDrill(Number(number));
  const letter = /^letter ?([a-z])(?: drill)?$/u.exec(text)?.[1];
  return letter === undefined ? undefined : letterDrill(letter);
}

function readMeasured(text: string, defaultUnit: LengthUnit | undefined, what: string): Result<Mm> {
  const match = VALUE.exec(text);
  if (match === null) return refuseForm(what, text, FORMS, 'write one value with its unit');
  const [, sign, whole, top, bottom, fractionTop, fractionBottom, decimal, unitText = ''] = match;
  const isFraction = decimal === undefined;
  const magnitude = isFraction
    ? readFraction(whole ?? '0', top ?? fractionTop ?? '', bottom ?? fractionBottom ?? '')
    : Number(decimal);
  if (magnitude === undefined)
    return refuseForm(what, text, 'a proper fraction such as 1-3/16 in', 'check the fraction');
  const perUnit = MM_PER_UNIT[unitText === '' ? (isFraction ? 'in' : (defaultUnit ?? '')) : unitText];
  if (perUnit === undefined) {
    return refuseForm(what, text, 'a unit of mm, cm, m, in, ft or thou', 'write the unit behind the number');
  }
  const value = magnitude * perUnit;
  return { ok: true, value: asMm(sign === '-' && value !== 0 ? -value : value) };
}

/** `1 3/16` is 1.1875; a zero below the line, or a whole number before an improper fraction, is undefined. */
function readFraction(whole: string, top: string, bottom: string): number | undefined {
  const [units, upper, lower] = [Number(whole), Number(top), Number(bottom)];
  if (lower === 0 || (units > 0 && upper >= lower)) return undefined;
  return units + upper / lower;
}
