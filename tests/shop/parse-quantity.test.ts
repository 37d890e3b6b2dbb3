import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readDecimal } from '../../src/shop/number-text.ts';
import {
  parseAngle,
  parseCount,
  parseCuttingSpeed,
  parseDuration,
  parseFeed,
  parsePercent,
  parseSpindleSpeed,
} from '../../src/shop/parse-quantity.ts';
import { asSeconds } from '../../src/shop/quantities.ts';
import { POINT_ANGLE } from '../../src/shop/ranges.ts';
import { type Result, sureOf } from '../../src/shop/refusal.ts';
import { formatDuration } from '../../src/shop/units.ts';

const isRefused = (result: Result<unknown>) => expect(result.ok).toBe(false);

describe('reading an angle', () => {
  it.each([
    ['118', 118],
    ['118 deg', 118],
    ['118 degrees', 118],
    ['118\u00b0', 118],
    ['23 deg 41 min', 23 + 41 / 60],
    ["23\u00b041'", 23 + 41 / 60],
    ['-12.5', -12.5],
    ['-0', 0],
    ['360', 360],
  ])('%s is %f degrees', (text, expected) => expect(sureOf(parseAngle(text))).toBeCloseTo(expected, 9));

  it.each(['361', '12 rad', '23 deg 61 min', '', '12,5', '1/2', 'nan'])('%j is refused', (text) =>
    isRefused(parseAngle(text)),
  );
  it.each(['0', '180', '-90', '181'])('%s is refused as a point angle', (text) =>
    isRefused(parseAngle(text, POINT_ANGLE)),
  );
  it('179 and 1 are point angles', () => {
    expect(sureOf(parseAngle('179', POINT_ANGLE))).toBe(179);
    expect(sureOf(parseAngle(1, POINT_ANGLE))).toBe(1);
  });
});

describe('reading a duration', () => {
  it.each([
    ['45 s', 45],
    ['20 min', 1200],
    ['20min', 1200],
    ['1 h 20 min', 4800],
    ['1.5 h', 5400],
    ['1 h 20 min 5 s', 4805],
    ['1:20:00', 4800],
    ['0 s', 0],
    ['2 hours', 7200],
    ['90 sec', 90],
  ])('%s is %f s', (text, expected) => expect(sureOf(parseDuration(text))).toBe(expected));

  it.each(['20', '1:20', '1:60:00', '-5 s', '20 days', 'min', '1e3 s', '2000 h', '5 s 3 min', ''])(
    '%j is refused',
    (text) => {
      isRefused(parseDuration(text));
    },
  );

  it('what is written is read back to the second', () => {
    fc.assert(
      fc.property(fc.integer({ min: 10, max: 3_000_000 }), (seconds) => {
        expect(sureOf(parseDuration(formatDuration(asSeconds(seconds))))).toBe(seconds);
      }),
    );
  });
});

describe('reading a cutting speed', () => {
  it.each([
    ['30 m/min', 30],
    ['30m/min', 30],
    ['100 ft/min', 30.48],
    ['100 sfm', 30.48],
    ['100 sfpm', 30.48],
    ['100 fpm', 30.48],
    ['2 m/s', 120],
    ['100 ft / min', 30.48],
  ])('%s is %f m/min', (text, expected) => expect(sureOf(parseCuttingSpeed(text))).toBeCloseTo(expected, 9));

  it('without its unit it is refused, and told why', () => {
    for (const bare of ['100', 100]) {
      expect(parseCuttingSpeed(bare)).toMatchObject({
        ok: false,
        problem: { remedy: 'write the unit: they differ by 3.3 times' },
      });
    }
  });
  it.each(['0 m/min', '-30 m/min', '30 mm/min', '30 rpm', '9999 m/min', 'NaN m/min', 'fast', '', '1.2.3 m/min'])(
    '%j is refused',
    (text) => {
      isRefused(parseCuttingSpeed(text));
    },
  );

  it('feet are 3.28 times metres, whatever the number', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 2000 }), (value) => {
        const [metres, feet] = [
          sureOf(parseCuttingSpeed(`${value} m/min`)),
          sureOf(parseCuttingSpeed(`${value} ft/min`)),
        ];
        expect(metres / feet).toBeCloseTo(1 / 0.3048, 9);
      }),
    );
  });
});

describe('reading spindle speeds, feeds, shares and counts', () => {
  it.each(['950', '950 rpm', '950 r/min', '950 rev/min', '950 1/min'])('%s is 950 rpm', (text) => {
    expect(sureOf(parseSpindleSpeed(text))).toBe(950);
  });
  it.each(['0', '-950', '1e9 rpm', '1000000000', '950 m/min', '', 'slow'])('%j is no spindle speed', (text) => {
    isRefused(parseSpindleSpeed(text));
  });

  it('a feed says of what it is, or is taken as meant', () => {
    expect(sureOf(parseFeed('0.1 mm/rev', 'rev', 'mm'))).toBe(0.1);
    expect(sureOf(parseFeed('.002 in / tooth', 'tooth', 'mm'))).toBeCloseTo(0.0508, 9);
    expect(sureOf(parseFeed('.002', 'tooth', 'inch'))).toBeCloseTo(0.0508, 9);
    expect(sureOf(parseFeed('0.1 mm', 'rev', undefined))).toBe(0.1);
  });
  it('a feed of a tooth is not taken for one of a turn', () => {
    isRefused(parseFeed('0.1 mm/tooth', 'rev', 'mm'));
    isRefused(parseFeed('0.1 mm/rev', 'tooth', 'mm'));
  });
  it.each(['0 mm/rev', '-0.1 mm/rev', '11 mm/rev', '', '0.1'])('%j is no feed', (text) =>
    isRefused(parseFeed(text, 'rev', undefined)),
  );

  it.each([
    ['75', 75],
    ['75 %', 75],
    ['5%', 5],
    ['0.5 %', 0.5],
    ['0', 0],
    ['100%', 100],
    [1, 1],
  ])('%s is %f percent', (text, expected) => expect(sureOf(parsePercent(text))).toBe(expected));
  it.each(['0.05', '101 %', '-1 %', 'most', '', '5 %%'])('%j is no percentage', (text) =>
    isRefused(parsePercent(text)),
  );

  it('a count is a whole number', () => {
    expect(sureOf(parseCount('40'))).toBe(40);
    expect(sureOf(parseCount(0))).toBe(0);
    for (const bad of ['4.5', '-1', '1e3', 'six', '', '1000000']) isRefused(parseCount(bad));
  });

  it.each([
    ['12', 12],
    ['12.', 12],
    ['.75', 0.75],
    ['-3.5', -3.5],
    ['.', undefined],
    ['1 2', undefined],
  ])('%j reads as %j', (text, expected) => expect(readDecimal(text)).toBe(expected));

  it('no text makes any reader throw or answer with something that is no number', () => {
    const readers = [parseAngle, parseDuration, parseCuttingSpeed, parseSpindleSpeed, parsePercent, parseCount];
    fc.assert(
      fc.property(
        fc.string({ unit: fc.constantFrom(...'0123456789.:/- degminhsft%rp') }),
        fc.constantFrom(...readers),
        (text, read) => {
          const result = read(text);
          if (result.ok) expect(Number.isFinite(result.value)).toBe(true);
        },
      ),
      { numRuns: 2000 },
    );
  });
});
