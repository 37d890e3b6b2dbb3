/**
 * How to wind a dial from where the axis stands: which way the handle turns, to which reading, and how far past it first
 * where the point lies on the wrong side of the side from which the zero was touched.
 */
import { dialAxisOf } from '../../plan/dial-axis.ts';
import type { AxisReading, AxisZero } from '../../plan/resolved.ts';
import { countingAtTouch, formatDialReading, windMove } from '../../shop/dials.ts';
import type { Mm } from '../../shop/quantities.ts';

/**
 * One sentence, or null for an axis without a dial.
 *
 * Example: `X: clockwise past to 7 + 83, then anticlockwise back to 7 + 33`.
 */
export function windWords(
  name: string,
  from: Mm,
  to: Mm,
  scale: AxisReading,
  touchedGoing: AxisZero['touchedGoing'],
): string | null {
  const axis = dialAxisOf(scale);
  if (axis === null) return null;
  const touch = touchedGoing === null ? 'none' : touchedGoing === '+' ? 'plus' : 'minus';
  const move = windMove(from, to, axis, countingAtTouch(touch, axis));
  if (!move.ok) return null;
  const reading = formatDialReading(move.value.reading);
  switch (move.value.kind) {
    case 'still':
      return `${name} stays at ${reading}`;
    case 'direct':
      return `${name}: ${move.value.turn} to ${reading}`;
    case 'past':
      return `${name}: ${move.value.turn} past to ${formatDialReading(move.value.past)}, then ${move.value.back} back to ${reading}`;
    default:
      return move.value satisfies never;
  }
}
