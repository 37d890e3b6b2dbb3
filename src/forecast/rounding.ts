/**
 * How a finish is spoken: rounded to what its band can bear, in the shop's clock. Nobody needs seconds when the band is an
 * hour wide, and a rounded time must not fall outside the hours in which the shop is open.
 */
import { openSeconds, openStretches, type ShopClock, shopClock } from './calendar.ts';
import type { ShopHours } from './shop-hours.ts';
import { timeOf } from './time-of-day.ts';

/** A finish as instants: 10, 50 and 90 % points. */
export type FinishInstants = { readonly p10_ms: number; readonly p50_ms: number; readonly p90_ms: number };

export type SpokenFinish = {
  /** The median, `21:05` or `Thu 20:10`. */
  readonly finish: string;
  /** Both ends of the 80 % band, `20:40 to 21:45`. */
  readonly band: string;
};

const steps_s = [1, 5, 15, 60, 300, 600, 900, 1800, 3600, 7200, 14_400, 86_400];

/**
 * Seconds to which a time is rounded when its band is `width_s` wide: about an eighth of it, from a list of steps that
 * people speak in (1, 5, 15 s; 1, 5, 10, 15, 30 min; 1, 2, 4 h; a day). Example: a band of 65 min is spoken to 5 min.
 */
export function roundingStep(width_s: number): number {
  const wanted = width_s / 8;
  return steps_s.findLast((step) => step <= wanted) ?? 1;
}

/**
 * A finish in words as seen at `now_ms`. Times of another day carry the weekday, those more than six days away the date.
 * The rounded times stay inside the opening they fall in; the band's ends are rounded outward. Clock times are spoken to
 * whole minutes at the finest and four hours at the coarsest.
 */
export function spokenFinish(hours: ShopHours, now_ms: number, finish: FinishInstants): SpokenFinish {
  // The width in open hours: a night inside the band makes nothing less certain.
  const open_s = openSeconds(hours, finish.p10_ms, finish.p90_ms);
  const step_ms = Math.max(60, Math.min(roundingStep(open_s), 14_400)) * 1000;
  const at = (instant_ms: number, round: (x: number) => number): number =>
    roundedInside(hours, Math.max(now_ms, instant_ms), step_ms, round);
  // The past is over: an end of the band that rounding would put before now is now.
  const low = Math.max(now_ms, at(finish.p10_ms, Math.floor));
  const high = at(finish.p90_ms, Math.ceil);
  const middle = Math.min(high, Math.max(low, at(finish.p50_ms, Math.round)));
  return {
    finish: spokenClock(hours.zone, now_ms, middle),
    band: `${spokenClock(hours.zone, now_ms, low)} to ${spokenClock(hours.zone, low, high, now_ms)}`,
  };
}

/** Rounds an instant by the shop's clock and holds it inside the opening that it lies in. */
function roundedInside(hours: ShopHours, at_ms: number, step_ms: number, round: (x: number) => number): number {
  const clock = shopClock(hours.zone, at_ms);
  const sinceMidnight = ((clock.hour * 60 + clock.minute) * 60 + clock.second) * 1000 + (at_ms % 1000);
  const moved = at_ms + round(sinceMidnight / step_ms) * step_ms - sinceMidnight;
  for (const open of openStretches(hours, at_ms - 86_400_000)) {
    if (open.from_ms > at_ms) break;
    if (at_ms <= open.to_ms) return Math.max(open.from_ms, Math.min(open.to_ms, moved));
  }
  return moved;
}

const weekdayNames = { mon: 'Mon', tue: 'Tue', wed: 'Wed', thu: 'Thu', fri: 'Fri', sat: 'Sat', sun: 'Sun' } as const;
const monthNames = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;

/**
 * A clock time in words: `21:05` on the day of `beside_ms`, `Thu 20:10` within six days of `now_ms`, otherwise
 * `Thu 12 Mar 20:10` (with the year when it is another). Midnight at the end of a day is spoken as 24:00 of that day.
 */
export function spokenClock(zone: string, beside_ms: number, at_ms: number, now_ms = beside_ms): string {
  const exact = shopClock(zone, at_ms);
  const atMidnight = exact.hour === 0 && exact.minute === 0 && at_ms > beside_ms;
  const clock = atMidnight ? { ...shopClock(zone, at_ms - 1), hour: 24, minute: 0 } : exact;
  const time = timeOf(clock.hour * 60 + clock.minute);
  if (sameDay(clock, shopClock(zone, beside_ms))) return time;
  const days = Math.abs(at_ms - now_ms) / 86_400_000;
  if (days < 6) return `${weekdayNames[clock.weekday]} ${time}`;
  const date = `${weekdayNames[clock.weekday]} ${clock.day} ${monthNames[clock.month - 1]}`;
  return clock.year === shopClock(zone, now_ms).year ? `${date} ${time}` : `${date} ${clock.year} ${time}`;
}

/** A day in words, with the year when it is another than that of `now_ms`: `Thu 3 Dec`, `Fri 8 Jan 2027`. */
export function spokenDate(zone: string, now_ms: number, at_ms: number): string {
  const { weekday, day, month, year } = shopClock(zone, at_ms);
  const date = `${weekdayNames[weekday]} ${day} ${monthNames[month - 1]}`;
  return year === shopClock(zone, now_ms).year ? date : `${date} ${year}`;
}

/**
 * A duration in words, rounded to `step_s` seconds: `45 s`, `25 min`, `1 h 25 min`, `3 h`. Example: spokenDuration(5100,
 * 300) = `1 h 25 min`. Less than half a step is spoken as `under` the step.
 */
export function spokenDuration(seconds: number, step_s: number): string {
  const rounded = Math.round(Math.max(0, seconds) / step_s) * step_s;
  if (rounded === 0) return seconds > 0 ? `under ${spokenDuration(step_s, step_s)}` : '0 min';
  if (rounded < 60) return `${Math.round(rounded)} s`;
  const minutes = Math.round(rounded / 60);
  if (step_s < 60 && minutes < 10) {
    const rest = Math.round(rounded % 60);
    return rest === 0 ? `${Math.floor(rounded / 60)} min` : `${Math.floor(rounded / 60)} min ${rest} s`;
  }
  const hours = Math.floor(minutes / 60);
  if (hours === 0) return `${minutes} min`;
  return minutes % 60 === 0 ? `${hours} h` : `${hours} h ${minutes % 60} min`;
}

function sameDay(one: ShopClock, other: ShopClock): boolean {
  return one.day === other.day && one.month === other.month && one.year === other.year;
}
