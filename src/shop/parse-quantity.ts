import { type QuantityText, readDecimal, refuseForm, tidyText } from './number-text.ts';
import { parseLength } from './parse-length.ts';
import {
  asDegrees,
  asMetresPerMinute,
  asRpm,
  asSeconds,
  type Degrees,
  type MetresPerMinute,
  type Mm,
  type Rpm,
  type Seconds,
} from './quantities.ts';
import { ANGLE, COUNT, CUTTING_SPEED, DURATION, FEED, PERCENT, SPINDLE_SPEED } from './ranges.ts';
import { type Range, type Result, refuse, refuseOutside } from './refusal.ts';
import { feetPerMinute, type LengthUnit } from './units.ts';

/**
 * Reading angles, times, speeds, feeds, shares and counts from untrusted text. A cutting speed must carry its unit: ft/min
 * read as m/min runs a tool 3.3 times too fast.
 */

/**
 * Reads an angle in degrees: `118`, `118 deg`, `118°`, `23 deg 41 min`, `23°41'`, `-12.5`.
 *
 * @param range in degrees; by default one turn either way. Pass POINT_ANGLE for a point (0 and 180 refused).
 *
 * Example: `23 deg 41 min` is 23.68333 degrees.
 */
export function parseAngle(given: QuantityText, range: Range = ANGLE): Result<Degrees> {
  const tidy = tidyText(given, range.what, '118 deg');
  if (!tidy.ok) return tidy;
  const match = /^([+-]?)(\d+\.?\d*|\.\d+) ?(?:deg(?:rees?)?|°)?(?: ?(\d+\.?\d*) ?(?:min|'))?$/u.exec(tidy.value);
  const minutes = Number(match?.[3] ?? 0);
  if (match === null || minutes >= 60) {
    return refuseForm(
      range.what,
      tidy.value,
      'an angle like 118 deg or 23 deg 41 min',
      'write degrees, then minutes below 60',
    );
  }
  const size = Number(match[2]) + minutes / 60;
  return within(match[1] === '-' && size !== 0 ? -size : size, range, asDegrees);
}

/**
 * Reads a duration: `45 s`, `20 min`, `1 h 20 min`, `1.5 h`, `1:20:00`. A bare number and `1:20` are refused: nobody can
 * tell hours from minutes from seconds.
 *
 * Example: `1 h 20 min` is 4800 s.
 */
export function parseDuration(given: QuantityText, range: Range = DURATION): Result<Seconds> {
  const tidy = tidyText(given, range.what, '20 min');
  if (!tidy.ok) return tidy;
  const seconds = readClock(tidy.value) ?? readUnitsOfTime(tidy.value);
  if (seconds === undefined) {
    return refuseForm(
      range.what,
      tidy.value,
      'a time like 45 s, 20 min, 1 h 20 min or 1:20:00',
      'write the unit of every number',
    );
  }
  return within(seconds, range, asSeconds);
}

/** Metres a minute in each unit that may be written behind a cutting speed. */
const CUTTING_SPEED_UNITS: Readonly<Record<string, (value: number) => MetresPerMinute>> = {
  'm/min': asMetresPerMinute,
  'm/s': (value) => asMetresPerMinute(value * 60),
  'ft/min': feetPerMinute,
  fpm: feetPerMinute,
  sfm: feetPerMinute,
  sfpm: feetPerMinute,
};

/**
 * Reads a cutting speed, unit required: `30 m/min`, `100 ft/min` (also `sfm`, `sfpm`, `fpm`), `2 m/s`.
 *
 * Example: `100 ft/min` is 30.48 m/min; `100` is refused.
 */
export function parseCuttingSpeed(given: QuantityText): Result<MetresPerMinute> {
  const tidy = tidyText(given, CUTTING_SPEED.what, '30 m/min or 100 ft/min');
  if (!tidy.ok) return tidy;
  const [, number = '', unit = ''] = /^([\d.+-]+) ?([a-z]+(?: ?\/ ?[a-z]+)?)?$/u.exec(tidy.value) ?? [];
  const value = readDecimal(number);
  const convert = CUTTING_SPEED_UNITS[unit.replace(/ /gu, '')];
  if (value === undefined || convert === undefined) {
    return refuseForm(
      CUTTING_SPEED.what,
      tidy.value,
      'a number with m/min or ft/min',
      'write the unit: they differ by 3.3 times',
    );
  }
  return within(convert(value), CUTTING_SPEED, asMetresPerMinute);
}

/** Reads a spindle speed: `950`, `950 rpm`, `950 r/min`, `950 rev/min`. Above 0, at most 100 000 rpm. */
export function parseSpindleSpeed(given: QuantityText): Result<Rpm> {
  const tidy = tidyText(given, SPINDLE_SPEED.what, '950 rpm');
  if (!tidy.ok) return tidy;
  const value = readDecimal(tidy.value.replace(/ ?(?:rpm|r\/min|rev\/min|1\/min)$/u, ''));
  if (value === undefined)
    return refuseForm(SPINDLE_SPEED.what, tidy.value, 'turns a minute like 950 rpm', 'write one number');
  return within(value, SPINDLE_SPEED, asRpm);
}

/**
 * Reads a feed of one turn or one tooth: `0.1 mm/rev`, `.002 in/tooth`, `0.1 mm`; a bare number has the default unit.
 * Above 0, at most 10 mm. What it is a feed of is for the caller to know: `/rev` and `/tooth` are not mixed up silently.
 */
export function parseFeed(given: QuantityText, per: 'rev' | 'tooth', defaultUnit: LengthUnit | undefined): Result<Mm> {
  const tidy = tidyText(given, FEED.what, `0.1 mm/${per}`);
  if (!tidy.ok) return tidy;
  const [length = '', of] = tidy.value.split(/ ?\/ ?(?=[a-z])/u);
  if (of !== undefined && of !== per) {
    return refuseForm(
      FEED.what,
      tidy.value,
      `a feed of one ${per === 'rev' ? 'turn' : 'tooth'} like 0.1 mm/${per}`,
      `give it per ${per}`,
    );
  }
  return parseLength(length, defaultUnit, FEED);
}

/**
 * Reads a percentage as a number of percent: `75 %`, `75%`, `75`. A bare number between 0 and 1 is refused, for it may be
 * a share or a percentage.
 *
 * Example: `5%` is 5; `0.5 %` is 0.5; `0.05` is refused.
 */
export function parsePercent(given: QuantityText, range: Range = PERCENT): Result<number> {
  const tidy = tidyText(given, range.what, '75 %');
  if (!tidy.ok) return tidy;
  const value = readDecimal(tidy.value.replace(/ ?%$/u, ''));
  if (value === undefined || (!tidy.value.endsWith('%') && value > 0 && value < 1)) {
    return refuseForm(range.what, tidy.value, 'a percentage like 75 %', 'write the number with %');
  }
  return within(value, range, (percent) => percent);
}

/** Reads a whole number of things: `40`. From 0 to 100 000 unless the range says otherwise; `4.5` is refused. */
export function parseCount(given: QuantityText, range: Range = COUNT): Result<number> {
  const tidy = tidyText(given, range.what, '40');
  if (!tidy.ok) return tidy;
  const value = readDecimal(tidy.value);
  if (value === undefined || !Number.isInteger(value)) {
    return refuseForm(range.what, tidy.value, 'a whole number like 40', 'write digits only');
  }
  return within(value, range, (count) => count);
}

function within<Value>(value: number, range: Range, brand: (value: number) => Value): Result<Value> {
  const problem = refuseOutside(value, range);
  return problem === undefined ? { ok: true, value: brand(value === 0 ? 0 : value) } : refuse(problem);
}

/** Hours, minutes below 60 and seconds below 60: `1:20:00`. */
function readClock(text: string): number | undefined {
  const match = /^(\d+):([0-5]\d):([0-5]\d)$/u.exec(text);
  return match === null ? undefined : Number(match[1]) * 3600 + Number(match[2]) * 60 + Number(match[3]);
}

const AMOUNT = String.raw`(\d+\.?\d*|\.\d+)`;
const UNITS_OF_TIME = new RegExp(
  `^(?:${AMOUNT} ?(?:h|hours?|hr) ?)?(?:${AMOUNT} ?(?:min|minutes?) ?)?(?:${AMOUNT} ?(?:s|sec|seconds?))?$`,
  'u',
);

function readUnitsOfTime(text: string): number | undefined {
  const match = UNITS_OF_TIME.exec(text);
  if (match === null) return undefined;
  return Number(match[1] ?? 0) * 3600 + Number(match[2] ?? 0) * 60 + Number(match[3] ?? 0);
}
