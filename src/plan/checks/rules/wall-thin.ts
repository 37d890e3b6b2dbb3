import type { Position } from '../../../shop/patterns.ts';
import { toSetup } from '../../resolve/frames.ts';
import { type CheckAsk, isUpright, type OperationSeen, once, type VisitSeen } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** Thinnest wall that passes without a word: a choice of ours. */
const THIN_WALL_MM = 1;
/** Less than this over an edge or into a neighbour is nothing but binary fractions. */
const HAIR_MM = 1e-6;

/** The widest hole, or the widest cone, that is cut at one place. */
interface Hole {
  readonly visit: VisitSeen;
  readonly at: Position;
  readonly radius: number;
  /** Is the widest a cone, which only breaks out at the face? */
  readonly cone: boolean;
}

/** Too little metal beside a hole. */
export const wallThin: Rule = {
  code: 'wall-thin',
  severity: 'stop',
  catches:
    'A wall too thin between a hole (at its widest, the top of a cone included) and an edge, another hole, a slot or a step.',
  example: 'operation 100: "holes 1" leaves 0.4 mm to the front edge at its top of 13.5 mm',
  find: (ask) => {
    const holes = widestHoles(ask);
    return once([...holes.flatMap((hole) => toEdges(ask, hole)), ...betweenHoles(ask, holes), ...toLines(ask, holes)]);
  },
};

function widestHoles(ask: CheckAsk): readonly Hole[] {
  const widest = new Map<string, Hole>();
  for (const visit of ask.visits) {
    if (isUpright(ask, visit)) continue;
    const index = visit.cut.resolved.points.indexOf(visit.point);
    const top = visit.cut.work.points[index]?.top ?? visit.cut.work.plan.top;
    const diameter = top ?? (visit.cut.resolved.topDiameter === null ? visit.cut.tool?.diameter : undefined);
    if (diameter === undefined || diameter === null) continue;
    const key = `${visit.drawn.x.toFixed(3)},${visit.drawn.y.toFixed(3)},${visit.operation.work.plan.variants?.join() ?? ''},${top !== undefined}`;
    const before = widest.get(key);
    if (before === undefined || before.radius < diameter / 2)
      widest.set(key, { visit, at: visit.drawn, radius: diameter / 2, cone: top !== undefined });
  }
  return [...widest.values()];
}

function toEdges(ask: CheckAsk, hole: Hole): readonly Hit[] {
  const { part } = ask.plan;
  const datum = part.datum ?? 'left front';
  const left = datum.startsWith('left') ? 0 : -part.length;
  const front = datum.endsWith('front') ? 0 : -part.width;
  const walls: readonly (readonly [wall: number, edge: string])[] = [
    [hole.at.x - left - hole.radius, 'left end'],
    [left + part.length - hole.at.x - hole.radius, 'right end'],
    [hole.at.y - front - hole.radius, 'front edge'],
    [front + part.width - hole.at.y - hole.radius, 'rear edge'],
  ];
  const outside = walls.some(([wall]) => wall < -hole.radius);
  // A point that is not on the part at all is told by another rule.
  return outside ? [] : walls.flatMap(([wall, edge]) => say(ask, hole, wall, `to the ${edge}`));
}

/** Neighbours are found along X, so that many points do not make many pairs. */
function betweenHoles(ask: CheckAsk, holes: readonly Hole[]): readonly Hit[] {
  const sorted = [...holes].sort((a, b) => a.at.x - b.at.x);
  const reach = 2 * Math.max(0, ...holes.map((hole) => hole.radius)) + THIN_WALL_MM;
  return sorted.flatMap((hole, index) => {
    const hits: Hit[] = [];
    for (let at = index + 1; at < sorted.length; at += 1) {
      const other = sorted[at];
      if (other === undefined || other.at.x - hole.at.x > reach) break;
      const apart = Math.hypot(other.at.x - hole.at.x, other.at.y - hole.at.y);
      if (apart < HAIR_MM * 1000) continue;
      hits.push(...say(ask, hole, apart - hole.radius - other.radius, `to "${other.visit.point.name}"`));
    }
    return hits;
  });
}

function toLines(ask: CheckAsk, holes: readonly Hole[]): readonly Hit[] {
  const cut = ask.operations.flatMap((operation) =>
    operation.cuts.filter(({ kind }) => kind === 'slot' || kind === 'step').map((one) => ({ operation, cut: one })),
  );
  return cut.flatMap(({ operation, cut: line }) =>
    holes.flatMap((hole) => {
      const radius = (line.tool?.diameter ?? 0) / 2;
      const apart = distanceToPasses(operation, line.resolved.passes, hole.at);
      // A hole that lies whole in the floor of the slot has no wall to it.
      if (apart + hole.radius <= radius + HAIR_MM) return [];
      return say(
        ask,
        hole,
        apart - radius - hole.radius,
        `to the ${line.kind} of operation ${operation.resolved.number}`,
      );
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

function say(ask: CheckAsk, hole: Hole, wall: number, where: string): readonly Hit[] {
  if (wall >= THIN_WALL_MM - HAIR_MM) return [];
  const wide = `${hole.cone ? 'top' : 'diameter'} of ${ask.show(hole.radius * 2)}`;
  const base = { operation: hole.visit.operation.resolved.number, path: hole.visit.path };
  if (wall <= HAIR_MM) {
    const message = `"${hole.visit.point.name}", ${wide}, breaks out ${where} by ${ask.show(Math.max(0, -wall))}`;
    return [{ ...base, severity: hole.cone ? 'warn' : 'stop', message, tryThis: 'move it, or make it smaller' }];
  }
  const message = `"${hole.visit.point.name}", ${wide}, leaves a wall of ${ask.show(wall)} ${where}`;
  return [{ ...base, severity: 'warn', message, tryThis: 'move it, or make it smaller' }];
}
