/**
 * From what is left to how long it takes. Mean and variance of every operation and setup to come are added up (what the
 * common factor of the planner moves together is added as one), matched to a log-normal, and mixed over the number of
 * hiccups and interruptions still to be expected. The quantiles of that mixture are the forecast. Times in bench seconds.
 * Source: sums of log-normals by their first two moments, Fenton 1960; held to a million draws by a test.
 */
import { constants } from './constants.ts';
import {
  countPoints,
  type LogNormalPart,
  lnMoments,
  type Moments,
  mixtureCdf,
  mixtureQuantile,
} from './distributions.ts';
import { fullLoads, type PreparedOperation } from './job.ts';
import { pooledNoise, pooledShapes } from './learning-pool.ts';
import { learningShares, nextNoiseVariance, predictLoad, secondsAhead } from './load-filter.ts';
import type { Accounts } from './load-shares.ts';
import type { PlannerFactor } from './planner-factor.ts';
import { restOfRunningLoad, restOfRunningSetup } from './running-load.ts';
import { currentFactor, currentSetupFactor, type ForecastState, levelBefore } from './state.ts';

/** What is left of one operation. */
type OperationLeft = {
  /** Good pieces still to be made. */
  readonly pieces: number;
  /** Loads they will be made in, where that is decided; otherwise as full as can be. */
  readonly loads?: number;
  /** Whether a setup is still ahead, where the caller knows better than the events told. */
  readonly setupAhead?: boolean;
};

export type ForecastAsk = {
  /** The operation at hand, if any: its setup or load is running. */
  readonly operation: string | null;
  /** Bench seconds since the last press (setup end, load, scrap), or since the running setup began. */
  readonly sinceLastPress_s: number;
  /** Part of the running load that is done, by its points; `sinceLastPress_s` then runs from the last point. */
  readonly shareDone?: number;
  /** What is left, in the order of the job's operations. */
  readonly left: readonly OperationLeft[];
};

/** 10, 50 and 90 % points of a remaining time in bench seconds. */
export type Quantiles = { readonly p10: number; readonly p50: number; readonly p90: number };

/** A remaining time as a mixture of log-normals: any quantile or share can be asked of it. */
export type RemainingTime = readonly LogNormalPart[];

export type Forecast = {
  readonly operation: RemainingTime;
  readonly batch: RemainingTime;
  /** Mean bench seconds of each operation, its setup included: how the remaining time is spread over them. */
  readonly means_s: readonly number[];
};

type Part = {
  /** Loads left in full loads, scrap included. */
  readonly loads: number;
  readonly body: Moments;
  readonly setup: Moments;
  /** Share of the mean that moves with the planner's common factor, in seconds. */
  readonly shared_s: number;
};

const nothing: Part = { loads: 0, body: { mean: 0, variance: 0 }, setup: { mean: 0, variance: 0 }, shared_s: 0 };

/** Remaining time of the operation at hand and of the whole batch. */
export function askForecast(state: ForecastState, ask: ForecastAsk): Forecast {
  const factor = currentFactor(state);
  const setup = currentSetupFactor(state, factor);
  const parts = state.prepared.map((prepared, i) => partOf(state, ask, prepared, i, factor, setup));
  const atHand = ask.operation === null ? -1 : state.prepared.findIndex((entry) => entry.key === ask.operation);
  return {
    operation: remaining(state, [parts[atHand] ?? nothing], factor, setup),
    batch: remaining(state, parts, factor, setup),
    means_s: parts.map((part) => part.body.mean + part.setup.mean),
  };
}

/** Remaining time of the operation at hand alone, where only that is wanted. */
export function askOperation(state: ForecastState, ask: ForecastAsk): RemainingTime {
  const factor = currentFactor(state);
  const setup = currentSetupFactor(state, factor);
  const index = state.prepared.findIndex((entry) => entry.key === ask.operation);
  const prepared = state.prepared[index];
  const part = prepared === undefined ? nothing : partOf(state, ask, prepared, index, factor, setup);
  return remaining(state, [part], factor, setup);
}

/** 10, 50 and 90 % points; all zero when nothing is left. */
export function quantilesOf(time: RemainingTime): Quantiles {
  if (time.length === 0) return { p10: 0, p50: 0, p90: 0 };
  return { p10: mixtureQuantile(time, 0.1), p50: mixtureQuantile(time, 0.5), p90: mixtureQuantile(time, 0.9) };
}

/** Probability that the remaining time is at most `seconds`. */
export function chanceWithin(time: RemainingTime, seconds: number): number {
  if (time.length === 0) return 1;
  return seconds <= 0 ? 0 : mixtureCdf(time, Math.log(seconds));
}

function partOf(
  state: ForecastState,
  ask: ForecastAsk,
  prepared: PreparedOperation,
  index: number,
  factor: PlannerFactor,
  setupFactor: Moments,
): Part {
  const left = ask.left[index];
  const operation = state.operations[index];
  if (left === undefined || operation === undefined || !(left.pieces > 0)) return nothing;
  const atHand = ask.operation === prepared.key;
  const scrapRate = state.accounts.scrap / state.accounts.scrapPieces;
  const loads = fullLoads(left.pieces, prepared.piecesPerLoad, left.loads) * (1 + scrapRate);
  const ahead = prepared.setup_s > 0 && (left.setupAhead ?? operation.setup !== 'done');
  const begun = operation.bank !== null;
  const body = operation.bank === null ? notBegun(state, prepared, loads, factor) : secondsAhead(operation.bank, loads);
  const running = atHand && !(ahead || operation.setup === 'running');
  const level = operation.bank === null ? levelBefore(prepared, factor) : predictLoad(operation.bank);
  const noise = operation.bank === null ? pooledNoise(state.pool) : nextNoiseVariance(operation.bank);
  return {
    loads,
    body: running
      ? restOfRunningLoad(
          body,
          loads,
          { mean: level.mean, variance: level.variance + noise },
          { elapsed_s: ask.sinceLastPress_s, shareDone: ask.shareDone ?? 0 },
          state.accounts,
        )
      : body,
    setup: ahead
      ? setupToCome(prepared.setup_s, setupFactor, atHand && operation.setup === 'running' ? ask.sinceLastPress_s : 0)
      : { mean: 0, variance: 0 },
    shared_s: begun ? 0 : body.mean,
  };
}

function notBegun(state: ForecastState, prepared: PreparedOperation, loads: number, factor: PlannerFactor): Moments {
  const full = pooledShapes(state.pool).map(({ decayLoads, excess, weight }) => {
    const sum = learningShares(decayLoads, 0, loads);
    const length = Math.max(0.05 * loads, loads + Math.expm1(excess.mean + excess.variance / 2) * sum);
    const slope = (Math.exp(excess.mean) * sum) / length;
    return { weight, length, variance: excess.variance * slope * slope };
  });
  const length = full.reduce((sum, shape) => sum + shape.weight * shape.length, 0);
  const learning = full.reduce(
    (sum, shape) => sum + shape.weight * (shape.variance + (shape.length / length - 1) ** 2),
    0,
  );
  const level = levelBefore(prepared, factor);
  const own = level.variance - factor.variance;
  const each = Math.exp(level.mean + level.variance / 2 + pooledNoise(state.pool) / 2);
  const mean = each * length;
  return {
    mean,
    variance:
      mean * mean * Math.expm1(own + learning) + 1.3 * Math.expm1(pooledNoise(state.pool)) * loads * each * each,
  };
}

function setupToCome(estimate_s: number, factor: Moments, elapsed_s: number): Moments {
  const own = constants.setup.ownScatter ** 2;
  const ln = { mean: Math.log(estimate_s) + factor.mean, variance: factor.variance + own };
  const mean = Math.exp(ln.mean + ln.variance / 2);
  return restOfRunningSetup({ mean, variance: mean * mean * Math.expm1(own) }, ln, elapsed_s, estimate_s);
}

function remaining(
  state: ForecastState,
  parts: readonly Part[],
  factor: PlannerFactor,
  setupFactor: Moments,
): RemainingTime {
  const sums = { mean: 0, variance: 0, shared: 0, setup: 0, loads: 0, loadSquares: 0, loadSeconds: 0 };
  for (const part of parts) {
    sums.mean += part.body.mean + part.setup.mean;
    sums.variance += part.body.variance + part.setup.variance;
    sums.shared += part.shared_s;
    sums.setup += part.setup.mean;
    if (part.loads <= 0) continue;
    sums.loads += part.loads;
    sums.loadSeconds += part.body.mean;
    sums.loadSquares += part.body.mean ** 2 / part.loads;
  }
  if (!(sums.mean > 0)) return [];
  const variance =
    sums.variance + sums.shared ** 2 * Math.expm1(factor.variance) + sums.setup ** 2 * Math.expm1(setupFactor.variance);
  const meanLoad = sums.loadSeconds > 0 ? sums.loadSquares / sums.loadSeconds : 0;
  const body = { mean: sums.mean, variance: variance * constants.inflate };
  const time = withMishaps(state.accounts, body, sums.loads, meanLoad);
  const width = state.job.prior?.bandWidth ?? 1;
  return width === 1 ? time : widened(time, width);
}

/**
 * Mixes the body (mean and variance of the work itself) over the number of hiccups and interruptions that may still come
 * in `loads` loads of `meanLoad_s` seconds.
 */
export function withMishaps(accounts: Accounts, body: Moments, loads: number, meanLoad_s: number): RemainingTime {
  const hiccup_s = (accounts.hiccupSizeSum / accounts.hiccupSizeWeight) * meanLoad_s;
  const interruption_s = accounts.interruptionSizeSum_s / accounts.interruptionSizeWeight;
  const hiccupCounts = countPoints(accounts.hiccups, loads, accounts.hiccupLoads);
  const interruptionCounts = countPoints(accounts.interruptions, body.mean / 3600, accounts.interruptionHours);
  const parts: LogNormalPart[] = [];
  for (const hiccups of hiccupCounts) {
    for (const interruptions of interruptionCounts) {
      const ln = lnMoments({
        mean: body.mean + hiccups.count * hiccup_s + interruptions.count * interruption_s,
        variance:
          body.variance +
          (hiccups.count * constants.hiccups.variation ** 2 + hiccups.variance) * hiccup_s ** 2 +
          (interruptions.count * constants.interruptions.variation ** 2 + interruptions.variance) * interruption_s ** 2,
      });
      parts.push({
        weight: hiccups.weight * interruptions.weight,
        mu: ln.mean,
        sigma: Math.sqrt(Math.max(ln.variance, 1e-8)),
      });
    }
  }
  return parts;
}

/** The mixture with every log distance from its median multiplied by `width`. */
function widened(parts: RemainingTime, width: number): RemainingTime {
  const middle = Math.log(mixtureQuantile(parts, 0.5));
  return parts.map(({ weight, mu, sigma }) => ({ weight, mu: middle + width * (mu - middle), sigma: width * sigma }));
}
