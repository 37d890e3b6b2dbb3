import type { Position } from '../../../shop/patterns.ts';
import { toSetup } from '../../resolve/frames.ts';
import { writeLength } from '../advice.ts';
import { type CheckAsk, type CutSeen, isUpright, type OperationSeen, once, type VisitSeen } from '../ask.ts';
import { holeBodies, slotBodiesIn, slotCuts } from '../bodies.ts';
import type { Hit, Rule } from '../finding.ts';
import { gapBetween, gapToSlot } from '../hole-body.ts';
import { isOver, lyingWays } from '../lying.ts';
import { isOnePlace, samePlaceTolerance } from '../near-places.ts';

/** Thinnest wall that passes without a word: a choice of ours. */
const THIN_WALL_MM = 1;
/** Less than this over an edge or into a neighbour is nothing but binary fractions. */
const HAIR_MM = 1e-6;

/** The widest hole, or the widest cone, that is cut at one place. */
interface Hole {
  readonly visit: VisitSeen;
  readonly at: Position;
  /** Setup of a hole in an edge or end; null for one of the plan view. */
  readonly face: string | null;
  readonly radius: number;
  /** Is the widest a cone, which only breaks out at the face? */
  readonly cone: boolean;
}

/** Too little metal beside a hole. */
export const wallThin: Rule = {
  code: 'wall-thin',
  severity: 'stop',
  also: ['warn'],
  catches:
    'A wall too thin between a hole (at its widest, the top of a cone included) and an edge, another hole, a slot or a step.',
  example: 'operation 100: "holes 1" leaves 0.4 mm to the front edge at its top of 13.5 mm',
  find: (ask) => {
    const holes = widestHoles(ask);
    return once([...holes.flatMap((hole) => toEdges(ask, hole)), ...betweenHoles(ask, holes), ...toLines(ask, holes)]);
  },
};

/** Holes from above stand on the drawing; those in an edge or end in the coordinates of their own setup. */
function widestHoles(ask: CheckAsk): readonly Hole[] {
  const widest = new Map<string, Hole>();
  for (const visit of ask.visits) {
    const upright = isUpright(ask, visit);
    const setup = visit.operation.setup;
    if (upright && setup === undefined) continue;
    const index = visit.cut.resolved.points.indexOf(visit.point);
    const top = visit.cut.work.points[index]?.top ?? visit.cut.work.plan.top;
    const diameter = top ?? (visit.cut.resolved.topDiameter === null ? visit.cut.tool?.diameter : undefined);
    if (diameter === undefined || diameter === null) continue;
    const face = upright ? (setup?.id ?? '') : null;
    const at = upright ? visit.point : visit.drawn;
    const key = `${face},${at.x.toFixed(3)},${at.y.toFixed(3)},${visit.operation.work.plan.variants?.join() ?? ''},${top !== undefined}`;
    const before = widest.get(key);
    if (before === undefined || before.radius < diameter / 2)
      widest.set(key, { visit, at, face, radius: diameter / 2, cone: top !== undefined });
  }
  return [...widest.values()];
}

/** The face on which a hole stands: of the part as drawn, or the edge or end that is up in its setup. */
function boxOf(ask: CheckAsk, hole: Hole): { x0: number; x1: number; y0: number; y1: number } {
  if (hole.face !== null && hole.visit.operation.setup !== undefined) return hole.visit.operation.setup.outline;
  const { part } = ask.plan;
  const datum = part.datum ?? 'left front';
  const x0 = datum.startsWith('left') ? 0 : -part.length;
  const y0 = datum.endsWith('front') ? 0 : -part.width;
  return { x0, x1: x0 + part.length, y0, y1: y0 + part.width };
}

function toEdges(ask: CheckAsk, hole: Hole): readonly Hit[] {
  const { x0, x1, y0, y1 } = boxOf(ask, hole);
  const { at, radius } = hole;
  const clear = radius + THIN_WALL_MM;
  const names = hole.face === null ? ['end', 'edge'] : ['side of that face', 'side of that face'];
  const walls: readonly (readonly [wall: number, edge: string, move: string])[] = [
    [at.x - x0 - radius, `left ${names[0]}`, `x: ${writeLength(ask, x0 + clear, 'up')}`],
    [x1 - at.x - radius, `right ${names[0]}`, `x: ${writeLength(ask, x1 - clear, 'down')}`],
    [at.y - y0 - radius, `front ${names[1]}`, `y: ${writeLength(ask, y0 + clear, 'up')}`],
    [y1 - at.y - radius, `rear ${names[1]}`, `y: ${writeLength(ask, y1 - clear, 'down')}`],
  ];
  const outside = walls.some(([wall]) => wall < -radius);
  // A point that is not on the part at all is told by another rule.
  return outside
    ? []
    : walls.flatMap(([wall, edge, move]) => say(ask, hole, wall, `to the ${edge}`, `move it to "${move}"`));
}

/** Neighbours are found along X, so that many points do not make many pairs; of a hole's neighbours the nearest is told. */
function betweenHoles(ask: CheckAsk, holes: readonly Hole[]): readonly Hit[] {
  const sorted = [...holes].sort((a, b) => a.at.x - b.at.x);
  const tolerance = samePlaceTolerance(ask);
  const widest = Math.max(0, ...holes.map((hole) => hole.radius));
  return sorted.flatMap((hole, index) => {
    let nearest: { readonly other: Hole; readonly wall: number } | undefined;
    for (let at = index + 1; at < sorted.length; at += 1) {
      const other = sorted[at];
      // No hole further along can come nearer than this.
      const least = other === undefined ? Number.POSITIVE_INFINITY : other.at.x - hole.at.x - hole.radius - widest;
      if (other === undefined || least > (nearest?.wall ?? THIN_WALL_MM)) break;
      const apart = Math.hypot(other.at.x - hole.at.x, other.at.y - hole.at.y);
      const wall = apart - hole.radius - other.radius;
      if (wall >= (nearest?.wall ?? THIN_WALL_MM) || other.face !== hole.face) continue;
      // Two names for one place are told by another rule.
      if (isOnePlace(tolerance, apart, 2 * Math.min(hole.radius, other.radius))) continue;
      if (!passOneAnother(ask, hole, other)) nearest = { other, wall };
    }
    if (nearest === undefined) return [];
    return say(ask, hole, nearest.wall, `to "${nearest.other.visit.point.name}"`);
  });
}

/** Visits to one place that are looked at in depth; where more come, the plan view decides. */
const FEW = 8;

/** The visits to a hole of the plan view, or of its far face. */
const visitsOf = (ask: CheckAsk, hole: Hole): readonly VisitSeen[] =>
  ask.visitsAt(hole.visit.drawn).filter((visit) => !isUpright(ask, visit));

/** Holes from opposite faces that end before they come beside one another. */
function passOneAnother(ask: CheckAsk, a: Hole, b: Hole): boolean {
  if (a.face !== null) return false;
  const [mine, others] = [visitsOf(ask, a), visitsOf(ask, b)];
  const all = [...mine, ...others];
  if (all.length > FEW || new Set(all.map((visit) => isOver(visit.operation))).size < 2) return false;
  const bodies = others.flatMap((visit) => holeBodies(ask, visit));
  return mine
    .flatMap((visit) => holeBodies(ask, visit))
    .every((hole) => bodies.every((other) => isThick(gapBetween(hole, other))));
}

/** A hole from the far face that ends before it comes to a slot. */
function endsBefore(ask: CheckAsk, hole: Hole, operation: OperationSeen, cut: CutSeen): boolean {
  const visits = visitsOf(ask, hole);
  if (visits.length > FEW || visits.every((visit) => isOver(visit.operation) === isOver(operation))) return false;
  const slots = lyingWays(ask, operation).flatMap((way) => slotBodiesIn(way, cut));
  return visits
    .flatMap((visit) => holeBodies(ask, visit))
    .every((body) => slots.every((slot) => isThick(gapToSlot(body, slot))));
}

const isThick = (gap: number): boolean => gap >= THIN_WALL_MM - HAIR_MM;

function toLines(ask: CheckAsk, holes: readonly Hole[]): readonly Hit[] {
  return slotCuts(ask).flatMap(({ operation, cut: line }) =>
    holes
      .filter((hole) => hole.face === null)
      .flatMap((hole) => {
        const radius = (line.tool?.diameter ?? 0) / 2;
        const apart = distanceToPasses(operation, line.resolved.passes, hole.at);
        const wall = apart - radius - hole.radius;
        // A hole that lies whole in the floor of the slot has no wall to it.
        if (isThick(wall) || apart + hole.radius <= radius + HAIR_MM || endsBefore(ask, hole, operation, line))
          return [];
        return say(ask, hole, wall, `to the ${line.kind} of operation ${operation.resolved.number}`);
      }),
  );
}

function distanceToPasses(
  operation: OperationSeen,
  passes: readonly { readonly from: Position; readonly to: Position }[],
  drawn: Position,
): number {
  const at = toSetup(drawn, operation.work.frame);
  return Math.min(Number.POSITIVE_INFINITY, ...passes.map((pass) => distanceToSegment(at, pass.from, pass.to)));
}

function distanceToSegment(at: Position, from: Position, to: Position): number {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const square = dx * dx + dy * dy;
  const share = square === 0 ? 0 : ((at.x - from.x) * dx + (at.y - from.y) * dy) / square;
  const held = Math.max(0, Math.min(1, share));
  return Math.hypot(at.x - from.x - held * dx, at.y - from.y - held * dy);
}

function say(ask: CheckAsk, hole: Hole, wall: number, where: string, move?: string): readonly Hit[] {
  if (wall >= THIN_WALL_MM - HAIR_MM) return [];
  const lacking = THIN_WALL_MM - wall;
  const smaller = hole.radius * 2 - lacking * 2;
  const tryThis = `${move ?? `move it ${ask.show(lacking)} away`}${smaller > 0 ? `, or make it at most ${ask.show(smaller)}` : ''}`;
  const wide = `${hole.cone ? 'top' : 'diameter'} of ${ask.show(hole.radius * 2)}`;
  const base = { operation: hole.visit.operation.resolved.number, path: hole.visit.path };
  if (wall <= HAIR_MM) {
    const message = `"${hole.visit.point.name}", ${wide}, breaks out ${where} by ${ask.show(Math.max(0, -wall))}`;
    return [{ ...base, severity: hole.cone ? 'warn' : 'stop', message, tryThis }];
  }
  const message = `"${hole.visit.point.name}", ${wide}, leaves a wall of ${ask.show(wall)} ${where}`;
  return [{ ...base, severity: 'warn', message, tryThis }];
}
