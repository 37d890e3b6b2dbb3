/**
 * Where a batch stands, for anybody who asks from outside: the shape behind `status --json` and `batches --json`. Made from
 * the state, the present instant and who holds the batch; it changes nothing.
 *
 * ```json
 * {"format": 1, "batch": "k3v9…", "job": "Keeper plates", "state": "running", "held_by": null,
 *  "at": {"operation": 40, "variant": "threaded", "point": 2, "load": 3},
 *  "operations": [{"number": 40, "title": "Drill", "variant": "threaded", "ordered": 20, "good": 7, "scrap": 0, "left": 13}],
 *  "elapsed_s": {"setup": 1260, "run": 812, "check": 0, "delay": 0, "pause": 300, "away": 0, "unknown": 0},
 *  "finish": {"operation": {"p10": "…", "p50": "2027-03-01T21:05:00+01:00", "p90": "…"}, "batch": {…}}}
 * ```
 * `variant` is null in the common lane, `finish` is null once nothing is left to be made.
 */
import { booked } from '../batch/accounts.ts';
import { leftByCell } from '../batch/expected.ts';
import { cellAt, fullLoad, inHandAt } from '../batch/flow.ts';
import type { Instant } from '../batch/instant.ts';
import { commonLane, orderedIn } from '../batch/lanes.ts';
import { type Account, accountNames, type Batch } from '../batch/state.ts';
import { type Followed, followBatch } from '../forecast/batch-forecast.ts';
import { type Finish, outlookAt } from '../forecast/outlook.ts';
import { isoInstant } from '../report/time-text.ts';
import type { Owner } from '../store/owner-file.ts';

export type StandingWord = 'ready' | 'setting' | 'running' | 'checking' | 'paused' | 'left' | 'finished';
export type FinishTimes = { readonly p10: string; readonly p50: string; readonly p90: string };

export type Standing = {
  readonly format: 1;
  readonly batch: string;
  readonly job: string;
  readonly state: StandingWord;
  readonly held_by: { readonly host: string; readonly pid: number } | null;
  readonly at: {
    readonly operation: number;
    readonly variant: string | null;
    readonly point: number;
    readonly load: number;
  } | null;
  readonly operations: readonly {
    readonly number: number;
    readonly title: string;
    readonly variant: string | null;
    readonly ordered: number;
    readonly good: number;
    readonly scrap: number;
    readonly left: number;
  }[];
  readonly elapsed_s: Readonly<Record<Account, number>>;
  readonly finish: { readonly operation: FinishTimes; readonly batch: FinishTimes } | null;
};

/** Where batch `id` stands at `now`, held by `holder` or nobody. */
export function standingOf(id: string, batch: Batch, now: Instant, holder: Owner | null): Standing {
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
    finish: finishTimesOf(batch, now),
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

function placeNow(batch: Batch): Standing['at'] {
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

function finishTimesOf(batch: Batch, now: Instant): Standing['finish'] {
  if (batch.kind !== 'open') return null;
  const followed: Followed = followBatch(null, batch);
  const outlook = outlookAt(followed, batch, now);
  const operation = timesOf(outlook.operation, batch.zone);
  const whole = timesOf(outlook.batch, batch.zone);
  return operation === null || whole === null ? null : { operation, batch: whole };
}

function timesOf(finish: Finish, zone: string): FinishTimes | null {
  if (finish === null) return null;
  const text = (ms: number): string => isoInstant(Math.round(ms / 1000) * 1000, zone);
  return { p10: text(finish.p10_ms), p50: text(finish.p50_ms), p90: text(finish.p90_ms) };
}
