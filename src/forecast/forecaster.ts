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
import type { Moments } from './distributions.ts';
import { type ForecastJob, loadFactor, type PreparedOperation, prepareOperations } from './job.ts';
import { type LearningPool, pooledExcess, poolOperation, startLearningPool } from './learning-pool.ts';
import {
  type FilterBank,
  levelFromLoads,
  nextNoiseVariance,
  passLoads,
  predictLoad,
  startBank,
  takeLoad,
} from './load-filter.ts';
import { type Accounts, accountLoad, accountScrap, accountUntimed, shareLoad, startAccounts } from './load-shares.ts';
import {
  type PlannerFactor,
  type PlannerPrior,
  plannerFactor,
  type Reading,
  setupFactor,
  setupReading,
} from './planner-factor.ts';

/** One thing that happened, as the forecast needs it. Times in bench seconds; null where nothing was timed. */
export type ForecastEvent =
  | { readonly kind: 'setup-started'; readonly operation: string }
  | { readonly kind: 'setup-done'; readonly operation: string; readonly took_s: number | null }
  | { readonly kind: 'load'; readonly operation: string; readonly pieces: number; readonly took_s: number | null }
  | { readonly kind: 'scrap'; readonly operation: string; readonly pieces: number; readonly took_s: number | null }
  | { readonly kind: 'operation-finished'; readonly operation: string }
  | { readonly kind: 'plan-changed'; readonly job: ForecastJob };

export type SetupPhase = 'to-come' | 'running' | 'done';

export type OperationState = {
  readonly setup: SetupPhase;
  readonly setupReading: number | null;
  readonly bank: FilterBank | null;
  /** Its learning has gone into the pool: once only, though it may be reopened for rework or spares. */
  readonly pooled: boolean;
  readonly loadsTimed: number;
  readonly piecesUntimed: number;
};

type LastLoad = {
  readonly index: number;
  readonly took_s: number;
  readonly pieces: number;
  readonly merged: boolean;
  readonly bankBefore: FilterBank;
  readonly accountsBefore: Accounts;
};

export type ForecastState = {
  readonly job: ForecastJob;
  readonly prepared: readonly PreparedOperation[];
  readonly prior: PlannerPrior;
  readonly operations: readonly OperationState[];
  readonly accounts: Accounts;
  readonly pool: LearningPool;
  readonly lastLoad: LastLoad | null;
};

/** The state before anything has happened. */
export function startForecast(job: ForecastJob): ForecastState {
  return {
    job,
    prepared: prepareOperations(job.operations),
    prior: job.prior ?? { cycle: constants.cycleFactor, setup: constants.setupFactor },
    operations: job.operations.map(() => untouched),
    accounts: startAccounts(),
    pool: startLearningPool(),
    lastLoad: null,
  };
}

const untouched: OperationState = {
  setup: 'to-come',
  setupReading: null,
  bank: null,
  pooled: false,
  loadsTimed: 0,
  piecesUntimed: 0,
};

/** The state after one event. An operation that the job does not know is a bug of the caller and throws. */
export function takeEvent(state: ForecastState, event: ForecastEvent): ForecastState {
  switch (event.kind) {
    case 'setup-started':
      return changed(state, event.operation, (operation) => ({ ...operation, setup: 'running' }));
    case 'setup-done':
      return takeSetup(state, event.operation, event.took_s);
    case 'load':
      return takeLoadEvent(state, event.operation, event.pieces, event.took_s);
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

/** The planner's factor from every operation timed so far, finished or not. */
export function currentFactor(state: ForecastState): PlannerFactor {
  const readings: Reading[] = [];
  state.operations.forEach((operation, i) => {
    const prepared = state.prepared[i];
    if (operation.bank === null || prepared === undefined || prepared.isDefault) return;
    const own = levelFromLoads(operation.bank);
    if (own.variance < 5) readings.push({ value: own.mean - Math.log(prepared.load_s), variance: own.variance });
  });
  return plannerFactor(readings, state.prior);
}

/** The factor of the setups from those done so far. */
export function currentSetupFactor(state: ForecastState, cycle: PlannerFactor): Moments {
  const readings = state.operations.flatMap((operation) =>
    operation.setupReading === null ? [] : [operation.setupReading],
  );
  return setupFactor(readings, cycle, state.prior);
}

/** What is believed of ln(time of a full load) of an operation of which no load has been timed. */
export function levelBefore(prepared: PreparedOperation, factor: PlannerFactor): Moments {
  const extra = prepared.isDefault ? constants.defaultScatter ** 2 : 0;
  return {
    mean: Math.log(prepared.load_s) + factor.mean,
    variance: factor.variance + factor.scatter + extra,
  };
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
  const index = indexOf(state, key);
  return {
    ...state,
    operations: state.operations.map((operation, i) => (i === index ? change(operation) : operation)),
  };
}

function takeSetup(state: ForecastState, key: string, took_s: number | null): ForecastState {
  const estimate_s = state.prepared[indexOf(state, key)]?.setup_s ?? 0;
  const timed = took_s !== null && took_s > 0 && estimate_s > 0;
  const after = changed(state, key, (operation) => ({
    ...operation,
    setup: 'done',
    setupReading: timed ? setupReading(took_s, estimate_s) : operation.setupReading,
  }));
  if (!timed) return after;
  const hours = state.accounts.interruptionHours + estimate_s / 3600;
  return { ...after, accounts: { ...state.accounts, interruptionHours: hours } };
}

/** The bank of an operation, begun now if it was not. */
function bankOf(state: ForecastState, index: number): FilterBank {
  const begun = state.operations[index]?.bank;
  if (begun) return begun;
  const prepared = state.prepared[index];
  if (prepared === undefined) throw new Error('The forecast lost an operation.');
  return startBank({
    level: levelBefore(prepared, currentFactor(state)),
    excess: pooledExcess(state.pool),
    shapeWeights: state.pool.shapes,
    loadsInAll: prepared.loadsInAll,
  });
}

function takeLoadEvent(state: ForecastState, key: string, pieces: number, took_s: number | null): ForecastState {
  const index = indexOf(state, key);
  const bank = bankOf(state, index);
  if (took_s === null || !(took_s >= 0) || !Number.isFinite(took_s)) {
    return passUntimed(state, index, bank, pieces);
  }
  const expected_s = Math.exp(predictLoad(bank).mean) * loadFactor(pieces, state.prepared[index]?.piecesPerLoad ?? 1);
  const last = state.lastLoad;
  if (
    last !== null &&
    last.index === index &&
    !last.merged &&
    took_s < 0.25 * expected_s &&
    took_s < 0.5 * last.took_s
  ) {
    const half = (last.took_s + took_s) / 2;
    const before = withBank({ ...state, accounts: last.accountsBefore }, index, last.bankBefore, -1);
    const first = enterLoad(before, index, last.pieces, half);
    const second = enterLoad(first, index, pieces, half);
    return { ...second, lastLoad: { ...last, took_s: half, merged: true } };
  }
  const entered = enterLoad(state, index, pieces, took_s);
  return {
    ...entered,
    lastLoad: { index, took_s, pieces, merged: false, bankBefore: bank, accountsBefore: state.accounts },
  };
}

function passUntimed(state: ForecastState, index: number, bank: FilterBank, pieces: number): ForecastState {
  const piecesPerLoad = state.prepared[index]?.piecesPerLoad ?? 1;
  const passed = withBank(state, index, passLoads(bank, Math.ceil(pieces / piecesPerLoad)), 0);
  return {
    ...passed,
    operations: passed.operations.map((operation, i) =>
      i === index ? { ...operation, piecesUntimed: operation.piecesUntimed + pieces } : operation,
    ),
    accounts: accountUntimed(state.accounts, pieces),
    lastLoad: null,
  };
}

function withBank(state: ForecastState, index: number, bank: FilterBank, timed: number): ForecastState {
  return {
    ...state,
    operations: state.operations.map((operation, i) =>
      i === index ? { ...operation, setup: 'done', bank, loadsTimed: operation.loadsTimed + timed } : operation,
    ),
  };
}

/** Shares one load between its explanations, moves the bank by the regular share and books the rest. */
function enterLoad(state: ForecastState, index: number, pieces: number, took_s: number): ForecastState {
  const bank = bankOf(state, index);
  const factor = loadFactor(pieces, state.prepared[index]?.piecesPerLoad ?? 1);
  const expected = predictLoad(bank);
  const y = Math.log(Math.max(took_s, 0.3) / factor);
  const seen = {
    took_s: Math.max(took_s, 0.3),
    expected_s: Math.exp(expected.mean) * factor,
    error: y - expected.mean,
    spread: expected.variance + bank.wanderPerLoad + nextNoiseVariance(bank),
  };
  const shares = shareLoad(state.accounts, seen);
  return {
    ...withBank(state, index, takeLoad(bank, y, shares.regular), 1),
    accounts: accountLoad(state.accounts, pieces, seen, shares),
  };
}

function takeScrap(state: ForecastState, key: string, pieces: number, took_s: number | null): ForecastState {
  const index = indexOf(state, key);
  const timed = took_s !== null && took_s > 0 && Number.isFinite(took_s);
  const bank = bankOf(state, index);
  const usual_s = Math.exp(predictLoad(bank).mean);
  const moved = timed ? withBank(state, index, passLoads(bank, 1), 0) : state;
  return {
    ...moved,
    accounts: accountScrap(state.accounts, pieces, timed ? took_s : 0, usual_s),
    lastLoad: null,
  };
}

function finishOperation(state: ForecastState, key: string): ForecastState {
  const operation = state.operations[indexOf(state, key)];
  if (!operation?.bank || operation.pooled) return { ...state, lastLoad: null };
  return {
    ...changed(state, key, (entry) => ({ ...entry, pooled: true })),
    pool: poolOperation(state.pool, operation.bank),
    lastLoad: null,
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
