/**
 * The forecaster: takes in what happens in a batch, one event at a time, and says when it will end.
 *
 * Promises: pure (no clock, no chance); constant memory whatever the number of pieces; the state is plain data and never
 * changed in place, so whoever keeps an earlier state has undone everything since. It does not know the clock on the wall:
 * it thinks in bench seconds (work time, without marked pauses and closed hours); calendar.ts turns them into clock times.
 *
 * How it works, in the order in which a load passes through:
 * 1. load-shares.ts shares the load's time between regular work, hiccup, interruption and slip of the key.
 * 2. load-filter.ts moves the level of its operation by the regular share (one filter bank for each operation begun).
 * 3. learning-pool.ts and planner-factor.ts carry what timed operations teach over to those still to come.
 * 4. projection.ts adds up what is left and turns it into quantiles (see there for the arithmetic).
 */
import { constants } from './constants.ts';
import { type ForecastJob, loadFactor } from './job.ts';
import { pooledNoise, pooledShapes, poolOperation } from './learning-pool.ts';
import {
  type FilterBank,
  nextNoiseVariance,
  passLoads,
  predictLoad,
  relevel,
  startBank,
  takeLoad,
} from './load-filter.ts';
import {
  accountLoad,
  accountScrap,
  accountSetup,
  accountUntimed,
  type LoadShares,
  setupInterruption,
  shareLoad,
} from './load-shares.ts';
import { setupReading } from './planner-factor.ts';
import {
  currentFactor,
  currentSetupFactor,
  type Doubt,
  type DoubtedLoad,
  type ForecastState,
  type LoadTally,
  levelBefore,
  type OperationState,
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

function indexOf(state: ForecastState, key: string): number {
  const index = state.prepared.findIndex((operation) => operation.key === key);
  if (index < 0) throw new Error(`The forecast knows no operation ${key}.`);
  return index;
}

function changed(
  state: ForecastState,
  key: string,
  change: (operation: OperationState) => OperationState,
): ForecastState {
  return changedAt(state, indexOf(state, key), change);
}

function changedAt(
  state: ForecastState,
  index: number,
  change: (operation: OperationState) => OperationState,
): ForecastState {
  const operations = [...state.operations];
  operations[index] = change(operations[index] ?? untouched);
  return { ...state, operations };
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

/** The bank of an operation, begun now if it was not. */
function bankOf(state: ForecastState, index: number): FilterBank {
  const begun = state.operations[index]?.bank;
  if (begun) return begun;
  const prepared = state.prepared[index];
  if (prepared === undefined) throw new Error('The forecast lost an operation.');
  return startBank({
    level: levelBefore(prepared, currentFactor(state)),
    shapes: pooledShapes(state.pool),
    noise: pooledNoise(state.pool),
    loadsInAll: prepared.loadsInAll,
  });
}

function takeLoadEvent(
  state: ForecastState,
  key: string,
  pieces: number,
  took_s: number | null,
  afterBreak: boolean,
): ForecastState {
  const index = indexOf(state, key);
  const bank = bankOf(state, index);
  if (took_s === null || !(took_s >= 0) || !Number.isFinite(took_s)) return passUntimed(state, index, bank, pieces);
  const split = splitDoubled(state, index, pieces, took_s);
  if (split !== null) return split;
  const entered = enterLoad(state, index, pieces, took_s, afterBreak);
  const { operations, accounts } = state;
  return { ...entered, lastLoad: { index, took_s, pieces, presses: 1, before: { operations, accounts } } };
}

/**
 * A press that was forgotten shows as a doubled load followed by one of next to nothing. Then what the doubled load did is
 * undone and the time is shared out evenly, over as many presses as it takes. Null when this is not such a case.
 */
function splitDoubled(state: ForecastState, index: number, pieces: number, took_s: number): ForecastState | null {
  const last = state.lastLoad;
  const bank = state.operations[index]?.bank;
  if (last === null || last.index !== index || !bank) return null;
  const piecesPerLoad = state.prepared[index]?.piecesPerLoad ?? 1;
  const expected_s = Math.exp(predictLoad(bank).mean) * loadFactor(pieces, piecesPerLoad);
  const sum_s = last.took_s + took_s;
  const each_s = sum_s / (last.presses + 1);
  if (took_s >= 0.25 * expected_s || took_s >= (0.5 * last.took_s) / last.presses) return null;
  if (last.presses > 1 && each_s < 0.5 * expected_s) return null;
  let after: ForecastState = { ...state, ...last.before };
  for (let press = 0; press < last.presses; press += 1) after = enterLoad(after, index, last.pieces, each_s);
  after = tallied(enterLoad(after, index, pieces, each_s), index, { shared: last.presses });
  return { ...after, lastLoad: { ...last, took_s: sum_s, presses: last.presses + 1 } };
}

function passUntimed(state: ForecastState, index: number, bank: FilterBank, pieces: number): ForecastState {
  const piecesPerLoad = state.prepared[index]?.piecesPerLoad ?? 1;
  const passed = withBank(state, index, passLoads(bank, Math.ceil(pieces / piecesPerLoad)));
  return {
    ...tallied(passed, index, { piecesUntimed: pieces }),
    accounts: accountUntimed(state.accounts, pieces),
    lastLoad: null,
    doubt: null,
  };
}

function withBank(state: ForecastState, index: number, bank: FilterBank): ForecastState {
  return changedAt(state, index, (operation) => ({ ...operation, setup: 'done', bank }));
}

function tallied(state: ForecastState, index: number, more: Partial<LoadTally>): ForecastState {
  return changedAt(state, index, (operation) => {
    const sum = { ...operation.tally };
    for (const name of Object.keys(more) as (keyof LoadTally)[]) sum[name] += more[name] ?? 0;
    return { ...operation, tally: sum };
  });
}

/** Shares one load between its explanations, moves the bank by the regular share and books the rest. */
function enterLoad(
  state: ForecastState,
  index: number,
  pieces: number,
  took_s: number,
  afterBreak = false,
): ForecastState {
  const bank = bankOf(state, index);
  const factor = loadFactor(pieces, state.prepared[index]?.piecesPerLoad ?? 1);
  const expected = predictLoad(bank);
  const excess = afterBreak && bank.loads > 0 ? constants.afterBreak.excess : 0;
  const y = Math.log(Math.max(took_s, 0.3) / factor) - excess;
  const seen = {
    took_s: Math.max(took_s, 0.3),
    expected_s: Math.exp(expected.mean) * factor,
    error: y - expected.mean,
    spread: expected.variance + bank.wanderPerLoad + nextNoiseVariance(bank, afterBreak),
  };
  const shares = shareLoad(state.accounts, seen);
  const moved = withBank(state, index, takeLoad(bank, y, shares.regular, afterBreak));
  const entered = {
    ...tallied(moved, index, { timed: 1, ...setAside(shares, seen.error > 0) }),
    accounts: accountLoad(state.accounts, pieces, seen, shares),
    doubt: shares.regular < constants.overrule.doubt ? doubted(state, index, bank, { y, pieces, took_s }) : null,
  };
  return overruled(entered) ?? entered;
}

function doubted(state: ForecastState, index: number, bank: FilterBank, load: DoubtedLoad): Doubt {
  const before = state.doubt?.index === index ? state.doubt : null;
  if (before === null) return { index, bankBefore: bank, accountsBefore: state.accounts, loads: [load] };
  return { ...before, loads: [...before.loads, load] };
}

/**
 * When loads in a row disagree with what was believed but agree with each other, they are right: a plan that was wrong by
 * a hundred times, a tool that was changed. The level begins again at theirs, and what they were booked as is undone. Null
 * while it has not come to that.
 */
function overruled(state: ForecastState): ForecastState | null {
  const { doubt } = state;
  const { early, later, alike } = constants.overrule;
  if (doubt === null) return null;
  const settled = doubt.bankBefore.noiseWeight - constants.noiseWeight > 0.5;
  const needed = settled ? later : early;
  const recent = doubt.loads.slice(-needed);
  const logs = recent.map((load) => load.y);
  if (recent.length < needed || Math.max(...logs) - Math.min(...logs) > alike) {
    return doubt.loads.length > needed ? { ...state, doubt: { ...doubt, loads: recent } } : null;
  }
  const level = logs.reduce((sum, y) => sum + y, 0) / logs.length;
  const bank = relevel(doubt.bankBefore, level);
  const again = withBank({ ...state, accounts: doubt.accountsBefore, doubt: null }, doubt.index, bank);
  const cleared = tallied(again, doubt.index, { timed: -recent.length });
  return recent.reduce((sum, load) => enterLoad(sum, doubt.index, load.pieces, load.took_s), cleared);
}

/** What a load is put down as where it is mostly not regular work; one too long for any hiccup was an interruption. */
function setAside(shares: LoadShares, slow: boolean): Partial<LoadTally> {
  if (shares.regular > 0.5) return {};
  if (!slow) return { slips: 1 };
  return shares.hiccup > shares.interruption + shares.slip ? { hiccups: 1 } : { interruptions: 1 };
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
