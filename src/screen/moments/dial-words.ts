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
 * One sentence, or null for an axis without a dial. How far is turned is said where it is known from where (`from`).
 *
 * Example: `X: clockwise 4 + 50, past to 7 + 83, then anticlockwise back to 7 + 33`.
 */
export function windWords(
  name: string,
  from: Mm | null,
  to: Mm,
  scale: AxisReading,
  touchedGoing: AxisZero['touchedGoing'],
): string | null {
  const move = moveOn(from ?? asMm(0), to, scale, touchedGoing);
  if (move === null) return null;
  const reading = formatDialReading(move.reading);
  if (move.kind === 'still') return `${name} stays at ${reading}`;
  const far = from === null ? '' : ` ${turnsOf(move.by)}`;
  switch (move.kind) {
    case 'direct':
      return `${name}: ${move.turn}${far} to ${reading}`;
    case 'past': {
      const past = `${far === '' ? '' : `${far},`} past to ${formatDialReading(move.past)}`;
      return `${name}: ${move.turn}${past}, then ${move.back} back to ${reading}`;
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
 * Example: `X cw 4+50 past 83`, without the turns `X cw past 83`, to come back from there to the number that stands large.
 */
export function windBrief(
  withTurns: boolean,
  name: string,
  from: Mm | null,
  to: Mm,
  scale: AxisReading,
  touchedGoing: AxisZero['touchedGoing'],
): string | null {
  const move = moveOn(from ?? asMm(0), to, scale, touchedGoing);
  if (move === null) return null;
  const isBelow = move.reading.side === 'below';
  if (move.kind === 'still') return `${name} stays${isBelow ? ` at scale ${move.reading.face}` : ''}`;
  const far = withTurns && from !== null ? ` ${turnsOf(move.by).replaceAll(' ', '')}` : '';
  const end = isBelow ? ` to scale ${move.reading.face}` : '';
  switch (move.kind) {
    case 'direct':
      return `${name} ${shortTurn[move.turn]}${far}${end}`;
    case 'past':
      return `${name} ${shortTurn[move.turn]}${far} past ${move.past.face}${end}`;
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
