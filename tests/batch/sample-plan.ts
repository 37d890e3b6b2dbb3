/**
 * Small resolved plans for tests, made from short words. Every part of a plan has a sensible default, so that a test
 * states only what it is about: `samplePlan({ operations: [anOperation(10, { kind: 'saw' })] })`. Numbers are for the
 * flow of pieces, not for cutting metal.
 */
import type {
  ResolvedCut,
  ResolvedMachine,
  ResolvedOperation,
  ResolvedPlan,
  ResolvedPoint,
  ResolvedSetup,
  ResolvedTool,
} from '../../src/plan/resolved.ts';
import { resolvedPlanSchema } from '../../src/plan/resolved.ts';

type Check = ResolvedOperation['checks'][number];
type Variant = ResolvedPlan['variants'][number];

const nothing = { kind: 'none' } as const;

/** The plan's data with plain numbers for branded ones: the schema is the judge. */
type Plain<Value> = Value extends number
  ? number
  : Value extends string | boolean | null
    ? Value
    : Value extends readonly (infer Item)[]
      ? readonly Plain<Item>[]
      : { readonly [Key in keyof Value]: Plain<Value[Key]> };
type Some<Value> = Partial<Plain<Value>>;

const branded = <Value>(value: Plain<Value>): Value => value as unknown as Value;

/** A mill with a readout, steps of speed, reversing only after stopping. */
export function aMachine(id: string, parts: Some<ResolvedMachine> = {}): ResolvedMachine {
  return branded<ResolvedMachine>({
    id,
    name: id,
    station: 'mill',
    speeds: { kind: 'steps', rpm: [90, 200, 450, 800, 1200] },
    reverse: 'after stopping',
    stoppingTime: 3,
    x: { kind: 'readout', resolution: 0.01 },
    y: { kind: 'readout', resolution: 0.01 },
    z: { kind: 'readout', resolution: 0.01 },
    zReadOn: 'readout',
    vice: { jawWidth: 100, jawHeight: 30, opening: 90, fixedJaw: 'rear' },
    travel: null,
    climbFeed: false,
    ...parts,
  });
}

/** A vice setup on `machine` with X and Y zero by edge finder. */
export function aSetup(id: string, machine: string, parts: Some<ResolvedSetup> = {}): ResolvedSetup {
  return branded<ResolvedSetup>({
    id,
    title: `Setup ${id}`,
    machine,
    hold: 'vice',
    stop: { side: 'left', height: null },
    parallels: { height: 20, thickness: 6, where: null },
    up: 'face A',
    turned: null,
    x: {
      axis: 'x',
      how: 'edge finder',
      against: 'face of the stop',
      tip: 10,
      side: '+',
      ground: 0,
      set: 5,
      sum: 'stop 0.00 + half tip 5.00 = +5.00',
      touchedGoing: '-',
    },
    y: {
      axis: 'y',
      how: 'edge finder',
      against: 'fixed jaw',
      tip: 10,
      side: '-',
      ground: 0,
      set: -5,
      sum: 'fixed jaw 0.00 - half tip 5.00 = -5.00',
      touchedGoing: '+',
    },
    zZero: 'feeler 0.05 on the top, set -0.05',
    places: [{ name: '1', dx: 0, dy: 0 }],
    steps: ['Wipe the jaws', 'Seat the part against the stop'],
    prove: ['wind right, X must grow'],
    outline: { x0: 0, x1: 60, y0: -30, y1: 0 },
    ...parts,
  });
}

/** A tool; by default a drill without preparation or putting right. */
export function aTool(id: string, parts: Some<ResolvedTool> = {}): ResolvedTool {
  return branded<ResolvedTool>({
    id,
    name: id,
    kind: 'drill',
    diameter: 5,
    pointAngle: 118,
    tipFlat: null,
    flutes: 2,
    material: 'HSS',
    lead: null,
    fluid: null,
    prepare: null,
    restore: null,
    sharpenAfter: null,
    ...parts,
  });
}

/** `n` points in a line, 10 mm apart, 6 deep. */
export function somePoints(n: number): ResolvedPoint[] {
  return Array.from({ length: n }, (_, i) =>
    branded<ResolvedPoint>({ name: `hole ${i + 1}`, x: 10 * (i + 1), y: -15, z: -6, note: null }),
  );
}

/** One cut at `rpm` with `tool` (null for none). */
export function aCut(tool: string | null, rpm: number | null, parts: Some<ResolvedCut> = {}): ResolvedCut {
  return branded<ResolvedCut>({
    tool,
    speed: { set: rpm, computed: rpm, because: 'sample', remark: null },
    feedPerTurn: null,
    feel: null,
    points: [],
    passes: [],
    z: null,
    topDiameter: null,
    thread: null,
    peck: null,
    ...parts,
  });
}

/** A measured check, by default on the first piece only: 3.00 +-0.05. */
export function aCheck(id: string, parts: Some<Check> = {}): Check {
  return branded<Check>({
    id,
    title: `Check ${id}`,
    gauge: 'caliper',
    what: { kind: 'measured', nominal: 3, lower: 2.95, upper: 3.05 },
    firstOff: true,
    every: null,
    last: false,
    ...parts,
  });
}

/** An operation; by default hand work at the bench, counted a piece at a time, for the variants given by `samplePlan`. */
export function anOperation(number: number, parts: Some<ResolvedOperation> = {}): ResolvedOperation {
  return branded<ResolvedOperation>({
    number,
    title: `Operation ${number}`,
    kind: 'hand work',
    station: 'bench',
    machine: null,
    setup: null,
    variants: [],
    loadSize: 1,
    counting: 'piece',
    cuts: [],
    checks: [],
    stopLength: null,
    located: null,
    away: null,
    notes: [],
    cautions: [],
    estimate: { setup: 0, piece: 60, from: 'plan' },
    ...parts,
  });
}

/** A variant with its quantity. */
export function aVariant(id: string, quantity: number): Variant {
  return { id, title: id, marking: null, quantity };
}

/** What a sample plan may state; an operation without variants is done to all of them. */
export type SamplePlanParts = Some<ResolvedPlan>;

/** A whole resolved plan, judged by its schema; by default three pieces of one variant through two bench operations. */
export function samplePlan(parts: SamplePlanParts = {}): ResolvedPlan {
  const variants = parts.variants ?? [aVariant('plate', 3)];
  const operations = (parts.operations ?? [anOperation(10), anOperation(20)]).map((operation) => ({
    ...operation,
    variants: operation.variants.length === 0 ? variants.map((variant) => variant.id) : operation.variants,
  }));
  return resolvedPlanSchema.parse({
    format: 1,
    id: 'sample',
    job: 'Keeper plates',
    drawing: null,
    revision: null,
    units: 'mm',
    material: 'mild steel',
    part: { length: 60, width: 30, thickness: 6 },
    tolerance: null,
    spares: 0,
    stock: null,
    machines: [],
    setups: [],
    tools: [],
    hours: null,
    rate: null,
    ...parts,
    variants,
    operations,
  });
}

/** A small but whole job: saw, drill by points in loads, a tap for one variant, a countersink for the other, deburr. */
export function twoVariantPlan(quantities: { threaded: number; clearance: number; spares?: number }): ResolvedPlan {
  return samplePlan({
    variants: [aVariant('threaded', quantities.threaded), aVariant('clearance', quantities.clearance)],
    spares: quantities.spares ?? 0,
    machines: [
      aMachine('mill'),
      aMachine('pillar', { station: 'pillar drill', x: nothing, y: nothing, zReadOn: 'depth stop', vice: null }),
      aMachine('saw', { station: 'saw', speeds: nothing, x: nothing, y: nothing, z: nothing, vice: null }),
    ],
    setups: [
      aSetup('V1', 'mill', {
        places: [
          { name: '1', dx: 0, dy: 0 },
          { name: '2', dx: 0, dy: -31 },
        ],
      }),
      aSetup('P1', 'pillar', { x: null, y: null, hold: 'by hand', stop: null, parallels: null }),
    ],
    tools: [
      aTool('drill 4.2', { diameter: 4.2, prepare: 'fresh edge', restore: 'rinse and oil' }),
      aTool('tap M5', { kind: 'tap', diameter: 5 }),
      aTool('countersink', { kind: 'countersink', diameter: 12, pointAngle: 90 }),
    ],
    operations: [
      anOperation(10, { title: 'Saw', kind: 'saw', station: 'saw', machine: 'saw', stopLength: 61 }),
      anOperation(20, {
        title: 'Drill',
        kind: 'drill',
        station: 'mill',
        machine: 'mill',
        setup: 'V1',
        loadSize: 2,
        counting: 'point',
        cuts: [aCut('drill 4.2', 1200, { points: somePoints(2) })],
        checks: [aCheck('place')],
      }),
      anOperation(30, {
        title: 'Tap',
        kind: 'tap',
        station: 'mill',
        machine: 'mill',
        setup: 'V1',
        variants: ['threaded'],
        counting: 'point',
        cuts: [
          aCut('tap M5', 90, {
            points: somePoints(2),
            thread: { name: 'M5', pitch: 0.8, tapDrill: 4.2, turns: null, byHand: false, fullThread: null },
          }),
        ],
        checks: [aCheck('gauge', { what: { kind: 'yes or no', question: 'Does the gauge go in?' }, every: 3 })],
      }),
      anOperation(40, {
        title: 'Countersink',
        kind: 'countersink',
        station: 'pillar drill',
        machine: 'pillar',
        setup: 'P1',
        variants: ['clearance'],
        cuts: [aCut('countersink', 200, { points: somePoints(2), topDiameter: 10 })],
      }),
      anOperation(50, { title: 'Deburr', kind: 'deburr' }),
    ],
  });
}
