/**
 * What if: the outlook of a batch under another question. "If I stop at 21:30", "if I make n more", "with so many loads".
 * Nothing of the batch changes; the three may be asked together.
 */
import type { Instant } from '../batch/instant.ts';
import type { Batch } from '../batch/state.ts';
import { awayAhead } from './away.ts';
import { forecastAskOf } from './batch-ask.ts';
import type { Followed } from './batch-forecast.ts';
import { type DoneBy, piecesDoneBy } from './by-time.ts';
import { nextTimeOfDay, shopClock } from './calendar.ts';
import { awayWords, batchFinishOf, byTime, type Finish, finishOf, finishWords, type Outlook } from './outlook.ts';
import { askForecast, quantilesOf } from './projection.ts';
import type { ShopHours } from './shop-hours.ts';
import { minutesOf } from './time-of-day.ts';
import { withClosingToday, withLoads } from './what-if.ts';

/** A question; what is left out stays as it is. */
export type Supposition = {
  /** Stop at this time of day, such as 21:30: today if it is still to come, else tomorrow. */
  readonly until?: string;
  /** Pieces made beyond those begun; below zero fewer. */
  readonly more?: number;
  /** Loads in which the rest of the operation at hand is made. */
  readonly loads?: number;
};

export type Supposed = {
  readonly outlook: Outlook;
  /** Instant of `until`, and what is done by then; null when it was not asked. */
  readonly by_ms: number | null;
  readonly doneBy: DoneBy | null;
};

const timeOfDay = /^([01]?\d|2[0-3]):[0-5]\d$|^24:00$/;

/** Whether a text is a time of day that `until` takes. */
export function isTimeOfDay(text: string): boolean {
  return timeOfDay.test(text);
}

/** The outlook under a supposition, from the outlook as it is. An `until` that is no time of day is a bug and throws. */
export function supposeAt(
  followed: Followed,
  batch: Batch,
  outlook: Outlook,
  { now, question }: { readonly now: Instant; readonly question: Supposition },
): Supposed {
  const { until, more, loads } = question;
  if (until !== undefined && !isTimeOfDay(until)) throw new Error(`${until} is no time of day`);
  const now_ms = now.wall_ms;
  const by_ms = until === undefined ? null : nextTimeOfDay(outlook.hours.zone, now_ms, minutesOf(until));
  const hours = until === undefined || by_ms === null ? outlook.hours : hoursUntil(outlook.hours, now_ms, by_ms, until);
  // Asked of the batch as if they were begun, so that lanes share them and machines are set up again where that is due.
  const supposedBatch = more === undefined ? batch : { ...batch, more: batch.more + more };
  const withMore = more === undefined ? outlook.ask : forecastAskOf(supposedBatch, now);
  const { operation } = withMore;
  const ask =
    loads === undefined || operation === null ? withMore : withLoads(followed.forecast, withMore, operation, loads);
  const forecast = askForecast(followed.forecast, ask);
  const remaining_s = quantilesOf(forecast.batch);
  const supposed: Outlook = {
    ...outlook,
    hours,
    ask,
    operation: finishOf(hours, now_ms, quantilesOf(forecast.operation)),
    batch: batchFinishOf(supposedBatch, forecast, { hours, now_ms, work: remaining_s }),
    remaining_s,
    away: awayAhead(supposedBatch),
  };
  const doneBy = by_ms === null ? null : piecesDoneBy(followed.forecast, ask, hours, now_ms, by_ms);
  return { outlook: supposed, by_ms, doneBy };
}

/** Stopping later today moves today's closing time; a time after midnight leaves the hours as they are. */
function hoursUntil(hours: ShopHours, now_ms: number, by_ms: number, until: string): ShopHours {
  const [today, then] = [shopClock(hours.zone, now_ms), shopClock(hours.zone, by_ms - 1)];
  const isToday = today.day === then.day && today.month === then.month && today.year === then.year;
  return isToday ? withClosingToday(hours, now_ms, minutesOf(until)) : hours;
}

/** The answer in words, one line a finding. */
export function supposedLines(followed: Followed, supposed: Supposed, now: Instant): readonly string[] {
  const { outlook, by_ms } = supposed;
  const words = (finish: Finish): string => finishWords(outlook.hours, now.wall_ms, finish);
  const done = by_ms === null ? [] : [byTime(followed, outlook, now, by_ms)];
  const operation = outlook.ask.operation === null ? [] : [`operation would end ${words(outlook.operation)}`];
  return [...done, ...operation, `batch would end ${words(outlook.batch)}${awayWords(outlook)}`];
}
