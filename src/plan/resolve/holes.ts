/**
 * What happens at one place over the whole plan: which drills, taps and reamers come to a point, in which order. A place is
 * told by where it lies on the drawing, so that it is the same hole in every setup.
 */
import { asMm, type Mm } from '../../shop/quantities.ts';
import { parseThread } from '../../shop/thread-names.ts';
import type { Thread } from '../../shop/threads.ts';
import type { Plan } from '../schema/plan.ts';
import { THREADS_BELOW_TAP } from './assumptions.ts';
import { type AtPlace, indexPlaces } from './places-index.ts';
import { cuttingDiameter, leadThreads } from './tools.ts';
import type { CutWork, OperationWork, WorkPoint } from './work.ts';

/** One visit of a tool to a place. */
export interface Visit {
  readonly operation: OperationWork;
  readonly cut: CutWork;
  readonly point: WorkPoint;
  /** Counts operations and cuts in working order. */
  readonly order: number;
}

/** All visits of a plan in working order, with the way to find those to one place. */
export interface Visits {
  readonly all: readonly Visit[];
  readonly at: AtPlace<Visit>;
}

/** All visits of the plan. */
export function allVisits(operations: readonly OperationWork[]): Visits {
  const all = visitsOf(operations);
  return { all, at: indexPlaces(all, (visit) => visit.point.drawn) };
}

function visitsOf(operations: readonly OperationWork[]): readonly Visit[] {
  let order = 0;
  return operations.flatMap((operation) =>
    operation.cuts.flatMap((cut) => {
      order += 1;
      const at = order;
      return cut.points.map((point) => ({ operation, cut, point, order: at }));
    }),
  );
}

/** The visits to the hole of a point, in working order; work without a setup follows the hole that is there. */
export function visitsTo(visits: Visits, from: Pick<Visit, 'operation' | 'point'>): readonly Visit[] {
  const here = visits.at(from.point.drawn);
  const upright = here.some(({ operation }) => liesUpright(operation));
  const mine = liesUpright(from.operation) || (from.operation.setup === undefined && upright);
  return here.filter(({ operation }) => operation.setup === undefined || liesUpright(operation) === mine);
}

/** Does a setup work on an edge or end, whose coordinates are others than those of the plan view? */
const liesUpright = (operation: OperationWork): boolean => ['on edge', 'on end'].includes(operation.setup?.lies ?? '');

/** Do two operations have a variant in common? An operation that names none is done to all. */
export function shareVariant(a: Pick<OperationWork, 'plan'>, b: Pick<OperationWork, 'plan'>): boolean {
  const [left, right] = [a.plan.variants, b.plan.variants];
  return left === undefined || right === undefined || left.some((variant) => right.includes(variant));
}

/** The thread that a tapping cut makes: its own, or that of its tap. */
export function threadOfCut(cut: CutWork): Thread | undefined {
  const name = cut.plan.thread ?? cut.tool?.thread;
  if (name === undefined) return undefined;
  const thread = parseThread(name);
  return thread.ok ? thread.value : undefined;
}

/** Depth of full thread of a blind tapping cut; undefined when it goes through or does not say. */
function fullThreadOf(cut: CutWork, point: WorkPoint): Mm | undefined {
  const depth = point.depth ?? cut.plan.depth;
  return cut.plan['full thread'] ?? (depth?.kind === 'length' ? depth.mm : undefined);
}

/** A blind thread as blind-threads.ts wants it, for a tapping visit. */
export function blindThreadOf(plan: Plan, visit: Pick<Visit, 'cut' | 'point'>) {
  const thread = threadOfCut(visit.cut);
  const fullThread = fullThreadOf(visit.cut, visit.point);
  if (thread === undefined || fullThread === undefined) return undefined;
  const below = plan.allowances?.['below the tap'] ?? THREADS_BELOW_TAP;
  const clearance = asMm(below * thread.pitch);
  return { fullThread, pitch: thread.pitch, leadThreads: leadThreads(visit.cut.tool, thread.pitch), clearance };
}

/** Diameter of the last hole made at a place before a visit; undefined when there is none. */
export function holeBefore(visits: Visits, visit: Visit): Mm | undefined {
  const before = visitsTo(visits, visit).filter(
    (other) =>
      other.order < visit.order &&
      (other.cut.kind === 'drill' || other.cut.kind === 'ream') &&
      shareVariant(other.operation, visit.operation),
  );
  const tool = before.at(-1)?.cut.tool;
  return tool === undefined ? undefined : (cuttingDiameter(tool) ?? undefined);
}
