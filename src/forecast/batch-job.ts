/**
 * The batch as the forecast's job: one operation a cell, in the order of the lanes, with the plan's times put right by
 * what past batches say of the same kind of work. It follows from the plan, the pieces started and the way of counting
 * alone, so that the same batch always has the same job.
 */
import { fullLoad } from '../batch/flow.ts';
import { type CellPlace, commonLane, orderedIn, startQuantity } from '../batch/lanes.ts';
import type { Batch } from '../batch/state.ts';
import type { ResolvedOperation } from '../plan/resolved.ts';
import { constants } from './constants.ts';
import { type EstimateFromHistory, estimateFrom, type Lesson, priorFrom, type WorkKind } from './history.ts';
import type { ForecastJob, ForecastPrior } from './job.ts';

/** What finished batches bring to the forecast of the next. */
export type PastWork = { readonly lessons: readonly Lesson[]; readonly prior: ForecastPrior | undefined };

/** A shop without a finished batch. */
export const noPastWork: PastWork = { lessons: [], prior: undefined };

/** The lessons of finished batches made ready; ask once and pass it on: the forecast begins anew with another object. */
export function pastWorkFrom(lessons: readonly Lesson[]): PastWork {
  return lessons.length === 0 ? noPastWork : { lessons, prior: priorFrom(lessons) };
}

/** What a cell's work is known by in the history: kind, names of its tools together, material, plan and number. */
export function workOf(batch: Batch, { operation }: CellPlace): WorkKind {
  const names = operation.cuts.flatMap((cut) => batch.plan.tools.find((tool) => tool.id === cut.tool)?.name ?? []);
  const tool = [...new Set(names)].join(' + ').slice(0, 200);
  const material = batch.plan.material.slice(0, 200);
  return {
    kind: operation.kind,
    ...(tool === '' ? {} : { tool }),
    ...(material === '' ? {} : { material }),
    plan: batch.plan.id.slice(0, 200),
    operation: operation.number,
  };
}

/** Per cell: what past batches make of its estimate; null where they say nothing or the plan stands. */
export type Corrections = readonly (EstimateFromHistory | null)[];

/**
 * The estimates of a batch as past batches correct them, in the order of its cells; one that came from past batches when the
 * batch was opened is not put right by them again.
 */
export function correctionsFrom(batch: Batch, past: PastWork): Corrections {
  return batch.lanes.places.map((place) => {
    const { from, piece } = place.operation.estimate;
    return from === 'past batches' ? null : estimateFrom(past.lessons, workOf(batch, place), piece);
  });
}

/**
 * Seconds a piece as the forecast's job holds them: the planner's word, before the factor between plan and truth. A time
 * from past batches is the truth already, so that factor, as it is believed at the beginning, is taken out of it.
 */
function plannedPiece({ from, piece }: ResolvedOperation['estimate'], { prior }: PastWork): number {
  return from === 'past batches' ? piece / Math.exp(prior?.cycle ?? constants.cycleFactor) : piece;
}

/** The batch as if its times from past batches had been left as computed: what lessons are reckoned by, one like the other. */
export function asComputed(batch: Batch): Batch {
  const places = batch.lanes.places.map((place) => {
    const { past } = place.operation.estimate;
    if (past === undefined) return place;
    const estimate = { setup: place.operation.estimate.setup, piece: past.computed, from: 'computed' as const };
    return { ...place, operation: { ...place.operation, estimate } };
  });
  return { ...batch, lanes: { ...batch.lanes, places } };
}

/**
 * The job of a batch. Away operations are no bench work: they have neither time nor pieces. Every lane of an operation
 * carries its setup; which of them still has it ahead is a matter of the moment (batch-ask.ts).
 */
export function forecastJobOf(batch: Batch, past: PastWork, corrections: Corrections): ForecastJob {
  const operations = batch.lanes.places.map((place, at) => {
    const { operation, lane } = place;
    const away = operation.kind === 'away';
    return {
      key: batch.cells[at]?.key ?? '',
      kind: operation.kind,
      setup_s: away ? 0 : operation.estimate.setup,
      piece_s: corrections[at]?.piece_s ?? plannedPiece(operation.estimate, past),
      piecesPerLoad: fullLoad(batch, at),
      pieces: away ? 0 : plannedPieces(batch, lane),
    };
  });
  return past.prior === undefined ? { operations } : { operations, prior: past.prior };
}

/** Pieces that a lane was meant to get, whatever has been lost since. */
function plannedPieces(batch: Batch, lane: string): number {
  return lane === commonLane ? startQuantity(batch.plan) + batch.more : orderedIn(batch.plan, lane);
}

/**
 * Bench seconds that the plan, taken at its word, gives to the whole batch: every operation's setup once, and its pieces.
 * Example: setup 20 min and 30 pieces of 90 s: 3900 s.
 */
export function plannedTotal(batch: Batch): number {
  const seen = new Set<number>();
  return batch.lanes.places.reduce((sum, { operation, lane }) => {
    if (operation.kind === 'away') return sum;
    const setup_s = seen.has(operation.number) ? 0 : operation.estimate.setup;
    seen.add(operation.number);
    return sum + Math.max(0, setup_s) + Math.max(0, operation.estimate.piece) * plannedPieces(batch, lane);
  }, 0);
}
