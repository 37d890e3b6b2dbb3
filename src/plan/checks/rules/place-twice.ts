import type { PathStep } from '../../read/problem.ts';
import { shareVariant } from '../../resolve/holes.ts';
import type { ResolvedPoint } from '../../resolved.ts';
import { type CheckAsk, type CutSeen, isUpright, once, type VisitSeen } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';
import { isOnePlace, samePlaceTolerance } from '../near-places.ts';

/** Places nearer than this are one hole, as everywhere. */
const SAME_MM = 0.001;

/** One place that a tool comes to twice, or that goes by two names. */
export const placeTwice: Rule = {
  code: 'place-twice',
  severity: 'warn',
  also: ['note'],
  catches:
    'A point that one tool comes to twice, or two names for what must be one place: they stand no further apart than the tolerance.',
  example: 'operation 70: "holes 1" is named twice (lines 96 and 97): the 5 mm drill comes to it twice',
  find: (ask) => once(pairHits(ask)),
};

interface Standing {
  readonly visit: VisitSeen;
  /** Counts the points of all cuts in working order. */
  readonly turn: number;
  readonly upright: boolean;
}

/** Visits sorted along X, so that many points do not make many pairs; of each the first fault is enough. */
function pairHits(ask: CheckAsk): readonly Hit[] {
  const tolerance = samePlaceTolerance(ask);
  const sorted = ask.visits
    .map((visit, turn): Standing => ({ visit, turn, upright: isUpright(ask, visit) }))
    .sort((a, b) => a.visit.drawn.x - b.visit.drawn.x);
  return sorted.flatMap((one, at) => {
    for (let next = at + 1; next < sorted.length; next += 1) {
      const other = sorted[next];
      if (other === undefined || other.visit.drawn.x - one.visit.drawn.x > tolerance) break;
      if (apartOf(one.visit, other.visit) > tolerance || !isSameFace(one, other)) continue;
      const [first, second] = one.turn < other.turn ? [one, other] : [other, one];
      const hit = judge(ask, first.visit, second.visit, tolerance);
      if (hit !== undefined) return [hit];
    }
    return [];
  });
}

const apartOf = (a: VisitSeen, b: VisitSeen): number => Math.hypot(a.drawn.x - b.drawn.x, a.drawn.y - b.drawn.y);

const isSameFace = (a: Standing, b: Standing): boolean =>
  a.upright === b.upright &&
  (!a.upright || a.visit.operation.resolved.setup === b.visit.operation.resolved.setup) &&
  shareVariant(a.visit.operation.work, b.visit.operation.work);

function judge(ask: CheckAsk, first: VisitSeen, second: VisitSeen, tolerance: number): Hit | undefined {
  const apart = apartOf(first, second);
  if (apart >= SAME_MM) return besideOneAnother(ask, first, second, apart, tolerance);
  if (!isSameWork(ask, first, second)) return undefined;
  const [path, number] = [entryPath(second), second.operation.resolved.number];
  const tool = second.cut.tool?.name ?? `the ${second.cut.kind}`;
  const named =
    first.point.name === second.point.name
      ? `"${second.point.name}" is named twice`
      : `"${second.point.name}" stands where "${first.point.name}" does`;
  return {
    operation: number,
    path,
    severity: first.order === second.order ? 'warn' : 'note',
    message: `${named} (lines ${lineOf(ask, first)} and ${lineOf(ask, second)}): the ${tool} comes to it twice`,
    tryThis: `name it once: take "${second.point.name}" out of operation ${number}`,
  };
}

function besideOneAnother(
  ask: CheckAsk,
  first: VisitSeen,
  second: VisitSeen,
  apart: number,
  tolerance: number,
): Hit | undefined {
  const tools = [first, second].map((visit) => visit.cut.tool?.diameter ?? Number.POSITIVE_INFINITY);
  if (!isOnePlace(tolerance, apart, Math.min(...tools))) return undefined;
  const lines = `lines ${lineOf(ask, first)} and ${lineOf(ask, second)}`;
  return {
    operation: second.operation.resolved.number,
    path: entryPath(second),
    message: `"${second.point.name}" stands ${ask.show(apart)} beside "${first.point.name}" of operation ${first.operation.resolved.number} (${lines}), less than the tolerance: two names for one place`,
    tryThis: `name "${first.point.name}" both times, or put the coordinates right`,
  };
}

/** The same tool for the same work, no deeper than before, and nothing came between that it must put right again. */
function isSameWork(ask: CheckAsk, first: VisitSeen, second: VisitSeen): boolean {
  const [a, b] = [first.cut, second.cut];
  if (a.kind !== b.kind || a.work.toolKey !== b.work.toolKey) return false;
  if (first.operation.resolved.setup !== second.operation.resolved.setup) return false;
  if (-(second.point.z ?? 0) > -(first.point.z ?? 0) + SAME_MM) return false;
  const between = ask.operations.slice(first.operation.index, second.operation.index);
  return !between.some((one) => one.resolved.kind === 'away');
}

/** Where the point is named: the entry of "points" that it came from. */
const entryPath = ({ cut, point }: VisitSeen): readonly PathStep[] => [
  ...cut.path,
  'points',
  entriesOf(cut).get(point) ?? 0,
];

const known = new WeakMap<CutSeen, ReadonlyMap<ResolvedPoint, number>>();

/** The entry of every point of a cut, worked out once: there may be two thousand. */
function entriesOf(cut: CutSeen): ReadonlyMap<ResolvedPoint, number> {
  const before = known.get(cut);
  if (before !== undefined) return before;
  const uses = cut.work.plan.points ?? [];
  let use = 0;
  const entries = cut.resolved.points.map((point, index) => {
    const last = cut.resolved.points[index - 1]?.name;
    const name = uses[use]?.at;
    if (last !== undefined && !(isOf(name, point.name) && follows(name, last, point.name))) use += 1;
    return [point, Math.min(use, uses.length - 1)] as const;
  });
  const found = new Map(entries);
  known.set(cut, found);
  return found;
}

const isOf = (use: string | undefined, name: string): boolean => use !== undefined && name.startsWith(`${use} `);

/** Does a point of an arrangement come behind the one before it in the same entry? */
const follows = (use: string | undefined, before: string, name: string): boolean =>
  use !== undefined && numberOf(use, name) > numberOf(use, before);

const numberOf = (use: string, name: string): number => Number(name.slice(use.length));

const lineOf = (ask: CheckAsk, visit: VisitSeen): number => ask.positions.placeOf(entryPath(visit)).line;
