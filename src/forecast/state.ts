/**
 * The state of the forecast: plain data of constant size for each operation, never changed in place. What is kept of a
 * load is what it taught, not the load itself.
 */
import { constants } from './constants.ts';
import type { Moments } from './distributions.ts';
import { type ForecastJob, type PreparedOperation, prepareOperations } from './job.ts';
import { type LearningPool, startLearningPool } from './learning-pool.ts';
import { type FilterBank, levelFromLoads } from './load-filter.ts';
import { type Accounts, startAccounts } from './load-shares.ts';
import {
  type PlannerFactor,
  type PlannerPrior,
  plannerFactor,
  type Reading,
  type SetupReading,
  setupFactor,
} from './planner-factor.ts';

/** How the loads of an operation were taken. */
export type LoadTally = {
  readonly timed: number;
  /** Of the timed ones, those that were mostly taken for a hiccup, an interruption or a slip of the key. */
  readonly hiccups: number;
  readonly interruptions: number;
  readonly slips: number;
  /** Presses that were forgotten and made up for: their time was shared out. */
  readonly shared: number;
  /** Pieces counted without a time (recounts, suspended hours). */
  readonly piecesUntimed: number;
};

type SetupPhase = 'to-come' | 'running' | 'done';

export type OperationState = {
  readonly setup: SetupPhase;
  readonly setupReading: SetupReading | null;
  readonly bank: FilterBank | null;
  /** Its learning has gone into the pool: once only, though it may be reopened for rework or spares. */
  readonly pooled: boolean;
  /** How its loads were taken: what the forecast rests on, and what it left out. */
  readonly tally: LoadTally;
};

/** The newest load, kept so that a doubled one can be split when its second press comes. */
type LastLoad = {
  readonly index: number;
  /** Time of all its presses together. */
  readonly took_s: number;
  readonly pieces: number;
  /** Presses that share the time: one, unless some were forgotten and made up for. */
  readonly presses: number;
  readonly before: Pick<ForecastState, 'operations' | 'accounts'>;
};

/** Loads in a row that did not fit what was believed, kept until they are overruled or overrule it. */
export type Doubt = {
  readonly index: number;
  readonly bankBefore: FilterBank;
  readonly accountsBefore: Accounts;
  readonly loads: readonly DoubtedLoad[];
};

export type DoubtedLoad = { readonly y: number; readonly pieces: number; readonly took_s: number };

export type ForecastState = {
  readonly job: ForecastJob;
  readonly prepared: readonly PreparedOperation[];
  readonly prior: PlannerPrior;
  readonly operations: readonly OperationState[];
  readonly accounts: Accounts;
  readonly pool: LearningPool;
  readonly lastLoad: LastLoad | null;
  readonly doubt: Doubt | null;
};

/** The state before anything has happened. */
export function startForecast(job: ForecastJob): ForecastState {
  return {
    job,
    prepared: prepareOperations(job.operations),
    prior: job.prior ?? { cycle: constants.cycleFactor, setup: constants.setupFactor },
    operations: job.operations.map(() => untouched),
    accounts: startAccounts(job.prior),
    pool: startLearningPool(),
    lastLoad: null,
    doubt: null,
  };
}

/** An operation of which nothing has happened. */
export const untouched: OperationState = {
  setup: 'to-come',
  setupReading: null,
  bank: null,
  pooled: false,
  tally: { timed: 0, hiccups: 0, interruptions: 0, slips: 0, shared: 0, piecesUntimed: 0 },
};

/** The planner's factor from every operation timed so far, finished or not. */
export function currentFactor(state: ForecastState): PlannerFactor {
  const readings: Reading[] = [];
  state.operations.forEach((operation, i) => {
    const prepared = state.prepared[i];
    if (operation.bank === null || prepared === undefined || prepared.isDefault) return;
    const own = levelFromLoads(operation.bank);
    if (own.variance < 5) {
      readings.push({
        value: own.mean - Math.log(prepared.load_s),
        variance: own.variance,
        deviation: prepared.deviation,
      });
    }
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
    mean: Math.log(prepared.load_s) - factor.pull * prepared.deviation + factor.mean,
    variance: factor.variance + factor.scatter + extra,
  };
}

/** Place of an operation in the job; one that the job does not know is a bug of the caller and throws. */
export function indexOf(state: ForecastState, key: string): number {
  const index = state.prepared.findIndex((operation) => operation.key === key);
  if (index < 0) throw new Error(`The forecast knows no operation ${key}.`);
  return index;
}

/** The state with one operation changed. */
export function changed(
  state: ForecastState,
  key: string,
  change: (operation: OperationState) => OperationState,
): ForecastState {
  return changedAt(state, indexOf(state, key), change);
}

/** The same by its place in the job. */
export function changedAt(
  state: ForecastState,
  index: number,
  change: (operation: OperationState) => OperationState,
): ForecastState {
  const operations = [...state.operations];
  operations[index] = change(operations[index] ?? untouched);
  return { ...state, operations };
}
