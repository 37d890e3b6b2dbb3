/** Operations of a plan, resolved. */
import { asMm, asSeconds, type Mm } from '../../shop/quantities.ts';
import { suggestName } from '../../shop/suggest-name.ts';
import { formatDuration } from '../../shop/units.ts';
import { cautionById, cautionIds, cautionsFor } from '../cautions.ts';
import { neutral } from '../read/problem.ts';
import type { ResolvedCut, ResolvedOperation, ResolvedPoint, ResolvedTool, ResolvedVariant } from '../resolved.ts';
import type { PlanOperation } from '../schema/operations.ts';
import { MAX_POINTS } from '../schema/plan.ts';
import { resolveChecks } from './checks.ts';
import { addProblem, inUnits, noteComputed, operationPath, type Resolving } from './context.ts';
import { isByHand, resolveCuts } from './cuts.ts';
import { estimateOf, type PastTimes } from './estimates.ts';
import { lyingSize } from './frames.ts';
import type { Visits } from './holes.ts';
import type { Place } from './load-passes.ts';
import { lengthsAtSetups, loadSizeOf, placesOf } from './loads.ts';
import { variantsOf } from './quantities.ts';
import type { OperationWork } from './work.ts';

/** What the operations are worked out from. */
export interface OperationsAsk {
  readonly resolving: Resolving;
  readonly works: readonly OperationWork[];
  readonly visits: Visits;
  readonly tools: ReadonlyMap<string, ResolvedTool>;
  readonly variants: readonly ResolvedVariant[];
  /** Pieces started. */
  readonly started: number;
  /** Length of a blank. */
  readonly blank: Mm;
  readonly past: PastTimes | undefined;
}

/** All operations in the order of the plan. */
export function resolveOperations(ask: OperationsAsk): ResolvedOperation[] {
  refuseNumbers(ask);
  const places = placesAtSetups(ask);
  return ask.works.map((work) => resolveOperation(ask, work, places.get(work.plan.setup ?? '') ?? []));
}

/** The places at every setup, laid out for its largest load, as the setups themselves will have them. */
function placesAtSetups(ask: OperationsAsk): ReadonlyMap<string, readonly Place[]> {
  // Sizes are asked for once more with each operation, where their problems and notes belong.
  const resolving: Resolving = { ...ask.resolving, problems: [], computed: [] };
  const sizes = ask.works.map((work) =>
    work.setup === undefined
      ? 1
      : loadSizeOf(resolving, work, piecesAt(ask, variantsOf(resolving, ask.variants, work.index))),
  );
  const { part } = ask.resolving.plan;
  const places = new Map<string, readonly Place[]>();
  for (const [id, length] of lengthsAtSetups(ask.works, ask.blank).at) {
    const users = ask.works.filter((work) => work.plan.setup === id);
    const { setup, machine } = users[0] ?? {};
    if (setup === undefined) continue;
    const lie = setup.lies ?? 'as drawn';
    const size = { now: lyingSize({ ...part, length }, lie), finished: lyingSize(part, lie) };
    places.set(id, placesOf(setup, machine, size, Math.max(...users.map((work) => sizes[work.index] ?? 1))));
  }
  return places;
}

function resolveOperation(ask: OperationsAsk, work: OperationWork, all: readonly Place[]): ResolvedOperation {
  const { resolving } = ask;
  const plan = work.plan;
  const path = operationPath(work.index);
  const variants = variantsOf(resolving, ask.variants, work.index);
  const loadSize = loadSizeOf(resolving, work, piecesAt(ask, variants));
  const places = all.slice(0, loadSize);
  const cuts = resolveCuts({ resolving, operation: work, tools: ask.tools, visits: ask.visits, places });
  refuseManyStops(resolving, work, cuts, places.length);
  return {
    number: plan.number,
    title: plan.title,
    kind: plan.kind,
    station: work.station,
    machine: work.machineKey ?? null,
    setup: work.setup === undefined ? null : (plan.setup ?? null),
    variants,
    loadSize,
    counting: plan.counting ?? countingOf(work, cuts, loadSize),
    cuts: [...cuts],
    checks: resolveChecks(resolving, plan, path, loadSize),
    stopLength: stopLengthOf(resolving, work),
    located: plan['located by'] ?? null,
    away: awayOf(plan.away),
    notes: [...(plan.notes ?? [])],
    cautions: cautionsOf(ask, work, cuts),
    estimate: withPast(ask, work, estimateOf(work, cuts, loadSize, isSameSetup(ask.works, work))),
  };
}

function awayOf(away: PlanOperation['away']): ResolvedOperation['away'] {
  if (away === undefined) return null;
  const days = away.days === undefined ? {} : { days: away.days };
  return { to: away.to, changes: [...(away.changes ?? [])], ...days };
}

/** More holes in one load than anyone goes through; passes are refused where they are made. */
function refuseManyStops(
  resolving: Resolving,
  work: OperationWork,
  cuts: readonly ResolvedCut[],
  pieces: number,
): void {
  const points = cuts.reduce((sum, cut) => sum + cut.points.length, 0);
  if (pieces < 2 || points * pieces <= MAX_POINTS) return;
  addProblem(resolving, operationPath(work.index), {
    found: `${points} points on ${pieces} pieces`,
    wanted: `at most ${MAX_POINTS} points in a load`,
    message: `operation ${work.plan.number} cuts ${points} points in each of ${pieces} pieces held at once; wanted at most ${MAX_POINTS} in a load`,
    tryThis: 'hold fewer pieces at once',
  });
}

/** The time that past batches give in place of one that was only computed, said as such. */
function withPast(
  ask: OperationsAsk,
  work: OperationWork,
  estimate: ResolvedOperation['estimate'],
): ResolvedOperation['estimate'] {
  if (ask.past === undefined || estimate.from !== 'computed') return estimate;
  const names = work.cuts.flatMap((cut) => (cut.toolKey === undefined ? [] : (ask.tools.get(cut.toolKey)?.name ?? [])));
  const tool = [...new Set(names)].join(' + ');
  const { number, kind } = work.plan;
  const { material } = ask.resolving.plan;
  const past = ask.past({
    plan: ask.resolving.plan.id,
    operation: number,
    kind,
    ...(tool === '' ? {} : { tool }),
    material,
    computed_s: estimate.piece,
  });
  if (past === null || !Number.isFinite(past.piece_s) || past.piece_s <= 0) return estimate;
  const piece = asSeconds(Math.round(past.piece_s * 10) / 10);
  const because = `${past.batches} past ${past.batches === 1 ? 'batch' : 'batches'}; computed ${formatDuration(estimate.piece)}`;
  noteComputed(ask.resolving, number, 'estimate', `${formatDuration(piece)} a piece`, because);
  return { ...estimate, piece, from: 'past batches', past: { batches: past.batches, computed: estimate.piece } };
}

/** Pieces that go through an operation: all that are started, or what its variants order and the spares. */
function piecesAt(ask: OperationsAsk, variants: readonly string[]): number {
  if (variants.length === ask.variants.length) return ask.started;
  const own = ask.variants.filter((variant) => variants.includes(variant.id));
  return own.reduce((sum, variant) => sum + variant.quantity, 0);
}

/**
 * What a press of the count key means where the plan does not say: every hole that is wound to, every pass of a line cut
 * where there is more than one or the pieces of a load are not all cut in one go; a load counts with its last. The strips of
 * a face have one depth, which is set once. On a pillar drill nothing is wound to.
 */
function countingOf(
  work: OperationWork,
  cuts: readonly ResolvedCut[],
  loadSize: number,
): ResolvedOperation['counting'] {
  const points = cuts.reduce((sum, cut) => sum + cut.points.length, 0);
  const passes = cuts.reduce((sum, cut) => sum + (cut.z === null ? (cut.loadPasses ?? cut.passes).length : 0), 0);
  if (loadSize === 1) return points + passes > 1 && work.station !== 'pillar drill' ? 'point' : 'piece';
  const inTurn = cuts.some((cut) => (cut.loadPasses ?? []).some((pass) => pass.places.length < loadSize));
  return work.station === 'mill' && (points > 0 || passes > 1 || inTurn) ? 'point' : 'load';
}

/** What a saw's stop is set to: as stated, else the length of the blank. */
function stopLengthOf(resolving: Resolving, work: OperationWork): Mm | null {
  const { plan } = work;
  if (plan['stop length'] !== undefined) return plan['stop length'];
  if (plan.kind !== 'saw') return null;
  if (plan.length !== undefined) return asMm(plan.length);
  const { stock, part } = resolving.plan;
  if (stock === undefined) return null;
  const blank = stock.blank ?? asMm(part.length + 2 * (stock.facing ?? 0));
  const because = stock.blank === undefined ? 'the part and its facing at both ends' : 'the blank';
  noteComputed(resolving, plan.number, 'stop length', inUnits(resolving, blank), because);
  return blank;
}

function cautionsOf(ask: OperationsAsk, work: OperationWork, cuts: readonly ResolvedCut[]): string[] {
  const wanted = work.plan.cautions ?? [];
  for (const [at, id] of wanted.entries()) {
    if (cautionById(id) !== undefined) continue;
    const near = suggestName(id, cautionIds());
    addProblem(ask.resolving, operationPath(work.index, 'cautions', at), {
      found: `"${neutral(id)}"`,
      wanted: 'a key of the table of cautions',
      message: `there is no caution "${neutral(id)}"`,
      tryThis: near === undefined ? 'write it as a note instead' : `did you mean "${near}"?`,
    });
  }
  return cautionsFor({
    kind: work.plan.kind,
    station: work.station,
    byHand: work.cuts.some((cut) => isByHand(work, cut)),
    material: ask.resolving.plan.material,
    through: cuts.every((cut) => cut.points.length === 0) || cuts.some((cut) => cut.points.some(isThrough)),
    wanted,
  }).map((row) => row.id);
}

/** Does the tool come out on the other side? A point without a depth is taken to. */
const isThrough = (point: ResolvedPoint): boolean => point.z === null || point.note?.startsWith('through') === true;

/** Was the last operation on the same machine done in the same setup? Bench work between does not disturb it. */
function isSameSetup(works: readonly OperationWork[], work: OperationWork): boolean {
  if (work.setup === undefined) return false;
  const before = works.slice(0, work.index).filter((other) => other.machineKey === work.machineKey);
  return before.at(-1)?.plan.setup === work.plan.setup;
}

/** Numbers are permanent: each once, and rising, for the order of the list is the order of work. */
function refuseNumbers({ resolving, works }: OperationsAsk): void {
  for (const work of works) {
    const before = works[work.index - 1];
    if (before === undefined || before.plan.number < work.plan.number) continue;
    addProblem(resolving, operationPath(work.index, 'number'), {
      found: String(work.plan.number),
      wanted: `a number above ${before.plan.number}`,
      message: `operation ${work.plan.number} stands after operation ${before.plan.number}`,
      tryThis: 'number the operations upwards in working order, each number once',
    });
  }
}
