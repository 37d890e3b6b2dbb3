import { describe, expect, it } from 'vitest';
import {
  approachFromTouch,
  countingAtTouch,
  type DialAxis,
  dialCount,
  dialReading,
  formatDialReading,
  windMove,
  windPastDivisions,
} from '../../src/shop/dials.ts';
import { distanceBetween, overPins } from '../../src/shop/distances.ts';
import { circleOfPoints, type Position } from '../../src/shop/patterns.ts';
import { asDegrees, asMm, type Mm } from '../../src/shop/quantities.ts';
import { sureOf } from '../../src/shop/refusal.ts';
import { inchesToMm, mmToInches } from '../../src/shop/units.ts';
import { countWindings, travelAlong, visitingOrder } from '../../src/shop/visiting-order.ts';
import { zeroSetting } from '../../src/shop/zero.ts';

// One batch worked by hand: 60 inch blocks on a mill with dials only, .200 in a turn and 200 divisions on X and Y.
// X: handle clockwise counts up, tool goes right. Y: clockwise counts up, tool comes towards the user; zero at the rear jaw.
const dial = { perTurn: inchesToMm(0.2), divisions: 200 };
const xAxis: DialAxis = { dial, clockwiseMoves: 'plus', clockwiseCounts: 'up', backlash: inchesToMm(0.008) };
const yAxis: DialAxis = { dial, clockwiseMoves: 'minus', clockwiseCounts: 'up', backlash: inchesToMm(0.006) };
const at = (xInches: number, fromJawInches: number): Position => ({
  x: inchesToMm(xInches),
  y: inchesToMm(-fromJawInches),
});
const circle = sureOf(circleOfPoints({ centre: at(1, 0.75), diameter: inchesToMm(1), count: 6, start: asDegrees(30) }));
const [deg30, deg90, deg150, deg210, deg270, deg330] = circle as [
  Position,
  Position,
  Position,
  Position,
  Position,
  Position,
];
const centre = at(1, 0.75);
const read = (position: Mm, axis: DialAxis): string =>
  formatDialReading(sureOf(dialReading(dialCount(position, axis), axis.dial)));

describe('a worked batch on dials: zero', () => {
  const x = sureOf(zeroSetting({ kind: 'edge-finder', edgeAt: asMm(0), tip: inchesToMm(0.2), side: 'plus' }));
  const y = sureOf(zeroSetting({ kind: 'edge-finder', edgeAt: asMm(0), tip: inchesToMm(0.2), side: 'minus' }));

  it('the finder to the right of the stop sets the X dial to 0 + 100', () => {
    expect(mmToInches(x.set)).toBeCloseTo(0.1, 9);
    expect(read(x.set, xAxis)).toBe('0 + 100');
  });

  it('the finder in front of the rear jaw sets the Y dial to 0 + 100, its coordinate being negative', () => {
    expect(mmToInches(y.set)).toBeCloseTo(-0.1, 9);
    expect(read(y.set, yAxis)).toBe('0 + 100');
  });

  it('both were touched with the dial counting down, so both are approached counting down', () => {
    expect(countingAtTouch(x.touchMoves, xAxis)).toBe('down');
    expect(countingAtTouch(y.touchMoves, yAxis)).toBe('down');
  });

  it('winding past by 50 divisions takes up more than the backlash', () => {
    expect(sureOf(windPastDivisions(dial, xAxis.backlash))).toBe(50);
    expect(sureOf(windPastDivisions(dial, yAxis.backlash))).toBe(50);
  });

  it('a .002 feeler under the tool sets the depth dial (.100 a turn, 100 divisions, counting down the quill) 2 before 0', () => {
    const z = sureOf(zeroSetting({ kind: 'feeler', surfaceAt: asMm(0), feeler: inchesToMm(0.002) }));
    const depth = sureOf(dialReading(asMm(-z.set), { perTurn: inchesToMm(0.1), divisions: 100 }));
    expect(depth).toMatchObject({ side: 'below', turns: 0, divisions: 2, face: 98 });
  });
});

describe('a worked batch on dials: points', () => {
  it.each([
    ['30 deg', deg30, '7 + 33', '2 + 100'],
    ['90 deg', deg90, '5 + 0', '1 + 50'],
    ['150 deg', deg150, '2 + 167', '2 + 100'],
    ['210 deg', deg210, '2 + 167', '5 + 0'],
    ['270 deg', deg270, '5 + 0', '6 + 50'],
    ['330 deg', deg330, '7 + 33', '5 + 0'],
    ['centre', centre, '5 + 0', '3 + 150'],
    ['slot, start', at(2.675, 0.5), '13 + 75', '2 + 100'],
    ['slot, end of the axis', at(1.875, 0.5), '9 + 75', '2 + 100'],
    ['op 30, start', at(2.78, 3.3), '13 + 180', '16 + 100'],
    ['op 40, past the jaw', at(2.75, -0.3), '13 + 150', '1 + 100 below zero (scale 100)'],
  ])('%s', (_name, point, x, y) => {
    expect(read(point.x, xAxis)).toBe(x);
    expect(read(point.y, yAxis)).toBe(y);
  });

  it.each([
    ['skim .780', 0.78, '7 + 80'],
    ['spot .090', 0.09, '0 + 90'],
    ['spot .1975', 0.1975, '1 + 97.5'],
    ['drill .603', 0.603, '6 + 3'],
    ['slot .060', 0.06, '0 + 60'],
    ['slot .125', 0.125, '1 + 25'],
    ['drill .908', 0.908, '9 + 8'],
    ['ream .860', 0.86, '8 + 60'],
  ])('depth %s on the quill dial of .100 a turn and 100 divisions', (_name, depth, text) => {
    const quill = { perTurn: inchesToMm(0.1), divisions: 100 };
    expect(formatDialReading(sureOf(dialReading(inchesToMm(depth), quill)))).toBe(text);
  });

  it('shanks in opposite tapped holes read 1.136 over all, in neighbours .636', () => {
    const shank = inchesToMm(0.136);
    expect(mmToInches(overPins(deg30, shank, deg210, shank))).toBeCloseTo(1.136, 9);
    expect(mmToInches(overPins(deg30, shank, deg90, shank))).toBeCloseTo(0.636, 9);
    expect(mmToInches(distanceBetween(deg30, deg210))).toBeCloseTo(1, 9);
  });
});

describe('a worked batch on dials: order of visit', () => {
  // Touched moving left (minus) and away from the user (plus).
  const sides = approachFromTouch('minus', 'plus');

  it('six holes: 330, 30, 90, 270, 210, 150 with 1 winding past and 3.366 in of winding', () => {
    const best = sureOf(visitingOrder(circle, sides));
    expect(best.order).toEqual([5, 0, 1, 4, 3, 2]);
    expect(best).toMatchObject({ windings: 1, proven: true });
    expect(mmToInches(best.travel)).toBeCloseTo(3.366, 3);
  });

  it('taken by angle they need 5 windings past', () => {
    expect(countWindings(circle, sides)).toBe(5);
  });

  it('with the centre: 330, 30, 90, centre, 270, 210, 150 with 2 windings past', () => {
    const best = sureOf(visitingOrder([...circle, centre], sides));
    expect(best.order).toEqual([5, 0, 1, 6, 4, 3, 2]);
    expect(best.windings).toBe(2);
    expect(mmToInches(travelAlong([deg330, deg30, deg90, centre, deg270, deg210, deg150]))).toBeCloseTo(3.366, 3);
  });

  it('before 270 the Y handle goes clockwise past to 6 + 100 and comes back anticlockwise to 6 + 50', () => {
    const move = sureOf(windMove(deg90.y, deg270.y, yAxis, 'down'));
    expect(move).toMatchObject({ kind: 'past', turn: 'clockwise', beyondDivisions: 50, back: 'anticlockwise' });
    expect(move.kind === 'past' && formatDialReading(move.past)).toBe('6 + 100');
    expect(formatDialReading(move.reading)).toBe('6 + 50');
  });
});
