/**
 * From a batch to its forecast: cells become the forecast's operations, loads not taken back its observations. What it
 * holds follows from the batch as it stands, so following from state to state and folding anew give the same; a take-back,
 * other hours, an amended plan or more pieces go back to an earlier state or to the beginning.
 *
 * How each truth of the batch arrives here:
 * - setup: what the cell's setup account held at its first load; until that load it is laid over for the moment only;
 * - load: its run time, with the time for checks spread over the loads between them, with tool and speed cards of that
 *   load, without the closed hours of a night on which nobody pressed pause; hand counts, cuts, sleeps have no time;
 * - a break (pause, leaving, a jump to other work) marks the load after it;
 * - scrap with a load by the load; scrap afterwards laid over; rework, recounts and spares by the pieces left;
 * - an operation has taught its learning when a load leaves nothing waiting after at least half of its pieces.
 */
import type { Chain } from '../batch/chain.ts';
import { cellAt, placeAt } from '../batch/flow.ts';
import type { Batch, Load } from '../batch/state.ts';
import { isSettingUp } from './batch-ask.ts';
import { hoursOf } from './batch-hours.ts';
import { type Corrections, correctionsFrom, forecastJobOf, noPastWork, type PastWork } from './batch-job.ts';
import { benchSeconds } from './bench-clock.ts';
import { type ForecastEvent, takeEvent } from './forecaster.ts';
import type { ForecastJob } from './job.ts';
import type { ShopHours } from './shop-hours.ts';
import { type ForecastState, startForecast } from './state.ts';

/** What was taken in, and where. */
type Taken = {
  /** After the loads alone. */
  readonly base: ForecastState;
  readonly loads: readonly Chain<Load>[];
  /** Scrap that came with those loads, by cell. */
  readonly scrap: readonly number[];
  /** The newest load of all, and the position of its cell. */
  readonly last: { readonly at: number; readonly load: Load } | null;
};

/** The forecast of a batch and what it has taken in so far. */
export type Followed = {
  /** The forecast now, with what has no load of its own yet laid over. */
  readonly forecast: ForecastState;
  readonly corrections: Corrections;
  readonly past: PastWork;
  readonly plan: Batch['plan'];
  readonly hours: Batch['hours'];
  readonly shopHours: ShopHours;
  readonly taken: Taken;
  /** Earlier stages, newest first: what a take-back goes back to. */
  readonly earlier: readonly Taken[];
};

/** Take-backs that cost no new fold of the whole batch. */
const stagesKept = 24;
/** A pause longer than this makes the next load one after a break. */
const break_ms = 5 * 60_000;
/** Loads longer than this may hold a night. */
const long_ms = 3 * 3_600_000;

/** The forecast after all that the batch holds now, going on from `before` where that is possible. */
export function followBatch(before: Followed | null, batch: Batch, past: PastWork = noPastWork): Followed {
  const isSame = before !== null && before.plan === batch.plan && before.hours === batch.hours && before.past === past;
  const corrections = isSame ? before.corrections : correctionsFrom(batch, past);
  const job = forecastJobOf(batch, past, corrections);
  const goesOn = isSame && isSameWork(before.taken.base.job, job);
  const stages = goesOn ? [before.taken, ...before.earlier] : [];
  const place = stages.findIndex((stage) => grewOutOf(batch, stage));
  const from = stages[place] ?? nothingTaken(batch, job);
  const shopHours = isSame ? before.shopHours : hoursOf(batch);
  const taken = takeNewLoads(from, batch, shopHours);
  const older = place < 0 ? [] : stages.slice(place + 1);
  const earlier = taken === from ? older : [from, ...older].slice(0, stagesKept);
  return {
    forecast: laidOver(taken, batch),
    corrections,
    past,
    plan: batch.plan,
    hours: batch.hours,
    shopHours,
    taken,
    earlier,
  };
}

function isSameWork(before: ForecastJob, now: ForecastJob): boolean {
  return before.operations.every((operation, i) => {
    const other = now.operations[i];
    return operation.pieces === other?.pieces && operation.piecesPerLoad === other.piecesPerLoad;
  });
}

function nothingTaken(batch: Batch, job: ForecastJob): Taken {
  return {
    base: startForecast(job),
    loads: batch.cells.map(() => null),
    scrap: batch.cells.map(() => 0),
    last: null,
  };
}

/** Whether every load of the stage is still there. */
function grewOutOf(batch: Batch, stage: Taken): boolean {
  return batch.cells.every(
    (cell, at) => linkAt(cell.loads, stage.loads[at]?.length ?? 0) === (stage.loads[at] ?? null),
  );
}

function linkAt(chain: Chain<Load>, length: number): Chain<Load> {
  let link = chain;
  while (link !== null && link.length > length) link = link.older;
  return link;
}

/** Takes in the loads that came after the stage, of all cells in the order in which they were counted. */
function takeNewLoads(stage: Taken, batch: Batch, hours: ShopHours): Taken {
  const fresh: { at: number; load: Load; length: number }[] = [];
  batch.cells.forEach((cell, at) => {
    const seen = stage.loads[at]?.length ?? 0;
    for (let link = cell.loads; link !== null && link.length > seen; link = link.older) {
      fresh.push({ at, load: link.item, length: link.length });
    }
  });
  if (fresh.length === 0) return stage;
  fresh.sort((one, other) => one.load.entry - other.load.entry);
  const scrap = [...stage.scrap];
  let { base, last } = stage;
  for (const { at, load, length } of fresh) {
    base = takeLoad(base, batch, { at, load, length, last, hours });
    scrap[at] = (scrap[at] ?? 0) + load.scrap;
    last = { at, load };
  }
  return { base, loads: batch.cells.map((cell) => cell.loads), scrap, last };
}

type NewLoad = {
  readonly at: number;
  readonly load: Load;
  /** How many loads its cell has with it. */
  readonly length: number;
  readonly last: Taken['last'];
  readonly hours: ShopHours;
};

function takeLoad(before: ForecastState, batch: Batch, seen: NewLoad): ForecastState {
  const { at, load, length, last } = seen;
  const { key, operation } = cellAt(batch, at);
  const events: ForecastEvent[] = [];
  if (before.operations[at]?.setup !== 'done') {
    const isTimed = load.setup_ms > 0 && isFirstLane(before, batch, operation);
    const took_s = isTimed ? load.setup_ms / 1000 : null;
    events.push({ kind: 'setup-done', operation: key, took_s });
  }
  const took_s = timeOf(batch, seen);
  const hasMoved = last !== null && last.at !== at;
  const afterBreak = length > 1 && (hasMoved || (last !== null && load.idle_ms - last.load.idle_ms > break_ms));
  if (load.good > 0) events.push({ kind: 'load', operation: key, pieces: load.good + load.scrap, took_s, afterBreak });
  if (load.scrap > 0) {
    events.push({ kind: 'scrap', operation: key, pieces: load.scrap, took_s: load.good > 0 ? null : took_s });
  }
  const planned = before.job.operations[at]?.pieces ?? 0;
  if (load.waiting <= 0 && 2 * length * (before.prepared[at]?.piecesPerLoad ?? 1) >= planned) {
    events.push({ kind: 'operation-finished', operation: key });
  }
  return events.reduce(takeEvent, before);
}

/** Whether no lane of the operation was set up before: the lanes after the first only change trays. */
function isFirstLane(state: ForecastState, batch: Batch, operation: number): boolean {
  return batch.cells.every((cell, i) => cell.operation !== operation || state.operations[i]?.setup !== 'done');
}

/** Bench seconds of a load; null where it has no timing. One pressed too quickly has one: the forecaster judges it. */
function timeOf(batch: Batch, { at, load, length, last, hours }: NewLoad): number | null {
  if (load.ms === null || (load.leftOut !== null && load.leftOut !== 'quick')) return null;
  const end_ms = load.at.wall_ms;
  const run_s = load.ms > long_ms ? benchSeconds(hours, end_ms - load.ms, end_ms) : load.ms / 1000;
  const goesOn = last !== null && last.at === at;
  const cards_s = goesOn ? Math.max(0, load.setup_ms - last.load.setup_ms) / 1000 : 0;
  const check_s = load.check_ms === 0 ? 0 : load.check_ms / 1000 / Math.max(length, loadsBetweenChecks(batch, at));
  return run_s + cards_s + check_s;
}

/** Loads over which the time for one check is spread: to the next check, or all of them when it comes once. */
function loadsBetweenChecks(batch: Batch, at: number): number {
  const { operation } = placeAt(batch, at);
  const loadSize = Math.max(1, operation.loadSize);
  const every = operation.checks.flatMap((check) => check.every ?? []);
  const pieces =
    every.length > 0 ? Math.min(...every) : batch.plan.variants.reduce((sum, one) => sum + one.quantity, 0);
  return Math.max(1, Math.ceil(pieces / loadSize));
}

/** What the batch knows now and no load has brought yet: a setup under way or just done, scrap found after the count. */
function laidOver(taken: Taken, batch: Batch): ForecastState {
  const events: ForecastEvent[] = [];
  batch.cells.forEach((cell, at) => {
    if (placeAt(batch, at).operation.kind === 'away' || !cell.begun) return;
    const operation = cell.key;
    if (batch.current === at && isSettingUp(batch, at)) events.push({ kind: 'setup-started', operation });
    else if (cell.loads === null && cell.accounts.setup > 0) {
      const took_s = isFirstLane(taken.base, batch, cell.operation) ? cell.accounts.setup / 1000 : null;
      events.push({ kind: 'setup-done', operation, took_s });
    }
    const found = cell.scrap - (taken.scrap[at] ?? 0);
    if (found > 0) events.push({ kind: 'scrap', operation, pieces: found, took_s: null });
  });
  return events.reduce(takeEvent, taken.base);
}
