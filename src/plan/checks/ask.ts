/** What the rules are asked with: the plan as written, as resolved, and the two brought together hole by hole. */
import type { Position } from '../../shop/patterns.ts';
import type { Mm } from '../../shop/quantities.ts';
import { formatLength, mmToInches } from '../../shop/units.ts';
import type { PathStep } from '../read/problem.ts';
import type { Positions } from '../read/tree.ts';
import type { Resolving } from '../resolve/context.ts';
import { allVisits, shareVariant } from '../resolve/holes.ts';
import { knownMachines } from '../resolve/machines.ts';
import { type AtPlace, indexPlaces } from '../resolve/places-index.ts';
import { drawnPoints } from '../resolve/points.ts';
import { type CutWork, type OperationWork, operationWorks } from '../resolve/work.ts';
import type {
  OperationKind,
  ResolvedCut,
  ResolvedMachine,
  ResolvedOperation,
  ResolvedPlan,
  ResolvedPoint,
  ResolvedSetup,
  ResolvedTool,
} from '../resolved.ts';
import type { PlanMachine } from '../schema/machines.ts';
import type { Plan } from '../schema/plan.ts';

/** One operation, as written and as resolved. */
export interface OperationSeen {
  readonly index: number;
  readonly work: OperationWork;
  readonly resolved: ResolvedOperation;
  readonly machine: ResolvedMachine | undefined;
  readonly setup: ResolvedSetup | undefined;
  readonly cuts: readonly CutSeen[];
}

/** One cut, as written and as resolved. */
export interface CutSeen {
  readonly work: CutWork;
  readonly resolved: ResolvedCut;
  readonly kind: OperationKind;
  readonly tool: ResolvedTool | undefined;
  readonly path: readonly PathStep[];
}

/** One tool at one place. */
export interface VisitSeen {
  readonly operation: OperationSeen;
  readonly cut: CutSeen;
  readonly point: ResolvedPoint;
  /** Where it stands on the drawing: the same hole has the same place in every setup. */
  readonly drawn: Position;
  readonly order: number;
  readonly path: readonly PathStep[];
}

export interface CheckAsk {
  readonly plan: Plan;
  readonly resolved: ResolvedPlan;
  readonly positions: Positions;
  readonly operations: readonly OperationSeen[];
  readonly visits: readonly VisitSeen[];
  /** The visits to one place of the drawing. */
  readonly visitsAt: AtPlace<VisitSeen>;
  /** A length in the plan's units, for a sentence. */
  readonly show: (length: number) => string;
}

/** Brings a plan and its resolution together. Both must come from the same text. */
export function makeCheckAsk(
  plan: Plan,
  resolved: ResolvedPlan,
  positions: Positions,
  machines?: Readonly<Record<string, PlanMachine>>,
): CheckAsk {
  const resolving: Resolving = { plan, positions, problems: [], computed: [] };
  const works = operationWorks(resolving, knownMachines(plan.machines, machines), drawnPoints(resolving));
  const operations = works.flatMap((work) => seenOperation(resolved, work) ?? []);
  const visits = seenVisits(works, operations);
  return {
    plan,
    resolved,
    positions,
    operations,
    visits,
    visitsAt: indexPlaces(visits, (visit) => visit.drawn),
    show: showIn(plan),
  };
}

/** Inches in thousandths, what is below a hundredth in tenths of them: `.0005 in` is not `.001 in`. */
function showIn({ units }: Pick<Plan, 'units'>): CheckAsk['show'] {
  return (length) => {
    const thou = Math.abs(mmToInches(length as Mm)) * 1000;
    const fine = units === 'inch' && thou < 10 && Math.abs(thou - Math.round(thou)) > 0.05;
    return formatLength(length as Mm, units, fine ? 4 : 3);
  };
}

function seenOperation(resolved: ResolvedPlan, work: OperationWork): OperationSeen | undefined {
  const operation = resolved.operations[work.index];
  if (operation === undefined) return undefined;
  const cuts = work.cuts.flatMap((cut, at): CutSeen[] => {
    const seen = operation.cuts[at];
    if (seen === undefined) return [];
    const tool = resolved.tools.find((one) => one.id === cut.toolKey);
    return [{ work: cut, resolved: seen, kind: cut.kind, tool, path: cut.path }];
  });
  return {
    index: work.index,
    work,
    resolved: operation,
    machine: resolved.machines.find((one) => one.id === operation.machine),
    setup: resolved.setups.find((one) => one.id === operation.setup),
    cuts,
  };
}

function seenVisits(works: readonly OperationWork[], operations: readonly OperationSeen[]): readonly VisitSeen[] {
  return allVisits(works).all.flatMap((visit): VisitSeen[] => {
    const operation = operations.find((one) => one.work === visit.operation);
    const cut = operation?.cuts.find((one) => one.work === visit.cut);
    const point = cut?.resolved.points[visit.cut.points.indexOf(visit.point)];
    if (operation === undefined || cut === undefined || point === undefined) return [];
    return [{ operation, cut, point, drawn: visit.point.drawn, order: visit.order, path: cut.path }];
  });
}

/** Does a setup work on another face than the drawing's plan view? */
export const liesUpright = (visit: VisitSeen): boolean =>
  ['on edge', 'on end'].includes(visit.operation.work.setup?.lies ?? '');

/** Is the hole in an edge or end? Work without a setup (by hand, on a pillar drill) follows the hole that is there. */
export const isUpright = (ask: Pick<CheckAsk, 'visitsAt'>, visit: VisitSeen): boolean =>
  liesUpright(visit) || (visit.operation.work.setup === undefined && ask.visitsAt(visit.drawn).some(liesUpright));

/** Do two visits to one place come to the same hole of the same pieces? */
function isSameHole(ask: CheckAsk, a: VisitSeen, b: VisitSeen): boolean {
  return (
    isUpright(ask, a) === isUpright(ask, b) &&
    shareVariant(a.operation.work, b.operation.work) &&
    !comesFromOtherEnd(a, b)
  );
}

/** Blind holes at one place of two ends or edges are two; one that goes through comes out at the other. */
function comesFromOtherEnd(a: VisitSeen, b: VisitSeen): boolean {
  const [mine, other] = [sideUp(a), sideUp(b)];
  return mine !== undefined && other !== undefined && mine !== other && !goesThrough(a) && !goesThrough(b);
}

/** The edge or end that is up on edge or on end, where the setup says it. */
function sideUp(visit: VisitSeen): string | undefined {
  const said = liesUpright(visit) ? visit.operation.work.setup?.up?.toLowerCase() : undefined;
  const sides = ['front', 'rear', 'left', 'right'].filter((side) => said?.includes(side) === true);
  return sides.length === 1 ? sides[0] : undefined;
}

/** Visits of other cuts to the same hole, before and after. */
export function hole(ask: CheckAsk, visit: VisitSeen) {
  const same = ask
    .visitsAt(visit.drawn)
    .filter((other) => other.order !== visit.order && isSameHole(ask, other, visit));
  return {
    before: same.filter((other) => other.order < visit.order),
    after: same.filter((other) => other.order > visit.order),
  };
}

/** The last visit of another cut to the same hole before this one that is wanted. */
export function lastBefore(
  ask: CheckAsk,
  visit: VisitSeen,
  wanted: (other: VisitSeen) => boolean,
): VisitSeen | undefined {
  return ask
    .visitsAt(visit.drawn)
    .findLast((other) => other.order < visit.order && wanted(other) && isSameHole(ask, other, visit));
}

/** Does a tool come out on the other side? */
export const goesThrough = ({ point }: VisitSeen): boolean => point.note?.startsWith('through') === true;

/**
 * The visit that made the bore of a hole before this one: of the drills and reamers that went deepest the widest. A recess at
 * the mouth is not the bore, nor is a smaller drill that found the hole already there.
 */
export function boreBefore(
  ask: CheckAsk,
  visit: VisitSeen,
  kinds: readonly OperationKind[] = ['drill', 'ream'],
): VisitSeen | undefined {
  const made = hole(ask, visit).before.filter(({ cut }) => kinds.includes(cut.kind));
  const deep = (one: VisitSeen) => (goesThrough(one) || one.point.z === null ? Number.POSITIVE_INFINITY : -one.point.z);
  const deepest = Math.max(...made.map(deep));
  const wide = (one: VisitSeen) => one.cut.tool?.diameter ?? 0;
  return made
    .filter((one) => deep(one) >= deepest - 1e-6)
    .reduce<VisitSeen | undefined>(
      (best, one) => (best === undefined || wide(one) >= wide(best) ? one : best),
      undefined,
    );
}

/** Thickness of the part along the spindle in an operation. */
export const thicknessAt = (operation: OperationSeen): Mm => operation.work.size.z;

/** For `filter`: the first operation in its setup, where what concerns the whole setup is said once. */
export const isFirstOfSetup = (operation: OperationSeen, _at: number, all: readonly OperationSeen[]): boolean =>
  operation.setup !== undefined && all.find((one) => one.resolved.setup === operation.resolved.setup) === operation;

/** Every cut of every operation. */
export const allCuts = (ask: CheckAsk): readonly { readonly operation: OperationSeen; readonly cut: CutSeen }[] =>
  ask.operations.flatMap((operation) => operation.cuts.map((cut) => ({ operation, cut })));

/** Path of an operation's own key. */
export const pathOf = (operation: OperationSeen, ...more: readonly PathStep[]): readonly PathStep[] => [
  'operations',
  operation.index,
  ...more,
];

/** Keeps the first hit of each operation and message: seven equal holes are one thing to say. */
export function once<Item extends { readonly operation: number | null; readonly message: string }>(
  hits: readonly Item[],
): readonly Item[] {
  const seen = new Set<string>();
  return hits.filter((hit) => {
    const key = `${hit.operation}:${hit.message}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}
