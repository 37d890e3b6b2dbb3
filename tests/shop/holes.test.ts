import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Cone, chamferMouth, coneDepth, coneMouth, coneTravelInHole } from '../../src/shop/cones.ts';
import {
  BREAKTHROUGH_ALLOWANCE,
  blindHole,
  fullDiameterDepth,
  isThinStock,
  pointLength,
  throughTravel,
  tipDepth,
  USUAL_POINT_ANGLE,
} from '../../src/shop/drilling.ts';
import { asDegrees, asMm } from '../../src/shop/quantities.ts';
import { inchReamingStock, judgeReamingStock, metricReamingStock, reamingDrill } from '../../src/shop/reaming.ts';
import { sureOf } from '../../src/shop/refusal.ts';
import { sineBarAngle, sineBarStack } from '../../src/shop/sine-bar.ts';
import { inchesToMm, mmToInches } from '../../src/shop/units.ts';
import points from './fixtures/point-factors.json' with { type: 'json' };

const drill = (diameter: number, angle = 118) => ({ diameter: asMm(diameter), angle: asDegrees(angle) });
const cone = (angle: number, tip = 0, largest?: number): Cone => ({
  angle: asDegrees(angle),
  tip: asMm(tip),
  ...(largest === undefined ? {} : { largest: asMm(largest) }),
});
const BAD = [0, -1, Number.NaN, Number.POSITIVE_INFINITY, 1e6];
const anyDiameter = fc.double({ min: 0.2, max: 50, noNaN: true });
const anyAngle = fc.double({ min: 10, max: 170, noNaN: true });

describe('the point of a drill', () => {
  // Table of point and countersink factors.
  it.each(points.rows.map((row) => [row.included_angle_deg, row] as const))(
    'of %f degrees has its factor',
    (angle, row) => {
      const length = sureOf(pointLength(asMm(1), asDegrees(angle)));
      expect(length).toBeCloseTo(row.point_length_per_diameter, 6);
      if (row.published_factor !== null) expect(length).toBeCloseTo(row.published_factor, 4);
    },
  );

  it.each([
    [10, 118, 3.004, 0.0005],
    [8, 118, 2.4034, 0.00005],
    [0.104 * 25.4, 118, 0.031 * 25.4, 0.0127],
    [0.3594 * 25.4, 118, 0.108 * 25.4, 0.0127],
    [0.136 * 25.4, 118, 0.0409 * 25.4, 0.00127],
  ])('of %f mm at %f degrees is %f mm', (diameter, angle, length, within) => {
    expect(Math.abs(sureOf(pointLength(asMm(diameter), asDegrees(angle))) - length)).toBeLessThan(within);
  });

  it('grows with the diameter and shrinks with the angle', () => {
    fc.assert(
      fc.property(anyDiameter, anyAngle, (d, a) => {
        const length = sureOf(pointLength(asMm(d), asDegrees(a)));
        expect(sureOf(pointLength(asMm(d * 2), asDegrees(a)))).toBeCloseTo(2 * length, 8);
        expect(sureOf(pointLength(asMm(d), asDegrees(a + 1)))).toBeLessThan(length);
      }),
    );
  });

  it.each([0, 180, -118, 200, Number.NaN])('an angle of %f degrees is refused and named', (angle) => {
    const found = pointLength(asMm(10), asDegrees(angle));
    expect(found).toMatchObject({ ok: false, problem: { what: 'point angle', found: `${angle} deg` } });
  });
  it.each(BAD)('a diameter of %f mm is refused', (diameter) => {
    expect(pointLength(asMm(diameter), USUAL_POINT_ANGLE).ok).toBe(false);
  });
});

describe('depths of drilled holes', () => {
  it('a 6 mm plate, 10 mm drill and the usual allowance are 10.004 mm of travel', () => {
    expect(sureOf(throughTravel(asMm(6), drill(10), BREAKTHROUGH_ALLOWANCE))).toBeCloseTo(10.004, 3);
  });

  // Worked batch of our own: .750 + .108 + .050; .5625 full diameter, no. 29.
  it('.750 in with 23/64 and .050 past it is .908; no. 29 full to .5625 has its tip at .603', () => {
    const through = throughTravel(inchesToMm(0.75), drill(inchesToMm(23 / 64)), inchesToMm(0.05));
    expect(mmToInches(sureOf(through))).toBeCloseTo(0.908, 3);
    expect(mmToInches(sureOf(tipDepth(inchesToMm(0.5625), drill(inchesToMm(0.136)))))).toBeCloseTo(0.603, 3);
    const floor = sureOf(blindHole(inchesToMm(0.75), inchesToMm(0.5625), drill(inchesToMm(0.136))));
    expect(floor.kind === 'blind' ? mmToInches(floor.floor) : 0).toBeCloseTo(0.147, 3);
  });

  it('a 12 mm hole full to 15 mm leaves a floor of 1.3948 mm in a 20 mm plate', () => {
    const found = sureOf(blindHole(asMm(20), asMm(15), drill(12)));
    expect(found).toMatchObject({
      kind: 'blind',
      floor: expect.closeTo(1.3948, 4),
      tipDepth: expect.closeTo(18.6052, 4),
    });
  });

  it('full to 18 mm it breaks through, and meeting the face is breaking through by nothing', () => {
    expect(sureOf(blindHole(asMm(20), asMm(18), drill(12)))).toMatchObject({
      kind: 'breaks through',
      pastFarFace: expect.closeTo(1.6052, 4),
    });
    const thickness = asMm(sureOf(tipDepth(asMm(15), drill(12))));
    expect(sureOf(blindHole(thickness, asMm(15), drill(12)))).toMatchObject({ kind: 'breaks through', pastFarFace: 0 });
  });

  it('a point of 2.40 mm is longer than 1.5 mm stock, and not longer than 2.5 mm', () => {
    expect(sureOf(isThinStock(asMm(1.5), drill(8)))).toBe(true);
    expect(sureOf(isThinStock(asMm(2.5), drill(8)))).toBe(false);
  });

  it('tip and full diameter are each other backwards, and through is deeper than thick', () => {
    fc.assert(
      fc.property(anyDiameter, anyAngle, fc.double({ min: 0.1, max: 200, noNaN: true }), (d, a, depth) => {
        const tip = sureOf(tipDepth(asMm(depth), drill(d, a)));
        expect(sureOf(fullDiameterDepth(tip, drill(d, a)))).toBeCloseTo(depth, 6);
        expect(sureOf(throughTravel(asMm(depth), drill(d, a), asMm(0)))).toBeCloseTo(tip, 9);
        expect(tip).toBeGreaterThan(depth);
      }),
    );
  });

  it.each(BAD)('a thickness or depth of %f is refused', (bad) => {
    expect(throughTravel(asMm(bad), drill(10), asMm(1)).ok).toBe(false);
    expect(tipDepth(asMm(bad), drill(10)).ok).toBe(false);
    expect(fullDiameterDepth(asMm(bad), drill(10)).ok).toBe(false);
    expect(blindHole(asMm(bad), asMm(5), drill(10)).ok).toBe(false);
    expect(blindHole(asMm(20), asMm(bad), drill(10)).ok).toBe(false);
    expect(isThinStock(asMm(bad), drill(10)).ok).toBe(false);
    expect(isThinStock(asMm(5), drill(bad)).ok).toBe(false);
  });
  it('an allowance below zero is refused', () => expect(throughTravel(asMm(6), drill(10), asMm(-1)).ok).toBe(false));
});

describe('cones', () => {
  // Engineering page of countersink depths; geometry.
  it.each([
    [8, cone(90, 1), 3.5],
    [10, cone(90, 2), 4],
    [5, cone(60, 1.5), 3.0311],
    [12.7, cone(82), 0.2876 * 25.4],
    [9.4, cone(90), 4.7],
    [0.18 * 25.4, cone(90), 0.09 * 25.4],
    [0.395 * 25.4, cone(90), 0.1975 * 25.4],
  ])('a mouth of %f mm is %o deep', (mouth, tool, depth) => {
    expect(Math.abs(sureOf(coneDepth(asMm(mouth), tool)) - depth)).toBeLessThan(0.0025);
  });

  it('a 0.5 mm chamfer on a 5 mm hole: mouth 6 mm, travel 0.5 mm; 11.2 mm in 5.5 mm: 2.85 mm', () => {
    expect(sureOf(chamferMouth(asMm(5), asMm(0.5)))).toBe(6);
    expect(sureOf(coneTravelInHole(asMm(5), asMm(6), cone(90)))).toBeCloseTo(0.5, 9);
    expect(sureOf(coneTravelInHole(asMm(5.5), asMm(11.2), cone(90)))).toBeCloseTo(2.85, 9);
  });

  it('depth and mouth are each other backwards, a wider mouth is deeper, and a hole shortens the way', () => {
    fc.assert(
      fc.property(
        anyDiameter,
        fc.double({ min: 20, max: 160, noNaN: true }),
        fc.double({ min: 0, max: 0.9, noNaN: true }),
        (mouth, angle, share) => {
          const tool = cone(angle, mouth * share);
          const depth = sureOf(coneDepth(asMm(mouth), tool));
          expect(sureOf(coneMouth(depth, tool))).toBeCloseTo(mouth, 6);
          expect(sureOf(coneDepth(asMm(mouth * 1.1), tool))).toBeGreaterThan(depth);
          const hole = asMm(mouth * (share + 1) * 0.5);
          expect(sureOf(coneTravelInHole(hole, asMm(mouth), tool))).toBeLessThan(depth);
        },
      ),
    );
  });

  it.each([0, 180, -90, Number.NaN])('an angle of %f degrees is refused', (angle) => {
    expect(coneDepth(asMm(8), cone(angle)).ok).toBe(false);
    expect(coneMouth(asMm(3), cone(angle)).ok).toBe(false);
    expect(coneTravelInHole(asMm(5), asMm(8), cone(angle)).ok).toBe(false);
  });
  it.each([...BAD, 1])('a mouth of %f mm is refused with a tip of 1 mm', (mouth) => {
    expect(coneDepth(asMm(mouth), cone(90, 1)).ok).toBe(false);
  });
  it('beyond the largest diameter of the tool it is refused, both ways', () => {
    expect(coneDepth(asMm(13), cone(90, 0, 12.7)).ok).toBe(false);
    expect(coneDepth(asMm(12.7), cone(90, 0, 12.7)).ok).toBe(true);
    expect(coneMouth(asMm(7), cone(90, 0, 12.7)).ok).toBe(false);
  });
  it.each([0, -1, Number.NaN, 1e6])('a depth of %f mm is refused', (depth) => {
    expect(coneMouth(asMm(depth), cone(90)).ok).toBe(false);
  });
  it('a flat that cannot enter the hole, a mouth inside the hole, a bad chamfer or tip are refused', () => {
    expect(coneTravelInHole(asMm(2), asMm(6), cone(90, 2)).ok).toBe(false);
    expect(coneTravelInHole(asMm(6), asMm(6), cone(90)).ok).toBe(false);
    expect(chamferMouth(asMm(0), asMm(1)).ok).toBe(false);
    expect(chamferMouth(asMm(5), asMm(-1)).ok).toBe(false);
    expect(chamferMouth(asMm(240), asMm(20)).ok).toBe(false);
    expect(coneDepth(asMm(5), cone(90, -1)).ok).toBe(false);
  });
});

describe('reaming', () => {
  // Inch reaming table; trainees' course on manual reaming.
  it.each([
    [0.125, 0.005, 0.01],
    [0.17, 0.005, 0.01],
    [0.25, 0.008, 0.012],
    [0.375, 0.01, 0.016],
    [1, 0.015, 0.03],
  ])('a reamer of %f in wants %f to %f in', (reamer, least, most) => {
    const found = sureOf(inchReamingStock(inchesToMm(reamer)));
    expect([mmToInches(found.least), mmToInches(found.most)]).toEqual([
      expect.closeTo(least, 9),
      expect.closeTo(most, 9),
    ]);
  });
  it.each([
    [5, 0.1, 0.2],
    [5.1, 0.2, 0.3],
    [20, 0.2, 0.3],
    [50, 0.3, 0.5],
  ])('a reamer of %f mm wants %f to %f mm', (reamer, least, most) => {
    expect(sureOf(metricReamingStock(asMm(reamer)))).toMatchObject({ least, most });
  });
  it('a 10 mm reamer takes a drill of 9.65 to 9.75 mm', () => {
    const found = sureOf(reamingDrill(asMm(10)));
    expect([found.smallest, found.largest]).toEqual([expect.closeTo(9.65, 9), expect.closeTo(9.75, 9)]);
    expect(reamingDrill(asMm(60)).ok).toBe(false);
  });

  // 23/64 for 3/8: worked batch of our own. 2.9, 4.85, 7.8: practice of model engineers.
  it.each([
    [9.525, 25.4 * (23 / 64), 'sound'],
    [3, 2.9, 'sound'],
    [5, 4.85, 'sound'],
    [8, 7.8, 'sound'],
    [10, 9.7, 'sound'],
    [60, 59.5, 'sound'],
    [10, 9.0, 'too much'],
    [10, 9.98, 'too little'],
    [60, 50, 'too much'],
    [60, 59.9, 'too little'],
  ])('%f mm after %f mm is %s', (reamer, size, kind) => {
    expect(sureOf(judgeReamingStock(asMm(reamer), asMm(size))).kind).toBe(kind);
  });
  it.each([
    [0, 1],
    [100, 99],
    [10, 10],
    [10, 0],
    [Number.NaN, 9],
    [10, Number.NaN],
  ])('%f mm after %f mm is refused', (reamer, size) => {
    expect(judgeReamingStock(asMm(reamer), asMm(size)).ok).toBe(false);
  });
});

describe('sine bar', () => {
  // Gauge supplier and explainer pages; L sin A.
  it.each([
    [127, 27, 2.27 * 25.4, 0.0127],
    [127, 23 + 41 / 60, 2.0084 * 25.4, 0.0077],
    [127, 18, 1.545 * 25.4, 0.0127],
    [100, 12.5, 21.644, 0.001],
  ])('%f mm between rollers at %f degrees wants %f mm', (centres, angle, stack, within) => {
    expect(Math.abs(sureOf(sineBarStack(asMm(centres), asDegrees(angle))) - stack)).toBeLessThan(within);
  });
  it('angle and stack are each other backwards, and a larger angle is higher', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 59, noNaN: true }), (angle) => {
        const stack = sureOf(sineBarStack(asMm(100), asDegrees(angle)));
        expect(sureOf(sineBarAngle(asMm(100), stack))).toBeCloseTo(angle, 6);
        expect(sureOf(sineBarStack(asMm(100), asDegrees(angle + 0.5)))).toBeGreaterThan(stack);
      }),
    );
  });
  it.each([-1, 61, 90, Number.NaN])('%f degrees is refused', (angle) => {
    expect(sineBarStack(asMm(100), asDegrees(angle)).ok).toBe(false);
  });
  it.each([0, -1, Number.NaN])('%f mm between the rollers is refused', (centres) => {
    expect(sineBarStack(asMm(centres), asDegrees(10)).ok).toBe(false);
    expect(sineBarAngle(asMm(centres), asMm(10)).ok).toBe(false);
  });
  it('a stack as high as the bar is long is refused', () => expect(sineBarAngle(asMm(100), asMm(120)).ok).toBe(false));
});
