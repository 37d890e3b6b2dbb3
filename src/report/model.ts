/**
 * The report of a batch, finished or running: this shape is `report --json`, format 1, and every other form is written
 * from it. Names carry their unit (`_s` seconds, `_mm` millimetres, `_pct` per cent); times are exact to the millisecond
 * and rounded only where they are shown; instants are ISO 8601 with offset; `null` means "not known" or "too few to say".
 *
 * A row of `operations` is one operation in one lane: lane `*` is the common pool before the variants part, afterwards
 * each variant's id is its own lane.
 */
import * as z from 'zod';
import { leftOutSchema } from '../batch/events.ts';
import { operationKindSchema, stationSchema } from '../plan/resolved.ts';

const text = z.string();
const count = z.number().int().nonnegative();
const seconds = z.number().nonnegative();
const instant = text;
const cell = { operation: z.number().int().positive(), lane: text };

/** Every second belongs to exactly one account, so they add up to the time between opening and closing. */
const elapsedSchema = z.object({
  setup: seconds,
  run: seconds,
  check: seconds,
  delay: seconds,
  pause: seconds,
  away: seconds,
  /** Lost to a power cut: nobody can say what it was. */
  unknown: seconds,
});
export type Elapsed = z.infer<typeof elapsedSchema>;

/** Seconds for one piece; a load's time is shared by its pieces. */
const pieceTimesSchema = z.object({
  timed_loads: count,
  timed_pieces: count,
  median_s: seconds,
  p10_s: seconds,
  p90_s: seconds,
  mean_s: seconds,
  /** Standard deviation of the loads' seconds a piece, divisor n - 1. */
  deviation_s: seconds.nullable(),
  /** Median of the first and of the last five timed loads; null with fewer than ten. */
  first_five_s: seconds.nullable(),
  last_five_s: seconds.nullable(),
  /** Least-squares change from one timed load to the next, with its 95 % interval. */
  trend: z
    .object({
      per_load_s: z.number(),
      low_s: z.number(),
      high_s: z.number(),
      verdict: z.enum(['quicker', 'slower', 'steady']),
    })
    .nullable(),
});
export type PieceTimes = z.infer<typeof pieceTimesSchema>;

/** Work study: observed x rating = normal; normal with the allowance = standard. */
const standardSchema = z.object({
  /** Mean of the timed pieces. */
  observed_s: seconds,
  rating_pct: z.number().positive(),
  normal_s: seconds,
  allowance_pct: z.number().nonnegative(),
  /** `job time`: normal x (1 + a). `working day`: normal / (1 - a). */
  allowance_of: z.enum(['job time', 'working day']),
  standard_s: seconds,
});
export type StandardTime = z.infer<typeof standardSchema>;

const operationRowSchema = z.object({
  ...cell,
  title: text,
  /** Title of the variant; null in the common pool. */
  variant: text.nullable(),
  kind: operationKindSchema,
  station: stationSchema,
  tools: z.array(text),
  load_size: z.number().int().positive(),
  begun: z.boolean(),
  ordered: count,
  good: count,
  scrap: count,
  /** Pieces sent back from here to an earlier operation. */
  rework: count,
  elapsed_s: elapsedSchema,
  piece: pieceTimesSchema.nullable(),
  left_out: z.array(z.object({ reason: leftOutSchema, loads: count, pieces: count, total_s: seconds })),
  /** Good pieces over the hours of the run account. */
  pieces_per_hour: z.number().nonnegative().nullable(),
  plan: z.object({
    setup_s: seconds,
    piece_s: seconds,
    from: z.enum(['plan', 'computed', 'past batches']),
    /** Batches that a time from past batches rests on; null else. */
    batches: count.nullable(),
    /** What the plan gives for the pieces made so far, set-up included. */
    total_s: seconds,
  }),
  /** Set-up and run as they were; compare with `plan.total_s`. */
  actual_s: seconds,
  standard: standardSchema.nullable(),
});
export type OperationRow = z.infer<typeof operationRowSchema>;

const loadSchema = z.object({
  ...cell,
  /** Ordinals within operation and lane: the first piece, and how many. */
  first_piece: z.number().int().positive(),
  pieces: count,
  good: count,
  scrap: count,
  /** Seconds of the whole load; null when nothing was timed. */
  time_s: seconds.nullable(),
  left_out: leftOutSchema.nullable(),
  quick: z.boolean(),
  at: instant,
  by: text.nullable(),
});
export type LoadRow = z.infer<typeof loadSchema>;

const capabilitySchema = z.object({
  /** Limits over six deviations, and the distance to the nearer limit over three, with its 95 % interval. */
  cp: z.number(),
  cpk: z.number(),
  cpk_low: z.number(),
  cpk_high: z.number(),
});

const checkSchema = z.object({
  ...cell,
  check: text,
  title: text,
  gauge: text.nullable(),
  /** Null for a check answered by yes or no. */
  limits: z.object({ nominal_mm: z.number(), lower_mm: z.number(), upper_mm: z.number() }).nullable(),
  results: z.array(
    z.object({
      piece: count,
      value_mm: z.number().nullable(),
      /** Within the limits, or the answer yes; null when the check was skipped. */
      passed: z.boolean().nullable(),
      at: instant,
      by: text.nullable(),
      /** Why a skipped check was left at that, where somebody said it. */
      word: text.optional(),
    }),
  ),
  done: count,
  failed: count,
  skipped: count,
  mean_mm: z.number().nullable(),
  deviation_mm: z.number().nullable(),
  capability: capabilitySchema.nullable(),
  /** What the results mean, in one plain sentence. */
  says: text,
});
export type CheckReport = z.infer<typeof checkSchema>;

const moneySchema = z.object({
  /** As stated; empty when the rate came without one. */
  currency: text,
  rate_per_hour: z.number().nonnegative(),
  /** Set-up, run, check and delay; pauses, away and unknown time are not charged. */
  charged_s: seconds,
  total: z.number().nonnegative(),
  /** For one good piece; the four shares add up to `cost`. Null while no good piece is through. */
  per_good_piece: z
    .object({
      setup: z.number(),
      work: z.number(),
      material: z.number(),
      scrap: z.number(),
      cost: z.number(),
      margin_pct: z.number().nullable(),
      price: z.number().nullable(),
    })
    .nullable(),
});
export type Money = z.infer<typeof moneySchema>;

/** One estimate to change in the plan, with what it rests on. */
const estimateChangeSchema = z.object({
  operation: z.number().int().positive(),
  field: z.enum(['setup', 'piece']),
  planned_s: seconds,
  suggested_s: seconds,
  evidence: text,
});
export type EstimateChange = z.infer<typeof estimateChangeSchema>;

export const reportSchema = z.object({
  format: z.literal(1),
  batch: text,
  plan: z.object({ id: text, sha256: text, path: text.nullable() }),
  job: text,
  drawing: text.nullable(),
  revision: text.nullable(),
  material: text,
  /** How lengths are shown; inside they are millimetres. */
  units: z.enum(['mm', 'inch']),
  zone: text,
  state: z.enum(['running', 'finished', 'given up']),
  /** Reason given for finishing short or giving up. */
  because: text.nullable(),
  opened: instant,
  /** When it was finished or given up; null while it runs. */
  closed: instant.nullable(),
  /** The moment the report speaks of. */
  at: instant,
  elapsed_s: elapsedSchema,
  /** From opening to closing (or to `at`): the sum of the accounts. */
  total_s: seconds,
  ordered: count,
  started: count,
  good: count,
  scrap: count,
  variants: z.array(z.object({ id: text, title: text, ordered: count, good: count, short: count })),
  operations: z.array(operationRowSchema),
  losses: z.array(
    z.object({ ...cell, what: z.enum(['scrap', 'rework', 'lost away']), pieces: count, reason: text, at: instant }),
  ),
  loads: z.array(loadSchema),
  checks: z.array(checkSchema),
  suspects: z.array(z.object({ ...cell, check: text, from: count, to: count, cleared: text.nullable() })),
  corrections: z.array(
    z.object({
      ...cell,
      axis: z.enum(['x', 'y', 'z', 'stop']),
      by_mm: z.number(),
      reading_mm: z.number().nullable(),
      reason: text,
      at: instant,
      taken_back: z.boolean(),
      /** The one hole that it is of; not there: all holes of the cut. */
      hole: text.optional(),
    }),
  ),
  overrides: z.array(z.object({ code: text, message: text, reason: text })),
  sittings: z.array(
    z.object({
      began: instant,
      ended: instant.nullable(),
      why: text.nullable(),
      by: text.nullable(),
      length_s: seconds,
    }),
  ),
  /** Work and pieces by day of the calendar, in the batch's zone. */
  days: z.array(z.object({ date: text, worked_s: seconds, pieces: count })),
  pauses: z.array(z.object({ began: instant, length_s: seconds, reason: text.nullable() })),
  notes: z.array(z.object({ ...cell, text, at: instant })),
  money: moneySchema.nullable(),
  next_time: z.array(estimateChangeSchema),
  /** What a reader must know to judge the numbers: clock steps, cards not proved, checks skipped. */
  remarks: z.array(text),
});
export type ReportModel = z.infer<typeof reportSchema>;
