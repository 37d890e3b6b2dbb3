/**
 * From a batch to its forecast: cells become the forecast's operations, loads not taken back its observations. Followed
 * from state to state: new loads are taken in one by one; a take-back, an amended plan or more pieces fold it again from
 * the beginning, so that what was undone is undone here too.
 *
 * A load's time is its run time, with the time for checks of its cell spread over the loads: checks go on being due.
 */
import type { Chain } from '../batch/chain.ts';
import { expectedArrivals, leftByCell } from '../batch/expected.ts';
import { cellAt } from '../batch/flow.ts';
import { cellKey } from '../batch/lanes.ts';
import type { Batch, Cell, Load } from '../batch/state.ts';
import { type ForecastEvent, takeEvent } from './forecaster.ts';
import type { ForecastJob, ForecastPrior } from './job.ts';
import type { ForecastAsk } from './projection.ts';
import { type ForecastState, startForecast } from './state.ts';

/** The forecast of a batch and what it has taken in so far. */
export type Followed = {
  readonly forecast: ForecastState;
  readonly planSha256: string;
  readonly more: number;
  readonly allotted: Batch['allotted'];
  readonly loads: readonly Chain<Load>[];
};

/** The job of a batch: one operation a cell, its setup planned once however many lanes it has. */
export function forecastJobOf(batch: Batch, prior: ForecastPrior | undefined): ForecastJob {
  const arrivals = expectedArrivals(batch);
  const seen = new Set<number>();
  const operations = batch.lanes.places.map(({ operation, lane }, at) => {
    const isFirst = !seen.has(operation.number);
    seen.add(operation.number);
    return {
      key: cellKey(operation.number, lane),
      kind: operation.kind,
      setup_s: isFirst ? operation.estimate.setup : 0,
      piece_s: operation.estimate.piece,
      piecesPerLoad: operation.loadSize,
      pieces: arrivals[at] ?? 0,
    };
  });
  return prior === undefined ? { operations } : { operations, prior };
}

/** The forecast after all that the batch holds now, going on from `before` where that is possible. */
export function followBatch(before: Followed | null, batch: Batch, prior?: ForecastPrior): Followed {
  const isSameJob =
    before !== null &&
    before.planSha256 === batch.planSha256 &&
    before.more === batch.more &&
    before.allotted === batch.allotted;
  const fresh = isSameJob ? batch.cells.map((cell, at) => newerThan(cell.loads, before.loads[at] ?? null)) : null;
  const goesOn = fresh?.every((loads) => loads !== null) === true;
  const from = goesOn && before !== null ? before.forecast : startForecast(forecastJobOf(batch, prior));
  const loads = goesOn ? fresh : batch.cells.map((cell) => newerThan(cell.loads, null));
  const events = loads.flatMap((own, at) => (own ?? []).map((load) => ({ at, load })));
  events.sort((a, b) => a.load.entry - b.load.entry);
  const left = leftByCell(batch);
  const taken = events.reduce((state, { at, load }) => takeLoad(state, cellAt(batch, at), load), from);
  const forecast = batch.cells.reduce((state, cell, at) => finishIfDone(state, cell, at, left[at] ?? 0), taken);
  return {
    forecast,
    planSha256: batch.planSha256,
    more: batch.more,
    allotted: batch.allotted,
    loads: batch.cells.map((cell) => cell.loads),
  };
}

/** Loads of a chain that came after `seen`, oldest first; null when the chain does not grow out of it. */
function newerThan(chain: Chain<Load>, seen: Chain<Load>): Load[] | null {
  const count = (chain?.length ?? 0) - (seen?.length ?? 0);
  if (count < 0) return null;
  const newer: Load[] = [];
  let link = chain;
  for (let step = 0; step < count && link !== null; step += 1) {
    newer.push(link.item);
    link = link.older;
  }
  return link === seen ? newer.reverse() : null;
}

function takeLoad(state: ForecastState, cell: Cell, load: Load): ForecastState {
  const key = cellKey(cell.operation, cell.lane);
  const events: ForecastEvent[] = [];
  const index = state.prepared.findIndex((one) => one.key === key);
  if (state.operations[index]?.setup !== 'done') {
    events.push({
      kind: 'setup-done',
      operation: key,
      took_s: cell.accounts.setup > 0 ? cell.accounts.setup / 1000 : null,
    });
  }
  const checks_ms = cell.loads === null ? 0 : cell.accounts.check / cell.loads.length;
  const took_s = load.ms === null || load.leftOut !== null ? null : (load.ms + checks_ms) / 1000;
  if (load.good > 0) events.push({ kind: 'load', operation: key, pieces: load.good + load.scrap, took_s });
  if (load.scrap > 0) {
    events.push({ kind: 'scrap', operation: key, pieces: load.scrap, took_s: load.good > 0 ? null : took_s });
  }
  return events.reduce(takeEvent, state);
}

function finishIfDone(state: ForecastState, cell: Cell, at: number, left: number): ForecastState {
  if (!cell.begun || left > 0 || cell.loads === null) return state;
  if (state.operations[at]?.pooled === true) return state;
  return takeEvent(state, { kind: 'operation-finished', operation: cellKey(cell.operation, cell.lane) });
}

/**
 * What to ask of the forecast now.
 *
 * @param sinceLastPress_s run time of the load (or of the setup) in hand so far
 */
export function forecastAskOf(batch: Batch, sinceLastPress_s: number): ForecastAsk {
  const left = leftByCell(batch);
  const current = batch.current === null ? null : cellAt(batch, batch.current);
  return {
    operation: current === null ? null : cellKey(current.operation, current.lane),
    sinceLastPress_s,
    left: batch.cells.map((cell, at) => ({ pieces: Math.max(0, left[at] ?? 0), setupAhead: !cell.begun })),
  };
}
