import { asDegrees, asMm, type Degrees, type Mm } from './quantities.ts';
import { POSITIVE_LENGTH } from './ranges.ts';
import { type Range, type Result, refuseOutside, whenSound } from './refusal.ts';

/** Steepest that a sine bar is set here, in degrees. */
const STEEPEST_DEG = 60;
const TILT: Range = {
  what: 'angle',
  unit: 'deg',
  from: 0,
  upTo: STEEPEST_DEG,
  remedy: 'above 45 deg a sine bar loses accuracy: set the complement instead',
};
const CENTRES: Range = { ...POSITIVE_LENGTH, what: 'distance between the rollers', upTo: 1000 };

/**
 * Stack of gauge blocks under one roller of a sine bar: centres x sin(angle), unrounded.
 *
 * @param centres between the rollers, above 0, at most 1000 mm
 * @param angle 0 to 60 degrees
 *
 * Source: definition of the sine. Example: 5 in at 27 degrees is 2.270 in; 100 mm at 12.5 degrees is 21.644 mm.
 */
export function sineBarStack(centres: Mm, angle: Degrees): Result<Mm> {
  return whenSound([refuseOutside(centres, CENTRES), refuseOutside(angle, TILT)], () =>
    asMm(centres * Math.sin((angle * Math.PI) / 180)),
  );
}

/**
 * The angle that a stack sets: the reverse of `sineBarStack`. Stacks beyond 60 degrees are refused.
 *
 * Example: 21.644 mm under 100 mm is 12.5 degrees.
 */
export function sineBarAngle(centres: Mm, stack: Mm): Result<Degrees> {
  const highest = centres * Math.sin((STEEPEST_DEG * Math.PI) / 180);
  const range: Range = { what: 'stack', unit: 'mm', from: 0, upTo: Number(highest.toFixed(3)), remedy: TILT.remedy };
  return whenSound([refuseOutside(centres, CENTRES), refuseOutside(stack, range)], () =>
    asDegrees((Math.asin(stack / centres) * 180) / Math.PI),
  );
}
