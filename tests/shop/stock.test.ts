import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asMm } from '../../src/shop/quantities.ts';
import { formatRefusal, type Result, sureOf } from '../../src/shop/refusal.ts';
import { barsNeeded, blankLength, blanksPerBar, type SawRules } from '../../src/shop/stock.ts';
import { inchesToMm, mmToInches } from '../../src/shop/units.ts';

const saw = (kerf: number, endTrim = 0, grip = 0): SawRules => ({
  kerf: asMm(kerf),
  endTrim: asMm(endTrim),
  grip: asMm(grip),
});
const saidBy = (result: Result<unknown>): string => (result.ok ? 'answered' : formatRefusal(result.problem));

describe('blanks from one bar', () => {
  it('25 mm finished, 0.5 mm an end, kerf 1.5, 30 mm remnant: 26 mm blanks, 35 from 1000 mm', () => {
    const blank = sureOf(blankLength(asMm(25), asMm(0.5)));
    expect(blank).toBe(26);
    expect(sureOf(blanksPerBar(asMm(1000), blank, saw(1.5, 0, 30)))).toEqual({ blanks: 35, usable: 970, left: 37.5 });
    expect(sureOf(blanksPerBar(asMm(1000), blank, { ...saw(1.5, 0, 30), trailingCut: false })).blanks).toBe(35);
  });

  it('an exact fit needs no trailing cut: 304 mm gives three of 100 with two cuts of 2, 303.9 only two', () => {
    expect(sureOf(blanksPerBar(asMm(304), asMm(100), saw(2)))).toMatchObject({ blanks: 3, left: 0 });
    expect(sureOf(blanksPerBar(asMm(303.9), asMm(100), saw(2))).blanks).toBe(2);
    expect(sureOf(blanksPerBar(asMm(304), asMm(100), { ...saw(2), trailingCut: true })).blanks).toBe(2);
    expect(sureOf(blanksPerBar(asMm(306), asMm(100), { ...saw(2), trailingCut: true })).blanks).toBe(3);
  });

  it('blanks that fill a bar but for binary fractions still fit: ten of 0.1 and nine cuts of 0.1 in 1.9', () => {
    expect(sureOf(blanksPerBar(asMm(1.9), asMm(0.1), saw(0.1))).blanks).toBe(10);
  });

  it('a bar shorter than its blank yields none, which is no refusal', () => {
    expect(sureOf(blanksPerBar(asMm(50), asMm(100), saw(2)))).toEqual({ blanks: 0, usable: 50, left: 50 });
    expect(sureOf(blanksPerBar(asMm(50), asMm(10), saw(2, 30, 40)))).toEqual({ blanks: 0, usable: 0, left: 20 });
  });

  it('what is cut never exceeds the bar, and one more never fits; a wider kerf never yields more', () => {
    const length = fc.double({ min: 1, max: 200, noNaN: true });
    const kerf = fc.double({ min: 0, max: 5, noNaN: true });
    fc.assert(
      fc.property(
        fc.double({ min: 200, max: 6000, noNaN: true }),
        length,
        kerf,
        fc.double({ min: 0, max: 50, noNaN: true }),
        (bar, blank, cut, grip) => {
          const rules = saw(cut, 5, grip);
          const { blanks } = sureOf(blanksPerBar(asMm(bar), asMm(blank), rules));
          const cuts = (n: number): number => (grip > 0 ? n : Math.max(0, n - 1));
          const needed = (n: number): number => 5 + grip + n * blank + cuts(n) * cut;
          expect(needed(blanks)).toBeLessThanOrEqual(bar + 1e-5);
          expect(needed(blanks + 1)).toBeGreaterThan(bar - 1e-5);
          expect(sureOf(blanksPerBar(asMm(bar), asMm(blank), saw(cut + 1, 5, grip))).blanks).toBeLessThanOrEqual(
            blanks,
          );
        },
      ),
    );
  });
});

describe('bars for a batch', () => {
  it('250 blanks at 35 a bar take 8 bars', () => {
    expect(sureOf(barsNeeded(250, asMm(1000), asMm(26), saw(1.5, 0, 30)))).toMatchObject({
      blanksPerBar: 35,
      bars: 8,
      onLastBar: 5,
    });
  });

  it('the worked batch: 26 a bar, 3 bars, 11 on the third; left 3.565 in and 42.90 in', () => {
    const rules = { kerf: inchesToMm(0.0625), endTrim: inchesToMm(0.25), grip: inchesToMm(1.5) };
    const answer = sureOf(barsNeeded(63, inchesToMm(72), inchesToMm(2.56), rules));
    expect(answer).toMatchObject({ blanksPerBar: 26, bars: 3, onLastBar: 11 });
    expect(mmToInches(answer.leftOnFullBar)).toBeCloseTo(3.565, 6);
    expect(mmToInches(answer.leftOnLastBar)).toBeCloseTo(42.9025, 6);
  });

  it('forgetting the grip of the saw would give 27 a bar', () => {
    const forgetful = { kerf: inchesToMm(0.0625), endTrim: inchesToMm(0.25), grip: asMm(0) };
    expect(sureOf(blanksPerBar(inchesToMm(72), inchesToMm(2.56), forgetful)).blanks).toBe(27);
  });

  it('a bar that yields no blank is refused with the length it would need', () => {
    expect(saidBy(barsNeeded(3, asMm(50), asMm(100), saw(2)))).toContain('at least 100 mm for one blank');
    expect(saidBy(barsNeeded(3, asMm(50), asMm(100), saw(2, 5, 30)))).toContain('at least 137 mm for one blank');
  });

  it.each([0, -1, 2.5, Number.NaN, 1e9])('%s blanks are refused', (needed) => {
    expect(saidBy(barsNeeded(needed, asMm(1000), asMm(45), saw(1)))).toContain('blanks needed');
  });

  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY, 1e6])('a length of %s mm is refused', (mm) => {
    expect(saidBy(blanksPerBar(asMm(mm), asMm(45), saw(1)))).toContain('bar length');
    expect(saidBy(barsNeeded(1, asMm(mm), asMm(45), saw(1)))).toContain('bar length');
    expect(saidBy(blanksPerBar(asMm(1000), asMm(mm), saw(1)))).toContain('blank length');
    expect(saidBy(blankLength(asMm(mm), asMm(1)))).toContain('finished length');
  });

  it('a kerf of 25 mm, a negative crop or grip is refused', () => {
    expect(saidBy(blanksPerBar(asMm(1000), asMm(45), saw(25)))).toContain('kerf 25 mm');
    expect(saidBy(blanksPerBar(asMm(1000), asMm(45), saw(1, -1)))).toContain('end trim -1 mm');
    expect(saidBy(blanksPerBar(asMm(1000), asMm(45), saw(1, 0, -1)))).toContain('shortest end');
  });
});
