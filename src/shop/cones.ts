/**
 * Cones cut by a spot drill, a countersink or a chamfering tool: depth for a wanted mouth and back. One formula for all of
 * them: depth = (mouth - what is already open) / 2 / tan(half the angle). All lengths in mm, unrounded.
 */
import { asMm, type Degrees, type Mm } from './quantities.ts';
import { ALLOWANCE, HOLE_DIAMETER, POINT_ANGLE } from './ranges.ts';
import { type Range, type Result, refuse, refuseOutside, whenSound } from './refusal.ts';

/** A conical tool. */
export interface Cone {
  /** Included angle, above 0, below 180 degrees. */
  readonly angle: Degrees;
  /** Diameter of the flat at the tip; 0 when it is sharp. */
  readonly tip: Mm;
  /** Largest diameter that it can cut, when known. */
  readonly largest?: Mm;
}

const MOUTH: Range = { ...HOLE_DIAMETER, what: 'top diameter' };
const TIP: Range = { ...ALLOWANCE, what: 'tip diameter', remedy: 'give the flat at the tip, 0 when it is sharp' };

/**
 * Depth below the face at which a cone opens a wanted mouth in solid metal.
 *
 * @param mouth above the tip's diameter, at most 250 mm and at most the tool's largest diameter
 *
 * Source: geometry. Example: 8 mm with a 90 degree tool of 1 mm tip is 3.5 mm; .5 in sharp at 82 degrees is .2876 in.
 */
export function coneDepth(mouth: Mm, cone: Cone): Result<Mm> {
  return whenSound([refuseCone(cone), refuseMouth(mouth, cone, cone.tip, 'tip diameter')], () =>
    asMm((mouth - cone.tip) / 2 / slope(cone)),
  );
}

/**
 * The mouth that a cone opens at a depth below the face: the reverse of `coneDepth`.
 *
 * @param depth above 0; a mouth beyond the tool's largest diameter or 250 mm is refused
 *
 * Example: 3.5 mm with a 90 degree tool of 1 mm tip is 8 mm.
 */
export function coneMouth(depth: Mm, cone: Cone): Result<Mm> {
  const range: Range = { what: 'depth', unit: 'mm', above: 0, upTo: 500, remedy: 'give a depth below the face' };
  const coneProblem = refuseCone(cone) ?? refuseOutside(depth, range);
  if (coneProblem !== undefined) return refuse(coneProblem);
  const mouth = asMm(cone.tip + 2 * depth * slope(cone));
  return whenSound([refuseMouth(mouth, cone, cone.tip, 'tip diameter')], () => mouth);
}

/**
 * Travel of a cone from first touching the rim of an existing hole until the mouth is as wide as wanted.
 *
 * @param hole diameter of the hole, above 0; the tip's flat must be able to enter it
 * @param mouth above the hole
 *
 * Example: a 6 mm mouth in a 5 mm hole at 90 degrees is 0.5 mm; 11.2 mm in 5.5 mm is 2.85 mm.
 */
export function coneTravelInHole(hole: Mm, mouth: Mm, cone: Cone): Result<Mm> {
  const entry: Range = {
    ...HOLE_DIAMETER,
    above: Math.max(0, cone.tip),
    remedy: "the flat at the tool's tip must enter the hole: take a sharper tool or reckon from the face",
  };
  return whenSound([refuseCone(cone), refuseOutside(hole, entry), refuseMouth(mouth, cone, hole, 'hole')], () =>
    asMm((mouth - hole) / 2 / slope(cone)),
  );
}

/**
 * The mouth of a hole with a chamfer of a given width measured along the face: hole + 2 widths.
 *
 * Example: a 0.5 mm chamfer on a 5 mm hole opens it to 6 mm.
 */
export function chamferMouth(hole: Mm, width: Mm): Result<Mm> {
  const widthRange: Range = { ...ALLOWANCE, what: 'chamfer width', upTo: 50 };
  const mouth = asMm(hole + 2 * width);
  return whenSound(
    [refuseOutside(hole, HOLE_DIAMETER), refuseOutside(width, widthRange), refuseOutside(mouth, MOUTH)],
    () => mouth,
  );
}

/** Growth of the radius by depth: the tangent of half the angle. */
const slope = (cone: Cone): number => Math.tan((cone.angle * Math.PI) / 360);

const refuseCone = (cone: Cone) => refuseOutside(cone.angle, POINT_ANGLE) ?? refuseOutside(cone.tip, TIP);

function refuseMouth(mouth: Mm, cone: Cone, inner: Mm, innerName: string) {
  const range = {
    ...MOUTH,
    above: Math.max(0, inner),
    remedy: `give a diameter above the ${innerName}, within what the tool can cut`,
  };
  const problem = refuseOutside(mouth, range);
  if (problem !== undefined || cone.largest === undefined) return problem;
  return refuseOutside(mouth, { ...range, upTo: cone.largest });
}
