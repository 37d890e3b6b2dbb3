// A value to set is said as its readout shows it, in the sum, in steps and on the card.
import { describe, expect, it } from 'vitest';
import { setText } from '../../../src/plan/resolve/set-text.ts';
import { stepsOf } from '../../../src/plan/steps.ts';
import { formatSteps } from '../../../src/plan/steps-text.ts';
import { asMm } from '../../../src/shop/quantities.ts';
import { textOf as fileText, proved } from '../plan-samples.ts';

describe('a value to set', () => {
  it.each([
    ['mm', 3, undefined, '3.00'],
    ['mm', 3, 0.01, '3.00'],
    ['mm', 3, 0.005, '3.000'],
    ['inch', 2.54, undefined, '.100'],
    ['inch', 2.54, 0.0254, '.100'],
    ['inch', 2.54, 0.0127, '.1000'],
  ] as const)('in %s: %d mm on a readout of %s is %s', (unit, length, readout, text) => {
    expect(setText(unit, asMm(length), readout === undefined ? undefined : asMm(readout))).toBe(text);
  });

  it('of an axis with a readout of 0.005 has three decimals, of one with 0.01 two', () => {
    // hinge-blocks: X and Y read 0.005, Z 0.01; a tip of 6 at the stop.
    const { setups, operations } = proved(fileText('jobs/hinge-blocks.yaml')).resolved;
    expect(setups[0]?.x?.sum).toBe('stop 0.000 + half tip 3.000 = +3.000');
    expect(operations.find((one) => one.number === 30)?.cuts[0]?.zZero?.sum).toBe(
      'top of the part 0.00 + feeler 0.05 = +0.05',
    );
  });
});

describe('steps', () => {
  it('tell a coordinate beside a dial as finely as half a division', () => {
    const text = formatSteps(stepsOf(proved(fileText('jobs/latch-bars.yaml')).resolved));
    // 3 turns of .2000 and 148.5 divisions of .001 are .7485.
    expect(text).toContain('Y -0.7485, Z -0.0650');
    expect(text).toMatch(/dials 3 \+ 148\.5 \|/);
  });
});
