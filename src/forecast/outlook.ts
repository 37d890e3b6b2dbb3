/**
 * When a batch will end, in instants and in words: the finish of the operation at hand and of the batch with their 80 %
 * band, what will be done by closing time, ahead of or behind the plan, and what it all rests on. Pure: time is an argument.
 */
import { booked } from '../batch/accounts.ts';
import type { Instant } from '../batch/instant.ts';
import type { Batch } from '../batch/state.ts';
import { type AwayAhead, awayAhead, finishesOf } from './away.ts';
import { forecastAskOf } from './batch-ask.ts';
import type { Followed } from './batch-forecast.ts';
import { plannedTotal } from './batch-job.ts';
import { piecesDoneBy } from './by-time.ts';
import { closingTime, daysLater, finishTimes } from './calendar.ts';
import { explainForecast } from './explain.ts';
import { historyWeight } from './history.ts';
import { askForecast, type Forecast, type ForecastAsk, type Quantiles, quantilesOf } from './projection.ts';
import { type FinishInstants, spokenClock, spokenDuration, spokenFinish } from './rounding.ts';
import type { ShopHours } from './shop-hours.ts';

/** A finish as instants; null where ten years of shop hours do not hold the work. */
export type Finish = FinishInstants | null;

export type Outlook = {
  readonly hours: ShopHours;
  readonly ask: ForecastAsk;
  readonly operation: Finish;
  readonly batch: Finish;
  /** Bench seconds still to be worked on the batch. */
  readonly remaining_s: Quantiles;
  /** Bench seconds by which the batch will come out ahead of its plan; below zero behind it. */
  readonly ahead_s: number;
  /** Work that goes out of the house, or is out; where the plan gives its days, the finish of the batch waits for it. */
  readonly away: readonly AwayAhead[];
};

/** The outlook at `now`; while nobody is there it is reckoned as if work went on now. */
export function outlookAt(followed: Followed, batch: Batch, now: Instant): Outlook {
  const hours = followed.shopHours;
  const ask = forecastAskOf(batch, now, hours);
  const forecast = askForecast(followed.forecast, ask);
  const [operation, whole] = [quantilesOf(forecast.operation), quantilesOf(forecast.batch)];
  return {
    hours,
    ask,
    operation: finishOf(hours, now.wall_ms, operation),
    batch: batchFinishOf(batch, forecast, { hours, now_ms: now.wall_ms, work: whole }),
    remaining_s: whole,
    ahead_s: plannedTotal(batch) - spentSeconds(batch, now) - whole.p50,
    away: awayAhead(batch),
  };
}

/** Bench seconds spent on the batch up to `now`: setup, run, check and delay. */
function spentSeconds(batch: Batch, now: Instant): number {
  const { setup, run, check, delay } = booked(batch, now).accounts;
  return (setup + run + check + delay) / 1000;
}

/** Instants at which work of these lengths ends when it goes on at `now_ms`. */
export function finishOf(hours: ShopHours, now_ms: number, work: Quantiles): Finish {
  const [p10, p50, p90] = finishTimes(hours, now_ms, [work.p10, work.p50, work.p90]);
  return p10 == null || p50 == null || p90 == null ? null : { p10_ms: p10, p50_ms: p50, p90_ms: p90 };
}

/** The same for the whole batch, which waits for what is away. */
export function batchFinishOf(
  batch: Batch,
  { means_s }: Forecast,
  { hours, now_ms, work }: { readonly hours: ShopHours; readonly now_ms: number; readonly work: Quantiles },
): Finish {
  const asked = { hours, now_ms, work_s: [work.p10, work.p50, work.p90] };
  const [p10, p50, p90] = finishesOf(batch, means_s, asked);
  return p10 == null || p50 == null || p90 == null ? null : { p10_ms: p10, p50_ms: p50, p90_ms: p90 };
}

type WithAway = { readonly away: readonly Pick<AwayAhead, 'days'>[] };

/** Whether pieces go out for a time that no plan tells: it is in no finish. */
export const isAwayUnknown = ({ away }: WithAway): boolean => away.some(({ days }) => days === null);

/** What a finish of the batch says beside it of work that is away: ` with 5 days away`, ` and the time away`, or nothing. */
export function awayWords(outlook: WithAway): string {
  const days = outlook.away.reduce((sum, one) => sum + (one.days ?? 0), 0);
  const known = days === 0 ? '' : ` with ${counted(days, 'day')} away`;
  return `${known}${isAwayUnknown(outlook) ? ' and the time away' : ''}`;
}

/** A finish in words: `21:05 (20:50 to 21:20)`. */
export function finishWords(hours: ShopHours, now_ms: number, finish: Finish): string {
  if (finish === null) return 'not within ten years of shop hours';
  const spoken = spokenFinish(hours, now_ms, finish);
  return `${spoken.finish} (${spoken.band})`;
}

/** Two lines for the foot of the screen: "operation ends 21:05 (20:50 to 21:20)" and the batch. */
export function paceLines(outlook: Outlook, now: Instant): readonly string[] {
  const words = (finish: Finish): string => finishWords(outlook.hours, now.wall_ms, finish);
  return [`operation ends ${words(outlook.operation)}`, `batch ends ${words(outlook.batch)}${awayWords(outlook)}`];
}

/** What it rests on, in sentences, for the page behind a key. */
export function groundLines(followed: Followed, outlook: Outlook, now: Instant): readonly string[] {
  return [
    ...paceLines(outlook, now),
    ...awayLines(outlook, now),
    ...byClosing(followed, outlook, now),
    aheadWords(outlook),
    ...restsOnLines(followed),
    ...pastLines(followed),
    ...leftOutLines(followed),
    interruptionWords(followed),
    'The band holds four finishes of five.',
  ];
}

/** What the finish takes for work away, one sentence an operation. */
function awayLines({ away, hours }: Outlook, now: Instant): readonly string[] {
  return away.map(({ operation, to, days, since_ms }) => {
    if (days === null) return `Operation ${operation}: no plan says how long ${to} takes; that time is in no finish.`;
    const given = `Operation ${operation}: ${counted(days, 'day')} at ${to}, as given in the plan`;
    if (since_ms === null) return `${given}.`;
    const back_ms = daysLater(hours.zone, since_ms, days);
    const due = spokenClock(hours.zone, now.wall_ms, back_ms);
    return back_ms < now.wall_ms ? `${given}; due ${due}, so taken as back now.` : `${given}; due ${due}.`;
  });
}

/** "By closing time 21:30: 14 to 17 more of this operation"; nothing where the shop does not close today. */
function byClosing(followed: Followed, outlook: Outlook, now: Instant): readonly string[] {
  const closing = closingTime(outlook.hours, now.wall_ms);
  if (closing === null || outlook.ask.operation === null) return [];
  return [`closing time: ${byTime(followed, outlook, now, closing)}`];
}

/** The same for any clock time: `by 21:30: 14 to 17 more of this operation; the whole batch with 35 % chance`. */
export function byTime(followed: Followed, outlook: Outlook, now: Instant, by_ms: number): string {
  const done = piecesDoneBy(followed.forecast, outlook.ask, outlook.hours, now.wall_ms, by_ms);
  const clock = spokenClock(outlook.hours.zone, now.wall_ms, by_ms);
  const range = done.low === done.high ? `${done.low}` : `${done.low} to ${done.high}`;
  const pieces = outlook.ask.operation === null ? '' : `${range} more of this operation`;
  const chance = outlook.away.length > 0 ? '' : `the whole batch with ${spokenChance(done.batchChance)} chance`;
  return `by ${clock}: ${[pieces, chance].filter((part) => part !== '').join('; ')}`;
}

/** `25 min ahead of the plan`, `1 h 10 min behind the plan`, `as planned` within a minute. */
export function aheadWords({ ahead_s }: Pick<Outlook, 'ahead_s'>): string {
  if (Math.abs(ahead_s) < 60) return 'The batch goes as planned.';
  const words = spokenDuration(Math.abs(ahead_s), Math.abs(ahead_s) < 7200 ? 60 : 300);
  return `The batch will end about ${words} of work ${ahead_s > 0 ? 'ahead of' : 'behind'} its plan.`;
}

function restsOnLines({ forecast }: Followed): readonly string[] {
  const grounds = explainForecast(forecast);
  const { low, middle, high } = grounds.planFactor;
  const times = (value: number): string => value.toFixed(2);
  return [
    grounds.loadsTimed === 0
      ? 'Nothing is timed yet: this is the plan.'
      : `It rests on the plan and ${counted(grounds.loadsTimed, 'timed load')}.`,
    `Work takes ${times(middle)} times what the plan says (${times(low)} to ${times(high)}).`,
  ];
}

function pastLines(followed: Followed): readonly string[] {
  const { past, corrections, forecast, plan } = followed;
  const n = past.lessons.length;
  const opened = openedLines(plan);
  if (n === 0) return opened.length === 0 ? ['No past batch is behind it yet.'] : opened;
  const weight = Math.round(historyWeight(n) * 100);
  const seen = new Set<string>();
  const lines = corrections.flatMap((correction, at) => {
    const operation = forecast.job.operations[at]?.key.split('/')[0] ?? '';
    const planned_s = plan.operations.find((one) => String(one.number) === operation)?.estimate.piece ?? 0;
    const isOff = correction !== null && Math.abs(correction.piece_s - planned_s) >= 0.05 * planned_s;
    if (correction === null || !isOff || seen.has(operation)) return [];
    seen.add(operation);
    const stands = correction.replacesMissing
      ? ', which the plan leaves open'
      : ` where the plan says ${spokenDuration(planned_s, 1)}`;
    const each = spokenDuration(correction.piece_s, 1);
    return [
      `Operation ${operation}: ${each} a piece${stands}, from ${counted(correction.batches, 'past batch', 'past batches')} (same ${correction.match}).`,
    ];
  });
  return [`${counted(n, 'past batch', 'past batches')} taken in, with a weight of ${weight} %.`, ...opened, ...lines];
}

/** Times that past batches had given when the batch was opened: from its own plan, so they stand whatever became of those. */
function openedLines(plan: Followed['plan']): readonly string[] {
  return plan.operations.flatMap(({ number, estimate: { piece, past } }) => {
    if (past === undefined) return [];
    const each = `${spokenDuration(piece, 1)} a piece from ${counted(past.batches, 'past batch', 'past batches')}`;
    return [`Operation ${number}: ${each} at its opening, where ${spokenDuration(past.computed, 1)} are computed.`];
  });
}

function leftOutLines({ forecast }: Followed): readonly string[] {
  const grounds = explainForecast(forecast);
  const sum = (of: (tally: (typeof grounds.operations)[number]['tally']) => number): number =>
    grounds.operations.reduce((total, one) => total + of(one.tally), 0);
  const untimed = sum((tally) => tally.piecesUntimed);
  const odd: [number, string][] = [
    [sum((tally) => tally.hiccups), 'a hiccup'],
    [sum((tally) => tally.interruptions), 'an interruption'],
    [sum((tally) => tally.slips), 'a slip of the key'],
    [sum((tally) => tally.shared), 'a forgotten press'],
  ];
  const taken = odd.filter(([count]) => count > 0).map(([count, word]) => `${count} for ${word}`);
  const defaults = grounds.operations.filter((one) => one.isDefault).map((one) => one.key.split('/')[0] ?? one.key);
  return [
    ...(untimed === 0 ? [] : [`${counted(untimed, 'piece')} counted without a timing (hand count, cut, sleep, jump).`]),
    ...(taken.length === 0 ? [] : [`Loads taken for something else than usual work: ${taken.join(', ')}.`]),
    ...(defaults.length === 0
      ? []
      : [`No time in the plan for ${[...new Set(defaults)].join(', ')}: a usual time of its kind stands in.`]),
  ];
}

function interruptionWords({ forecast }: Followed): string {
  const grounds = explainForecast(forecast);
  const perHour = grounds.interruptionsPerHour.toFixed(1);
  const each = spokenDuration(grounds.interruption_s, 60);
  return `Reckoned with ${perHour} interruptions an hour of ${each} each and ${grounds.scrapPerHundred.toFixed(1)} scrap in a hundred.`;
}

const counted = (count: number, noun: string, nouns = `${noun}s`): string => `${count} ${count === 1 ? noun : nouns}`;

/** A chance in words: `35 %`; never certain and never nothing, since the model behind it is neither. */
export function spokenChance(chance: number): string {
  const percent = Math.round(chance * 100);
  if (percent >= 100) return 'over 99 %';
  return percent <= 0 ? 'under 1 %' : `${percent} %`;
}
