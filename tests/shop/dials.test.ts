import fc from 'fast-check';
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
import { asMm } from '../../src/shop/quantities.ts';
import { formatRefusal, sureOf } from '../../src/shop/refusal.ts';
import { inchesToMm } from '../../src/shop/units.ts';

const metric = { perTurn: asMm(2.5), divisions: 125 };
const axis: DialAxis = { dial: metric, clockwiseMoves: 'plus', clockwiseCounts: 'up', backlash: asMm(0.2) };

describe('dial readings', () => {
  it.each([
    ['12.34 mm at 2.5 a turn, 125 divisions', asMm(12.34), metric, 4, 117],
    ['17.35 mm at 2.5 a turn, 100 divisions', asMm(17.35), { perTurn: asMm(2.5), divisions: 100 }, 6, 94],
    ['1.375 in at .1 a turn, 100 divisions', inchesToMm(1.375), { perTurn: inchesToMm(0.1), divisions: 100 }, 13, 75],
    ['1.375 in at .2 a turn, 200 divisions', inchesToMm(1.375), { perTurn: inchesToMm(0.2), divisions: 200 }, 6, 175],
    // 12 mm is .47244 in: 72.44 divisions, to the nearest half.
    ['12 mm on a dial of .1 in', asMm(12), { perTurn: inchesToMm(0.1), divisions: 100 }, 4, 72.5],
    ['a hair below a full turn rounds up into it', asMm(4.9999), metric, 2, 0],
  ])('%s (arithmetic)', (_name, count, dial, turns, divisions) => {
    expect(sureOf(dialReading(count, dial))).toMatchObject({ turns, divisions });
  });

  it('below zero it counts back, and says what the scale shows', () => {
    const reading = sureOf(dialReading(asMm(-0.5), metric));
    expect(reading).toMatchObject({ side: 'below', turns: 0, divisions: 25, face: 100 });
    expect(formatDialReading(reading)).toBe('0 + 25 below zero (scale 100)');
    expect(sureOf(dialReading(asMm(-5), metric))).toMatchObject({ turns: 2, divisions: 0, face: 0 });
  });

  it('at zero it is at zero, whatever the sign', () => {
    expect(sureOf(dialReading(asMm(-0.001), metric))).toMatchObject({
      side: 'at zero',
      turns: 0,
      divisions: 0,
      stands: 0,
    });
  });

  it('turns and divisions lead back to within a quarter division, never a full turn of divisions', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -900, max: 900, noNaN: true }),
        fc.constantFrom(20, 100, 125, 200, 250),
        (count, divisions) => {
          const dial = { perTurn: asMm(2.5), divisions };
          const reading = sureOf(dialReading(asMm(count), dial));
          const size = (reading.turns + reading.divisions / divisions) * 2.5;
          expect(reading.divisions).toBeLessThan(divisions);
          expect(Math.abs((count < 0 ? -size : size) - count)).toBeLessThanOrEqual(2.5 / divisions / 4 + 1e-6);
          expect(reading.stands).toBeCloseTo(reading.side === 'below' ? -size : size, 9);
        },
      ),
    );
  });

  it.each([0, -1, Number.NaN, 1e9])('a turn of %s mm is refused, and so are such divisions and distances', (bad) => {
    expect(dialReading(asMm(1), { ...metric, perTurn: asMm(bad) }).ok).toBe(false);
    expect(dialReading(asMm(1), { ...metric, divisions: bad }).ok).toBe(false);
    if (bad !== 0 && bad !== -1) expect(dialReading(asMm(bad), metric).ok).toBe(false);
  });

  it('half a line is no dial', () => {
    const result = dialReading(asMm(1), { ...metric, divisions: 99.5 });
    expect(result.ok ? '' : formatRefusal(result.problem)).toContain('divisions of the dial 99.5');
  });
});

describe('handles', () => {
  it.each([
    ['plus', 'up', 5],
    ['minus', 'up', -5],
    ['plus', 'down', -5],
    ['minus', 'down', 5],
  ] as const)('clockwise moves %s and counts %s: +5 mm counts %s', (clockwiseMoves, clockwiseCounts, count) => {
    const one = { ...axis, clockwiseMoves, clockwiseCounts };
    expect(dialCount(asMm(5), one)).toBe(count);
    expect(countingAtTouch('plus', one)).toBe(count > 0 ? 'up' : 'down');
    expect(countingAtTouch('minus', one)).toBe(count > 0 ? 'down' : 'up');
    expect(countingAtTouch('none', one)).toBe('either');
    expect(Object.is(dialCount(asMm(0), one), 0)).toBe(true);
  });

  it('the approach follows the touch', () => {
    expect(approachFromTouch('minus', 'plus')).toEqual({ x: 'shrinking', y: 'growing' });
    expect(approachFromTouch('none', 'minus')).toEqual({ x: 'either', y: 'shrinking' });
  });

  it.each([
    [metric, 0.2, 35],
    [metric, 0.5, 50],
    [{ perTurn: asMm(2), divisions: 100 }, 0, 25],
    [{ perTurn: asMm(5), divisions: 250 }, 0.1, 65],
  ])(
    '%j with %s mm backlash is wound past by %s divisions: a quarter turn or twice the backlash',
    (dial, backlash, past) => {
      expect(sureOf(windPastDivisions(dial, asMm(backlash)))).toBe(past);
    },
  );

  it('a move with the approach goes straight there, one against it goes past and comes back', () => {
    const direct = sureOf(windMove(asMm(10), asMm(22.34), axis, 'up'));
    expect(direct).toMatchObject({
      kind: 'direct',
      turn: 'clockwise',
      reading: { turns: 8, divisions: 117 },
      by: { turns: 4, divisions: 117 },
    });
    const past = sureOf(windMove(asMm(22.5), asMm(10), axis, 'up'));
    expect(past).toMatchObject({
      kind: 'past',
      turn: 'anticlockwise',
      back: 'clockwise',
      beyondDivisions: 35,
      reading: { turns: 4, divisions: 0 },
      past: { turns: 3, divisions: 90 },
    });
    expect(sureOf(windMove(asMm(10), asMm(22.5), axis, 'down'))).toMatchObject({
      kind: 'past',
      turn: 'clockwise',
      past: { turns: 9, divisions: 35 },
    });
    expect(sureOf(windMove(asMm(22.5), asMm(10), axis, 'either'))).toMatchObject({
      kind: 'direct',
      turn: 'anticlockwise',
    });
  });

  it('an axis that stands is left alone', () => {
    expect(sureOf(windMove(asMm(10), asMm(10.004), axis, 'down'))).toMatchObject({
      kind: 'still',
      reading: { turns: 4, divisions: 0 },
    });
  });

  it('the last way turned is always the approach, and past means more than the backlash', () => {
    const place = fc.double({ min: -200, max: 200, noNaN: true });
    const way = fc.constantFrom('up', 'down');
    fc.assert(
      fc.property(place, place, way, fc.double({ min: 0, max: 1, noNaN: true }), (from, to, approach, backlash) => {
        const one = { ...axis, backlash: asMm(backlash) };
        const move = sureOf(windMove(asMm(from), asMm(to), one, approach));
        const last = move.kind === 'past' ? move.back : move.kind === 'direct' ? move.turn : undefined;
        if (last !== undefined) expect(last).toBe(approach === 'up' ? 'clockwise' : 'anticlockwise');
        if (move.kind === 'past') expect(Math.abs(move.past.stands - move.reading.stands)).toBeGreaterThan(backlash);
      }),
    );
  });

  it.each([Number.NaN, 1e9])('a place of %s mm is refused, and a backlash of 11', (bad) => {
    expect(windMove(asMm(bad), asMm(0), axis, 'up').ok).toBe(false);
    expect(windMove(asMm(0), asMm(bad), axis, 'up').ok).toBe(false);
    expect(windMove(asMm(0), asMm(5), { ...axis, backlash: asMm(11) }, 'up').ok).toBe(false);
    expect(windPastDivisions(metric, asMm(-1)).ok).toBe(false);
  });
});
