/** The scale of a machine's axis in the terms of shop arithmetic, for whoever says where a dial stands. */
import { type DialAxis, dialCount, dialReading, formatDialReading } from '../shop/dials.ts';
import type { Mm } from '../shop/quantities.ts';
import type { AxisReading, DepthZero } from './resolved.ts';

/** The dial of an axis; `null` where it has none, or where there is no machine. */
export function dialAxisOf(axis: AxisReading | undefined): DialAxis | null {
  if (axis?.kind !== 'dial') return null;
  return {
    dial: { perTurn: axis.perTurn, divisions: axis.divisions },
    clockwiseMoves: axis.clockwiseMoves === '+' ? 'plus' : 'minus',
    clockwiseCounts: axis.clockwiseCounts,
    backlash: axis.backlash,
  };
}

/**
 * What the dial of an axis reads at a coordinate, from zero; `null` without a dial or beyond what one can say.
 *
 * Example: 12.34 mm on a dial of 2.5 mm and 125 divisions is `4 + 117`.
 */
export function dialText(position: Mm, axis: AxisReading | undefined): string | null {
  const dial = dialAxisOf(axis);
  if (dial === null) return null;
  const reading = dialReading(dialCount(position, dial), dial.dial);
  return reading.ok ? formatDialReading(reading.value) : null;
}

/**
 * How a tool finds its own Z zero, with the value to set and what a dial shows then; null where none is worked out.
 *
 * Example: `feeler, top of the part .000 + feeler .002 = +.002, dial 0 + 2 below zero (scale 98)`.
 */
export function depthZeroWords(zero: DepthZero | undefined, axis: AxisReading | undefined): string | null {
  if (zero === undefined) return null;
  const dial = dialText(zero.set, axis);
  return `${zero.how}, ${zero.sum}${dial === null ? '' : `, dial ${dial}`}`;
}
