/**
 * From the drawing to a setup: where a place of the drawing comes to lie when the part is turned over or end for end and
 * zero is at another corner.
 *
 * The drawing measures from its datum corner; a setup measures from the ground that its zero touches. Between them the part
 * is taken from its left front corner (u to the right, v away): a flip changes u to length - u or v to width - v. On edge or
 * on end the plan writes its points from the setup's own zero, as the part lies there, and nothing is changed.
 */

import type { Position } from '../../shop/patterns.ts';
import { asMm, type Mm } from '../../shop/quantities.ts';
import type { Plan } from '../schema/plan.ts';
import type { PlanAxisZero, PlanSetup } from '../schema/setups.ts';

/** How the part lies, as resolved plans name it. */
export type Lie = NonNullable<PlanSetup['lies']>;

/** What turns a place of the drawing into a place of the setup: `x = signX * drawn.x + addX`, the same for y. */
export interface Frame {
  readonly signX: 1 | -1;
  readonly addX: Mm;
  readonly signY: 1 | -1;
  readonly addY: Mm;
}

/** Coordinates that are taken as they are written. */
export const AS_WRITTEN: Frame = { signX: 1, addX: asMm(0), signY: 1, addY: asMm(0) };

/** Size of the part as it lies: along X, along Y, and up. */
export interface LyingSize {
  readonly x: Mm;
  readonly y: Mm;
  readonly z: Mm;
}

/** The size of the finished part as it lies in a setup. */
export function lyingSize(part: Plan['part'], lie: Lie): LyingSize {
  switch (lie) {
    case 'as drawn':
    case 'over about X':
    case 'over about Y':
    case 'end for end':
      return { x: part.length, y: part.width, z: part.thickness };
    case 'on edge':
      return { x: part.length, y: part.thickness, z: part.width };
    case 'on end':
      return { x: part.width, y: part.thickness, z: part.length };
  }
}

/** Where zero is: which end of the part its ground touches on each axis, and the coordinate of that ground. */
export interface ZeroCorner {
  readonly x: { readonly end: 'left' | 'right'; readonly at: Mm };
  readonly y: { readonly end: 'front' | 'rear'; readonly at: Mm };
}

/**
 * The zero corner of a setup: as it says, else at the stop and, in a vice, at its fixed jaw, else at the corner of the drawing.
 */
export function zeroCorner(setup: PlanSetup, fixedJaw: string | undefined, datum: string): ZeroCorner {
  const [side, depth] = datum.split(' ') as ['left' | 'right', 'front' | 'rear'];
  const xEnd = setup.zero?.x?.end as 'left' | 'right' | undefined;
  const yEnd = setup.zero?.y?.end as 'front' | 'rear' | undefined;
  const inVice = setup.hold === 'vice' || setup.hold === 'two vices';
  const jawEnd = inVice && (fixedJaw === 'rear' || fixedJaw === 'front') ? fixedJaw : undefined;
  return {
    x: { end: xEnd ?? setup.stop?.side ?? side, at: endAt(setup.zero?.x) },
    y: { end: yEnd ?? jawEnd ?? depth, at: endAt(setup.zero?.y) },
  };
}

/** Coordinate of the end that carries zero: a bore or line has its own coordinate and leaves zero at the end itself. */
const endAt = (zero: PlanAxisZero | undefined): Mm =>
  zero?.at === undefined || zero.how === 'indicator' || zero.how === 'scribed line' ? asMm(0) : zero.at;

/**
 * The frame of a setup.
 *
 * Example: drawing from the left front corner, zero at stop left and fixed jaw at the rear, part 60 x 30 as drawn: the
 * drawing's (10, 15) is (10, -15) in the setup; end for end it is (50, -15).
 */
export function frameOf(part: Plan['part'], lie: Lie, corner: ZeroCorner): Frame {
  if (lie === 'on edge' || lie === 'on end') return AS_WRITTEN;
  const datum = part.datum ?? 'left front';
  const size = lyingSize(part, lie);
  const drawnU = datum.startsWith('left') ? 0 : size.x;
  const drawnV = datum.endsWith('front') ? 0 : size.y;
  const flipsX = lie === 'over about Y' || lie === 'end for end';
  const flipsY = lie === 'over about X' || lie === 'end for end';
  const zeroU = corner.x.end === 'left' ? 0 : size.x;
  const zeroV = corner.y.end === 'front' ? 0 : size.y;
  return {
    signX: flipsX ? -1 : 1,
    addX: asMm((flipsX ? size.x - drawnU : drawnU) - zeroU + corner.x.at),
    signY: flipsY ? -1 : 1,
    addY: asMm((flipsY ? size.y - drawnV : drawnV) - zeroV + corner.y.at),
  };
}

/** A place of the drawing in the setup. Never -0. */
export const toSetup = (drawn: Position, frame: Frame): Position => ({
  x: asMm(frame.signX * drawn.x + frame.addX + 0),
  y: asMm(frame.signY * drawn.y + frame.addY + 0),
});

/** The corners of a part of the given size in setup coordinates. */
export function outlineOf(size: { readonly x: Mm; readonly y: Mm }, corner: ZeroCorner) {
  const x0 = asMm(corner.x.at - (corner.x.end === 'left' ? 0 : size.x));
  const y0 = asMm(corner.y.at - (corner.y.end === 'front' ? 0 : size.y));
  return { x0, x1: asMm(x0 + size.x), y0, y1: asMm(y0 + size.y) };
}

const isUpright = (lie: Lie): boolean => lie === 'on edge' || lie === 'on end';

/**
 * How the part lies against the setup before: flips cancel one another; null where it stood there and is laid flat again,
 * since standing does not tell which way it was turned.
 */
export function turnedAgainst(before: Lie, now: Lie): 'as before' | Exclude<Lie, 'as drawn'> | null {
  if (before === now) return 'as before';
  if (now === 'on edge' || now === 'on end') return now;
  if (isUpright(before)) return null;
  const flips = (lie: Lie) => ({
    x: lie === 'over about Y' || lie === 'end for end',
    y: lie === 'over about X' || lie === 'end for end',
  });
  const [a, b] = [flips(before), flips(now)];
  if (a.x !== b.x && a.y !== b.y) return 'end for end';
  if (a.x !== b.x) return 'over about Y';
  return a.y !== b.y ? 'over about X' : 'as before';
}
