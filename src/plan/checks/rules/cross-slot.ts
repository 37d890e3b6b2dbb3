import type { Position } from '../../../shop/patterns.ts';
import { toSetup } from '../../resolve/frames.ts';
import { shareVariant } from '../../resolve/holes.ts';
import { writeLength } from '../advice.ts';
import {
  type CheckAsk,
  type CutSeen,
  isUpright,
  type OperationSeen,
  once,
  thicknessAt,
  type VisitSeen,
} from '../ask.ts';
import { holeBodyIn, slotBodiesIn, slotCuts, threadBodyIn } from '../bodies.ts';
import type { Hit, Rule } from '../finding.ts';
import { gapToSlot, type HoleBody, type Place3, type SlotBody } from '../hole-body.ts';
import { isOver, lyingWays } from '../lying.ts';

/** Thinnest wall that passes without a word: a choice of ours, as between holes. */
const THIN_WALL_MM = 1;
/** A gap below this is none. */
const MEETS_MM = 1e-4;
/** Passes that are looked at for each hole: the few that can come nearest. */
const NEAREST = 6;
/** Hits at one slot for which a better place is looked for; the rest are only counted when they are told. */
const ADVISED = 12;
const HOLES: ReadonlySet<string> = new Set(['drill', 'ream', 'counterbore']);

/** A hole that comes too near to a slot or step of another face. */
export const crossSlot: Rule = {
  code: 'cross-slot',
  severity: 'warn',
  also: ['note'],
  catches:
    'A hole that leaves too thin a wall or floor to a slot or step of another setup or face, or cuts into its side. One that runs right into it is only named, for it may be meant to.',
  example: 'operation 160: "pin" leaves a wall of 0.4 mm to the slot of operation 120',
  find: (ask) => {
    const holes = ask.visits.filter((visit) => HOLES.has(visit.cut.kind) && visit.cut.tool?.diameter != null);
    const known = holes.filter((visit) => visit.operation.setup !== undefined || !isUpright(ask, visit));
    const slots = slotCuts(ask).map((slot) => seenSlot(ask, slot.operation, slot.cut));
    return once(
      slots.flatMap((slot) => {
        let told = 0;
        return known.flatMap((visit) => {
          const hits = judge(ask, visit, slot, told < ADVISED);
          told += hits.length;
          return hits;
        });
      }),
    );
  },
};

/** A slot with its passes for every way in which the part can lie. */
interface SlotSeen {
  readonly operation: OperationSeen;
  readonly cut: CutSeen;
  readonly bodies: readonly (readonly Boxed[])[];
}

const seenSlot = (ask: CheckAsk, operation: OperationSeen, cut: CutSeen): SlotSeen => ({
  operation,
  cut,
  bodies: lyingWays(ask, operation).map((way) =>
    slotBodiesIn(way, cut).map((body) => ({ body, box: boxOfSlot(body) })),
  ),
});

function judge(ask: CheckAsk, visit: VisitSeen, slot: SlotSeen, advised: boolean): readonly Hit[] {
  if (!shareVariant(visit.operation.work, slot.operation.work) || !isAcross(visit, slot)) return [];
  const walls = wallsOf(ask, visit, slot, visit.point);
  const thin = walls.filter((wall) => wall !== 'meets' && wall < THIN_WALL_MM - MEETS_MM) as number[];
  const base = { operation: visit.operation.resolved.number, path: visit.path };
  const where = `the ${slot.cut.kind} of operation ${slot.operation.resolved.number}`;
  if (thin.length === 0) {
    if (!walls.includes('meets')) return [];
    const message = `"${visit.point.name}" runs into ${where}`;
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
      tryThis: `${advised ? advice(ask, visit, slot, THIN_WALL_MM - wall) : 'move it away'}${sure ? '' : '; say which edge is up, such as "up: rear edge"'}`,
    },
  ];
}

const uprightIn = ({ work }: OperationSeen): string | null =>
  ['on edge', 'on end'].includes(work.setup?.lies ?? '') ? (work.plan.setup ?? '') : null;

/** Of the same flat face the plan view tells enough; of opposite ones only what lies whole above the floor is left to this. */
function isAcross(visit: VisitSeen, slot: SlotSeen): boolean {
  const [hole, other] = [uprightIn(visit.operation), uprightIn(slot.operation)];
  if (hole !== null || other !== null) return true;
  return isOver(visit.operation) !== isOver(slot.operation) && isWholeOver(visit, slot);
}

/** Does the hole lie, seen from above, whole in the floor of one pass? */
function isWholeOver(visit: VisitSeen, { operation, cut }: SlotSeen): boolean {
  const at = toSetup(visit.drawn, operation.work.frame);
  const room = ((cut.tool?.diameter ?? 0) - (visit.cut.tool?.diameter ?? 0)) / 2;
  return cut.resolved.passes.some(({ from, to }) => {
    const [dx, dy] = [to.x - from.x, to.y - from.y];
    const square = dx * dx + dy * dy;
    const share = square === 0 ? 0 : ((at.x - from.x) * dx + (at.y - from.y) * dy) / square;
    const held = Math.max(0, Math.min(1, share));
    return Math.hypot(at.x - from.x - held * dx, at.y - from.y - held * dy) <= room + 1e-6;
  });
}

/** The wall for every way in which the part can lie; in one setup both lie the same way. */
function wallsOf(ask: CheckAsk, visit: VisitSeen, slot: SlotSeen, at: Position, less = 0) {
  const ways = lyingWays(ask, visit.operation);
  const together = visit.operation.resolved.setup === slot.operation.resolved.setup;
  return ways.flatMap((way, index) =>
    slot.bodies
      .filter((_, other) => !together || other === index)
      .map((bodies) => {
        const thread = threadBodyIn(ask, way, visit, at);
        const wall = wallTo(shortened(holeBodyIn(way, visit, at), less), bodies);
        return thread === undefined || wall === 'meets' ? wall : Math.min(wall, gapsTo(thread, bodies));
      }),
  );
}

/** The least gap of a thread to the passes of a slot. */
const gapsTo = (thread: HoleBody, bodies: readonly Boxed[]): number =>
  Math.min(...nearestOf(thread, bodies).map((body) => gapToSlot(thread, body)), Number.POSITIVE_INFINITY);

const shortened = (hole: HoleBody, less: number): HoleBody => ({ ...hole, full: Math.max(0, hole.full - less) });

/** The least wall to the passes of a slot; or that the axis of the hole runs into one of them, as it may be meant to. */
function wallTo(hole: HoleBody, bodies: readonly Boxed[]): number | 'meets' {
  let wall = Number.POSITIVE_INFINITY;
  for (const body of nearestOf(hole, bodies)) {
    const gap = gapToSlot(hole, body);
    if (gap < MEETS_MM && gapToSlot(axisOf(hole), body) < MEETS_MM) return 'meets';
    wall = Math.min(wall, gap);
  }
  return wall;
}

/** The few passes that come nearest to a hole by the boxes around them, whose distance the gap is never below. */
function nearestOf(hole: HoleBody, bodies: readonly Boxed[]): readonly SlotBody[] {
  const own = boxOfHole(hole);
  const near: { readonly body: SlotBody; readonly least: number }[] = [];
  for (const { body, box } of bodies) {
    const least = boxesApart(own, box);
    if (least < THIN_WALL_MM) near.push({ body, least });
  }
  return near
    .sort((a, b) => a.least - b.least)
    .slice(0, NEAREST)
    .map(({ body }) => body);
}

const axisOf = (hole: HoleBody): HoleBody => ({ ...hole, radius: 0, full: hole.full + hole.point, point: 0 });

/** A box around a body, along the edges of the part. */
interface Box {
  readonly low: Place3;
  readonly high: Place3;
}

/** A pass with the box around it. */
interface Boxed {
  readonly body: SlotBody;
  readonly box: Box;
}

const AXES = ['x', 'y', 'z'] as const;

function boxOf(ends: (axis: keyof Place3) => readonly number[], round: (axis: keyof Place3) => number): Box {
  const [low, high] = [
    { x: 0, y: 0, z: 0 },
    { x: 0, y: 0, z: 0 },
  ];
  for (const axis of AXES) {
    low[axis] = Math.min(...ends(axis)) - round(axis);
    high[axis] = Math.max(...ends(axis)) + round(axis);
  }
  return { low, high };
}

const boxOfHole = ({ mouth, way, full, point, radius }: HoleBody): Box =>
  boxOf(
    (axis) => [mouth[axis], mouth[axis] + way[axis] * (full + point)],
    (axis) => radius * (1 - Math.abs(way[axis])),
  );

const boxOfSlot = ({ start, along, down, long, deep, radius }: SlotBody): Box =>
  boxOf(
    (axis) =>
      [0, deep].flatMap((depth) => [0, long].map((way) => start[axis] + along[axis] * way + down[axis] * depth)),
    (axis) => radius * (1 - Math.abs(down[axis])),
  );

function boxesApart(a: Box, b: Box): number {
  const x = Math.max(0, a.low.x - b.high.x, b.low.x - a.high.x);
  const y = Math.max(0, a.low.y - b.high.y, b.low.y - a.high.y);
  const z = Math.max(0, a.low.z - b.high.z, b.low.z - a.high.z);
  return Math.sqrt(x * x + y * y + z * z);
}

/** The nearest place, or else the depth, at which the wall is thick enough. */
function advice(ask: CheckAsk, visit: VisitSeen, slot: SlotSeen, lacking: number): string {
  const by = Math.ceil(lacking * 100 - 1e-6) / 100;
  const isSound = (at: Position, less = 0) =>
    wallsOf(ask, visit, slot, at, less).every((wall) => wall !== 'meets' && wall >= THIN_WALL_MM - MEETS_MM);
  const { outline } = visit.operation.setup ?? {};
  const radius = visit.cut.tool?.diameter == null ? 0 : visit.cut.tool.diameter / 2;
  const { frame } = visit.operation.work;
  const moved = (['x', 'y'] as const).flatMap((axis) =>
    ([1, -1] as const).flatMap((way): readonly string[] => {
      const at = { ...visit.point, [axis]: visit.point[axis] + way * by };
      const inside =
        outline === undefined ||
        (at.x - radius >= outline.x0 + THIN_WALL_MM &&
          at.x + radius <= outline.x1 - THIN_WALL_MM &&
          at.y - radius >= outline.y0 + THIN_WALL_MM &&
          at.y + radius <= outline.y1 - THIN_WALL_MM);
      if (!inside || !isSound(at)) return [];
      const sign = axis === 'x' ? frame.signX : frame.signY;
      return [`"${axis}: ${writeLength(ask, visit.drawn[axis] + sign * way * by)}"`];
    }),
  );
  const depth = visit.cut.work.plan.depth;
  const less = depth?.kind === 'length' && -(visit.point.z ?? 0) < thicknessAt(visit.operation) ? depth.mm - by : 0;
  const shallower = less > 0 && isSound(visit.point, by) ? [`make it "depth: ${writeLength(ask, less, 'down')}"`] : [];
  const ways = [...moved.map((at) => `move it to ${at}`), ...shallower];
  return ways.length === 0 ? `move it ${ask.show(by)} or more away, or take a smaller tool` : ways.join(', or ');
}
