/**
 * What is cut away as bodies in space: a drilled hole is a cylinder with the cone of the drill at its end, a pass of a cutter
 * its round end swept along a straight way. Such bodies are convex, so the gap between two of them is found by going to and
 * fro between their nearest points until they stand still.
 */

export interface Place3 {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** A hole: where its axis enters, the way it goes (of length 1), its radius, its full depth and the length of its point. */
export interface HoleBody {
  readonly mouth: Place3;
  readonly way: Place3;
  readonly radius: number;
  readonly full: number;
  readonly point: number;
}

/** A pass: where its axis begins on the face, its way along the face and down (of length 1), its size. */
export interface SlotBody {
  readonly start: Place3;
  readonly along: Place3;
  readonly down: Place3;
  /** From the beginning to the end of the axis. */
  readonly long: number;
  readonly radius: number;
  readonly deep: number;
}

/** Rounds of the search; it stands still far earlier unless the bodies all but touch. */
const ROUNDS = 400;
const STILL_MM = 1e-7;

/**
 * Thickness of the metal between two holes in mm, 0 when they meet.
 *
 * Source: alternating projections onto two convex bodies. Example: a hole of 4 mm whose axis passes the axis of a hole of
 * 6 mm at a right angle 7 mm away leaves 2 mm.
 */
export const gapBetween = (a: HoleBody, b: HoleBody): number =>
  gapFrom(
    a.mouth,
    (place) => nearestIn(a, place),
    (place) => nearestIn(b, place),
  );

/**
 * Thickness of the metal between a hole and what a pass takes away in mm, 0 when they meet.
 *
 * Example: a cross hole of 4 mm whose axis lies 7 mm below the face, under a pass 4 mm deep, leaves 1 mm.
 */
export const gapToSlot = (hole: HoleBody, slot: SlotBody): number =>
  gapFrom(
    hole.mouth,
    (place) => nearestIn(hole, place),
    (place) => nearestInSlot(slot, place),
  );

function gapFrom(start: Place3, inOne: (place: Place3) => Place3, inOther: (place: Place3) => Place3): number {
  let here = start;
  let gap = Number.POSITIVE_INFINITY;
  for (let round = 0; round < ROUNDS; round += 1) {
    const there = inOther(here);
    here = inOne(there);
    const now = length(minus(here, there));
    if (gap - now < STILL_MM) return now;
    gap = now;
  }
  return gap;
}

/** How far the axes, taken as endless lines, pass one another. */
export function axesApart(a: HoleBody, b: HoleBody): number {
  const across = cross(a.way, b.way);
  const between = minus(b.mouth, a.mouth);
  const wide = length(across);
  if (wide > 1e-9) return Math.abs(dot(between, across)) / wide;
  return length(minus(between, scaled(a.way, dot(between, a.way))));
}

/** The point of a body nearest to a place; the place itself when it lies inside. */
function nearestIn(body: HoleBody, place: Place3): Place3 {
  const from = minus(place, body.mouth);
  const along = dot(from, body.way);
  const side = minus(from, scaled(body.way, along));
  const out = length(side);
  const at = nearestInProfile(body, along, out);
  const lateral = out < 1e-12 ? { x: 0, y: 0, z: 0 } : scaled(side, at.out / out);
  return plus(body.mouth, plus(scaled(body.way, at.along), lateral));
}

/** The point of a pass nearest to a place: along and across like a rod with round ends, down like a slab. */
function nearestInSlot({ start, along, down, long, radius, deep }: SlotBody, place: Place3): Place3 {
  const from = minus(place, start);
  const [way, depth] = [dot(from, along), dot(from, down)];
  const held = Math.max(0, Math.min(long, way));
  const side = minus(minus(from, scaled(along, held)), scaled(down, depth));
  const out = length(side);
  const within = out <= radius ? side : scaled(side, radius / out);
  return plus(start, plus(plus(scaled(along, held), within), scaled(down, Math.max(0, Math.min(deep, depth)))));
}

/** The same in the half plane of the axis: a rectangle with a triangle at its end. */
function nearestInProfile({ radius, full, point }: HoleBody, along: number, out: number) {
  const heldAlong = Math.max(0, Math.min(full + point, along));
  const wide = heldAlong <= full ? radius : (radius * (full + point - heldAlong)) / point;
  if (heldAlong === along && out <= wide) return { along, out };
  const inCylinder = { along: Math.max(0, Math.min(full, along)), out: Math.min(radius, out) };
  if (along <= full || point <= 0) return inCylinder;
  const onCone = nearestOnSlope(radius, full, point, along, out);
  const away = (one: { along: number; out: number }) => Math.hypot(one.along - along, one.out - out);
  return away(onCone) < away(inCylinder) ? onCone : inCylinder;
}

/** Nearest point of the slope of the cone, from its shoulder to its tip. */
function nearestOnSlope(radius: number, full: number, point: number, along: number, out: number) {
  const square = point * point + radius * radius;
  const share = Math.max(0, Math.min(1, ((along - full) * point + (radius - out) * radius) / square));
  return { along: full + share * point, out: radius * (1 - share) };
}

const plus = (a: Place3, b: Place3): Place3 => ({ x: a.x + b.x, y: a.y + b.y, z: a.z + b.z });
const minus = (a: Place3, b: Place3): Place3 => ({ x: a.x - b.x, y: a.y - b.y, z: a.z - b.z });
const scaled = (a: Place3, by: number): Place3 => ({ x: a.x * by, y: a.y * by, z: a.z * by });
const dot = (a: Place3, b: Place3): number => a.x * b.x + a.y * b.y + a.z * b.z;
const cross = (a: Place3, b: Place3): Place3 => ({
  x: a.y * b.z - a.z * b.y,
  y: a.z * b.x - a.x * b.z,
  z: a.x * b.y - a.y * b.x,
});
const length = (a: Place3): number => Math.hypot(a.x, a.y, a.z);
