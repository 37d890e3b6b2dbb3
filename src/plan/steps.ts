/**
 * What `millside steps` tells: every operation of a resolved plan with its points in absolute coordinates, depths, speeds,
 * checks and times. The model is plain data in the plan's own units (its JSON is shape version 1, see steps-model.ts);
 * steps-text.ts makes the text.
 */
import { drillName } from '../shop/drill-sizes.ts';
import { asMm, type Mm } from '../shop/quantities.ts';
import { barsNeeded } from '../shop/stock.ts';
import { formatEngagement, judgeTapDrill } from '../shop/tap-drills.ts';
import { parseThread } from '../shop/thread-names.ts';
import { mmToInches, roundToResolution } from '../shop/units.ts';
import { cautionById } from './cautions.ts';
import { depthZeroWords, dialText } from './dial-axis.ts';
import type { ComputedNote } from './resolve/context.ts';
import type {
  ResolvedCut,
  ResolvedLoadPass,
  ResolvedMachine,
  ResolvedOperation,
  ResolvedPass,
  ResolvedPlan,
  ResolvedPoint,
  ResolvedSetup,
} from './resolved.ts';
import { setupPicture } from './setup-picture.ts';
import type {
  PlanSteps,
  StepCheck,
  StepCut,
  StepOperation,
  StepPass,
  StepPoint,
  StepSetup,
  StepTarget,
} from './steps-model.ts';

/** Rounds a length to the plan's units: thousandths of a millimetre, ten-thousandths of an inch. */
type InUnits = (length: Mm) => number;

/** The steps of a resolved plan. `computed` are the notes of `resolvePlan`, empty when they are not at hand. */
export function stepsOf(plan: ResolvedPlan, computed: readonly ComputedNote[] = []): PlanSteps {
  const inUnits: InUnits = (length) =>
    plan.units === 'mm' ? roundToResolution(length, 0.001) : roundToResolution(mmToInches(length), 0.0001);
  const start = plan.variants.reduce((sum, variant) => sum + variant.quantity, 0) + plan.spares;
  return {
    format: 1,
    plan: plan.id,
    job: plan.job,
    drawing: plan.drawing,
    revision: plan.revision,
    units: plan.units,
    material: plan.material,
    part: {
      length: inUnits(plan.part.length),
      width: inUnits(plan.part.width),
      thickness: inUnits(plan.part.thickness),
    },
    variants: plan.variants.map(({ id, title, quantity }) => ({ id, title, quantity })),
    spares: plan.spares,
    start,
    stock: stockSteps(plan, start, inUnits),
    setups: plan.setups.map((setup) => setupSteps(plan, setup, inUnits)),
    operations: plan.operations.map((operation) => operationSteps(plan, operation, inUnits)),
    computed,
  };
}

function stockSteps(plan: ResolvedPlan, start: number, inUnits: InUnits): PlanSteps['stock'] {
  const stock = plan.stock;
  if (stock === null) return null;
  const bars = stock.barLengths.flatMap((length) => {
    const needed = barsNeeded(start, length, stock.blank, stock);
    if (!needed.ok) return [];
    return [{ length: inUnits(length), blanks_per_bar: needed.value.blanksPerBar, bars: needed.value.bars }];
  });
  return { section: stock.section, blank: inUnits(stock.blank), bars };
}

function setupSteps(plan: ResolvedPlan, setup: ResolvedSetup, inUnits: InUnits): StepSetup {
  return {
    id: setup.id,
    title: setup.title,
    machine: setup.machine,
    x_zero: setup.x?.sum ?? null,
    y_zero: setup.y?.sum ?? null,
    z_zero: setup.zZero,
    steps: setup.steps,
    prove: setup.prove,
    places: setup.places.map(({ name, dx, dy }) => ({ name, x: inUnits(dx), y: inUnits(dy) })),
    picture: setupPicture(plan, setup.id),
  };
}

function operationSteps(plan: ResolvedPlan, operation: ResolvedOperation, inUnits: InUnits): StepOperation {
  const machine = plan.machines.find((one) => one.id === operation.machine);
  const setup = plan.setups.find((one) => one.id === operation.setup);
  const places = setup?.places.slice(0, operation.loadSize) ?? [];
  const length = (value: Mm | null) => (value === null ? null : inUnits(value));
  return {
    number: operation.number,
    title: operation.title,
    kind: operation.kind,
    station: operation.station,
    machine: operation.machine,
    setup: operation.setup,
    variants: operation.variants,
    per_load: operation.loadSize,
    counting: operation.counting,
    stop_length: length(operation.stopLength),
    located_by: operation.located,
    away: operation.away === null ? null : { ...operation.away, days: operation.away.days ?? null },
    cuts: operation.cuts.map((cut) => cutSteps(plan, { machine, places }, cut, inUnits)),
    checks: operation.checks.map((check) => checkSteps(check, inUnits)),
    notes: operation.notes,
    cautions: operation.cautions.map((id) => cautionById(id)?.text ?? id),
    estimate: estimateSteps(operation.estimate),
  };
}

function estimateSteps({ setup, piece, from, past }: ResolvedOperation['estimate']): StepOperation['estimate'] {
  return { setup_s: setup, piece_s: piece, from, batches: past?.batches ?? null };
}

/** Where a cut is made: the scales of the machine and the places of a full load. */
type LoadAt = { readonly machine: ResolvedMachine | undefined; readonly places: ResolvedSetup['places'] };

function cutSteps(plan: ResolvedPlan, at: LoadAt, cut: ResolvedCut, inUnits: InUnits): StepCut {
  const { machine } = at;
  const length = (value: Mm | null) => (value === null ? null : inUnits(value));
  const thread = cut.thread;
  return {
    tool: cut.tool,
    tool_name: plan.tools.find((tool) => tool.id === cut.tool)?.name ?? null,
    speed_rpm: cut.speed.set,
    computed_rpm: cut.speed.computed === null ? null : roundToResolution(cut.speed.computed, 0.1),
    because: cut.speed.because,
    remark: cut.speed.remark,
    feed_per_turn: length(cut.feedPerTurn),
    feel_s:
      cut.feel === null
        ? null
        : { from: roundToResolution(cut.feel.from, 0.1), to: roundToResolution(cut.feel.to, 0.1) },
    peck: length(cut.peck),
    top_diameter: length(cut.topDiameter),
    z_zero: depthZeroWords(cut.zZero, machine?.z),
    thread:
      thread === null
        ? null
        : {
            name: thread.name,
            pitch: inUnits(thread.pitch),
            tap_drill: thread.tapDrill === null ? null : drillName(thread.tapDrill),
            engagement: thread.tapDrill === null ? null : engagementWords(thread.name, thread.tapDrill),
            turns: thread.turns === null ? null : roundToResolution(thread.turns, 0.1),
            by_hand: thread.byHand,
            full_thread: length(thread.fullThread),
          },
    z: length(cut.z),
    points: cut.points.map((point) => pointSteps(machine, point, inUnits)),
    targets: targetSteps(cut, at, inUnits),
    passes: (cut.loadPasses ?? cut.passes).map((pass) => passSteps(machine, pass, inUnits)),
  };
}

function engagementWords(name: string, hole: Mm): string | null {
  const thread = parseThread(name);
  const verdict = thread.ok ? judgeTapDrill(thread.value, hole) : undefined;
  return verdict?.ok === true ? formatEngagement(verdict.value.engagement) : null;
}

/** The points of every piece of a load: all of one place, then of the next, as they are gone through. */
function targetSteps(cut: ResolvedCut, { machine, places }: LoadAt, inUnits: InUnits): readonly StepTarget[] {
  if (places.length < 2) return [];
  return places.flatMap(({ name, dx, dy }, at) =>
    cut.points.map((point) => {
      const moved = { ...point, x: asMm(point.x + dx), y: asMm(point.y + dy) };
      return { piece: at + 1, place: name, ...pointSteps(machine, moved, inUnits) };
    }),
  );
}

function pointSteps(machine: ResolvedMachine | undefined, point: ResolvedPoint, inUnits: InUnits): StepPoint {
  return {
    name: point.name,
    x: inUnits(point.x),
    y: inUnits(point.y),
    z: point.z === null ? null : inUnits(point.z),
    note: point.note,
    dial: {
      x: dialText(point.x, machine?.x),
      y: dialText(point.y, machine?.y),
      z: point.z === null ? null : dialText(point.z, machine?.z),
    },
  };
}

function passSteps(
  machine: ResolvedMachine | undefined,
  pass: ResolvedPass | ResolvedLoadPass,
  inUnits: InUnits,
): StepPass {
  const [fed, across] = pass.feedAxis === 'x' ? [machine?.x, machine?.y] : [machine?.y, machine?.x];
  const at = (place: { x: Mm; y: Mm }) => ({ x: inUnits(place.x), y: inUnits(place.y) });
  return {
    name: pass.name,
    pieces: 'places' in pass ? pass.places : null,
    feed_axis: pass.feedAxis,
    feed_towards: pass.feedTowards,
    from: at(pass.from),
    to: at(pass.to),
    z: inUnits(pass.z),
    dial: {
      from: dialText(pass.feedAxis === 'x' ? pass.from.x : pass.from.y, fed),
      to: dialText(pass.feedAxis === 'x' ? pass.to.x : pass.to.y, fed),
      across: dialText(pass.feedAxis === 'x' ? pass.from.y : pass.from.x, across),
      z: dialText(pass.z, machine?.z),
    },
  };
}

function checkSteps(check: ResolvedOperation['checks'][number], inUnits: InUnits): StepCheck {
  const measured = check.what.kind === 'measured' ? check.what : undefined;
  return {
    title: check.title,
    gauge: check.gauge,
    nominal: measured === undefined ? null : inUnits(measured.nominal),
    lower: measured === undefined ? null : inUnits(measured.lower),
    upper: measured === undefined ? null : inUnits(measured.upper),
    question: check.what.kind === 'yes or no' ? check.what.question : null,
    first_off: check.firstOff,
    every: check.every,
    last: check.last,
  };
}
