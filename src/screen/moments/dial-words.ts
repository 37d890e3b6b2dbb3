/**
 * How to wind a dial from where the axis stands: which way the handle turns, to which reading, and how far past it first
 * where the point lies on the wrong side of the side from which the zero was touched.
 */
import { dialAxisOf } from '../../plan/dial-axis.ts';
import type { AxisReading, AxisZero } from '../../plan/resolved.ts';
import { countingAtTouch, formatDialReading, type Turning, type WindMove, windMove } from '../../shop/dials.ts';
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
  const move = moveOn(from, to, scale, touchedGoing);
  if (move === null) return null;
  const reading = formatDialReading(move.reading);
  switch (move.kind) {
    case 'still':
      return `${name} stays at ${reading}`;
    case 'direct':
      return `${name}: ${move.turn} to ${reading}`;
    case 'past':
      return `${name}: ${move.turn} past to ${formatDialReading(move.past)}, then ${move.back} back to ${reading}`;
    default:
      return move satisfies never;
  }
}

/**
 * The same where there is room for little: which way first, and what the scale shows where it goes past.
 *
 * Example: `X cw past 83`, to come back from there to the number that stands large.
 */
export function windBrief(
  name: string,
  from: Mm,
  to: Mm,
  scale: AxisReading,
  touchedGoing: AxisZero['touchedGoing'],
): string | null {
  const move = moveOn(from, to, scale, touchedGoing);
  if (move === null) return null;
  switch (move.kind) {
    case 'still':
      return `${name} stays`;
    case 'direct':
      return `${name} ${shortTurn[move.turn]}`;
    case 'past':
      return `${name} ${shortTurn[move.turn]} past ${move.past.face}`;
    default:
      return move satisfies never;
  }
}

const shortTurn: Readonly<Record<Turning, string>> = { clockwise: 'cw', anticlockwise: 'acw' };

function moveOn(from: Mm, to: Mm, scale: AxisReading, touchedGoing: AxisZero['touchedGoing']): WindMove | null {
  const axis = dialAxisOf(scale);
  if (axis === null) return null;
  const touch = touchedGoing === null ? 'none' : touchedGoing === '+' ? 'plus' : 'minus';
  const move = windMove(from, to, axis, countingAtTouch(touch, axis));
  return move.ok ? move.value : null;
}
