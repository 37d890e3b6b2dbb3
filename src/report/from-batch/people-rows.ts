/** Sittings, days of the calendar and pauses, from the sittings and spans of a batch. */
import { oldestFirst } from '../../batch/chain.ts';
import { durationBetween, type Instant } from '../../batch/instant.ts';
import type { Account, Batch, Sitting, Span } from '../../batch/state.ts';
import { civilText, instantOf } from '../../forecast/calendar.ts';
import type { LoadRow, ReportModel } from '../model.ts';
import { isoInstant } from '../time-text.ts';

const iso = (at: Instant): string => isoInstant(at.wall_ms, at.zone);

const WHY: Readonly<Record<NonNullable<Sitting['ended']>['why'], string>> = {
  left: 'left',
  signal: 'the program was told to end',
  'hang-up': 'the window was closed',
  fault: 'a fault',
  cut: 'power cut or crash',
};

/** Sittings in order; the open one runs to `at`. */
export function sittingRows(batch: Batch, at: Instant): ReportModel['sittings'] {
  const given = initialsByTime(batch);
  return oldestFirst(batch.sittings).map((sitting) => ({
    began: iso(sitting.began),
    ended: sitting.ended === null ? null : iso(sitting.ended.at),
    why: sitting.ended === null ? null : WHY[sitting.ended.why],
    by: peopleOf(given, sitting),
    length_s: durationBetween(sitting.began, sitting.ended?.at ?? at).ms / 1000,
  }));
}

/** Initials that somebody gave, with their place in the order in which they were given. */
type Given = { readonly by: string; readonly wall_ms: number; readonly place: number };

/** All initials that were given, by the wall clock. */
function initialsByTime(batch: Batch): readonly Given[] {
  return oldestFirst(batch.remarks)
    .flatMap(({ at, event }, place) =>
      event.kind === 'InitialsGiven' && event.by !== null ? [{ by: event.by, wall_ms: at.wall_ms, place }] : [],
    )
    .sort((one, other) => one.wall_ms - other.wall_ms);
}

/** How many of them, from the earliest on, are `early`. */
function givenWhile(given: readonly Given[], early: (wall_ms: number) => boolean): number {
  let [low, high] = [0, given.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (early(given[middle]?.wall_ms ?? 0)) low = middle + 1;
    else high = middle;
  }
  return low;
}

/**
 * Everybody who gave initials in a sitting, in order, each once: `ab, jo`; null where nobody did. The wall clock decides
 * which sitting it was, so a clock that was set back over a whole sitting names its people in both.
 */
function peopleOf(given: readonly Given[], { began, ended, by }: Sitting): string | null {
  const until = ended === null ? given.length : givenWhile(given, (wall_ms) => wall_ms <= ended.at.wall_ms);
  const here = given
    .slice(
      givenWhile(given, (wall_ms) => wall_ms < began.wall_ms),
      until,
    )
    .sort((one, other) => one.place - other.place)
    .map((one) => one.by);
  const people = new Set([...(by === null ? [] : [by]), ...here]);
  return people.size === 0 ? null : [...people].join(', ');
}

/** Pauses with their reasons, sleep of the computer among them; those that last no time are left out. */
export function pauseRows(batch: Batch): ReportModel['pauses'] {
  const reasons = new Map<number, string | null>();
  for (const { at, event } of oldestFirst(batch.remarks)) {
    const reason = event.kind === 'Paused' ? event.reason : 'the computer slept';
    const isOne = event.kind === 'Paused' || event.kind === 'SuspendNoticed';
    if (isOne && !reasons.has(at.wall_ms)) reasons.set(at.wall_ms, reason);
  }
  return oldestFirst(batch.spans)
    .filter((span) => span.account === 'pause' && span.ms > 0)
    .map((span) => ({
      began: iso(span.from),
      length_s: span.ms / 1000,
      reason: reasons.get(span.from.wall_ms) ?? null,
    }));
}

const WORK: readonly Account[] = ['setup', 'run', 'check', 'delay'];

/** Work and pieces by civil day of the batch's zone; work over midnight is parted there. */
export function dayRows(batch: Batch, loads: readonly LoadRow[]): ReportModel['days'] {
  const days = new Map<string, { worked_ms: number; pieces: number }>();
  const add = (date: string, worked_ms: number, pieces: number) => {
    const day = days.get(date) ?? { worked_ms: 0, pieces: 0 };
    days.set(date, { worked_ms: day.worked_ms + worked_ms, pieces: day.pieces + pieces });
  };
  for (const span of oldestFirst(batch.spans)) {
    if (WORK.includes(span.account)) for (const part of byDay(span, batch.zone)) add(part.date, part.ms, 0);
  }
  for (const load of loads) add(load.at.slice(0, 10), 0, load.pieces);
  return [...days]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([date, day]) => ({ date, worked_s: day.worked_ms / 1000, pieces: day.pieces }));
}

/** A span cut at the midnights that it crosses, by its wall clock; at most ten years of them. */
function byDay(span: Span, zone: string): { readonly date: string; readonly ms: number }[] {
  const parts: { date: string; ms: number }[] = [];
  let from_ms = span.from.wall_ms;
  let left_ms = span.ms;
  while (left_ms > 0 && parts.length < 3700) {
    const date = civilText(zone, from_ms).slice(0, 10);
    const ends_ms = midnightAfter(zone, date, from_ms);
    const ms = Math.min(left_ms, Math.max(1, ends_ms - from_ms));
    parts.push({ date, ms });
    from_ms += ms;
    left_ms -= ms;
  }
  return parts;
}

/** The first midnight after an instant of that date: the date a day on, found past the longest day there is (25 h). */
function midnightAfter(zone: string, date: string, from_ms: number): number {
  const start_ms = instantOf(zone, `${date}T00:00`);
  const next = civilText(zone, start_ms + 26 * 3_600_000).slice(0, 10);
  const midnight = instantOf(zone, `${next}T00:00`);
  return midnight > from_ms ? midnight : from_ms + 3_600_000;
}
