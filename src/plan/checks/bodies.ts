/** The holes and passes of a plan as bodies in the part, for every way in which the part can lie in their setup. */
import type { Position } from '../../shop/patterns.ts';
import { asMm } from '../../shop/quantities.ts';
import { blindThreadOf, shareVariant, threadOfCut } from '../resolve/holes.ts';
import type { ResolvedPass } from '../resolved.ts';
import { pointOfTool } from '../tool-point.ts';
import {
  type CheckAsk,
  type CutSeen,
  hole,
  liesUpright,
  type OperationSeen,
  thicknessAt,
  type VisitSeen,
} from './ask.ts';
import { gapBetween, type HoleBody, type Place3, type SlotBody } from './hole-body.ts';
import { type LyingWay, lyingWays } from './lying.ts';

/** A hole, or a cone, for every way in which the part can lie. */
export const holeBodies = (ask: CheckAsk, visit: VisitSeen): readonly HoleBody[] =>
  lyingWays(ask, visit.operation).map((way) => holeBodyIn(way, visit));

/** The same where one way is taken. */
export const holeBodyIn = (way: LyingWay, visit: VisitSeen, at: Position = visit.point): HoleBody => ({
  mouth: way.face(at),
  way: way.down,
  ...lengthsOf(visit),
});

/** The threads of a drilled hole, for every way in which the part can lie. */
export const threadBodies = (ask: CheckAsk, visit: VisitSeen): readonly (HoleBody | undefined)[] =>
  lyingWays(ask, visit.operation).map((way) => threadBodyIn(ask, way, visit));

/** The thread that a drilled hole gets, as wide as its screw; nothing for a hole that is not tapped. */
export function threadBodyIn(
  ask: CheckAsk,
  way: LyingWay,
  visit: VisitSeen,
  at: Position = visit.point,
): HoleBody | undefined {
  const tapped = hole(ask, visit).after.find(({ cut }) => cut.kind === 'tap');
  const thread = tapped === undefined ? undefined : threadOfCut(tapped.cut.work);
  const point = tapped?.cut.work.points[tapped.cut.resolved.points.indexOf(tapped.point)];
  if (tapped === undefined || thread === undefined || point === undefined) return undefined;
  const drilled = holeBodyIn(way, visit, at);
  const full = blindThreadOf(ask.plan, { cut: tapped.cut.work, point })?.fullThread ?? drilled.full;
  return {
    ...drilled,
    radius: Math.max(drilled.radius, thread.major / 2),
    full: Math.min(full, drilled.full),
    point: 0,
  };
}

const CONES: ReadonlySet<string> = new Set(['spot', 'countersink', 'chamfer']);

/** Full depth and length of the point of the tool at its z; through a part nothing lies beyond the far face. */
function lengthsOf(visit: VisitSeen): Pick<HoleBody, 'radius' | 'full' | 'point'> {
  const cone = CONES.has(visit.cut.kind) ? topOf(visit) : undefined;
  if (cone !== undefined) return { radius: cone / 2, full: 0, point: -(visit.point.z ?? 0) };
  const diameter = visit.cut.tool?.diameter ?? asMm(0);
  const drilled = visit.cut.kind === 'drill' ? visit.cut.tool : undefined;
  const point = drilled === undefined ? 0 : pointOfTool(drilled);
  const deep = visit.point.z === null ? thicknessAt(visit.operation) : -visit.point.z;
  return { radius: diameter / 2, full: Math.max(0, Math.min(deep - point, thicknessAt(visit.operation))), point };
}

/** The wanted diameter at the top of a cone. */
function topOf({ cut, point }: VisitSeen): number | undefined {
  return (
    cut.work.points[cut.resolved.points.indexOf(point)]?.top ??
    cut.work.plan.top ??
    cut.resolved.topDiameter ??
    undefined
  );
}

/** What the passes of a slot or step take away where the part lies one way; of passes over one another the deepest. */
export function slotBodiesIn(way: LyingWay, cut: CutSeen): readonly SlotBody[] {
  const deepest = new Map<string, ResolvedPass>();
  for (const pass of cut.resolved.passes) {
    const key = [pass.from.x, pass.from.y, pass.to.x, pass.to.y].map((one) => one.toFixed(3)).join();
    if ((deepest.get(key)?.z ?? 0) > pass.z) deepest.set(key, pass);
  }
  const radius = (cut.tool?.diameter ?? 0) / 2;
  return [...deepest.values()].map((pass) => slotBody(way, pass, radius));
}

function slotBody(way: LyingWay, pass: ResolvedPass, radius: number): SlotBody {
  const [start, end] = [way.face(pass.from), way.face(pass.to)];
  const between = { x: end.x - start.x, y: end.y - start.y, z: end.z - start.z };
  const long = Math.hypot(between.x, between.y, between.z);
  const along: Place3 =
    long < 1e-9 ? { x: 0, y: 0, z: 0 } : { x: between.x / long, y: between.y / long, z: between.z / long };
  return { start, along, down: way.down, long, radius, deep: -pass.z };
}

/** Every slot and step of the plan. */
export const slotCuts = (ask: CheckAsk): readonly { readonly operation: OperationSeen; readonly cut: CutSeen }[] =>
  ask.operations.flatMap((operation) =>
    operation.cuts.filter(({ kind }) => kind === 'slot' || kind === 'step').map((cut) => ({ operation, cut })),
  );

/**
 * Does a hole at that depth come out in a larger one that crosses it, however the part lies? A set screw's thread that opens
 * into a bore has air below it.
 */
export function opensInto(ask: CheckAsk, visit: VisitSeen, depth: number): boolean {
  const radius = (visit.cut.tool?.diameter ?? 0) / 2;
  const bores = ask.visits.filter(
    ({ cut }) => (cut.kind === 'drill' || cut.kind === 'ream') && (cut.tool?.diameter ?? 0) / 2 > radius,
  );
  const bodies = bores
    .filter(
      (bore) => liesUpright(bore) !== liesUpright(visit) && shareVariant(bore.operation.work, visit.operation.work),
    )
    .flatMap((bore) => holeBodies(ask, bore));
  return holeBodies(ask, visit).every(({ mouth, way }) => {
    const at = { x: mouth.x + way.x * depth, y: mouth.y + way.y * depth, z: mouth.z + way.z * depth };
    return bodies.some((body) => gapBetween({ mouth: at, way, radius: 0, full: 0, point: 0 }, body) < 1e-6);
  });
}
