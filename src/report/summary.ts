/** What is kept of a finished batch for estimates, the forecast and later comparison; rebuilt from its journal when lost. */
import * as z from 'zod';
import { type Lesson, lessonSchema } from '../forecast/history.ts';
import { operationKindSchema, stationSchema } from '../plan/resolved.ts';
import type { ReportModel } from './model.ts';
import { rowName } from './row-names.ts';

const seconds = z.number().nonnegative();
const count = z.number().int().nonnegative();

export const batchSummarySchema = z.object({
  format: z.literal(1),
  batch: z.string(),
  plan: z.string().describe('Id of the plan.'),
  plan_sha256: z.string(),
  job: z.string(),
  material: z.string(),
  state: z.enum(['finished', 'given up']),
  opened: z.string().describe('ISO 8601 with offset.'),
  closed: z.string(),
  ordered: count,
  good: count,
  scrap: count,
  worked_s: seconds.describe('Set-up, run, check and delay.'),
  setup_s: seconds,
  operations: z.array(
    z.object({
      operation: count,
      lane: z.string(),
      name: z.string(),
      kind: operationKindSchema,
      station: stationSchema,
      tools: z.array(z.string()),
      good: count,
      scrap: count,
      timed_pieces: count,
      plan_piece_s: seconds,
      median_s: seconds.nullable().describe('Median of a piece; null when nothing was timed.'),
      plan_setup_s: seconds,
      setup_s: seconds,
      run_s: seconds,
    }),
  ),
  lesson: lessonSchema.nullable().describe('What the forecast learns from it; null when it was not asked.'),
});
export type BatchSummary = z.infer<typeof batchSummarySchema>;

/**
 * The summary of a batch that is over; `null` while it runs.
 *
 * @param lesson what the forecast learnt (src/forecast/history.ts), or `null`
 */
export function summaryOf(model: ReportModel, lesson: Lesson | null): BatchSummary | null {
  if (model.state === 'running' || model.closed === null) return null;
  const { setup, run, check, delay } = model.elapsed_s;
  return {
    format: 1,
    batch: model.batch,
    plan: model.plan.id,
    plan_sha256: model.plan.sha256,
    job: model.job,
    material: model.material,
    state: model.state,
    opened: model.opened,
    closed: model.closed,
    ordered: model.ordered,
    good: model.good,
    scrap: model.scrap,
    worked_s: setup + run + check + delay,
    setup_s: setup,
    operations: model.operations.map((row) => ({
      operation: row.operation,
      lane: row.lane,
      name: rowName(row),
      kind: row.kind,
      station: row.station,
      tools: row.tools,
      good: row.good,
      scrap: row.scrap,
      timed_pieces: row.piece?.timed_pieces ?? 0,
      plan_piece_s: row.plan.piece_s,
      median_s: row.piece?.median_s ?? null,
      plan_setup_s: row.plan.setup_s,
      setup_s: row.elapsed_s.setup,
      run_s: row.elapsed_s.run,
    })),
    lesson,
  };
}
