/**
 * The point of a drill and what it does to a depth: how far to wind for a through hole, how deep the tip stands for a full
 * diameter, what floor is left, and when the stock is too thin for the point. All lengths in mm, unrounded.
 */
import { asMm, type Degrees, type Mm } from './quantities.ts';
import { ALLOWANCE, POINT_ANGLE, POSITIVE_LENGTH, TOOL_DIAMETER } from './ranges.ts';
import { andThen, answer, type Result, refuseOutside, whenSound } from './refusal.ts';

/** How far past the point a through hole is drilled when nothing is said: common practice is 1 to 2 mm. */
export const BREAKTHROUGH_ALLOWANCE = asMm(1);

/** Included angle of a jobbing drill's point when nothing is said (DIN 1412 and common practice). */
export const USUAL_POINT_ANGLE = 118 as Degrees;

/**
 * Length of a drill's point, tip to full diameter: half the diameter over the tangent of half the angle.
 *
 * @param diameter above 0, at most 250 mm
 * @param angle included angle, above 0, below 180 degrees
 *
 * Source: geometry. Example: 10 mm at 118 degrees is 3.004 mm; at 90 degrees 5 mm.
 */
export function pointLength(diameter: Mm, angle: Degrees): Result<Mm> {
  return whenSound([refuseOutside(diameter, TOOL_DIAMETER), refuseOutside(angle, POINT_ANGLE)], () =>
    asMm(diameter / 2 / Math.tan(halfAngle(angle))),
  );
}

export interface Drill {
  readonly diameter: Mm;
  /** Included angle of the point. */
  readonly angle: Degrees;
}

/**
 * Travel of the tip for a through hole, from touching the top: thickness + point + allowance.
 *
 * @param thickness above 0
 * @param allowance past the full diameter, 0 or more; 1 to 2 mm is common practice
 *
 * Example: 6 mm plate, 10 mm drill of 118 degrees, 1 mm: 10.004 mm.
 */
export function throughTravel(thickness: Mm, drill: Drill, allowance: Mm): Result<Mm> {
  return andThen(pointLength(drill.diameter, drill.angle), (point) =>
    whenSound(
      [
        refuseOutside(thickness, { ...POSITIVE_LENGTH, what: 'thickness' }),
        refuseOutside(allowance, { ...ALLOWANCE, what: 'breakthrough allowance' }),
      ],
      () => asMm(thickness + point + allowance),
    ),
  );
}

/**
 * Depth of the tip when the full diameter reaches a wanted depth: depth + point.
 *
 * Example: full diameter 15 mm deep, 12 mm drill of 118 degrees: tip at 18.605 mm.
 */
export function tipDepth(fullDiameterDepth: Mm, drill: Drill): Result<Mm> {
  return andThen(pointLength(drill.diameter, drill.angle), (point) =>
    whenSound([refuseOutside(fullDiameterDepth, { ...POSITIVE_LENGTH, what: 'depth' })], () =>
      asMm(fullDiameterDepth + point),
    ),
  );
}

/**
 * Depth of full diameter when the tip stands at a depth: depth - point; below zero the lips are not yet buried.
 *
 * Example: tip at 5 mm, 10 mm drill of 118 degrees: 1.996 mm; tip at 2 mm: -1.004 mm.
 */
export function fullDiameterDepth(tip: Mm, drill: Drill): Result<Mm> {
  return andThen(pointLength(drill.diameter, drill.angle), (point) =>
    whenSound([refuseOutside(tip, { ...POSITIVE_LENGTH, what: 'depth' })], () => asMm(tip - point)),
  );
}

export type BlindHole =
  | { readonly kind: 'blind'; readonly tipDepth: Mm; readonly floor: Mm }
  | { readonly kind: 'breaks through'; readonly tipDepth: Mm; readonly pastFarFace: Mm };

/**
 * A hole that should stay blind: where its tip ends and what floor is left under it.
 *
 * @param thickness of the part under the hole's mouth, above 0
 * @returns `blind` with the floor under the tip, or `breaks through` with how far the tip comes out (0 when it just meets
 * the far face)
 *
 * Example: 20 mm plate, full diameter 15 mm deep, 12 mm drill of 118 degrees: floor 1.395 mm.
 */
export function blindHole(thickness: Mm, depth: Mm, drill: Drill): Result<BlindHole> {
  const thicknessProblem = refuseOutside(thickness, { ...POSITIVE_LENGTH, what: 'thickness' });
  return andThen(
    whenSound([thicknessProblem], () => thickness),
    () =>
      andThen(tipDepth(depth, drill), (tip) => {
        const floor = thickness - tip;
        return answer<BlindHole>(
          floor > 0
            ? { kind: 'blind', tipDepth: tip, floor: asMm(floor) }
            : { kind: 'breaks through', tipDepth: tip, pastFarFace: asMm(floor === 0 ? 0 : -floor) },
        );
      }),
  );
}

/**
 * Whether the point is longer than the stock is thick: the lips break through before the margins enter, so the drill
 * grabs. Clamp, back with scrap, ease the feed (common practice).
 *
 * Example: 8 mm drill of 118 degrees (point 2.40 mm) in 1.5 mm sheet: true.
 */
export function isThinStock(thickness: Mm, drill: Drill): Result<boolean> {
  return andThen(pointLength(drill.diameter, drill.angle), (point) =>
    whenSound([refuseOutside(thickness, { ...POSITIVE_LENGTH, what: 'thickness' })], () => point > thickness),
  );
}

const halfAngle = (angle: Degrees): number => (angle * Math.PI) / 360;
