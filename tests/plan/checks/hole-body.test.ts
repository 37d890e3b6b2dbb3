// Holes in space by independent routes: dense sampling for gaps, the proper rotations of a box for the ways a part can lie.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeCheckAsk } from '../../../src/plan/checks/ask.ts';
import {
  axesApart,
  gapBetween,
  gapToSlot,
  type HoleBody,
  type Place3,
  type SlotBody,
} from '../../../src/plan/checks/hole-body.ts';
import { waysToLie } from '../../../src/plan/checks/rules/cross-wall.ts';
import { proved, textOf } from '../plan-samples.ts';

/** Points on the surface of a hole along straight down or along the bar, in steps of a few hundredths. */
function surface(body: HoleBody, stations: number, angles: number): Place3[] {
  const down = Math.abs(body.way.z) > 0.5;
  return Array.from({ length: stations + 1 }, (_, i) => ((body.full + body.point) * i) / stations).flatMap((s) => {
    const rim =
      s <= body.full ? body.radius : (body.radius * (body.full + body.point - s)) / Math.max(body.point, 1e-9);
    return Array.from({ length: angles }, (_, k) => (2 * Math.PI * k) / angles).map((angle) => ({
      x: body.mouth.x + body.way.x * s + rim * Math.cos(angle),
      y: body.mouth.y + body.way.y * s + (down ? rim * Math.sin(angle) : 0),
      z: body.mouth.z + body.way.z * s + (down ? 0 : rim * Math.sin(angle)),
    }));
  });
}

function sampledGap(a: HoleBody, b: HoleBody): number {
  const [one, other] = [surface(a, 60, 60), surface(b, 60, 60)];
  let least = Number.POSITIVE_INFINITY;
  for (const p of one)
    for (const q of other) least = Math.min(least, (p.x - q.x) ** 2 + (p.y - q.y) ** 2 + (p.z - q.z) ** 2);
  return Math.sqrt(least);
}

const fromAbove = (x: number, y: number, radius: number, full: number, point: number): HoleBody => ({
  mouth: { x, y, z: 0 },
  way: { x: 0, y: 0, z: 1 },
  radius,
  full,
  point,
});
const fromFront = (x: number, z: number, radius: number, full: number, point: number): HoleBody => ({
  mouth: { x, y: 0, z },
  way: { x: 0, y: 1, z: 0 },
  radius,
  full,
  point,
});

describe('the gap between two holes', () => {
  it('crossing axes at a right angle: distance less both radii', () => {
    expect(gapBetween(fromAbove(10, 20, 3, 30, 0), fromFront(17, 15, 2, 40, 0))).toBeCloseTo(2, 4);
  });

  it('tip against wall: what is left before the tip, and nothing once it is through', () => {
    const bore = fromAbove(10, 20, 4, 30, 0);
    expect(gapBetween(bore, fromFront(10, 15, 2.5, 13, 1.5))).toBeCloseTo(20 - 4 - 14.5, 4);
    expect(gapBetween(bore, fromFront(10, 15, 2.5, 16, 1.5))).toBeLessThan(1e-4);
  });

  it('parallel holes: distance less both radii', () => {
    expect(gapBetween(fromAbove(0, 0, 2, 10, 1), fromAbove(3, 4, 1.5, 20, 1))).toBeCloseTo(1.5, 4);
    expect(axesApart(fromAbove(0, 0, 2, 10, 1), fromAbove(3, 4, 1.5, 20, 1))).toBeCloseTo(5, 9);
  });

  it('is that of dense sampling of both surfaces', () => {
    const some = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    const pair = fc.tuple(
      some(0, 20),
      some(5, 30),
      some(1, 4),
      some(4, 20),
      some(0, 2),
      some(0, 20),
      some(3, 17),
      some(1, 4),
      some(4, 25),
      some(0, 2),
    );
    fc.assert(
      fc.property(pair, ([x, y, r, full, point, x2, z2, r2, full2, point2]) => {
        const [a, b] = [fromAbove(x, y, r, full, point), fromFront(x2, z2, r2, full2, point2)];
        const [gap, sampled] = [gapBetween(a, b), sampledGap(a, b)];
        // Sampled surfaces of bodies that meet lie within a step of one another; apart, sampling is never nearer.
        if (gap < 1e-3) return;
        expect(gap).toBeLessThanOrEqual(sampled + 1e-3);
        expect(sampled - gap).toBeLessThan(0.6);
      }),
      { numRuns: 8 },
    );
  });
});

/** Points all over what a pass takes away: its rim at every depth and its floor. */
function slotSurface(slot: SlotBody, steps: number): Place3[] {
  const across = cross(slot.down, slot.along);
  const rim = Array.from({ length: steps }, (_, k) => (2 * Math.PI * k) / steps).flatMap((angle) => {
    const out = { a: slot.radius * Math.cos(angle), c: slot.radius * Math.sin(angle) };
    return [out, { a: slot.long + out.a, c: out.c }];
  });
  const walls = Array.from({ length: steps + 1 }, (_, i) => (slot.long * i) / steps).flatMap((a) =>
    [-1, -0.5, 0, 0.5, 1].map((side) => ({ a, c: side * slot.radius })),
  );
  return [...rim, ...walls].flatMap(({ a, c }) =>
    Array.from({ length: 13 }, (_, i) => (slot.deep * i) / 12).map((d) => ({
      x: slot.start.x + slot.along.x * a + across.x * c + slot.down.x * d,
      y: slot.start.y + slot.along.y * a + across.y * c + slot.down.y * d,
      z: slot.start.z + slot.along.z * a + across.z * c + slot.down.z * d,
    })),
  );
}

describe('the gap between a hole and a slot', () => {
  const slot: SlotBody = {
    start: { x: 20, y: 15, z: 0 },
    along: { x: 1, y: 0, z: 0 },
    down: { x: 0, y: 0, z: 1 },
    long: 30,
    radius: 3,
    deep: 4,
  };

  it('a cross hole under the floor: its height below the floor, less its radius', () => {
    expect(gapToSlot(fromFront(35, 7, 1.5, 40, 0), slot)).toBeCloseTo(7 - 4 - 1.5, 4);
  });

  it('a cross hole beside the round end: its distance from the end, less its radius', () => {
    expect(gapToSlot(fromFront(14, 2, 1.5, 40, 0), slot)).toBeCloseTo(20 - 3 - 14 - 1.5, 4);
  });

  it('a blind cross hole before the wall: what its tip leaves, and nothing once it is through', () => {
    expect(gapToSlot(fromFront(35, 2, 1.5, 10, 1), slot)).toBeCloseTo(15 - 3 - 11, 4);
    expect(gapToSlot(fromFront(35, 2, 1.5, 12, 1), slot)).toBeLessThan(1e-4);
  });

  it('is that of dense sampling of both surfaces', () => {
    const some = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    const pair = fc.tuple(some(10, 60), some(2, 12), some(0.5, 3), some(3, 30), some(0, 2), some(1, 8), some(1, 5));
    fc.assert(
      fc.property(pair, ([x, z, r, full, point, deep, radius]) => {
        const [hole, cut] = [fromFront(x, z, r, full, point), { ...slot, deep, radius }];
        const gap = gapToSlot(hole, cut);
        let square = Number.POSITIVE_INFINITY;
        const cutAway = slotSurface(cut, 40);
        for (const p of surface(hole, 40, 40))
          for (const q of cutAway) square = Math.min(square, (p.x - q.x) ** 2 + (p.y - q.y) ** 2 + (p.z - q.z) ** 2);
        if (gap < 1e-3) return;
        expect(gap).toBeLessThanOrEqual(Math.sqrt(square) + 1e-3);
        expect(Math.sqrt(square) - gap).toBeLessThan(0.8);
      }),
      { numRuns: 12 },
    );
  });
});

type Matrix = readonly [Place3, Place3, Place3];
const AXES: readonly Place3[] = [1, -1].flatMap((sign) => [
  { x: sign, y: 0, z: 0 },
  { x: 0, y: sign, z: 0 },
  { x: 0, y: 0, z: sign },
]);
const dot = (a: Place3, b: Place3) => a.x * b.x + a.y * b.y + a.z * b.z;
const cross = (a: Place3, b: Place3): Place3 => ({
  x: a.y * b.z - a.z * b.y,
  y: a.z * b.x - a.x * b.z,
  z: a.x * b.y - a.y * b.x,
});
/** The 24 proper rotations of a box: where U, V and N of the part point on the machine. */
const rotations: readonly Matrix[] = AXES.flatMap((u) =>
  AXES.filter((v) => dot(u, v) === 0).map((v): Matrix => [u, v, cross(u, v)]),
);

describe('the ways in which a part can lie on edge or on end', () => {
  const base = textOf('tests/samples/wrong-plans/cross-wall.yaml');
  const size = { u: 100, v: 25, n: 10 };

  const mine = (lies: string, x: number, y: number): string[] => {
    const text = base
      .replace('lies: on edge\n    up: front edge', `lies: ${lies}`)
      .replace('cross: { x: 21.1, y: -5 }', `cross: { x: ${x}, y: ${y} }`);
    const { plan, resolved, positions } = proved(text);
    const ask = makeCheckAsk(plan, resolved, positions);
    const visit = ask.visits.find((one) => one.point.name === 'cross' && one.cut.kind === 'drill');
    if (visit === undefined) throw new Error('no visit');
    return waysToLie(ask, visit)
      .map(({ mouth, way }) => keyOf(mouth, way))
      .sort();
  };

  /** The hole of a machine place (a from the left, b from the front, straight down) for every rotation that is meant. */
  const byRotation = (wanted: (m: Matrix) => boolean, a: number, b: number): string[] =>
    rotations
      .filter(wanted)
      .map(([u, v, n]) => {
        // Extent of the part on the machine; its lowest corner comes to the origin.
        const corner = (axis: 'x' | 'y' | 'z') =>
          Math.min(0, u[axis] * size.u) + Math.min(0, v[axis] * size.v) + Math.min(0, n[axis] * size.n);
        const high = [u, v, n].reduce((sum, w, i) => sum + Math.abs(w.z) * [size.u, size.v, size.n][i]!, 0);
        const at = { x: a + corner('x'), y: b + corner('y'), z: high + corner('z') };
        const down = { x: 0, y: 0, z: -1 };
        // N of the part is measured from below; the program measures depth from the top face.
        const mouth = { x: dot(at, u), y: dot(at, v), z: size.n - dot(at, n) };
        return keyOf(mouth, { x: dot(down, u), y: dot(down, v), z: -dot(down, n) });
      })
      .sort();

  it('on edge, the left end on the left: either edge up', () => {
    const found = byRotation(([u, v]) => u.x === 1 && Math.abs(v.z) === 1, 30, 10 - 3);
    expect(found).toHaveLength(2);
    expect(mine('on edge', 30, -3)).toEqual(found);
  });

  it('on end: either end up, either edge on the left', () => {
    const found = byRotation(([u, v]) => Math.abs(u.z) === 1 && Math.abs(v.x) === 1, 9, 10 - 3);
    expect(found).toHaveLength(4);
    expect(mine('on end', 9, -3)).toEqual(found);
  });
});

const tidy = (value: number) => (Math.round(value * 1000) / 1000 + 0).toFixed(3);
const keyOf = (mouth: Place3, way: Place3) => [mouth.x, mouth.y, mouth.z, way.x, way.y, way.z].map(tidy).join(' ');
