/**
 * Proving the sign of a zero: the way in which the tool can be wound off without running into what it touched, and what the
 * readout or dial must do meanwhile. Source: geometry (a finder stands in free space on its own side of the touched face, so
 * only that way is open); which way a dial counts follows from its handle.
 */
import { dialAxisOf } from './dial-axis.ts';
import type { AxisReading, AxisZero, ResolvedMachine, ResolvedSetup } from './resolved.ts';

type Way = '+' | '-';

/** Where the tool goes over the part. */
const WAY_WORDS = { x: { '+': 'right', '-': 'left' }, y: { '+': 'away from you', '-': 'towards you' } } as const;

/** A way along X or Y in words: +X right, +Y away from the user. */
export const wayWords = (axis: 'x' | 'y', way: Way): string => WAY_WORDS[axis][way];

/**
 * What proves the sign of a zero in X or Y, without a full stop.
 *
 * Where a face was touched the tool goes off on the side on which it stands; where nothing was touched from a side (indicator,
 * line, stop) it goes towards the middle of the part.
 *
 * Example: touched on the near side of a rear jaw: `tool raised clear, wind it towards you: Y must fall`; on a dial that
 * counts up as a clockwise turn brings the tool nearer: `… towards you (clockwise): Y falls, the dial must count up`.
 */
export function signProof(zero: AxisZero, scale: AxisReading, outline: ResolvedSetup['outline']): string {
  return `tool raised clear, ${signMove(zero, scale, outline)}`;
}

/** The same without raising the tool, for where that is said once for both axes. */
export function signMove(zero: AxisZero, scale: AxisReading, outline: ResolvedSetup['outline']): string {
  const way = zero.side ?? towardsMiddle(zero, outline);
  const axis = zero.axis.toUpperCase();
  const wind = `wind it ${wayWords(zero.axis, way)}`;
  const dial = onDial(way, scale);
  if (dial === null) return `${wind}: ${axis} must ${way === '+' ? 'grow' : 'fall'}`;
  return `${wind} (${dial.turn}): ${axis} ${way === '+' ? 'grows' : 'falls'}, the dial must count ${dial.counts}`;
}

function towardsMiddle({ axis, ground }: AxisZero, { x0, x1, y0, y1 }: ResolvedSetup['outline']): Way {
  const middle = axis === 'x' ? (x0 + x1) / 2 : (y0 + y1) / 2;
  return middle < ground ? '-' : '+';
}

/** How the handle is turned to go one way, and how its dial counts then; null without a dial. */
function onDial(way: Way, scale: AxisReading): { readonly turn: string; readonly counts: 'up' | 'down' } | null {
  const dial = dialAxisOf(scale);
  if (dial === null) return null;
  const isClockwise = (dial.clockwiseMoves === 'plus') === (way === '+');
  const counts = isClockwise === (dial.clockwiseCounts === 'up') ? 'up' : 'down';
  return { turn: isClockwise ? 'clockwise' : 'anticlockwise', counts };
}

/**
 * What proves the sign of Z; null where nothing reads it. On a knee it is the table that goes down.
 *
 * Example: a knee whose dial counts up as the tool goes into the part: `lower the knee (anticlockwise): the dial must count
 * down`.
 */
export function depthSignProof(machine: Pick<ResolvedMachine, 'z' | 'zReadOn'>): string | null {
  if (machine.z.kind === 'none') return null;
  const lift = machine.zReadOn === 'knee' ? 'lower the knee' : 'raise the tool';
  const dial = onDial('+', machine.z);
  return dial === null ? `${lift}: Z must grow` : `${lift} (${dial.turn}): the dial must count ${dial.counts}`;
}
