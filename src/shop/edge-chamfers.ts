/**
 * A chamfer along an edge, cut with the side of a cone: where the axis runs and how deep the tip stands. The axis runs outside
 * the wall, so that the tip clears the lower edge of the chamfer; with the axis on the wall a flat tip would leave a ledge.
 * All lengths in mm, unrounded. Source: geometry of the cone.
 */
import type { Cone } from './cones.ts';
import { asMm, type Mm } from './quantities.ts';
import { POINT_ANGLE, POSITIVE_LENGTH, TOOL_DIAMETER } from './ranges.ts';
import { answer, type Result, refuse, refuseOutside } from './refusal.ts';

/** What is asked of a chamfer along an edge. */
export interface EdgeChamferAsk {
  /** Along the top face, from the wall inwards. */
  readonly leg: Mm;
  /** `largest` is where the cone ends and the shank begins. */
  readonly cone: Cone & { readonly largest: Mm };
  /** How far the tip's flat is wanted from the wall; less where the cone or the room is smaller, never nothing. */
  readonly air: Mm;
  /** Deepest that the tip may stand, over the floor of a step or slot; `undefined` over nothing. */
  readonly floor: Mm | undefined;
  /** Half the width of a slot: the axis stands no further from its wall than the middle; `undefined` at an outer edge. */
  readonly middle: Mm | undefined;
}

/** How the chamfer is cut. */
export interface EdgeChamfer {
  /** From the wall out to the axis. */
  readonly axis: Mm;
  /** Of the tip below the top face. */
  readonly depth: Mm;
  /** Leg down the side: equal to `leg` at 90 degrees. */
  readonly side: Mm;
  /** Radius of the cone at the top face: the largest that cuts. */
  readonly reach: Mm;
}

/** Least room beside the tip, and least cone beyond the leg, that is trusted: a choice of ours. */
const LEAST_MM = 0.1;

/** The leg along the top of a chamfer that goes so far down the side: `2` at 90 degrees is 2, at 60 degrees 1.155. */
export const legOfSide = (side: Mm, cone: Pick<Cone, 'angle'>): Mm => asMm(side * slope(cone));

/**
 * Where the axis runs and how deep the tip stands.
 *
 * At a height h above the tip the cone is tip/2 + h tan(angle/2) in radius. It must be axis + leg at the top face and axis at
 * the lower edge, which is leg / tan(angle/2) below. Air beside the tip is as wanted where the cone is wide enough, else half
 * of what there is; in a slot the axis runs in the middle where the cone takes both edges at once.
 *
 * Example: leg 1, cone of 90 degrees, tip 1, 16 across, air 1: axis 1.5 outside the wall, tip 2 deep, which is 1 below the
 * lower edge of the chamfer. A cone of 4 across takes no leg of 2 with a tip of 1.
 */
export function edgeChamfer(ask: EdgeChamferAsk): Result<EdgeChamfer> {
  const { leg, cone, floor, middle } = ask;
  const problem =
    refuseOutside(leg, { ...POSITIVE_LENGTH, what: 'leg of the chamfer' }) ??
    refuseOutside(cone.angle, POINT_ANGLE) ??
    refuseOutside(cone.largest, TOOL_DIAMETER);
  if (problem !== undefined) return refuse(problem);
  const k = slope(cone);
  const flat = cone.tip / 2;
  const byCone = cone.largest / 2 - flat - leg;
  const byFloor = floor === undefined ? Number.POSITIVE_INFINITY : floor * k - leg;
  const byMiddle = middle === undefined ? Number.POSITIVE_INFINITY : middle - flat;
  const most = Math.min(byCone, byFloor);
  if (most < 2 * LEAST_MM || byMiddle < LEAST_MM)
    return tooLarge(ask, Math.min(most - 2 * LEAST_MM, byMiddle - LEAST_MM));
  const air = byMiddle <= most - LEAST_MM ? byMiddle : Math.min(ask.air, most / 2, byMiddle);
  return answer({
    axis: asMm(flat + air),
    depth: asMm((leg + air) / k),
    side: asMm(leg / k),
    reach: asMm(flat + air + leg),
  });
}

function tooLarge({ leg, cone, floor, middle }: EdgeChamferAsk, lacks: number): Result<EdgeChamfer> {
  const most = Math.max(0, leg + lacks);
  const room = [
    `a cone of ${cone.largest} mm with a tip of ${cone.tip} mm`,
    ...(floor === undefined ? [] : [`a floor ${floor} mm down`]),
    ...(middle === undefined ? [] : [`a slot ${2 * middle} mm wide`]),
  ].join(', ');
  return refuse({
    what: 'leg of the chamfer',
    found: `${leg} mm`,
    allowed: `at most ${Math.floor(most * 100) / 100} mm with ${room}`,
    remedy: 'take a larger cone, or one with a smaller tip, or a smaller leg',
  });
}

const slope = ({ angle }: Pick<Cone, 'angle'>): number => Math.tan((angle * Math.PI) / 360);
