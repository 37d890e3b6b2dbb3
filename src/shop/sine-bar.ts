/** Setting an angle with a sine bar. Source: stack = distance of the rollers x sin(angle), trigonometry. */
import { asDegrees, asMm, type Degrees, type Mm } from './quantities.ts';
import { type Range, type Result, refuseOutside, whenSound } from './refusal.ts';

const CENTRES: Range = {
  what: 'distance of the rollers',
  unit: 'mm',
  above: 0,
  upTo: 1000,
  remedy: 'give the distance between the roller centres, such as 100 mm or 5 in',
};
const SINE_ANGLE: Range = {
  what: 'angle',
  unit: 'deg',
  above: 0,
  upTo: 60,
  remedy: 'above 60 deg a sine bar is inaccurate: set the complement from a square face',
};

/**
 * Height of the gauge blocks under one roller.
 *
 * @param centres above 0, at most 1000 mm. @param angle above 0, at most 60 degrees (common practice: above about 45 to 60
 * degrees small errors of the stack become large ones of the angle).
 *
 * Example: 100 mm at 12.5 degrees is 21.644 mm; 5 in at 27 degrees is 2.270 in.
 */
export function sineBarStack(centres: Mm, angle: Degrees): Result<Mm> {
  return whenSound([refuseOutside(centres, CENTRES), refuseOutside(angle, SINE_ANGLE)], () =>
    asMm(centres * Math.sin((angle * Math.PI) / 180)),
  );
}

/**
 * The angle that a stack of gauge blocks gives; the reverse of `sineBarStack`.
 *
 * @param stack above 0, below the distance of the rollers times sin 60.
 */
export function sineBarAngle(centres: Mm, stack: Mm): Result<Degrees> {
  const most = Math.sin(Math.PI / 3) * centres;
  const checks = [
    refuseOutside(centres, CENTRES),
    refuseOutside(stack, { what: 'stack', unit: 'mm', above: 0, upTo: most + 1e-9, remedy: SINE_ANGLE.remedy }),
  ];
  return whenSound(checks, () => asDegrees((Math.asin(stack / centres) * 180) / Math.PI));
}
