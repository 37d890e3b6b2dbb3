import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { distanceBetween, distancesToEdges, distanceToLine, overPins, wallBetween } from '../../src/shop/distances.ts';
import {
  bearingOf,
  chordOnCircle,
  circleOfPoints,
  gridOfPoints,
  mirrorPoints,
  type Position,
  polarPoint,
  rotatePoints,
  rowOfPoints,
} from '../../src/shop/patterns.ts';
import { asDegrees, asMm } from '../../src/shop/quantities.ts';
import { formatRefusal, type Result, sureOf } from '../../src/shop/refusal.ts';
import { inchesToMm, mmToInches } from '../../src/shop/units.ts';

const at = (x: number, y: number): Position => ({ x: asMm(x), y: asMm(y) });
const origin = at(0, 0);
const pairs = (points: readonly Position[]): readonly (readonly [number, number])[] => points.map(({ x, y }) => [x, y]);
const saidBy = (result: Result<unknown>): string => (result.ok ? 'answered' : formatRefusal(result.problem));

function expectClose(points: readonly Position[], expected: readonly (readonly [number, number])[], digits = 3): void {
  expect(points).toHaveLength(expected.length);
  for (const [index, [x, y]] of expected.entries()) {
    expect(points[index]?.x).toBeCloseTo(x, digits);
    expect(points[index]?.y).toBeCloseTo(y, digits);
  }
}

const place = fc.record({
  x: fc.double({ min: -500, max: 500, noNaN: true }),
  y: fc.double({ min: -500, max: 500, noNaN: true }),
});
const angle = fc.double({ min: -360, max: 360, noNaN: true });
const near = (a: Position, b: Position): boolean => Math.hypot(a.x - b.x, a.y - b.y) < 1e-9;

describe('rows and grids', () => {
  it('a row stands at absolute multiples of its pitch, along X unless turned', () => {
    expect(pairs(sureOf(rowOfPoints({ start: at(10, 5), count: 3, pitch: asMm(20) })))).toEqual([
      [10, 5],
      [30, 5],
      [50, 5],
    ]);
    expect(pairs(sureOf(rowOfPoints({ start: at(10, 5), count: 2, pitch: asMm(20), angle: asDegrees(270) })))).toEqual([
      [10, 5],
      [10, -15],
    ]);
  });

  it('the last of 100 points at 1/3 mm stands where the product says, not where 99 rounded steps lead', () => {
    const last = sureOf(rowOfPoints({ start: origin, count: 100, pitch: asMm(1 / 3) })).at(-1);
    expect(last?.x).toBeCloseTo(33, 12);
  });

  it('a grid runs row by row, signed pitches giving its direction', () => {
    const grid = { start: at(10, -10), columns: 2, rows: 2, columnPitch: asMm(30), rowPitch: asMm(-20) };
    expect(pairs(sureOf(gridOfPoints(grid)))).toEqual([
      [10, -10],
      [40, -10],
      [10, -30],
      [40, -30],
    ]);
    expect(pairs(sureOf(gridOfPoints({ ...grid, angle: asDegrees(90) })))).toEqual([
      [10, -10],
      [10, 20],
      [30, -10],
      [30, 20],
    ]);
  });

  it('one row needs no row pitch', () => {
    const grid = { start: origin, columns: 2, rows: 1, columnPitch: asMm(5), rowPitch: asMm(0) };
    expect(pairs(sureOf(gridOfPoints(grid)))).toEqual([
      [0, 0],
      [5, 0],
    ]);
    expect(saidBy(gridOfPoints({ ...grid, rows: 2 }))).toContain('row pitch 0 mm');
  });

  it.each([
    [{ count: 0 }, 'number of points 0'],
    [{ count: 2.5 }, 'a whole number'],
    [{ count: 2001 }, 'at most 2000'],
    [{ pitch: asMm(0) }, 'pitch 0 mm'],
    [{ pitch: asMm(Number.NaN) }, 'pitch NaN mm'],
    [{ start: at(1e6, 0) }, 'X of the start'],
    [{ angle: asDegrees(400) }, 'angle 400 deg'],
  ])('a row with %j is refused: %s', (change, words) => {
    expect(saidBy(rowOfPoints({ start: origin, count: 3, pitch: asMm(10), ...change }))).toContain(words);
  });

  it('a grid of too many points, or of a part of a column, is refused', () => {
    const grid = { start: origin, columns: 50, rows: 50, columnPitch: asMm(5), rowPitch: asMm(5) };
    expect(saidBy(gridOfPoints(grid))).toContain('number of points 2500');
    expect(saidBy(gridOfPoints({ ...grid, columns: 1.5, rows: 2 }))).toContain('number of columns 1.5');
    expect(saidBy(gridOfPoints({ ...grid, rows: 2, columnPitch: asMm(30_000) }))).toContain('column pitch');
  });
});

describe('circles', () => {
  it('five on 50 mm, first at 90 degrees (x = R cos a, y = R sin a)', () => {
    const points = sureOf(circleOfPoints({ centre: origin, diameter: asMm(50), count: 5, start: asDegrees(90) }));
    expectClose(points, [
      [0, 25],
      [-23.7764, 7.7254],
      [-14.6946, -20.2254],
      [14.6946, -20.2254],
      [23.7764, 7.7254],
    ]);
    expect(sureOf(chordOnCircle(asMm(50), 5))).toBeCloseTo(29.3893, 3);
  });

  it('twelve straddling the centre lines of an 8 in circle: 4 sin 15 and 4 cos 15', () => {
    const [first] = sureOf(
      circleOfPoints({ centre: origin, diameter: inchesToMm(8), count: 12, start: asDegrees(15) }),
    );
    expect(mmToInches(first?.y ?? asMm(0))).toBeCloseTo(1.0353, 4);
    expect(mmToInches(first?.x ?? asMm(0))).toBeCloseTo(3.8637, 4);
  });

  it('clockwise numbers the same places the other way', () => {
    const circle = { centre: at(5, 5), diameter: asMm(20), count: 4, start: asDegrees(0) };
    expectClose(sureOf(circleOfPoints({ ...circle, direction: 'clockwise' })), [
      [15, 5],
      [5, -5],
      [-5, 5],
      [5, 15],
    ]);
  });

  it('a part circle has a point at both of its ends', () => {
    const arc = { centre: origin, diameter: asMm(20), count: 3, start: asDegrees(0), arc: asDegrees(180) };
    expectClose(sureOf(circleOfPoints(arc)), [
      [10, 0],
      [0, 10],
      [-10, 0],
    ]);
    expect(saidBy(circleOfPoints({ ...arc, count: 1 }))).toContain('from 2');
    expect(saidBy(circleOfPoints({ ...arc, arc: asDegrees(360) }))).toContain('arc of the part circle 360 deg');
  });

  it('points at the quarters share the very coordinate of the centre', () => {
    const [, second] = sureOf(circleOfPoints({ centre: at(1, 2), diameter: asMm(3), count: 4, start: asDegrees(0) }));
    expect(second?.x).toBe(1);
  });

  it('every point stands half a diameter from the centre, and neighbours a chord apart', () => {
    fc.assert(
      fc.property(
        place,
        fc.integer({ min: 2, max: 40 }),
        fc.double({ min: 0.5, max: 500, noNaN: true }),
        angle,
        (centre, count, diameter, start) => {
          const middle = at(centre.x, centre.y);
          const points = sureOf(
            circleOfPoints({ centre: middle, diameter: asMm(diameter), count, start: asDegrees(start) }),
          );
          const chord = sureOf(chordOnCircle(asMm(diameter), count));
          for (const [index, point] of points.entries()) {
            expect(distanceBetween(point, middle)).toBeCloseTo(diameter / 2, 8);
            expect(distanceBetween(point, points[(index + 1) % count] ?? point)).toBeCloseTo(chord, 8);
          }
        },
      ),
    );
  });

  it.each([0, -3, Number.NaN, 1e9])('a circle of %s mm is refused', (diameter) => {
    expect(
      saidBy(circleOfPoints({ centre: origin, diameter: asMm(diameter), count: 3, start: asDegrees(0) })),
    ).toContain('circle diameter');
    expect(chordOnCircle(asMm(diameter), 3).ok).toBe(false);
  });
});

describe('polar, mirror and turn', () => {
  it('(10, 0) and 20 at 90 degrees is (10, 20), and back', () => {
    expect(sureOf(polarPoint(at(10, 0), asMm(20), asDegrees(90)))).toEqual(at(10, 20));
    expect(sureOf(bearingOf(at(10, 0), at(10, 20)))).toEqual({ radius: 20, angle: 90 });
    expect(sureOf(bearingOf(origin, at(0, -3))).angle).toBe(270);
    expect(sureOf(bearingOf(origin, origin))).toEqual({ radius: 0, angle: 0 });
    expect(sureOf(bearingOf(origin, at(1, -1e-20))).angle).toBe(0);
  });

  it('a bearing taken and laid out again comes back to the point', () => {
    fc.assert(
      fc.property(place, place, (a, b) => {
        const { radius, angle: direction } = sureOf(bearingOf(at(a.x, a.y), at(b.x, b.y)));
        expect(near(sureOf(polarPoint(at(a.x, a.y), radius, direction)), at(b.x, b.y))).toBe(true);
      }),
    );
  });

  it('mirroring twice and turning there and back change nothing; turning keeps distances', () => {
    fc.assert(
      fc.property(place, place, angle, fc.constantFrom('at-x', 'at-y'), (p, c, turn, kind) => {
        const points = [at(p.x, p.y)];
        const line = { kind, at: asMm(c.x) };
        const twice = sureOf(mirrorPoints(sureOf(mirrorPoints(points, line)), line));
        const turned = sureOf(rotatePoints(points, at(c.x, c.y), asDegrees(turn)));
        const back = sureOf(rotatePoints(turned, at(c.x, c.y), asDegrees(-turn)));
        expect(near(twice[0] ?? origin, at(p.x, p.y))).toBe(true);
        expect(near(back[0] ?? origin, at(p.x, p.y))).toBe(true);
        expect(distanceBetween(turned[0] ?? origin, at(c.x, c.y))).toBeCloseTo(
          distanceBetween(at(p.x, p.y), at(c.x, c.y)),
          8,
        );
      }),
    );
  });

  it('about x = 30, (10, 5) becomes (50, 5); about y = 0, (10, -5)', () => {
    expect(pairs(sureOf(mirrorPoints([at(10, 5)], { kind: 'at-x', at: asMm(30) })))).toEqual([[50, 5]]);
    expect(pairs(sureOf(mirrorPoints([at(10, 5)], { kind: 'at-y', at: asMm(0) })))).toEqual([[10, -5]]);
  });

  it('places that are no numbers are refused by their number', () => {
    const broken = [origin, at(Number.NaN, 0)];
    expect(saidBy(mirrorPoints(broken, { kind: 'at-x', at: asMm(0) }))).toContain('X of the point 2');
    expect(saidBy(rotatePoints(broken, origin, asDegrees(10)))).toContain('X of the point 2');
    expect(saidBy(bearingOf(origin, at(0, Number.POSITIVE_INFINITY)))).toContain('Y of the point');
    expect(saidBy(polarPoint(origin, asMm(-1), asDegrees(0)))).toContain('radius -1 mm');
  });
});

describe('distances', () => {
  it('from a point to each side of the part', () => {
    const part = { left: asMm(0), right: asMm(100), front: asMm(-40), rear: asMm(0) };
    expect(distancesToEdges(at(10, -5), part)).toEqual({ left: 10, right: 90, front: 35, rear: 5, nearest: 5 });
    expect(distancesToEdges(at(-2, -5), part).nearest).toBe(-2);
  });

  it('walls between holes and over pins', () => {
    expect(distanceBetween(origin, at(30, 40))).toBe(50);
    expect(wallBetween(origin, asMm(10), at(20, 0), asMm(6))).toBe(12);
    expect(wallBetween(origin, asMm(10), at(7, 0), asMm(6))).toBe(-1);
    expect(overPins(origin, asMm(10), at(20, 0), asMm(6))).toBe(28);
  });

  it('to a straight cut: square to it, or to its end, or to a cut of no length', () => {
    expect(distanceToLine(at(5, 3), origin, at(10, 0))).toBe(3);
    expect(distanceToLine(at(14, 3), origin, at(10, 0))).toBe(5);
    expect(distanceToLine(at(-3, 4), origin, at(10, 0))).toBe(5);
    expect(distanceToLine(at(3, 4), origin, origin)).toBe(5);
  });

  it('the tip of a slot stands .235 in from the nearest tapped hole in the worked batch', () => {
    // Slot closed with a full radius, axis ending at 1.875 and tip at 1.750; hole of .164 at 1.433, both .500 from the jaw.
    const axisEnd = at(inchesToMm(1.875), inchesToMm(-0.5));
    const hole = at(inchesToMm(1.433), inchesToMm(-0.5));
    const start = at(inchesToMm(2.675), inchesToMm(-0.5));
    const wall = distanceToLine(hole, start, axisEnd) - inchesToMm(0.125) - inchesToMm(0.082);
    expect(mmToInches(asMm(wall))).toBeCloseTo(0.235, 6);
  });
});
