/**
 * The shop calendar: when work is done, in the shop's own time zone. Turns bench seconds into clock times and back.
 *
 * Promises: counts only open hours; a day of 23 or 25 hours is counted as long as it is; work that ends at closing time ends
 * at closing time, not at the next opening. Instants are milliseconds since 1970 UTC, as everywhere; the zone is an
 * argument. The only file of the pure floors that knows of time zones and civil dates; it never reads the clock.
 */
import { tzOffset } from '@date-fns/tz';
import { type ShopHours, type Weekday, weekdays } from './shop-hours.ts';
import { minutesOf } from './time-of-day.ts';

/** An open stretch as instants: from `from_ms` up to `to_ms`. */
export type OpenStretch = { readonly from_ms: number; readonly to_ms: number };

/** A clock time in the shop: what a finish is spoken in. */
export type ShopClock = {
  readonly year: number;
  /** 1 to 12. */
  readonly month: number;
  readonly day: number;
  readonly weekday: Weekday;
  readonly hour: number;
  readonly minute: number;
  readonly second: number;
};

const day_ms = 86_400_000;
/** How far ahead the calendar is searched before it is said to hold no more open hours: about ten years. */
const horizonDays = 3700;

/**
 * The open stretches that end after `from_ms`, in order, the first cut at `from_ms`; touching stretches are joined. Ends
 * after about ten years, at once for a calendar without open hours.
 */
export function* openStretches(hours: ShopHours, from_ms: number): Generator<OpenStretch> {
  if (!opensAtAll(hours)) return;
  const openings = indexedOpenings(hours);
  const civil = civilConverter(hours.zone);
  const firstDay = Math.floor((from_ms + offset_ms(hours.zone, from_ms)) / day_ms) - 1;
  let held: { from_ms: number; to_ms: number } | null = null;
  for (let dayNumber = firstDay; dayNumber < firstDay + horizonDays; dayNumber += 1) {
    for (const opening of openings(dayNumber)) {
      const start = civil(dayNumber, opening.from_min);
      const end = civil(dayNumber, opening.to_min);
      if (end <= from_ms || end <= start) continue;
      if (held !== null && start <= held.to_ms) {
        held.to_ms = Math.max(held.to_ms, end);
        continue;
      }
      if (held !== null) yield held;
      held = { from_ms: Math.max(start, from_ms), to_ms: end };
    }
    // A shop that never closes would be joined for ever: hand on what is held once a month.
    if (held !== null && held.to_ms - held.from_ms > 31 * day_ms) {
      yield held;
      held = null;
      from_ms = Math.max(from_ms, civil(dayNumber + 1, 0));
    }
  }
  if (held !== null) yield held;
}

/**
 * Clock times at which the given amounts of work are done when it starts (or goes on) at `now_ms`, counting only open
 * hours: for each of `work_s` (ascending or not) an instant, or null where ten years do not hold that much. Work that ends
 * exactly at closing time ends then. No work is done at `now_ms` itself, even in closed hours.
 * Example: open 18:30 to 21:30, now 21:00, 3600 s: 19:00 the next open day.
 */
export function finishTimes(hours: ShopHours, now_ms: number, work_s: readonly number[]): readonly (number | null)[] {
  const order = work_s.map((seconds, index) => ({ need_ms: Math.max(0, seconds) * 1000, index }));
  order.sort((one, other) => one.need_ms - other.need_ms);
  const finishes: (number | null)[] = work_s.map(() => null);
  let next = 0;
  const place = (at: (need_ms: number) => number | null): void => {
    for (let entry = order[next]; entry !== undefined; entry = order[next]) {
      const finish = at(entry.need_ms);
      if (finish === null) return;
      finishes[entry.index] = finish;
      next += 1;
    }
  };
  place((need_ms) => (need_ms === 0 ? now_ms : null));
  let done_ms = 0;
  if (next === order.length) return finishes;
  for (const open of openStretches(hours, now_ms)) {
    const length = open.to_ms - open.from_ms;
    place((need_ms) => (need_ms <= done_ms + length ? open.from_ms + need_ms - done_ms : null));
    if (next === order.length) break;
    done_ms += length;
  }
  return finishes;
}

/** Open seconds between two instants; 0 when the second is not after the first. */
export function openSeconds(hours: ShopHours, from_ms: number, to_ms: number): number {
  let sum_ms = 0;
  if (to_ms <= from_ms) return 0;
  for (const open of openStretches(hours, from_ms)) {
    if (open.from_ms >= to_ms) break;
    sum_ms += Math.min(open.to_ms, to_ms) - open.from_ms;
  }
  return sum_ms / 1000;
}

/**
 * The closed stretches between two instants that the second of them has seen the end of, longest gaps included: what a
 * night without the pause key looks like.
 */
export function closedStretches(hours: ShopHours, from_ms: number, to_ms: number): readonly OpenStretch[] {
  const closed: OpenStretch[] = [];
  let at = from_ms;
  for (const open of openStretches(hours, from_ms)) {
    if (open.from_ms > to_ms) break;
    if (open.from_ms > at) closed.push({ from_ms: at, to_ms: open.from_ms });
    at = open.to_ms;
    if (at >= to_ms) break;
  }
  return closed;
}

/**
 * When the shop closes for the day: the end of the last opening of the civil day of `now_ms` (or of the opening that
 * `now_ms` lies in, where that runs past midnight); null when the day has no opening left or the shop does not close.
 */
export function closingTime(hours: ShopHours, now_ms: number): number | null {
  const today = shopClock(hours.zone, now_ms);
  let closing: number | null = null;
  for (const open of openStretches(hours, now_ms)) {
    const start = shopClock(hours.zone, open.from_ms);
    if (start.day !== today.day || start.month !== today.month || start.year !== today.year) break;
    if (open.to_ms - open.from_ms >= day_ms) return null;
    closing = open.to_ms;
  }
  return closing;
}

/** The instant at which it is the given time of day (minutes since midnight) next, at or after `now_ms`. */
export function nextTimeOfDay(zone: string, now_ms: number, minutes: number): number {
  const civil = civilConverter(zone);
  const today = Math.floor((now_ms + offset_ms(zone, now_ms)) / day_ms);
  const at = civil(today, minutes);
  return at >= now_ms ? at : civil(today + 1, minutes);
}

/**
 * The same time of day so many civil days later, whatever the clocks do meanwhile. Example: Friday 21:00 and 5 days is
 * Wednesday 21:00.
 */
export function daysLater(zone: string, at_ms: number, days: number): number {
  const civil_ms = at_ms + offset_ms(zone, at_ms);
  const today = Math.floor(civil_ms / day_ms);
  return civilConverter(zone)(today + days, (civil_ms - today * day_ms) / 60_000);
}

/** What the clock on the shop's wall shows at an instant. */
export function shopClock(zone: string, at_ms: number): ShopClock {
  const civil = new Date(at_ms + offset_ms(zone, at_ms));
  return {
    year: civil.getUTCFullYear(),
    month: civil.getUTCMonth() + 1,
    day: civil.getUTCDate(),
    weekday: weekdays[civil.getUTCDay()] ?? 'sun',
    hour: civil.getUTCHours(),
    minute: civil.getUTCMinutes(),
    second: civil.getUTCSeconds(),
  };
}

/** The instant at which the shop's clock shows a civil date and time, `2025-03-03T18:30:00`; seconds may be left out. */
export function instantOf(zone: string, civilTime: string): number {
  const parsed = Date.parse(`${civilTime}Z`);
  if (!Number.isFinite(parsed)) throw new Error(`Not a civil time: ${civilTime}`);
  const dayNumber = Math.floor(parsed / day_ms);
  return civilConverter(zone)(dayNumber, (parsed - dayNumber * day_ms) / 60_000);
}

/** The civil date and time of an instant as `2025-03-03T18:30:00`, to the nearest second. */
export function civilText(zone: string, at_ms: number): string {
  const rounded = Math.round(at_ms / 1000) * 1000;
  return new Date(rounded + offset_ms(zone, rounded)).toISOString().slice(0, 19);
}

/** Offset of the zone from UTC at an instant, in milliseconds; a zone that this computer does not know is taken as UTC. */
function offset_ms(zone: string, at_ms: number): number {
  const minutes = tzOffset(zone, new Date(at_ms));
  return Number.isNaN(minutes) ? 0 : minutes * 60_000;
}

type Opening = { readonly from_min: number; readonly to_min: number };

function opensAtAll(hours: ShopHours): boolean {
  const usual = weekdays.some((name) => (hours.week[name]?.length ?? 0) > 0);
  return usual || (hours.changes?.some((change) => change.open.length > 0) ?? false);
}

/** Openings by civil day (days since 1970), in order of time: the week's, unless the date is off or changed. */
function indexedOpenings(hours: ShopHours): (dayNumber: number) => readonly Opening[] {
  const byWeekday = weekdays.map((name) => readOpenings(hours.week[name] ?? []));
  const byDate = new Map<number, readonly Opening[]>();
  for (const date of hours.daysOff ?? []) byDate.set(dayNumberOf(date), []);
  for (const change of hours.changes ?? []) byDate.set(dayNumberOf(change.date), readOpenings(change.open));
  // 1970-01-01 was a Thursday, weekday 4.
  return (dayNumber) => byDate.get(dayNumber) ?? byWeekday[(((dayNumber + 4) % 7) + 7) % 7] ?? [];
}

function readOpenings(openings: readonly (readonly [string, string])[]): readonly Opening[] {
  return openings
    .map(([from, to]) => {
      const from_min = minutesOf(from);
      const to_min = minutesOf(to);
      return { from_min, to_min: to_min > from_min ? to_min : to_min + 1440 };
    })
    .sort((one, other) => one.from_min - other.from_min);
}

function dayNumberOf(date: string): number {
  return Math.round(Date.parse(`${date}T00:00:00Z`) / day_ms);
}

/**
 * Offsets looked up so far, by zone and civil day. The one thing a module here remembers: it only spares asking the
 * platform's tables the same question again, at ten microseconds each, which was two thirds of an outlook.
 */
const lookedUp = new Map<string, Map<number, number>>();
const mostLookedUp = 10_000;

function offsetsOf(zone: string): Map<number, number> {
  const there = lookedUp.get(zone);
  if (there !== undefined && there.size < mostLookedUp) return there;
  const fresh = new Map<number, number>();
  lookedUp.set(zone, fresh);
  return fresh;
}

/**
 * Converts civil day and minutes to an instant. A time that the spring change skips is taken as the instant of the change;
 * of one that autumn repeats the first is taken. Offsets are looked up twice a week and reused while they agree.
 */
function civilConverter(zone: string): (dayNumber: number, minutes: number) => number {
  const known = offsetsOf(zone);
  const offsetAt = (civilDay: number): number => {
    const found = known.get(civilDay);
    if (found !== undefined) return found;
    const offset = offset_ms(zone, civilDay * day_ms);
    known.set(civilDay, offset);
    return offset;
  };
  return (dayNumber, minutes) => {
    const block = Math.floor(dayNumber / 8) * 8;
    const civil = dayNumber * day_ms + minutes * 60_000;
    // Blocks overlap by a day at either end, so that no zone's offset can reach past them.
    const before = offsetAt(block - 1);
    const after = offsetAt(block + 10);
    if (before === after) return civil - before;
    return resolveCivil(zone, civil);
  };
}

function resolveCivil(zone: string, civil: number): number {
  const before = offset_ms(zone, civil - day_ms);
  const after = offset_ms(zone, civil + day_ms);
  const early = civil - Math.max(before, after);
  const late = civil - Math.min(before, after);
  if (early + offset_ms(zone, early) === civil) return early;
  if (late + offset_ms(zone, late) === civil) return late;
  return changeBetween(zone, early, late);
}

/** The instant at which the offset changes, to the second. */
function changeBetween(zone: string, low: number, high: number): number {
  const start = offset_ms(zone, low);
  let before = low;
  let after = high;
  while (after - before > 1000) {
    const middle = Math.floor((before + after) / 2000) * 1000;
    if (offset_ms(zone, middle) === start) before = middle;
    else after = middle;
  }
  return after;
}
