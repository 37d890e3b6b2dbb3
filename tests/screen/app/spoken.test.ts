import { describe, expect, it } from 'vitest';
import { nothingSpoken, speak } from '../../../src/screen/app/spoken.ts';
import { chosenRows, trialLines } from '../../../src/screen/app/trial.ts';
import { textOf } from '../../../src/screen/parts/lines.ts';
import { aCheck, anOperation, samplePlan } from '../../batch/sample-plan.ts';
import { keyOf, makeRig } from './rig.ts';

describe('plain lines', () => {
  const plan = samplePlan({
    operations: [anOperation(10, { title: 'Deburr', checks: [aCheck('length', { firstOff: true })] })],
  });

  it('say what changed, once', async () => {
    const rig = await makeRig(plan);
    const first = speak(nothingSpoken, rig.panel());
    expect(first.lines.slice(0, 3)).toEqual(['Op 10 Deburr: 0 of 3 good, 3 left', 'DEBURR', '0, 3 MORE']);
    expect(speak(first.spoken, rig.panel()).lines).toEqual([]);
  });

  it('say the count and the check that it brought, and not the time that runs', async () => {
    const rig = await makeRig(plan);
    const before = speak(nothingSpoken, rig.panel()).spoken;
    await rig.press(['enter']);
    rig.wait(1);
    const { lines } = speak(before, rig.panel());
    expect(lines[0]).toBe('Op 10 Deburr: 1 of 3 good, 2 left');
    expect(lines[1]).toBe('FIRST-OFF CHECK: Check length');
    expect(lines.join('\n')).not.toContain('this piece');
  });

  it('a pause does not speak each second', async () => {
    const rig = await makeRig(plan);
    await rig.press(['p']);
    const { spoken } = speak(nothingSpoken, rig.panel());
    rig.wait(1);
    expect(speak(spoken, rig.panel()).lines).toEqual([]);
  });
});

describe('the distance trial', () => {
  it.each([
    [80, 24],
    [50, 15],
    [100, 30],
    [30, 8],
  ])('fills %ix%i exactly', (columns, rows) => {
    for (const ascii of [false, true]) {
      const lines = trialLines(columns, rows, ascii).map(textOf);
      expect(lines.length).toBe(rows);
      for (const line of lines) expect(line.length).toBeLessThanOrEqual(columns);
    }
  });

  it('80x24 shows all three sizes', () => {
    const inked = trialLines(80, 24, true)
      .map(textOf)
      .filter((line) => line.includes('#'));
    expect(inked.length).toBe(7 + 10);
  });

  it('other keys choose nothing', () => {
    expect(['x', '4', '0', 'up'].map((name) => chosenRows(keyOf(name)))).toEqual([null, null, null, null]);
  });
});
