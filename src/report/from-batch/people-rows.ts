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
export const sittingRows = (batch: Batch, at: Instant): ReportModel['sittings'] =>
  oldestFirst(batch.sittings).map((sitting) => ({
    began: iso(sitting.began),
    ended: sitting.ended === null ? null : iso(sitting.ended.at),
    why: sitting.ended === null ? null : WHY[sitting.ended.why],
    by: peopleOf(batch, sitting),
    length_s: durationBetween(sitting.began, sitting.ended?.at ?? at).ms / 1000,
  }));

/**
 * Everybody who gave initials in a sitting, in order, each once: `ab, jo`; null where nobody did. The wall clock decides
 * which sitting it was, so a clock that was set back over a whole sitting names its people in both.
 */
function peopleOf(batch: Batch, { began, ended, by }: Sitting): string | null {
  const given = oldestFirst(batch.remarks).flatMap(({ at, event }) => {
    if (event.kind !== 'InitialsGiven' || event.by === null || at.wall_ms < began.wall_ms) return [];
    return ended === null || at.wall_ms <= ended.at.wall_ms ? [event.by] : [];
  });
  const people = new Set([...(by === null ? [] : [by]), ...given]);
  return people.size === 0 ? null : [...people].join(', ');
}

/** Pauses with their reasons, sleep of the computer among them; those that last no time are left out. */
export function pauseRows(batch: Batch): ReportModel['pauses'] {
  const reasons = oldestFirst(batch.remarks).flatMap(({ at, event }) => {
    if (event.kind === 'Paused') return [{ wall_ms: at.wall_ms, reason: event.reason }];
    return event.kind === 'SuspendNoticed' ? [{ wall_ms: at.wall_ms, reason: 'the computer slept' }] : [];
  });
  return oldestFirst(batch.spans)
    .filter((span) => span.account === 'pause' && span.ms > 0)
    .map((span) => ({
      began: iso(span.from),
      length_s: span.ms / 1000,
      reason: reasons.find((one) => one.wall_ms === span.from.wall_ms)?.reason ?? null,
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
