/**
 * What a finished batch teaches the next: from its own state alone and without any history, so that its summary can be
 * made again from its journal at any time and says the same.
 */
import type { Batch } from '../batch/state.ts';
import { forecastAskOf } from './batch-ask.ts';
import { followBatch } from './batch-forecast.ts';
import { asComputed, workOf } from './batch-job.ts';
import { bandMiss, type Lesson, lessonOf } from './history.ts';
import { askForecast, quantilesOf } from './projection.ts';

/** Parts of a batch's loads after which its forecast is held against the truth. */
const stages = [0.25, 0.5, 0.75] as const;

/**
 * The lesson of a batch that is over; null for one given up or without a timed load.
 *
 * @param counted the states after each load, oldest first: those at a quarter, half and three quarters are judged
 */
export function batchLesson(batch: Batch, counted: readonly Batch[]): Lesson | null {
  if (batch.kind !== 'finished') return null;
  const { forecast } = followBatch(null, asComputed(batch));
  if (!forecast.operations.some((operation) => operation.tally.timed > 0)) return null;
  const misses = stages.flatMap((share) => {
    const stage = counted[Math.round(counted.length * share) - 1];
    return stage === undefined ? [] : (missAt(stage, batch) ?? []);
  });
  const work = batch.lanes.places.map((place) => workOf(batch, place));
  return lessonOf(forecast, work, misses);
}

/** Where the work that was still to come fell in the band as it was said at a stage; null when the band says nothing. */
function missAt(stage: Batch, end: Batch): number | null {
  const ask = forecastAskOf(stage, stage.last);
  const said = quantilesOf(askForecast(followBatch(null, stage).forecast, ask).batch);
  return bandMiss(workedSeconds(end) - workedSeconds(stage), said);
}

const workedSeconds = ({ accounts }: Batch): number => (accounts.setup + accounts.run + accounts.check) / 1000;
