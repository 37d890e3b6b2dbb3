import { describe, expect, it } from 'vitest';
import type { AxisReading } from '../../../src/plan/resolved.ts';
import { axisText } from '../../../src/screen/moments/axis-text.ts';
import { hasDigits } from '../../../src/screen/parts/digits.ts';
import { asMm } from '../../../src/shop/quantities.ts';

const dial: AxisReading = {
  kind: 'dial',
  perTurn: asMm(2.5),
  divisions: 125,
  clockwiseCounts: 'up',
  clockwiseMoves: '+',
  backlash: asMm(0.1),
};

describe('a position on a dial', () => {
  it('is turns and divisions in block digits on either side of zero', () => {
    expect(axisText(asMm(12.34), dial, 'mm').text).toBe('4 + 117');
    const past = axisText(asMm(-3.1), dial, 'mm');
    expect(past.text).toBe('BELOW 1 + 30');
    expect(past.below).toContain('below zero: the scale shows 95');
    expect(past.words).toBe('1 + 30 below zero (scale 95)');
    expect(past.scale).toBe('95');
    expect(hasDigits(past.text)).toBe(true);
  });

  it('has no minus beside a number, which would be read as a dash', () => {
    for (let mm = -400; mm <= 400; mm += 1.7) expect(axisText(asMm(mm), dial, 'mm').text).not.toContain('-');
  });
});
