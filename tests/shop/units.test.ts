import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asMetresPerMinute, asMm, asSeconds } from '../../src/shop/quantities.ts';
import { andThen, answer, formatRange, refuse, refuseOutside, sureOf, sureRow } from '../../src/shop/refusal.ts';
import {
  asFeetPerMinute,
  feetPerMinute,
  formatCuttingSpeed,
  formatDuration,
  formatFixed,
  formatInches,
  formatLength,
  formatMm,
  formatTrimmed,
  inchesToMm,
  mmToInches,
  roundToResolution,
} from '../../src/shop/units.ts';

describe('conversion', () => {
  it('an inch is 25.4 mm and a foot a minute 0.3048 m/min, exactly', () => {
    expect(inchesToMm(1)).toBe(25.4);
    expect(feetPerMinute(100)).toBeCloseTo(30.48, 12);
    expect(asFeetPerMinute(asMetresPerMinute(30.48))).toBeCloseTo(100, 12);
  });

  it('23/64 in is .359375 in', () => expect(mmToInches(inchesToMm(23 / 64))).toBeCloseTo(0.359375, 9));

  it('there and back is the same', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e4, max: 1e4, noNaN: true }), (value) => {
        expect(mmToInches(inchesToMm(value))).toBeCloseTo(value, 9);
      }),
    );
  });
});

describe('rounding to a resolution', () => {
  it.each([
    [1.0025, 0.005, 1.005],
    [-1.0025, 0.005, -1.005],
    [12.3456, 0.01, 12.35],
    [2.675, 0.01, 2.68],
    [1.005, 0.01, 1.01],
    [0.1 + 0.2, 0.1, 0.3],
    [-0.001, 0.01, 0],
    [0.35 * 3, 0.1, 1.1],
    [7, 5, 5],
    [12.7, 0.0254, 12.7],
    [123456.789, 0.005, 123456.79],
  ])('%f at %f is %f, halves away from zero', (value, resolution, expected) => {
    expect(Object.is(roundToResolution(value, resolution), expected)).toBe(true);
  });

  const resolution = fc.constantFrom(0.001, 0.005, 0.01, 0.0127, 0.0254, 0.02, 0.1, 1);

  it('lies within half a step, changes nothing the second time, and mirrors about zero', () => {
    fc.assert(
      fc.property(fc.double({ min: -5000, max: 5000, noNaN: true }), resolution, (value, step) => {
        const rounded = roundToResolution(value, step);
        expect(Math.abs(rounded - value)).toBeLessThanOrEqual(step * 0.500002);
        expect(roundToResolution(rounded, step)).toBe(rounded);
        expect(roundToResolution(-value, step)).toBe(rounded === 0 ? 0 : -rounded);
      }),
    );
  });

  it('absolute positions do not drift as sums of rounded steps do', () => {
    const pitch = 10 / 3;
    const sum = Array.from({ length: 300 }, () => roundToResolution(pitch, 0.005)).reduce((a, b) => a + b, 0);
    expect(Math.abs(roundToResolution(300 * pitch, 0.005) - 1000)).toBeLessThan(1e-9);
    expect(Math.abs(sum - 1000)).toBeGreaterThan(0.4);
  });
});

describe('numbers as text', () => {
  it.each([
    [formatFixed(1.005, 2), '1.01'],
    [formatFixed(-0.001, 2), '0.00'],
    [formatTrimmed(13.5, 3), '13.5'],
    [formatTrimmed(13, 3), '13'],
    [formatTrimmed(100, 0), '100'],
    [formatMm(asMm(12.34)), '12.340'],
    [formatInches(asMm(19.05)), '.750'],
    [formatInches(asMm(-12.7)), '-.500'],
    [formatInches(asMm(50.8)), '2.000'],
    [formatInches(asMm(-0.0001)), '.000'],
    [formatLength(asMm(12.34), 'mm'), '12.34 mm'],
    [formatLength(asMm(19.05), 'inch'), '.750 in'],
    [formatCuttingSpeed(asMetresPerMinute(30), 'mm'), '30 m/min'],
    [formatCuttingSpeed(asMetresPerMinute(30), 'inch'), '98 ft/min'],
    [formatCuttingSpeed(asMetresPerMinute(1.52), 'mm'), '1.5 m/min'],
    [formatDuration(asSeconds(4800)), '1 h 20 min'],
    [formatDuration(asSeconds(95)), '1 min 35 s'],
    [formatDuration(asSeconds(7.25)), '7.3 s'],
    [formatDuration(asSeconds(0)), '0 s'],
    [formatDuration(asSeconds(3600)), '1 h'],
  ])('%s is %s', (text, expected) => expect(text).toBe(expected));
});

describe('refusals', () => {
  const range = { what: 'x', unit: '', remedy: 'r' };
  it('a range says its ends and which of them belong to it', () => {
    expect(formatRange({ ...range, unit: 'deg', above: 0, below: 180 })).toBe('above 0 deg, below 180 deg');
    expect(formatRange({ ...range, from: 1, upTo: 2 })).toBe('from 1, at most 2');
    expect(formatRange(range)).toBe('any finite number');
  });

  it.each([
    [0, { above: 0 }],
    [-1, { from: 0 }],
    [3, { upTo: 2 }],
    [2, { below: 2 }],
    [Number.NaN, {}],
    [Number.POSITIVE_INFINITY, {}],
  ])('%f is outside %j', (value, ends) => expect(refuseOutside(value, { ...range, ...ends })).toBeDefined());

  it.each([
    [0, { from: 0, upTo: 0 }],
    [1, { above: 0, below: 2 }],
  ])('%f is inside %j', (value, ends) => expect(refuseOutside(value, { ...range, ...ends })).toBeUndefined());

  it('an answer goes on to the next question, a refusal goes through, and certainty broken throws', () => {
    const no = refuse({ what: 'a', found: 'b', allowed: 'c', remedy: 'd' });
    expect(andThen(answer(2), (two) => answer(two + 1))).toEqual({ ok: true, value: 3 });
    expect(andThen(no, () => answer(1))).toBe(no);
    expect(sureRow(1)).toBe(1);
    expect(() => sureRow(undefined)).toThrow('no table row');
    expect(() => sureOf(no)).toThrow('refused where an answer was certain: a b: allowed is c; d');
  });
});
