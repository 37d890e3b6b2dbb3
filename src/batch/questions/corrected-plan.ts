/** The plan as it is cut: with the corrections of one cut in its numbers, so that its geometry can be proved like any plan. */
import type { ResolvedCut, ResolvedOperation, ResolvedPass, ResolvedPlan } from '../../plan/resolved.ts';
import { asMm, type Mm } from '../../shop/quantities.ts';

/** By how much the targets of a cut are moved in all, in mm. */
export type Shift = { readonly x: number; readonly y: number; readonly z: number; readonly stop: number };

/** A cut of an operation, or one hole of it by its position; `at` is the position of the cut. */
type Moved = { readonly operation: number; readonly at: number; readonly point?: number | undefined };

/**
 * The plan with one cut of one operation moved, or one hole of it.
 *
 * Example: `z` -0.5 makes a hole of z -5 one of -5.5, and a 90 degree countersink of 9 mm one of 10 mm.
 */
export function planWithShift(plan: ResolvedPlan, { operation, at, point }: Moved, shift: Shift): ResolvedPlan {
  const angleOf = (cut: ResolvedCut) => plan.tools.find((tool) => tool.id === cut.tool)?.pointAngle ?? null;
  const moveOf = (cut: ResolvedCut): ResolvedCut =>
    point === undefined ? cutMoved(cut, shift, angleOf(cut)) : holeMoved(cut, point, shift);
  const moved = (one: ResolvedOperation): ResolvedOperation => ({
    ...one,
    stopLength: plus(one.stopLength, shift.stop),
    cuts: one.cuts.map((cut, i) => (i === at ? moveOf(cut) : cut)),
  });
  return { ...plan, operations: plan.operations.map((one) => (one.number === operation ? moved(one) : one)) };
}

function holeMoved(cut: ResolvedCut, at: number, { x, y }: Shift): ResolvedCut {
  const points = cut.points.map((point, i) =>
    i === at ? { ...point, x: asMm(point.x + x), y: asMm(point.y + y) } : point,
  );
  return { ...cut, points };
}

function cutMoved(cut: ResolvedCut, { x, y, z }: Shift, angle: number | null): ResolvedCut {
  const ended = (end: { readonly x: Mm; readonly y: Mm }) => ({ x: asMm(end.x + x), y: asMm(end.y + y) });
  const passMoved = <Pass extends ResolvedPass>(pass: Pass): Pass => ({
    ...pass,
    from: ended(pass.from),
    to: ended(pass.to),
    z: asMm(pass.z + z),
  });
  return {
    ...cut,
    z: plus(cut.z, z),
    points: cut.points.map((point) => ({ ...point, ...ended(point), z: plus(point.z, z) })),
    passes: cut.passes.map(passMoved),
    ...(cut.loadPasses === undefined ? {} : { loadPasses: cut.loadPasses.map(passMoved) }),
    topDiameter: angle === null ? cut.topDiameter : plus(cut.topDiameter, -2 * z * Math.tan((angle / 360) * Math.PI)),
  };
}

const plus = (value: Mm | null, by: number): Mm | null => (value === null ? null : asMm(value + by));
