/**
 * The forecaster: takes in what happens in a batch, one event at a time, and says when it will end.
 *
 * Promises: pure (no clock, no chance); constant memory whatever the number of pieces; the state is plain data and never
 * changed in place, so whoever keeps an earlier state has undone everything since. It does not know the clock on the wall:
 * it thinks in bench seconds (work time, without marked pauses and closed hours); calendar.ts turns them into clock times.
 *
 * How it works, in the order in which a load passes through:
 * 1. load-entry.ts splits forgotten presses and lets loads that agree overrule a plan that was wrong by far;
 * 2. load-shares.ts shares the load's time between regular work, hiccup, interruption and slip of the key;
 * 3. load-filter.ts moves the level of its operation by the regular share (one filter bank for each operation begun);
 * 4. learning-pool.ts and planner-factor.ts carry what timed operations teach over to those still to come;
 * 5. projection.ts adds up what is left and turns it into quantiles; by-time.ts and what-if.ts turn the question round;
 * 6. calendar.ts and rounding.ts make clock times of it, explain.ts says what it rests on, history.ts what is kept for next time.
 */
import { constants } from './constants.ts';
import type { ForecastJob } from './job.ts';
import { poolOperation } from './learning-pool.ts';
import { bankOf, takeLoadEvent, withBank } from './load-entry.ts';
import { passLoads, predictLoad } from './load-filter.ts';
import { accountScrap, accountSetup, setupInterruption } from './load-shares.ts';
import { setupReading } from './planner-factor.ts';
import {
  changed,
  currentFactor,
  currentSetupFactor,
  type ForecastState,
  indexOf,
  startForecast,
  untouched,
} from './state.ts';

/** One thing that happened, as the forecast needs it. Times in bench seconds; null where nothing was timed. */
export type ForecastEvent =
  | { readonly kind: 'setup-started'; readonly operation: string }
  | { readonly kind: 'setup-done'; readonly operation: string; readonly took_s: number | null }
  | {
      readonly kind: 'load';
      readonly operation: string;
      readonly pieces: number;
      readonly took_s: number | null;
      /** The first load after a pause or a closed shop: it counts for less. */
      readonly afterBreak?: boolean;
    }
  | { readonly kind: 'scrap'; readonly operation: string; readonly pieces: number; readonly took_s: number | null }
  | { readonly kind: 'operation-finished'; readonly operation: string }
  | { readonly kind: 'plan-changed'; readonly job: ForecastJob };

/** The state after one event. An operation that the job does not know is a bug of the caller and throws. */
export function takeEvent(state: ForecastState, event: ForecastEvent): ForecastState {
  switch (event.kind) {
    case 'setup-started':
      return changed(state, event.operation, (operation) => ({ ...operation, setup: 'running' }));
    case 'setup-done':
      return takeSetup(state, event.operation, event.took_s);
    case 'load':
      return takeLoadEvent(state, event.operation, event.pieces, event.took_s, event.afterBreak ?? false);
    case 'scrap':
      return takeScrap(state, event.operation, event.pieces, event.took_s);
    case 'operation-finished':
      return finishOperation(state, event.operation);
    case 'plan-changed':
      return changePlan(state, event.job);
    default:
      return event satisfies never;
  }
}

/** The state after a whole history: what a take-back calls for, or opening a batch again. */
export function foldForecast(job: ForecastJob, events: readonly ForecastEvent[]): ForecastState {
  return events.reduce(takeEvent, startForecast(job));
}

function takeSetup(state: ForecastState, key: string, took_s: number | null): ForecastState {
  const estimate_s = state.prepared[indexOf(state, key)]?.setup_s ?? 0;
  const done = changed(state, key, (operation) => ({ ...operation, setup: 'done' }));
  if (took_s === null || !(took_s > 0) || !Number.isFinite(took_s) || estimate_s <= 0)
    return { ...done, lastLoad: null, doubt: null };
  const factor = currentSetupFactor(state, currentFactor(state));
  const expected_s = estimate_s * Math.exp(factor.mean);
  const seen = {
    took_s,
    expected_s,
    error: Math.log(took_s / expected_s),
    spread: factor.variance + constants.setup.ownScatter ** 2,
  };
  const interrupted = setupInterruption(state.accounts, seen);
  const reading = { value: setupReading(took_s, estimate_s), share: 1 - interrupted };
  return {
    ...changed(done, key, (operation) => ({ ...operation, setupReading: reading })),
    accounts: accountSetup(state.accounts, seen, interrupted),
    lastLoad: null,
    doubt: null,
  };
}

function takeScrap(state: ForecastState, key: string, pieces: number, took_s: number | null): ForecastState {
  const index = indexOf(state, key);
  const timed = took_s !== null && took_s > 0 && Number.isFinite(took_s);
  const bank = bankOf(state, index);
  const usual_s = Math.exp(predictLoad(bank).mean);
  const moved = timed ? withBank(state, index, passLoads(bank, 1)) : state;
  return {
    ...moved,
    accounts: accountScrap(state.accounts, pieces, timed ? took_s : 0, usual_s),
    lastLoad: null,
    doubt: null,
  };
}

function finishOperation(state: ForecastState, key: string): ForecastState {
  const operation = state.operations[indexOf(state, key)];
  if (!operation?.bank || operation.pooled) return { ...state, lastLoad: null, doubt: null };
  return {
    ...changed(state, key, (entry) => ({ ...entry, pooled: true })),
    pool: poolOperation(state.pool, operation.bank),
    lastLoad: null,
    doubt: null,
  };
}

/** New quantities, spares or estimates: operations that keep their key keep what was learned. */
function changePlan(state: ForecastState, job: ForecastJob): ForecastState {
  const known = new Map(state.prepared.map((operation, i) => [operation.key, state.operations[i]]));
  const fresh = startForecast(job.prior === undefined && state.job.prior ? { ...job, prior: state.job.prior } : job);
  return {
    ...fresh,
    operations: fresh.prepared.map((operation) => known.get(operation.key) ?? untouched),
    accounts: state.accounts,
    pool: state.pool,
  };
}
