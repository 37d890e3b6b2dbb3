/**
 * When a batch will end, in instants and in words: the finish of the operation at hand and of the batch with their 80 %
 * band, what will be done by closing time, ahead of or behind the plan, and what it all rests on. Pure: time is an argument.
 */
import { cellAt } from '../batch/flow.ts';
import { durationBetween, type Instant } from '../batch/instant.ts';
import type { Batch } from '../batch/state.ts';
import { type Followed, forecastAskOf } from './batch-forecast.ts';
import { piecesDoneBy } from './by-time.ts';
import { closingTime, finishTimes } from './calendar.ts';
import { explainForecast, plannedSeconds } from './explain.ts';
import { askForecast, type ForecastAsk, type Quantiles, quantilesOf } from './projection.ts';
import { type FinishInstants, spokenClock, spokenDuration, spokenFinish } from './rounding.ts';
import { alwaysOpen, type ShopHours, shopHoursSchema } from './shop-hours.ts';

/** A finish as instants; null where ten years of shop hours do not hold the work. */
export type Finish = FinishInstants | null;

export type Outlook = {
  readonly hours: ShopHours;
  readonly ask: ForecastAsk;
  readonly operation: Finish;
  readonly batch: Finish;
  readonly remaining_s: Quantiles;
};

/** Shop hours of a batch: those it was opened with, else always open. */
export function hoursOf(batch: Batch): ShopHours {
  const read = shopHoursSchema.safeParse({ zone: batch.zone, ...batch.hours });
  return read.success ? read.data : alwaysOpen(batch.zone);
}

/** Run time of the load in hand up to `now`, in seconds; only while work is going on. */
export function sinceLastPress(batch: Batch, now: Instant): number {
  if (batch.current === null || batch.kind !== 'open') return 0;
  const isWork = batch.presence === 'here' && batch.cards.length === 0;
  const running = isWork ? durationBetween(batch.last, now).ms : 0;
  return (cellAt(batch, batch.current).loadRun_ms + running) / 1000;
}

/** The outlook at `now`; while nobody is there it is reckoned as if work went on now. */
export function outlookAt(followed: Followed, batch: Batch, now: Instant): Outlook {
  const hours = hoursOf(batch);
  const ask = forecastAskOf(batch, sinceLastPress(batch, now));
  const forecast = askForecast(followed.forecast, ask);
  const [operation, whole] = [quantilesOf(forecast.operation), quantilesOf(forecast.batch)];
  return {
    hours,
    ask,
    operation: finishOf(hours, now.wall_ms, operation),
    batch: finishOf(hours, now.wall_ms, whole),
    remaining_s: whole,
  };
}

function finishOf(hours: ShopHours, now_ms: number, work: Quantiles): Finish {
  const [p10, p50, p90] = finishTimes(hours, now_ms, [work.p10, work.p50, work.p90]);
  return p10 == null || p50 == null || p90 == null ? null : { p10_ms: p10, p50_ms: p50, p90_ms: p90 };
}

/** One or two lines for the foot of the screen: "op ends 21:05 (20:50 to 21:20)" and the batch. */
export function paceLines(outlook: Outlook, now: Instant): readonly string[] {
  const words = (finish: Finish): string => {
    if (finish === null) return 'not within ten years of shop hours';
    const spoken = spokenFinish(outlook.hours, now.wall_ms, finish);
    return `${spoken.finish} (${spoken.band})`;
  };
  return [`operation ends ${words(outlook.operation)}`, `batch ends ${words(outlook.batch)}`];
}

/** What it rests on, in sentences, for the page behind a key. */
export function groundLines(followed: Followed, batch: Batch, outlook: Outlook, now: Instant): readonly string[] {
  const grounds = explainForecast(followed.forecast);
  const timed =
    grounds.loadsTimed === 0
      ? 'Nothing is timed yet: this is the plan.'
      : `It rests on the plan and ${grounds.loadsTimed} timed loads.`;
  const past = grounds.batchesBefore === 0 ? [] : [`${grounds.batchesBefore} past batches were taken in.`];
  const factor = `Work takes ${grounds.planFactor.middle.toFixed(2)} times what the plan says (${grounds.planFactor.low.toFixed(2)} to ${grounds.planFactor.high.toFixed(2)}).`;
  const untimed = grounds.operations.reduce((sum, one) => sum + one.tally.piecesUntimed, 0);
  const leftOut = untimed === 0 ? [] : [`${untimed} pieces were counted without a timing.`];
  const defaults = grounds.operations.filter((one) => one.isDefault).map((one) => one.key);
  const guessed =
    defaults.length === 0
      ? []
      : [`No time in the plan for ${defaults.join(', ')}: a usual time of its kind stands in.`];
  const interruptions = `Reckoned with ${grounds.interruptionsPerHour.toFixed(1)} interruptions an hour of ${spokenDuration(grounds.interruption_s, 60)} each and ${grounds.scrapPerHundred.toFixed(1)} scrap in a hundred.`;
  return [
    ...paceLines(outlook, now),
    ...byClosing(followed, outlook, now),
    aheadOrBehind(followed, batch, outlook),
    timed,
    ...past,
    factor,
    ...leftOut,
    ...guessed,
    interruptions,
  ];
}

/** "By closing time 21:30: 14 to 17 more of this operation"; nothing where the shop does not close today. */
export function byClosing(followed: Followed, outlook: Outlook, now: Instant): readonly string[] {
  const closing = closingTime(outlook.hours, now.wall_ms);
  if (closing === null || outlook.ask.operation === null) return [];
  return [byTime(followed, outlook, now, closing)];
}

/** The same for any clock time. */
export function byTime(followed: Followed, outlook: Outlook, now: Instant, by_ms: number): string {
  const done = piecesDoneBy(followed.forecast, outlook.ask, outlook.hours, now.wall_ms, by_ms);
  const clock = spokenClock(outlook.hours.zone, by_ms, by_ms, now.wall_ms);
  const range = done.low === done.high ? `${done.low}` : `${done.low} to ${done.high}`;
  return `by ${clock}: ${range} more of this operation; the whole batch with ${Math.round(done.batchChance * 100)} % chance`;
}

function aheadOrBehind(followed: Followed, batch: Batch, outlook: Outlook): string {
  const planned = plannedSeconds(followed.forecast.job, followed.forecast, outlook.ask.left);
  const difference = outlook.remaining_s.p50 - planned;
  if (planned <= 0 || Math.abs(difference) < 60) return `What is left of ${batch.plan.job} goes as planned.`;
  const words = spokenDuration(Math.abs(difference), 60);
  return `What is left will take ${words} ${difference > 0 ? 'longer' : 'less'} than planned.`;
}
