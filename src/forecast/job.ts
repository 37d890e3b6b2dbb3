/**
 * The job as the forecast sees it: operations in order with planned times, made ready once. Nothing here knows of plans
 * or batches; whoever drives the forecast translates.
 */
import { constants } from './constants.ts';
import type { AccountsPrior } from './load-shares.ts';
import type { PlannerPrior } from './planner-factor.ts';

/** One operation as planned. All times in bench seconds. */
export type ForecastOperation = {
  /** Identity within the job: the operation number, or number and variant where they are made apart. */
  readonly key: string;
  /** Kind of work (`drill`, `tap`, ...): chooses the default time where the plan has none. */
  readonly kind?: string;
  /** Planned setup time; 0 means the operation has no setup of its own. */
  readonly setup_s: number;
  /** Planned time per piece; 0 or less means not estimated. */
  readonly piece_s: number;
  /** Pieces held at once, 1 if none. */
  readonly piecesPerLoad: number;
  /** Pieces to make, spares included. */
  readonly pieces: number;
};

/** What earlier jobs teach before this one begins (see history.ts); without it the general experience stands. */
export type ForecastPrior = PlannerPrior &
  AccountsPrior & {
    /** Factor on the log width of the band, from how past forecasts fared; 1 changes nothing. */
    readonly bandWidth: number;
    /** Finished batches behind it, to be named where the forecast is explained. */
    readonly batches: number;
  };

export type ForecastJob = {
  readonly operations: readonly ForecastOperation[];
  readonly prior?: ForecastPrior;
};

/** An operation made ready: estimates pulled together, gaps filled. */
export type PreparedOperation = {
  readonly key: string;
  /** Planned time of a full load. */
  readonly load_s: number;
  /** How far ln(planned time per piece) lies from the job's mean: what a doubtful estimate is pulled back along. */
  readonly deviation: number;
  readonly setup_s: number;
  readonly piecesPerLoad: number;
  readonly loadsInAll: number;
  /** True where the plan gave no time and a default stands in: no reading of the planner, and a wide band. */
  readonly isDefault: boolean;
};

/** Seconds per piece taken where the plan gives none; common practice for small parts, from memory, so used widely. */
const defaultPieceSeconds: Readonly<Record<string, number>> = {
  saw: 120,
  face: 150,
  'mill to length': 150,
  'mill edge': 120,
  slot: 180,
  step: 180,
  spot: 30,
  drill: 60,
  ream: 60,
  counterbore: 60,
  countersink: 40,
  chamfer: 45,
  tap: 75,
  deburr: 60,
  'round corners': 90,
  inspect: 40,
};
const otherwiseSeconds = 90;

/**
 * Seconds per piece assumed for a kind of work that has no estimate, where the job's other operations give no scale.
 * Example: defaultSeconds('tap') = 75; an unknown kind gives 90.
 */
function defaultSeconds(kind: string | undefined): number {
  return (kind === undefined ? undefined : defaultPieceSeconds[kind]) ?? otherwiseSeconds;
}

/**
 * Makes the operations ready: a missing time per piece is filled by the default of its kind; setup estimates are pulled
 * toward the job's geometric mean by 20 %, because extreme guesses are often wrong guesses. (Times per piece are pulled by
 * the planner's factor, which learns how far they can be trusted.)
 */
export function prepareOperations(operations: readonly ForecastOperation[]): readonly PreparedOperation[] {
  const pieceTimes = operations.map((operation) => usable(operation.piece_s));
  const setupTimes = operations.map((operation) => usable(operation.setup_s));
  const pulledSetups = pulledTogether(setupTimes, constants.setupShrink);
  const meanLn = meanLogarithm(pieceTimes);
  return operations.map((operation, i) => {
    const piecesPerLoad = Math.max(1, Math.round(usable(operation.piecesPerLoad)) || 1);
    const planned = pieceTimes[i] ?? 0;
    const piece_s = planned > 0 ? planned : defaultSeconds(operation.kind);
    return {
      key: operation.key,
      load_s: piece_s * piecesPerLoad,
      deviation: planned > 0 ? Math.log(planned) - meanLn : 0,
      setup_s: pulledSetups[i] ?? 0,
      piecesPerLoad,
      loadsInAll: Math.ceil(Math.max(1, usable(operation.pieces)) / piecesPerLoad),
      isDefault: planned <= 0,
    };
  });
}

/** A number that can be reckoned with: finite, not below zero, not above ten years of seconds. */
function usable(value: number): number {
  return value > 0 ? Math.min(value, 3.2e8) : 0;
}

function pulledTogether(times: readonly number[], keep: number): readonly number[] {
  const mean = meanLogarithm(times);
  return times.map((time) => (time > 0 ? Math.exp(mean + keep * (Math.log(time) - mean)) : 0));
}

/** Mean of the logarithms of the times above zero; 0 without any. */
function meanLogarithm(times: readonly number[]): number {
  const logs = times.filter((time) => time > 0).map(Math.log);
  return logs.reduce((sum, value) => sum + value, 0) / Math.max(1, logs.length);
}

/**
 * What a load of `pieces` pieces costs in full loads: 0.55 + 0.45 x pieces / full, because loading and locating cost the
 * same for few as for many. Example: loadFactor(4, 8) = 0.775; always 1 for single pieces.
 */
export function loadFactor(pieces: number, piecesPerLoad: number): number {
  if (piecesPerLoad <= 1) return 1;
  return constants.loadFixedPart + ((1 - constants.loadFixedPart) * pieces) / piecesPerLoad;
}

/**
 * What `pieces` pieces cost in full loads when they are made in loads as full as can be, or in `loads` equal ones.
 * Example: fullLoads(12, 8) = 1 + 0.775; fullLoads(12, 8, 3) = 3 x 0.55 + 0.45 x 1.5 = 2.325.
 */
export function fullLoads(pieces: number, piecesPerLoad: number, loads?: number): number {
  if (pieces <= 0) return 0;
  if (piecesPerLoad <= 1) return pieces;
  if (loads !== undefined && loads > 0) {
    return constants.loadFixedPart * loads + ((1 - constants.loadFixedPart) * pieces) / piecesPerLoad;
  }
  const full = Math.floor(pieces / piecesPerLoad);
  const rest = pieces - full * piecesPerLoad;
  return full + (rest > 0 ? loadFactor(rest, piecesPerLoad) : 0);
}
