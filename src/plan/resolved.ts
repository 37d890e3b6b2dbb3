/**
 * The resolved plan: what the machine, the screen and the journal work from. Everything that the plan file left out has
 * been computed, every quantity is in the units of its type (millimetres, turns a minute, seconds), every point is
 * absolute from its setup's zero. It is plain JSON, kept whole in the first line of a journal, and never changes while a
 * batch runs; an amendment brings a new one.
 *
 * Signs: a coordinate is where the tool stands over the part; +X right, +Y away from the user, +Z up, so a depth below a
 * tool's own zero is a negative z.
 */
import * as z from 'zod';
import type { Degrees, Mm, Rpm, Seconds } from '../shop/quantities.ts';
import { operationKinds } from './operation-kinds.ts';

// zod checks that these are finite numbers; the brand exists only for the compiler.
const mm = z.number() as unknown as z.ZodType<Mm, Mm>;
const rpm = z.number().positive() as unknown as z.ZodType<Rpm, Rpm>;
const seconds = z.number().nonnegative() as unknown as z.ZodType<Seconds, Seconds>;
const degrees = z.number() as unknown as z.ZodType<Degrees, Degrees>;
const text = z.string();

export const stationSchema = z.enum(['mill', 'pillar drill', 'saw', 'bench']);
export type Station = z.infer<typeof stationSchema>;

export const operationKindSchema = z.enum(operationKinds);
export type OperationKind = z.infer<typeof operationKindSchema>;

/** How a position on one axis is read. A dial knows what a clockwise turn of its handle does. */
const axisReadingSchema = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('readout'), resolution: mm }),
  z.object({
    kind: z.literal('dial'),
    perTurn: mm,
    divisions: z.number().int().positive(),
    /** Does the dial count up when the handle is turned clockwise? */
    clockwiseCounts: z.enum(['up', 'down']),
    /** Which way the tool goes over the part when the handle is turned clockwise. */
    clockwiseMoves: z.enum(['+', '-']),
    backlash: mm,
  }),
  z.object({ kind: z.literal('none') }),
]);
export type AxisReading = z.infer<typeof axisReadingSchema>;

const machineSchema = z.object({
  id: text,
  name: text,
  station: stationSchema,
  speeds: z.discriminatedUnion('kind', [
    z.object({ kind: z.literal('steps'), rpm: z.array(rpm) }),
    z.object({ kind: z.literal('range'), from: rpm, to: rpm }),
    z.object({ kind: z.literal('none') }),
  ]),
  /** How another speed is set; left out where none is, and by plans resolved before it was kept. */
  speedChange: z.enum(['belt', 'lever', 'knob']).optional(),
  reverse: z.enum(['at once', 'after stopping', 'never']),
  /** Seconds from switching off to a standing spindle; null when the plan does not say. */
  stoppingTime: seconds.nullable(),
  x: axisReadingSchema,
  y: axisReadingSchema,
  z: axisReadingSchema,
  /** Where depth is read: knee, quill scale, depth stop or readout. */
  zReadOn: z.enum(['knee', 'quill', 'depth stop', 'readout']),
  vice: z
    .object({
      jawWidth: mm,
      jawHeight: mm,
      opening: mm,
      fixedJaw: z.enum(['rear', 'front', 'left', 'right']),
    })
    .nullable(),
  travel: z.object({ x: mm, y: mm, z: mm }).nullable(),
  /** Said by the plan to be fit for inward (climb) feed. */
  climbFeed: z.boolean(),
});
export type ResolvedMachine = z.infer<typeof machineSchema>;

/** How one axis of a setup is zeroed, with the value to set worked out. */
const axisZeroSchema = z.object({
  axis: z.enum(['x', 'y']),
  how: z.enum(['edge finder', 'ground block', 'pin', 'indicator', 'scribed line', 'stop only']),
  /** What is touched or found, in the user's words: "face of the stop", "fixed jaw". */
  against: text,
  /** Tip of the finder, or thickness of the block or pin; 0 where nothing stands between. */
  tip: mm,
  /** Side of the ground on which the finder stands, seen from the ground; null for an indicator, a line or the stop. */
  side: z.enum(['+', '-']).nullable(),
  /** Where that ground lies in part coordinates (0 unless the zero is offset from it). */
  ground: mm,
  /** The value to set when the finder touches: ground plus or minus half the tip (a whole block or pin). */
  set: mm,
  /** The same sum in words and digits, e.g. "stop 0.00 + half tip 5.00 = +5.00". */
  sum: text,
  /** Which way the axis travelled when it touched; every point is approached the same way (matters with a dial). */
  touchedGoing: z.enum(['+', '-']).nullable(),
});
export type AxisZero = z.infer<typeof axisZeroSchema>;

const placeSchema = z.object({ name: text, dx: mm, dy: mm });

const setupSchema = z.object({
  id: text,
  title: text,
  machine: text,
  hold: z.enum(['vice', 'two vices', 'fixture', 'plate', 'by hand']),
  stop: z.object({ side: z.enum(['left', 'right']), height: mm.nullable() }).nullable(),
  parallels: z.object({ height: mm, thickness: mm, where: text.nullable() }).nullable(),
  /** Which end stands out beyond the end of the jaws, and how far; left out where none is said to. */
  beyondJaws: z.object({ end: z.enum(['left', 'right']), by: mm }).optional(),
  /** Which face is up: "as sawn", "face A", "far face". */
  up: text,
  /** How the part lies against the setup before: null for the first. */
  turned: z.enum(['as before', 'over about X', 'over about Y', 'end for end', 'on edge', 'on end']).nullable(),
  x: axisZeroSchema.nullable(),
  y: axisZeroSchema.nullable(),
  /** How each tool's own Z zero is taken here, in one line: "feeler 0.05 on the top, set -0.05"; null where none is. */
  zZero: text.nullable(),
  /** Places in a load with their offset from the first; always at least one. */
  places: z.array(placeSchema).min(1),
  /** What to do, in order, one line a step. */
  steps: z.array(text),
  /** What is proved before metal is cut, one line each. */
  prove: z.array(text),
  /** Extent of the part as it lies in this setup, for the drawing: from corner to corner in setup coordinates. */
  outline: z.object({ x0: mm, x1: mm, y0: mm, y1: mm }),
});
export type ResolvedSetup = z.infer<typeof setupSchema>;

const toolSchema = z.object({
  id: text,
  name: text,
  kind: text,
  /** Cutting diameter: as measured where the plan says, else nominal; null for a saw blade or a file. */
  diameter: mm.nullable(),
  pointAngle: degrees.nullable(),
  tipFlat: mm.nullable(),
  flutes: z.number().int().positive().nullable(),
  material: text,
  /** Lead of a tap or bevel of a reamer. */
  lead: mm.nullable(),
  fluid: text.nullable(),
  prepare: text.nullable(),
  restore: text.nullable(),
  sharpenAfter: z.number().int().positive().nullable(),
});
export type ResolvedTool = z.infer<typeof toolSchema>;

const pointSchema = z.object({
  name: text,
  x: mm,
  y: mm,
  /** Tip depth below the tool's zero as a z target (negative); null where depth is not measured (through by hand). */
  z: mm.nullable(),
  /** What the depth is for: "through", "top 9.0", "12.0 full thread"; shown beside the number. */
  note: text.nullable(),
  /** Of a cone over a hole that is there: the travel from the first touch of its rim, and the diameter that it makes. */
  rim: z.object({ travel: mm, top: mm }).optional(),
  /** Of a tap in a blind hole that runs on: the z at which the spindle is switched off so that it comes to rest at `z`. */
  switchOff: mm.optional(),
});
export type ResolvedPoint = z.infer<typeof pointSchema>;

/** One pass of a line cut: the axis in hand travels from `from` to `to` while the others stand. */
const passSchema = z.object({
  name: text,
  /** Axis that is fed by hand during the pass. */
  feedAxis: z.enum(['x', 'y']),
  feedTowards: z.enum(['+', '-']),
  from: z.object({ x: mm, y: mm }),
  to: z.object({ x: mm, y: mm }),
  z: mm,
  /** Last pass to size. */
  last: z.boolean(),
});
export type ResolvedPass = z.infer<typeof passSchema>;

/** A pass as it is wound in a load of several: where it really runs, and over which places, from 1. */
const loadPassSchema = passSchema.extend({ places: z.array(z.number().int().positive()).min(1) });
export type ResolvedLoadPass = z.infer<typeof loadPassSchema>;

const speedSchema = z.object({
  /** Speed to set; null where no spindle turns (tap by hand, bench). */
  set: rpm.nullable(),
  /** Speed that the cutting speed asks for at the largest diameter cut. */
  computed: rpm.nullable(),
  /** Where it comes from: "drill HSS in mild steel 24 m/min, starting value". */
  because: text,
  /** Said when the slowest is too fast, or the fastest far too slow. */
  remark: text.nullable(),
});

const threadSchema = z.object({
  name: text,
  pitch: mm,
  tapDrill: mm.nullable(),
  /** Turns of the tap to the depth wanted; null where it goes through. */
  turns: z.number().nullable(),
  byHand: z.boolean(),
  fullThread: mm.nullable(),
});

/** How the tool of a cut finds its own Z zero, with the value to set worked out. */
const depthZeroSchema = z.object({
  how: z.enum(['feeler', 'touch', 'skim', 'by eye']),
  /** The surface that is touched, in the user's words. */
  on: text,
  /** The value to set at touch; of a skimmed face when it measures `wanted`, else as much more as it measures over. */
  set: mm,
  /** The same sum in words and digits: "top of the part 0.00 + feeler 0.05 = +0.05". */
  sum: text,
  /** What the part measures over a skimmed face that is to size; left out where nothing is skimmed. */
  wanted: mm.optional(),
});
export type DepthZero = z.infer<typeof depthZeroSchema>;

/** What one tool does in an operation: points, passes, or the whole piece at once. */
const cutSchema = z.object({
  tool: text.nullable(),
  speed: speedSchema,
  /** Feed a turn of the spindle, for a hand on the quill. */
  feedPerTurn: mm.nullable(),
  /** Seconds a hole or pass should take at that feed, from slow to fast end. */
  feel: z.object({ from: seconds, to: seconds }).nullable(),
  points: z.array(pointSchema),
  passes: z.array(passSchema),
  /**
   * The passes of a full load where several pieces are held, in working order; `passes` are then those of the first piece
   * alone. Left out where one is held, and by plans resolved before it was known.
   */
  loadPasses: z.array(loadPassSchema).optional(),
  /** Z target where there are no points (facing, milling to length); null else. */
  z: mm.nullable(),
  /** Resulting diameter at the top of a cone; the largest when points differ. */
  topDiameter: mm.nullable(),
  thread: threadSchema.nullable(),
  /** Withdraw to clear chips every so deep; null when not needed. */
  peck: mm.nullable(),
  /** Left out where the setup says of no Z zero, for a tool turned by hand, and by plans resolved before it was known. */
  zZero: depthZeroSchema.optional(),
});
export type ResolvedCut = z.infer<typeof cutSchema>;

const checkSchema = z.object({
  id: text,
  title: text,
  gauge: text.nullable(),
  what: z.discriminatedUnion('kind', [
    z.object({ kind: z.literal('measured'), nominal: mm, lower: mm, upper: mm }),
    z.object({ kind: z.literal('yes or no'), question: text }),
  ]),
  firstOff: z.boolean(),
  every: z.number().int().positive().nullable(),
  last: z.boolean(),
});
export type ResolvedCheck = z.infer<typeof checkSchema>;

const operationSchema = z.object({
  number: z.number().int().positive(),
  title: text,
  kind: operationKindSchema,
  station: stationSchema,
  machine: text.nullable(),
  setup: text.nullable(),
  /** Ids of the variants that it is done to, in the plan's order; all of them when the plan names none. */
  variants: z.array(text).min(1),
  /** Pieces held at once when full. */
  loadSize: z.number().int().positive(),
  /** What one press of the count key means: each point or pass, a piece, or a load. */
  counting: z.enum(['point', 'piece', 'load']),
  /** In working order; more than one: tool after tool without unclamping, counted once. */
  cuts: z.array(cutSchema),
  checks: z.array(checkSchema),
  /** Length the saw's or drill's stop is set to. */
  stopLength: mm.nullable(),
  /** What locates the work on a pillar drill. */
  located: text.nullable(),
  away: z
    .object({
      to: text,
      changes: z.array(text),
      /** Calendar days until pieces are back, where the plan gives them. */
      days: z.number().int().positive().optional(),
    })
    .nullable(),
  notes: z.array(text),
  /** Keys into the cautions table (src/plan/cautions.ts), injury first. */
  cautions: z.array(text),
  estimate: z.object({
    setup: seconds,
    /** For one piece. */
    piece: seconds,
    from: z.enum(['plan', 'computed', 'past batches']),
    /** Where past batches gave the time: how many, and what was computed without them. A batch keeps both with its plan. */
    past: z.object({ batches: z.number().int().positive(), computed: seconds }).optional(),
  }),
});
export type ResolvedOperation = z.infer<typeof operationSchema>;

const variantSchema = z.object({
  id: text,
  title: text,
  marking: text.nullable(),
  quantity: z.number().int().positive(),
});
export type ResolvedVariant = z.infer<typeof variantSchema>;

const hoursSchema = z.record(z.string(), z.array(z.tuple([z.string(), z.string()])));

export const resolvedPlanSchema = z.object({
  format: z.literal(1),
  id: text,
  job: text,
  drawing: text.nullable(),
  revision: text.nullable(),
  /** How lengths are shown; inside they are millimetres. */
  units: z.enum(['mm', 'inch']),
  material: text,
  part: z.object({ length: mm, width: mm, thickness: mm }),
  tolerance: text.nullable(),
  variants: z.array(variantSchema).min(1),
  /** Pieces started above the ordered quantity, pooled until the variants part. */
  spares: z.number().int().nonnegative(),
  stock: z
    .object({
      section: text,
      barLengths: z.array(mm),
      blank: mm,
      kerf: mm,
      endTrim: mm,
      grip: mm,
    })
    .nullable(),
  machines: z.array(machineSchema),
  setups: z.array(setupSchema),
  tools: z.array(toolSchema),
  operations: z.array(operationSchema).min(1),
  /** Shop hours stated by the plan, "mon" to "sun"; null: from settings. */
  hours: hoursSchema.nullable(),
  /** What the hour costs; null: from settings or unset. */
  rate: z.object({ amount: z.number().nonnegative(), currency: text }).nullable(),
});
export type ResolvedPlan = z.infer<typeof resolvedPlanSchema>;
