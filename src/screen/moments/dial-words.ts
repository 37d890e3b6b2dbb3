/**
 * How to wind a dial from where the axis stands: which way the handle turns, to which reading, and how far past it first
 * where the point lies on the wrong side of the side from which the zero was touched.
 */
import { dialAxisOf } from '../../plan/dial-axis.ts';
import type { AxisReading, AxisZero } from '../../plan/resolved.ts';
import {
  countingAtTouch,
  type DialReading,
  formatDialReading,
  type Turning,
  type WindMove,
  windMove,
} from '../../shop/dials.ts';
import { asMm, type Mm } from '../../shop/quantities.ts';

/**
 * One sentence, or null for an axis without a dial. Where nobody knows from where (`from` is null) it says no first turn,
 * which might be the wrong one, but how the reading is come to.
 *
 * Example: `X: clockwise 4 + 50, past to 7 + 83, then anticlockwise back to 7 + 33`; from anywhere `X: come anticlockwise to
 * 7 + 33, from 7 + 83 or beyond`.
 */
export function windWords(
  name: string,
  from: Mm | null,
  to: Mm,
  scale: AxisReading,
  touchedGoing: AxisZero['touchedGoing'],
): string | null {
  const move = from === null ? comeOn(to, scale, touchedGoing) : moveOn(from, to, scale, touchedGoing);
  if (move === null || (from === null && saysNothing(move))) return null;
  const reading = formatDialReading(move.reading);
  switch (move.kind) {
    case 'still':
      return from === null ? `${name}: come to ${reading}` : `${name} stays at ${reading}`;
    case 'direct':
      return `${name}: ${move.turn} ${turnsOf(move.by)} to ${reading}`;
    case 'past': {
      const past = formatDialReading(move.past);
      return from === null
        ? `${name}: come ${move.back} to ${reading}, from ${past} or beyond`
        : `${name}: ${move.turn} ${turnsOf(move.by)}, past to ${past}, then ${move.back} back to ${reading}`;
    }
    default:
      return move satisfies never;
  }
}

/** Turns and divisions to wind: which way is said beside them. */
const turnsOf = ({ turns, divisions }: DialReading): string => `${turns} + ${divisions}`;

/**
 * The same where there is room for little: which way first, and what the scale shows where it goes past. What the scale
 * shows at the end is said only below zero, where it is not the number that stands large.
 *
 * Example: `X cw 4+50 past 83`, without the turns `X cw past 83`, to come back from there to the number that stands large;
 * from anywhere `X acw from 83`.
 */
export function windBrief(
  withTurns: boolean,
  name: string,
  from: Mm | null,
  to: Mm,
  scale: AxisReading,
  touchedGoing: AxisZero['touchedGoing'],
): string | null {
  const move = from === null ? comeOn(to, scale, touchedGoing) : moveOn(from, to, scale, touchedGoing);
  if (move === null || (from === null && saysNothing(move))) return null;
  const isBelow = move.reading.side === 'below';
  const end = isBelow ? ` to scale ${move.reading.face}` : '';
  if (move.kind === 'still')
    return from === null ? `${name}${end}` : `${name} stays${isBelow ? ` at scale ${move.reading.face}` : ''}`;
  const far = withTurns ? ` ${turnsOf(move.by).replaceAll(' ', '')}` : '';
  switch (move.kind) {
    case 'direct':
      return `${name} ${shortTurn[move.turn]}${far}${end}`;
    case 'past':
      return from === null
        ? `${name} ${shortTurn[move.back]} from ${move.past.face}${end}`
        : `${name} ${shortTurn[move.turn]}${far} past ${move.past.face}${end}`;
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

/** From anywhere, and from either side: then only a scale that shows another number than the large one is worth a word. */
const saysNothing = (move: WindMove): boolean => move.kind === 'still' && move.reading.side !== 'below';

/** How a reading is come to from anywhere: past it and back, as from its far side; still where either side will do. */
function comeOn(to: Mm, scale: AxisReading, touchedGoing: AxisZero['touchedGoing']): WindMove | null {
  if (touchedGoing === null || scale.kind !== 'dial') return moveOn(to, to, scale, touchedGoing);
  const far = asMm(touchedGoing === '+' ? to + 2 * scale.perTurn : to - 2 * scale.perTurn);
  return moveOn(far, to, scale, touchedGoing);
}
