/** The shapes of `batches --json`, format 1. */
import * as z from 'zod';

const count = z.number().int().nonnegative();
const seconds = z.number().nonnegative();

const batchRowSchema = z.object({
  batch: z.string(),
  plan: z.string().nullable(),
  job: z.string().nullable(),
  state: z.enum(['ready', 'setting', 'running', 'checking', 'paused', 'left', 'finished', 'given up', 'unreadable']),
  held_by: z.object({ host: z.string(), pid: z.number() }).nullable(),
  at: z.object({ operation: count, variant: z.string().nullable() }).nullable(),
  good: count,
  ordered: count,
  opened: z.string().nullable(),
  changed: z.string(),
  fault: z.string().optional(),
});
export type BatchRow = z.infer<typeof batchRowSchema>;

export const batchListSchema = z.object({ format: z.literal(1), batches: z.array(batchRowSchema) });

const trend = z.enum(['quicker', 'slower', 'steady', 'too few']);

export const comparisonSchema = z.object({
  format: z.literal(1),
  plan: z.string(),
  job: z.string(),
  batches: z.array(
    z.object({
      batch: z.string(),
      opened: z.string(),
      good: count,
      scrap: count,
      worked_s: seconds,
      per_good_s: seconds.nullable(),
    }),
  ),
  per_good_trend: trend,
  operations: z.array(
    z.object({
      operation: count,
      lane: z.string(),
      name: z.string(),
      medians_s: z.array(seconds.nullable()),
      trend,
    }),
  ),
});

export const estimatesSchema = z.object({
  format: z.literal(1),
  past_batches: count,
  estimates: z.array(
    z.object({
      kind: z.string(),
      tools: z.string(),
      material: z.string(),
      batches: count,
      timed_pieces: count,
      piece_s: seconds,
      least_s: seconds,
      greatest_s: seconds,
      over_plan: seconds.nullable(),
    }),
  ),
});
