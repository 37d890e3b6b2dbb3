/**
 * Times and instants as text. Inside a report seconds keep their thousandths; they are rounded here and nowhere else.
 * An instant is written in ISO 8601 with the offset that its zone had at that moment.
 */
import { civilText, instantOf } from '../forecast/calendar.ts';

/**
 * Hours, minutes and seconds: whole seconds, halves up, hours unpadded.
 *
 * Example: 3725.4 s is `1:02:05`, 59.6 s is `0:01:00`, -65 s is `-0:01:05`.
 */
export function formatClockTime(seconds: number): string {
  const whole = Math.round(Math.abs(seconds));
  const sign = seconds < 0 && whole > 0 ? '-' : '';
  return `${sign}${Math.floor(whole / 3600)}:${twoDigits(Math.floor(whole / 60) % 60)}:${twoDigits(whole % 60)}`;
}

/** Hours and minutes, rounded to the minute: 3725 s is `1:02`, 3599 s is `1:00`, 29 s is `0:00`. */
export function formatHours(seconds: number): string {
  const minutes = Math.round(Math.abs(seconds) / 60);
  const sign = seconds < 0 && minutes > 0 ? '-' : '';
  return `${sign}${Math.floor(minutes / 60)}:${twoDigits(minutes % 60)}`;
}

/** Hours as a decimal number with two places: 5400 s is `1.50`. */
export const formatDecimalHours = (seconds: number): string => {
  const text = (Math.round(seconds / 36) / 100).toFixed(2);
  return text === '-0.00' ? '0.00' : text;
};

/**
 * A short time in the words of the bench: tenths below a minute, whole seconds above.
 *
 * Example: 0 s is `0 s`, 42.34 s is `42.3 s`, 59.97 s is `1 min 0 s`, 130 s is `2 min 10 s`, 7260 s is `2 h 1 min`.
 */
export function formatSpan(seconds: number): string {
  const size = Math.abs(seconds);
  const sign = seconds < 0 ? '-' : '';
  if (Math.round(size * 10) === 0) return '0 s';
  if (Math.round(size * 10) < 600) return `${sign}${(Math.round(size * 10) / 10).toFixed(1)} s`;
  const whole = Math.round(size);
  if (whole < 3600) return `${sign}${Math.floor(whole / 60)} min ${whole % 60} s`;
  const minutes = Math.round(size / 60);
  return `${sign}${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}

/**
 * Whole seconds for parts of a total, so that the parts as shown add up to the total as shown: each part is rounded down
 * and the seconds still missing go to the largest remainders. No part moves by a second or more.
 *
 * Example: [0.4, 0.4, 0.4] sums to 1.2 and is shown as [1, 0, 0]; parts are 0 or more.
 */
export function wholeSecondParts(parts: readonly number[]): number[] {
  const floors = parts.map((part) => Math.floor(part + 1e-9));
  const total = Math.round(parts.reduce((sum, part) => sum + part, 0));
  const missing = total - floors.reduce((sum, part) => sum + part, 0);
  const byRemainder = parts
    .map((part, index) => ({ index, remainder: part - (floors[index] ?? 0) }))
    .sort((a, b) => b.remainder - a.remainder || a.index - b.index);
  const raised = new Set(byRemainder.slice(0, Math.max(0, missing)).map((entry) => entry.index));
  return floors.map((part, index) => (raised.has(index) ? part + 1 : part));
}

/**
 * An instant in ISO 8601 with the offset of its zone, to the nearest second. `wall_ms` is milliseconds since 1970 UTC,
 * held between 1970 and 9999; `zone` an IANA name.
 *
 * Example: 1803931500000 in `Europe/Berlin` is `2027-03-01T21:05:00+01:00`.
 */
export function isoInstant(wall_ms: number, zone: string): string {
  const held_ms = Math.min(LAST_MS, Math.max(0, wall_ms));
  const civil = civilText(zone, held_ms);
  const offset_min = Math.round((instantOf('UTC', civil) - held_ms) / 60_000);
  const size = Math.abs(offset_min);
  return `${civil}${offset_min < 0 ? '-' : '+'}${twoDigits(Math.floor(size / 60))}:${twoDigits(size % 60)}`;
}

/** The last second of the year 9998, so that every zone still writes four digits of year. */
const LAST_MS = 253_370_764_799_000;

/** An ISO instant as a person reads it, in its own zone: `2027-03-01 21:05`. */
export const readableInstant = (iso: string): string => iso.slice(0, 16).replace('T', ' ');

const twoDigits = (value: number): string => String(value).padStart(2, '0');
