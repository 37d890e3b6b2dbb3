/**
 * Distances that a person checks with a calliper, and that decide whether a wall is thick enough. All in millimetres,
 * unrounded, plane geometry; positions as in patterns.ts.
 */
import type { Position } from './patterns.ts';
import { asMm, type Mm } from './quantities.ts';

/** The sides of a rectangular part, as coordinates from the zero of the setup: left below right, front below rear. */
export interface Outline {
  readonly left: Mm;
  readonly right: Mm;
  readonly front: Mm;
  readonly rear: Mm;
}

/** How far a point stands from each side; negative when it lies beyond that side. */
export interface EdgeDistances extends Outline {
  /** The smallest of the four. */
  readonly nearest: Mm;
}

/** Centre to centre. `distanceBetween((0, 0), (30, 40))` is 50. */
export const distanceBetween = (a: Position, b: Position): Mm => asMm(Math.hypot(a.x - b.x, a.y - b.y));

/**
 * How far a point stands from each side of a rectangular part.
 *
 * Example: (10, -5) in a part from 0 to 100 and from -40 to 0: left 10, right 90, front 35, rear 5, nearest 5.
 */
export function distancesToEdges(point: Position, part: Outline): EdgeDistances {
  const left = asMm(point.x - part.left);
  const right = asMm(part.right - point.x);
  const front = asMm(point.y - part.front);
  const rear = asMm(part.rear - point.y);
  return { left, right, front, rear, nearest: asMm(Math.min(left, right, front, rear)) };
}

/**
 * Material left between two round holes; negative when they run into each other.
 *
 * Example: diameters 10 and 6 at 20 mm leave 12 mm.
 */
export const wallBetween = (a: Position, diameterA: Mm, b: Position, diameterB: Mm): Mm =>
  asMm(distanceBetween(a, b) - (diameterA + diameterB) / 2);

/**
 * Reading of a calliper over the outsides of two close-fitting pins (or drill shanks) standing in two holes.
 *
 * Example: shanks of .136 in holes 1.000 apart read 1.136.
 */
export const overPins = (a: Position, diameterA: Mm, b: Position, diameterB: Mm): Mm =>
  asMm(distanceBetween(a, b) + (diameterA + diameterB) / 2);

/**
 * Shortest distance from a point to a straight cut from one place to another (the path of the cutter's axis).
 *
 * Example: from (5, 3) to the line (0, 0) to (10, 0) it is 3; from (14, 3) it is 5, to the end of the line.
 */
export function distanceToLine(point: Position, from: Position, to: Position): Mm {
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  const lengthSquared = dx * dx + dy * dy;
  const along = lengthSquared === 0 ? 0 : ((point.x - from.x) * dx + (point.y - from.y) * dy) / lengthSquared;
  const share = Math.min(1, Math.max(0, along));
  return distanceBetween(point, { x: asMm(from.x + share * dx), y: asMm(from.y + share * dy) });
}
