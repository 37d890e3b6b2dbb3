/**
 * Where a batch stands, for anybody who asks from outside: the shape behind `status --json`, format 1. Made from the state,
 * the present instant, who holds the batch and the history; it changes nothing. Instants are ISO 8601 with offset.
 *
 * ```json
 * {"format": 1, "batch": "k3v9…", "job": "Keeper plates", "state": "running", "held_by": null,
 *  "at": {"operation": 40, "variant": "threaded", "point": 2, "load": 3},
 *  "operations": [{"number": 40, "title": "Drill", "variant": "threaded", "ordered": 20, "good": 7, "scrap": 0, "left": 13}],
 *  "elapsed_s": {"setup": 1260, "run": 812, "check": 0, "delay": 0, "pause": 300, "away": 0, "unknown": 0},
 *  "finish": {"operation": {"p10": "…", "p50": "2027-03-01T21:05:00+01:00", "p90": "…"}, "batch": {…},
 *             "remaining_s": {"p10": 5100, "p50": 5900, "p90": 7000}, "ahead_s": -420, "waits_for_away": false,
 *             "away": [{"operation": 90, "to": "plater", "days": 5}]},
 *  "by_closing": {"at": "2027-03-01T21:30:00+01:00", "pieces": {"low": 14, "middle": 16, "high": 17}, "batch_chance": 0.35},
 *  "rests_on": {"timed_loads": 12, "past_batches": 3, "over_plan": {"low": 1.02, "middle": 1.1, "high": 1.18},
 *               "estimates": [{"operation": 40, "piece_s": 68.4, "batches": 3, "same": "kind and tool"}]},
 *  "what_if": {"until": "21:30", "more": null, "loads": null, "finish": {…}, "by": {…}}}
 * ```
 * `same` of an estimate is what it has in common with the past work, or `as opened` where the batch was opened with it.
 * `variant` is null in the common lane. `finish`, `by_closing` and `rests_on` are null once the batch is over; an entry of
 * `finish` is null where ten years of shop hours do not hold the work. `ahead_s` is work ahead of the plan, below zero
 * behind it. The bands hold four of five. `what_if` is null unless it was asked.
 */
import * as z from 'zod';
import { booked } from '../batch/accounts.ts';
import { leftByCell } from '../batch/expected.ts';
import { cellAt, fullLoad, inHandAt } from '../batch/flow.ts';
import type { Instant } from '../batch/instant.ts';
import { commonLane, orderedIn } from '../batch/lanes.ts';
import { type Account, accountNames, type Batch } from '../batch/state.ts';
import { type Followed, followBatch } from '../forecast/batch-forecast.ts';
import type { PastWork } from '../forecast/batch-job.ts';
import { type DoneBy, piecesDoneBy } from '../forecast/by-time.ts';
import { closingTime } from '../forecast/calendar.ts';
import { explainForecast } from '../forecast/explain.ts';
import { type Finish, isAwayUnknown, type Outlook, outlookAt } from '../forecast/outlook.ts';
import { type Supposition, supposeAt } from '../forecast/suppose.ts';
import { isoInstant } from '../report/time-text.ts';
import type { Owner } from '../store/owner-file.ts';

const seconds = z.number().nonnegative();
const count = z.number().int().nonnegative();
const finishTimes = z.object({ p10: z.string(), p50: z.string(), p90: z.string() }).nullable();

const finishSchema = z.object({
  operation: finishTimes,
  batch: finishTimes,
  remaining_s: z.object({ p10: seconds, p50: seconds, p90: seconds }),
  ahead_s: z.number(),
  /** Pieces have still to come back after a time that the plan does not give: it is in no finish. */
  waits_for_away: z.boolean(),
  /** Work that goes out or is out; calendar days that the plan gives are in the finish of the batch. */
  away: z.array(z.object({ operation: count, to: z.string(), days: count.nullable() })),
});

const doneBySchema = z.object({
  at: z.string(),
  /** More pieces of the operation at hand. */
  pieces: z.object({ low: count, middle: count, high: count }),
  batch_chance: z.number().min(0).max(1),
});

const standingWords = ['ready', 'setting', 'running', 'checking', 'paused', 'left', 'finished'] as const;
export type StandingWord = (typeof standingWords)[number];

export const standingSchema = z.object({
  format: z.literal(1),
  batch: z.string(),
  job: z.string(),
  state: z.enum(standingWords),
  held_by: z.object({ host: z.string(), pid: z.number() }).nullable(),
  at: z.object({ operation: count, variant: z.string().nullable(), point: count, load: count }).nullable(),
  operations: z.array(
    z.object({
      number: count,
      title: z.string(),
      variant: z.string().nullable(),
      ordered: count,
      good: count,
      scrap: count,
      left: count,
    }),
  ),
  elapsed_s: z.object({
    setup: count,
    run: count,
    check: count,
    delay: count,
    pause: count,
    away: count,
    unknown: count,
  }),
  finish: finishSchema.nullable(),
  by_closing: doneBySchema.nullable(),
  rests_on: z
    .object({
      timed_loads: count,
      past_batches: count,
      over_plan: z.object({ low: z.number(), middle: z.number(), high: z.number() }),
      estimates: z.array(z.object({ operation: count, piece_s: seconds, batches: count, same: z.string() })),
    })
    .nullable(),
  what_if: z
    .object({
      until: z.string().nullable(),
      more: z.number().int().nullable(),
      loads: count.nullable(),
      finish: finishSchema,
      by: doneBySchema.nullable(),
    })
    .nullable(),
});
export type Standing = z.infer<typeof standingSchema>;
type FinishTimes = z.infer<typeof finishTimes>;

/** What the standing takes beside the state. */
export type StandingContext = {
  readonly now: Instant;
  readonly holder: Owner | null;
  readonly past: PastWork;
  /** A what-if to answer as well. */
  readonly question: Supposition | null;
};

/** Where batch `id` stands. */
export function standingOf(id: string, batch: Batch, context: StandingContext): Standing {
  const { now, holder } = context;
  const left = leftByCell(batch);
  return {
    format: 1,
    batch: id,
    job: batch.plan.job,
    state: standingWord(batch, holder !== null),
    held_by: holder === null ? null : { host: holder.host, pid: holder.pid },
    at: placeNow(batch),
    operations: batch.lanes.places.map(({ operation, lane }, at) => ({
      number: operation.number,
      title: operation.title,
      variant: lane === commonLane ? null : lane,
      ordered: orderedIn(batch.plan, lane),
      good: cellAt(batch, at).good,
      scrap: cellAt(batch, at).scrap,
      left: Math.max(0, left[at] ?? 0),
    })),
    elapsed_s: elapsedSeconds(batch, now, holder !== null),
    ...forecastParts(batch, context),
  };
}

/** The word for a batch: a batch that nobody has open is left, whatever its last line says. */
export function standingWord(batch: Batch, isHeld: boolean): StandingWord {
  if (batch.kind !== 'open') return 'finished';
  if (batch.sittings === null) return 'ready';
  if (batch.presence === 'left' || !isHeld) return 'left';
  if (batch.presence === 'paused') return 'paused';
  const card = batch.cards[0];
  if (card === undefined) return 'running';
  if (card.kind === 'check') return 'checking';
  return card.kind === 'operation ended' || card.kind === 'batch ended' ? 'running' : 'setting';
}

/** The place at hand; null before the first operation is begun. */
export function placeNow(batch: Batch): Standing['at'] {
  const at = batch.current;
  if (at === null) return null;
  const cell = cellAt(batch, at);
  const hand = inHandAt(batch, at);
  return {
    operation: cell.operation,
    variant: cell.lane === commonLane ? null : cell.lane,
    point: Math.min(hand.stop + 1, Math.max(1, hand.stops.length)),
    load: Math.floor((cell.good + cell.scrap) / Math.max(1, fullLoad(batch, at))) + 1,
  };
}

/** Whole seconds by account. After a cut nobody knows what the time since the last line was for. */
function elapsedSeconds(batch: Batch, now: Instant, isHeld: boolean): Record<Account, number> {
  const wasCut = batch.kind === 'open' && batch.presence !== 'left' && !isHeld;
  const { accounts } = wasCut ? booked(batch, now, 'unknown') : booked(batch, now);
  const seconds = accountNames.map((name) => [name, Math.round(accounts[name] / 1000)] as const);
  return Object.fromEntries(seconds) as Record<Account, number>;
}

type ForecastParts = Pick<Standing, 'finish' | 'by_closing' | 'rests_on' | 'what_if'>;

/** All that is said of the future; nothing once the batch is over. */
function forecastParts(given: Batch, { now, holder, past, question }: StandingContext): ForecastParts {
  if (given.kind !== 'open') return { finish: null, by_closing: null, rests_on: null, what_if: null };
  // After a cut nobody works on it, whatever its last line says.
  const batch: Batch = holder === null ? { ...given, presence: 'left' } : given;
  const followed = followBatch(null, batch, past);
  const outlook = outlookAt(followed, batch, now);
  const closing = closingTime(outlook.hours, now.wall_ms);
  const supposed = question === null ? null : supposeAt(followed, batch, outlook, { now, question });
  return {
    finish: finishPart(outlook),
    by_closing:
      closing === null
        ? null
        : donePart(closing, piecesDoneBy(followed.forecast, outlook.ask, outlook.hours, now.wall_ms, closing), outlook),
    rests_on: restsOn(followed),
    what_if:
      supposed === null
        ? null
        : {
            until: question?.until ?? null,
            more: question?.more ?? null,
            loads: question?.loads ?? null,
            finish: finishPart(supposed.outlook),
            by:
              supposed.by_ms === null || supposed.doneBy === null
                ? null
                : donePart(supposed.by_ms, supposed.doneBy, supposed.outlook),
          },
  };
}

function finishPart(outlook: Outlook): NonNullable<Standing['finish']> {
  const { zone } = outlook.hours;
  const { p10, p50, p90 } = outlook.remaining_s;
  return {
    operation: timesOf(outlook.operation, zone),
    batch: timesOf(outlook.batch, zone),
    remaining_s: { p10: Math.round(p10), p50: Math.round(p50), p90: Math.round(p90) },
    ahead_s: Math.round(outlook.ahead_s),
    waits_for_away: isAwayUnknown(outlook),
    away: outlook.away.map(({ operation, to, days }) => ({ operation, to, days })),
  };
}

/** Pieces that have to go away first cannot all be done by then: no chance is claimed for the batch. */
function donePart(by_ms: number, done: DoneBy, outlook: Outlook): NonNullable<Standing['by_closing']> {
  const { low, middle, high, batchChance } = done;
  const chance = outlook.away.length > 0 ? 0 : Math.round(batchChance * 1000) / 1000;
  return { at: isoTime(by_ms, outlook.hours.zone), pieces: { low, middle, high }, batch_chance: chance };
}

function restsOn({ forecast, corrections, past, plan }: Followed): NonNullable<Standing['rests_on']> {
  const { loadsTimed, planFactor } = explainForecast(forecast);
  const opened = plan.operations.flatMap(({ number, estimate }) =>
    estimate.past === undefined
      ? []
      : [{ operation: number, piece_s: estimate.piece, batches: estimate.past.batches, same: 'as opened' }],
  );
  const corrected = corrections.flatMap((correction, at) => {
    const operation = Number(forecast.job.operations[at]?.key.split('/')[0]);
    if (correction === null) return [];
    const { piece_s, batches, match } = correction;
    return [{ operation, piece_s: Math.round(piece_s * 10) / 10, batches, same: match }];
  });
  const estimates = [...opened, ...corrected];
  const rounded = (value: number): number => Math.round(value * 1000) / 1000;
  return {
    timed_loads: loadsTimed,
    past_batches: past.lessons.length,
    over_plan: { low: rounded(planFactor.low), middle: rounded(planFactor.middle), high: rounded(planFactor.high) },
    estimates: estimates.filter((one, i) => estimates.findIndex((other) => other.operation === one.operation) === i),
  };
}

function timesOf(finish: Finish, zone: string): FinishTimes {
  if (finish === null) return null;
  return { p10: isoTime(finish.p10_ms, zone), p50: isoTime(finish.p50_ms, zone), p90: isoTime(finish.p90_ms, zone) };
}

const isoTime = (ms: number, zone: string): string => isoInstant(Math.round(ms / 1000) * 1000, zone);
