import { shareVariant } from '../../resolve/holes.ts';
import { writeLength } from '../advice.ts';
import { type CheckAsk, isUpright, once, type VisitSeen } from '../ask.ts';
import { holeBodies, threadBodies } from '../bodies.ts';
import type { Hit, Rule } from '../finding.ts';
import { axesApart, gapBetween, type HoleBody, type Place3 } from '../hole-body.ts';

/** Thinnest wall that passes without a word: a choice of ours, as between holes from above. */
const THIN_WALL_MM = 1;
/** What threads on both sides may take more of a wall than their drills. */
const THREAD_MM = 2;
/** A gap below this is none. */
const MEETS_MM = 1e-4;
/** Holes from above that are looked at for each hole in an edge: in metal that holds together there are no more near it. */
const NEAREST = 12;
const HOLES: ReadonlySet<string> = new Set(['drill', 'ream', 'counterbore']);

/** A hole from an edge or end that comes too near to one from above. */
export const crossWall: Rule = {
  code: 'cross-wall',
  severity: 'warn',
  also: ['note'],
  catches:
    'A hole from an edge or end that leaves too thin a wall to a hole from above, the cone at its tip included, or cuts into its side. Holes that meet axis to axis are only named, for they may be meant to.',
  example: 'operation 160: "pin" leaves a wall of 0.4 mm to "fixings 2" of operation 90',
  find: (ask) => {
    const holes = ask.visits.filter((visit) => HOLES.has(visit.cut.kind) && visit.cut.tool?.diameter != null);
    const upright = holes.filter((visit) => visit.operation.setup !== undefined && isUpright(ask, visit));
    if (upright.length === 0) return [];
    const others = oneOfEach(holes.filter((visit) => !isUpright(ask, visit))).map((visit) => {
      const body = bodyFromFace(ask, visit);
      return { visit, body, box: axisBox(body), thread: threadBodies(ask, visit)[0] };
    });
    return once(
      oneOfEach(upright).flatMap((visit) => {
        const mine = { visit, bodies: waysToLie(ask, visit), threads: threadBodies(ask, visit) };
        return nearTo(mine, others).flatMap((other) => judge(ask, mine, other));
      }),
    );
  },
};

/** The widest of the visits of one depth to one place. */
function oneOfEach(visits: readonly VisitSeen[]): readonly VisitSeen[] {
  const kept = new Map<string, VisitSeen>();
  for (const visit of visits) {
    const { drawn, point, operation } = visit;
    const setup = operation.work.setup === undefined ? '' : (operation.resolved.setup ?? '');
    const key = `${drawn.x.toFixed(3)},${drawn.y.toFixed(3)},${setup},${point.z?.toFixed(2)}`;
    const before = kept.get(key)?.cut.tool?.diameter ?? 0;
    if (before < (visit.cut.tool?.diameter ?? 0)) kept.set(key, visit);
  }
  return [...kept.values()];
}

/** A hole from above, and its thread where it gets one. */
interface Other {
  readonly visit: VisitSeen;
  readonly body: HoleBody;
  readonly box: AxisBox;
  readonly thread: HoleBody | undefined;
}

/** A hole from an edge or end, for every way in which the part can lie. */
interface Mine {
  readonly visit: VisitSeen;
  readonly bodies: readonly HoleBody[];
  readonly threads: readonly (HoleBody | undefined)[];
}

/** The few holes from above that can come nearest, so that thousands of holes do not make millions of searches. */
function nearTo(mine: Mine, others: readonly Other[]): readonly Other[] {
  const boxes = mine.bodies.map(axisBox);
  const tapped = mine.threads[0] !== undefined || others.some((other) => other.thread !== undefined);
  const reach = THIN_WALL_MM + (tapped ? THREAD_MM : 0);
  const near: { readonly other: Other; readonly least: number }[] = [];
  for (const other of others) {
    let least = reach;
    for (const box of boxes) least = Math.min(least, leastGap(box, other.box));
    if (least < reach) near.push({ other, least });
  }
  return near
    .sort((a, b) => a.least - b.least)
    .slice(0, NEAREST)
    .map(({ other }) => other);
}

function judge(ask: CheckAsk, mine: Mine, { visit: other, body, thread }: Other): readonly Hit[] {
  const { visit, bodies, threads } = mine;
  if (!shareVariant(visit.operation.work, other.operation.work)) return [];
  const walls = bodies.map((own, way) => thinner(wallBetween(own, body), own, body, threads[way], thread));
  const thin = walls.flatMap((one) => (one.kind === 'wall' && one.mm < THIN_WALL_MM - MEETS_MM ? [one.mm] : []));
  const base = { operation: visit.operation.resolved.number, path: visit.path };
  const where = `"${other.point.name}" of operation ${other.operation.resolved.number}`;
  if (thin.length === 0) {
    if (walls.every((one) => one.kind === 'wall')) return [];
    const message = `"${visit.point.name}" meets ${where}, axis to axis`;
    return [{ ...base, severity: 'note', message, tryThis: 'leave it if it is meant; else move one of them' }];
  }
  const wall = Math.max(...thin);
  const sure = thin.length === walls.length;
  const what = wall < MEETS_MM ? 'cuts into the side of' : `leaves a wall of ${ask.show(wall)} to`;
  return [
    {
      ...base,
      severity: sure ? 'warn' : 'note',
      message: `"${visit.point.name}" ${what} ${where}${sure ? '' : ', by the way the part may lie here'}`,
      tryThis: `${moveAdvice(ask, visit, body, THIN_WALL_MM - wall)}${sure ? '' : '; say which edge is up, such as "up: rear edge"'}`,
    },
  ];
}

/** On edge the part's X is that of the setup, so a place further off can be named. */
function moveAdvice(ask: CheckAsk, visit: VisitSeen, other: HoleBody, by: number): string {
  const x0 = visit.operation.setup?.outline.x0 ?? 0;
  const beside = visit.point.x - x0 - other.mouth.x;
  if (visit.operation.work.setup?.lies !== 'on edge' || Math.abs(beside) < 1e-6)
    return `make it ${ask.show(by)} shallower, or move it by that`;
  const to = writeLength(ask, visit.point.x + Math.sign(beside) * by, beside > 0 ? 'up' : 'down');
  return `make it shallower, or move it ${ask.show(by)} away: "x: ${to}"`;
}

type Wall = { readonly kind: 'wall'; readonly mm: number } | { readonly kind: 'meets' };

/** The wall; or that the holes meet as they may be meant to, axis to axis. */
function wallBetween(a: HoleBody, b: HoleBody): Wall {
  const gap = gapBetween(a, b);
  return gap < MEETS_MM && axesApart(a, b) < Math.max(a.radius, b.radius)
    ? { kind: 'meets' }
    : { kind: 'wall', mm: gap };
}

/** The wall that is left once either hole has its thread. */
function thinner(wall: Wall, mine: HoleBody, other: HoleBody, thread?: HoleBody, theirs?: HoleBody): Wall {
  if (wall.kind === 'meets' || (thread === undefined && theirs === undefined)) return wall;
  const all = [thread ?? mine, mine].flatMap((a) => [theirs ?? other, other].map((b) => gapBetween(a, b)));
  return { kind: 'wall', mm: Math.min(wall.mm, ...all) };
}

/** The axis of a hole from end to end: it runs along one of the edges of the part, so that this is a box without width. */
interface AxisBox {
  readonly low: Place3;
  readonly high: Place3;
  readonly radius: number;
}

function axisBox({ mouth, way, full, point, radius }: HoleBody): AxisBox {
  const end = (axis: 'x' | 'y' | 'z') => mouth[axis] + way[axis] * (full + point);
  const both = (pick: (a: number, b: number) => number): Place3 => ({
    x: pick(mouth.x, end('x')),
    y: pick(mouth.y, end('y')),
    z: pick(mouth.z, end('z')),
  });
  return { low: both(Math.min), high: both(Math.max), radius };
}

/** A wall that the gap is never below, quickly: the axes held to their lengths, less both radii. */
function leastGap(a: AxisBox, b: AxisBox): number {
  const x = Math.max(0, b.low.x - a.high.x, a.low.x - b.high.x);
  const y = Math.max(0, b.low.y - a.high.y, a.low.y - b.high.y);
  const z = Math.max(0, b.low.z - a.high.z, a.low.z - b.high.z);
  return Math.sqrt(x * x + y * y + z * z) - a.radius - b.radius;
}

/** A hole of the plan view. */
const bodyFromFace = (ask: CheckAsk, visit: VisitSeen): HoleBody => holeBodies(ask, visit)[0] as HoleBody;

/** A hole in an edge or end, for every way in which the part can lie so. */
export const waysToLie = (ask: CheckAsk, visit: VisitSeen): readonly HoleBody[] => holeBodies(ask, visit);
