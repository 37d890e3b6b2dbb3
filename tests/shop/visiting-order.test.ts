import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Position } from '../../src/shop/patterns.ts';
import { asMm } from '../../src/shop/quantities.ts';
import { formatRefusal, sureOf } from '../../src/shop/refusal.ts';
import {
  type ApproachSides,
  countWindings,
  travelAlong,
  visitingOrder,
  windPastsBetween,
} from '../../src/shop/visiting-order.ts';

const at = (x: number, y: number): Position => ({ x: asMm(x), y: asMm(y) });
const sides: ApproachSides = { x: 'growing', y: 'shrinking' };
const side = fc.constantFrom('growing', 'shrinking', 'either');
const points = (most: number) =>
  fc.array(fc.record({ x: fc.integer({ min: 0, max: 9 }), y: fc.integer({ min: 0, max: 9 }) }), {
    minLength: 1,
    maxLength: most,
  });

function permutations(count: number): readonly (readonly number[])[] {
  if (count === 0) return [[]];
  return permutations(count - 1).flatMap((order) =>
    Array.from({ length: count }, (_, place) => order.toSpliced(place, 0, count - 1)),
  );
}

describe('winding past', () => {
  it('is asked of an axis that moves against its approach, never of one that stands', () => {
    expect(windPastsBetween(at(0, 0), at(5, 5), sides)).toEqual({ x: false, y: true });
    expect(windPastsBetween(at(5, 5), at(0, 5), sides)).toEqual({ x: true, y: false });
    expect(windPastsBetween(at(5, 5), at(0, 0), { x: 'either', y: 'either' })).toEqual({ x: false, y: false });
    expect(windPastsBetween(at(5, 5), at(4.9999, 5.0001), sides)).toEqual({ x: false, y: false });
  });

  it('a single point needs no winding and no way', () => {
    expect(sureOf(visitingOrder([at(3, 4)], sides))).toEqual({ order: [0], windings: 0, travel: 0, proven: true });
    expect(countWindings([], sides)).toBe(0);
  });
});

describe('order of visit', () => {
  it('up to 6 points no order of all has fewer windings, or as few and a shorter way', () => {
    fc.assert(
      fc.property(points(6), side, side, (raw, x, y) => {
        const places = raw.map((point) => at(point.x, point.y));
        const found = sureOf(visitingOrder(places, { x, y }));
        expect(found.proven).toBe(true);
        expect([...found.order].sort((a, b) => a - b)).toEqual(places.map((_, index) => index));
        for (const order of permutations(places.length)) {
          const visited = order.map((index) => places[index] ?? at(0, 0));
          const windings = countWindings(visited, { x, y });
          expect(windings).toBeGreaterThanOrEqual(found.windings);
          if (windings === found.windings) expect(travelAlong(visited)).toBeGreaterThanOrEqual(found.travel - 1e-9);
        }
      }),
      { numRuns: 25 },
    );
  });

  it('many points: every point once, no worse than as given, and said not to be proven', () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ x: fc.integer({ min: 0, max: 90 }), y: fc.integer({ min: 0, max: 90 }) }), {
          minLength: 14,
          maxLength: 40,
        }),
        (raw) => {
          const places = raw.map((point) => at(point.x, point.y));
          const found = sureOf(visitingOrder(places, sides));
          expect(found.proven).toBe(false);
          expect([...found.order].sort((a, b) => a - b)).toEqual(places.map((_, index) => index));
          expect(found.windings).toBeLessThanOrEqual(countWindings(places, sides));
        },
      ),
      { numRuns: 20 },
    );
  });

  it('a row of 30 that lies with the approach needs none, whatever order it was given in', () => {
    const row = Array.from({ length: 30 }, (_, index) => at(((index * 7) % 30) * 10, 0));
    expect(sureOf(visitingOrder(row, sides))).toMatchObject({ windings: 0, travel: 290 });
  });

  it('2000 points are ordered, 2001 or none are refused', () => {
    const many = Array.from({ length: 2000 }, (_, index) => at(index % 50, Math.floor(index / 50)));
    expect(sureOf(visitingOrder(many, sides)).order).toHaveLength(2000);
    const result = visitingOrder([...many, at(0, 0)], sides);
    expect(result.ok ? '' : formatRefusal(result.problem)).toContain('number of points 2001');
    expect(visitingOrder([], sides).ok).toBe(false);
  });
});
