/**
 * Exact conversion between inch and millimetre, rounding to what a readout shows, and numbers as text. Reading text is in
 * parse-length.ts and parse-quantity.ts. Inside the program every length is in millimetres (`Mm`).
 */
import { asMetresPerMinute, asMm, type MetresPerMinute, type Mm, type Seconds } from './quantities.ts';

/** The units in which a plan or a user may state lengths. */
export type LengthUnit = 'mm' | 'inch';

/** Millimetres in an inch, exact by definition (international inch of 1959; ISO 80000-3). */
export const MM_PER_INCH = 25.4;
/** Metres in a foot, exact: 12 x 25.4 mm. */
const METRES_PER_FOOT = 0.3048;
/** Part of one step of resolution by which a half may fall short through binary fractions and still count as a half. */
const HALF_STEP_SLACK = 1e-6;

/** Inches to millimetres, exact to the last binary digit. `inchesToMm(0.5)` is 12.7. */
export const inchesToMm = (inches: number): Mm => asMm(inches * MM_PER_INCH);

/** Millimetres to inches. `mmToInches(asMm(12.7))` is 0.5. */
export const mmToInches = (mm: Mm): number => mm / MM_PER_INCH;

/** Feet a minute to metres a minute. `feetPerMinute(100)` is 30.48 m/min. */
export const feetPerMinute = (value: number): MetresPerMinute => asMetresPerMinute(value * METRES_PER_FOOT);

/** Metres a minute to feet a minute. `asFeetPerMinute(asMetresPerMinute(30.48))` is 100. */
export const asFeetPerMinute = (speed: MetresPerMinute): number => speed / METRES_PER_FOOT;

/**
 * The nearest value that a readout or dial of the given resolution can show, halves away from zero.
 *
 * Round absolute positions only: sums of rounded steps drift. Both arguments in the same unit; resolution above 0.
 * A value that is no number comes back as it is (the caller has refused it before).
 *
 * Example: 1.0025 at 0.005 is 1.005; -1.0025 is -1.005; 12.3456 at 0.01 is 12.35. Never -0.
 */
export function roundToResolution(value: number, resolution: number): number {
  const steps = Math.floor(Math.abs(value) / resolution + 0.5 + HALF_STEP_SLACK);
  const perUnit = Math.round(1 / resolution);
  const exactShare = perUnit > 0 && Math.abs(perUnit * resolution - 1) < 1e-9;
  const size = exactShare ? steps / perUnit : Number((steps * resolution).toPrecision(12));
  return value < 0 && size !== 0 ? -size : size;
}

/**
 * A number at a fixed count of decimals (0 to 9), halves away from zero, never `-0`.
 *
 * Example: `formatFixed(1.005, 2)` is `1.01`, `formatFixed(-0.001, 2)` is `0.00`.
 */
export function formatFixed(value: number, decimals: number): string {
  return roundToResolution(value, 10 ** -decimals).toFixed(decimals);
}

/**
 * A number with up to so many decimals, without zeros at its end, never `-0`.
 *
 * Example: `formatTrimmed(13.5, 3)` is `13.5`, `formatTrimmed(13, 3)` is `13`.
 */
export function formatTrimmed(value: number, decimals: number): string {
  const text = formatFixed(value, decimals);
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

/** Millimetres at fixed decimals without the unit. `formatMm(asMm(12.34), 3)` is `12.340`. */
export const formatMm = (mm: Mm, decimals = 3): string => formatFixed(mm, decimals);

/**
 * Inches as a drawing writes them: fixed decimals, no zero before the point, without the unit.
 *
 * Example: 19.05 mm is `.750`, -12.7 mm is `-.500`, 50.8 mm is `2.000`.
 */
export function formatInches(mm: Mm, decimals = 3): string {
  return formatFixed(mmToInches(mm), decimals).replace(/^(-?)0\./, '$1.');
}

/**
 * A length with its unit, in the unit of the reader: `12.34 mm` (up to 3 decimals) or `.750 in` (3 decimals, or more
 * when asked).
 */
export function formatLength(mm: Mm, unit: LengthUnit, decimals = 3): string {
  return unit === 'mm' ? `${formatTrimmed(mm, decimals)} mm` : `${formatInches(mm, decimals)} in`;
}

/** A cutting speed in the unit of the reader: `30 m/min` or `98 ft/min`, rounded to a whole number above 10. */
export function formatCuttingSpeed(speed: MetresPerMinute, unit: LengthUnit): string {
  const value = unit === 'mm' ? speed : asFeetPerMinute(speed);
  return `${formatTrimmed(value, value < 10 ? 1 : 0)} ${unit === 'mm' ? 'm/min' : 'ft/min'}`;
}

/**
 * A duration in words, rounded to whole seconds (tenths below ten seconds).
 *
 * Example: 4800 s is `1 h 20 min`, 95 s is `1 min 35 s`, 7.25 s is `7.3 s`, 0 s is `0 s`.
 */
export function formatDuration(duration: Seconds): string {
  if (duration < 10) return `${formatTrimmed(duration, 1)} s`;
  const whole = Math.round(duration);
  const parts: readonly (readonly [number, string])[] = [
    [Math.floor(whole / 3600), 'h'],
    [Math.floor((whole % 3600) / 60), 'min'],
    [whole % 60, 's'],
  ];
  return parts
    .filter(([amount]) => amount > 0)
    .map(([amount, unit]) => `${amount} ${unit}`)
    .join(' ');
}
