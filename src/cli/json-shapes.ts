/**
 * The shapes of every `--json` answer, format 1 each, for `SUBCOMMAND --json-shape`: JSON Schema, draft 2020-12. A field is
 * never renamed or given another meaning within a format; fields may be added, so a reader ignores those it does not know.
 * In names `_s` is seconds, `_ms` milliseconds, `_mm` millimetres, `_pct` per cent; null means "not known" or "none".
 */
import * as z from 'zod';
import type { PlanSteps } from '../plan/steps-model.ts';
import { reportSchema } from '../report/model.ts';
import { standingSchema } from '../sitting/standing.ts';
import { batchListSchema, comparisonSchema, estimatesSchema } from './batches-shape.ts';

const format = z.literal(1);
const count = z.number().int().nonnegative();
const whole = z.number().int().positive();
const text = z.string();
const maybeText = text.nullable();
const maybeNumber = z.number().nullable();
const place = { line: count, column: count };

const problem = z.object({ path: text, found: text, wanted: text, message: text, tryThis: text, ...place });
const severity = z.enum(['stop', 'warn', 'note']);

const problemsSchema = z
  .object({ format, plan: text, problems: z.array(problem).min(1) })
  .meta({ description: 'What is wrong with the plan file itself; nothing else is told then. Exit code 65.' });

const checkSchema = z
  .object({
    format,
    plan: text,
    problems: z.array(problem),
    findings: z.array(
      z.object({ code: text, severity, operation: whole.nullable(), message: text, tryThis: text, ...place }),
    ),
    counts: z.record(severity, count),
    proved: z
      .object({
        rules: count,
        operations: count,
        setups: count,
        tools: count,
        points: count,
        passes: count,
        checks: count,
        computed: z.array(z.object({ what: text, count })),
        unproved: z.array(text),
      })
      .nullable(),
  })
  .meta({
    description:
      'Findings by place; operation is null for what concerns the whole plan. proved: what was tried, what was worked out and how often, what could not be proved; null when the plan cannot be read.',
  });

const rulesSchema = z
  .object({
    format,
    rules: z.array(
      z.object({ code: text, severity, severities: z.array(severity).min(1), catches: text, example: text }),
    ),
  })
  .meta({
    description: 'With --rules; severity is what a rule gives by itself, severities every one that it can give.',
  });

const dial = maybeText.meta({ description: 'turns and divisions from zero; null where the axis has no dial' });
const flat = z.object({ x: z.number(), y: z.number() });

const stepPoint = z.object({
  name: text,
  ...flat.shape,
  z: maybeNumber,
  note: maybeText,
  dial: z.object({ x: dial, y: dial, z: dial }),
});

const stepCut = z.object({
  tool: maybeText,
  tool_name: maybeText,
  speed_rpm: maybeNumber,
  computed_rpm: maybeNumber,
  because: text,
  remark: maybeText,
  feed_per_turn: maybeNumber,
  feel_s: z.object({ from: z.number(), to: z.number() }).nullable(),
  peck: maybeNumber,
  top_diameter: maybeNumber,
  z_zero: maybeText.meta({ description: 'how its tool finds its own Z zero, with the value to set' }),
  thread: z
    .object({
      name: text,
      pitch: z.number(),
      tap_drill: maybeText,
      engagement: maybeText,
      turns: maybeNumber,
      by_hand: z.boolean(),
      full_thread: maybeNumber,
    })
    .nullable(),
  z: maybeNumber,
  points: z.array(stepPoint).meta({ description: 'of one piece, in the first place of a load' }),
  targets: z
    .array(z.object({ piece: whole, place: text, ...stepPoint.shape }))
    .meta({ description: 'every point of a full load in working order; empty where one piece is held' }),
  passes: z.array(
    z.object({
      name: text,
      pieces: z
        .array(whole)
        .nullable()
        .meta({ description: 'pieces of a load that the pass goes over, from 1; null where one is held' }),
      feed_axis: z.enum(['x', 'y']),
      feed_towards: z.enum(['+', '-']),
      from: flat,
      to: flat,
      z: z.number(),
      dial: z.object({ from: dial, to: dial, across: dial, z: dial }),
    }),
  ),
});

const stepCheck = z.object({
  title: text,
  gauge: maybeText,
  nominal: maybeNumber,
  lower: maybeNumber,
  upper: maybeNumber,
  question: maybeText,
  first_off: z.boolean(),
  every: count.nullable(),
  last: z.boolean(),
});

const stepOperation = z.object({
  number: whole,
  title: text,
  kind: text,
  station: text,
  machine: maybeText,
  setup: maybeText,
  variants: z.array(text),
  per_load: whole,
  counting: text,
  stop_length: maybeNumber,
  located_by: maybeText,
  away: z
    .object({
      to: text,
      changes: z.array(text),
      days: z
        .number()
        .nullable()
        .meta({ description: 'calendar days until it is back; null where the plan gives none' }),
    })
    .nullable(),
  cuts: z.array(stepCut),
  checks: z.array(stepCheck),
  notes: z.array(text),
  cautions: z.array(text),
  estimate: z.object({
    setup_s: z.number(),
    piece_s: z.number(),
    from: z.enum(['plan', 'computed', 'past batches']),
    batches: z.number().nullable().meta({ description: 'batches that a time from past batches rests on; null else' }),
  }),
});

const stepsSchema = z
  .object({
    format,
    plan: text,
    job: text,
    drawing: maybeText,
    revision: maybeText,
    units: z.enum(['mm', 'inch']).meta({ description: 'unit of every length without a unit in its name' }),
    material: text,
    part: z.object({ length: z.number(), width: z.number(), thickness: z.number() }),
    variants: z.array(z.object({ id: text, title: text, quantity: count })),
    spares: count,
    start: count.meta({ description: 'pieces to begin with, spares included' }),
    stock: z
      .object({
        section: text,
        blank: z.number(),
        bars: z.array(z.object({ length: z.number(), blanks_per_bar: count, bars: count })),
      })
      .nullable(),
    setups: z.array(
      z.object({
        id: text,
        title: text,
        machine: text,
        x_zero: maybeText,
        y_zero: maybeText,
        z_zero: maybeText,
        steps: z.array(text),
        prove: z.array(text),
        places: z
          .array(z.object({ name: text, ...flat.shape }))
          .meta({ description: 'places of a load, by their offset from the first' }),
        picture: z.array(text),
      }),
    ),
    operations: z.array(stepOperation),
    computed: z.array(z.object({ operation: whole.nullable(), what: text, value: text, because: text })),
  })
  .meta({ description: 'Lengths in units, times in seconds, coordinates from the zero of the setup.' });
// A field of the steps that is missing here, or of another type, is a type error on this line.
stepsSchema satisfies z.ZodType<PlanSteps>;

const barsSchema = z.object({
  format,
  plan: text,
  job: text,
  kind: z.enum(['enough', 'short']).meta({ description: 'short: blanks in missing have no bar' }),
  section: text,
  blank_mm: z.number(),
  blanks: count,
  kerf_mm: z.number(),
  end_trim_mm: z.number(),
  grip_mm: z.number(),
  on_hand: count.nullable(),
  bars: count,
  cuts: z.array(z.object({ bar_mm: z.number(), times: whole, blanks: count, left_mm: z.number(), keep: z.boolean() })),
  taken_mm: z.number(),
  waste_mm: z.number(),
  missing: count,
  proven: z.boolean().meta({ description: 'false when a list that takes less bar was not ruled out' }),
});

const settingsSchema = z.object({
  format,
  file: text,
  settings: z.array(
    z.object({ key: text, value: z.json(), from: z.enum(['default', 'settings', 'environment']), meaning: text }),
  ),
  folders: z.array(z.object({ holds: text, path: text, from: text })),
  notes: z
    .array(z.object({ what: text, where: text, tryThis: text }))
    .meta({ description: 'what in the file was not used' }),
});

const rehearsalSchema = reportSchema.extend({ rehearsal: z.literal(true) });

const reckonSchema = z
  .object({ format, topic: text })
  .catchall(z.json())
  .meta({ description: 'Beside these two the fields of the topic, each with its unit in its name.' });

/** What a subcommand with `--json` may answer, by its name. */
const answers: Readonly<Record<string, readonly z.ZodType[]>> = {
  check: [checkSchema, rulesSchema],
  steps: [stepsSchema, problemsSchema],
  bars: [barsSchema, problemsSchema],
  batches: [batchListSchema, comparisonSchema, estimatesSchema],
  status: [standingSchema],
  report: [reportSchema],
  rehearse: [rehearsalSchema],
  settings: [settingsSchema],
  reckon: [reckonSchema],
};

/** The shape of what subcommand `name` answers with `--json`, as a JSON Schema document. */
export function jsonShapeOf(name: string): Readonly<Record<string, unknown>> {
  const [only, ...others] = answers[name] ?? [];
  if (only === undefined) throw new Error(`no shape of ${name} is known`);
  const schema = others.length === 0 ? only : z.union([only, ...others]);
  return { title: `millside ${name} --json, format 1`, ...z.toJSONSchema(schema, { io: 'input' }) };
}
