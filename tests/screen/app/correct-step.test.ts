import { describe, expect, it } from 'vitest';
import { correctionFrom } from '../../../src/screen/app/correct-step.ts';
import { anOperation, samplePlan, twoVariantPlan } from '../../batch/sample-plan.ts';
import { line } from '../../menu-lines.ts';
import { makeRig, type Rig } from './rig.ts';

const plan = twoVariantPlan({ threaded: 2, clearance: 2 });
const inchPlan = { ...plan, units: 'inch' as const };

async function atPoints(of = plan): Promise<Rig> {
  const rig = await makeRig(of);
  for (let i = 0; i < 40 && rig.controller.moment() !== 'points'; i += 1) await rig.press(['enter']);
  return rig;
}

const shownZ = (rig: Rig) => rig.panel().readings.find((one) => one.label === 'Z')?.text;
const toCorrect = ['/', line('machine:'), line('correct a target')];
const toDepth = [...toCorrect, line('depth (Z)')];
const typed = (text: string): string[] => [...text];

describe('how much a target changes', () => {
  it.each([
    [3.06, -3, false, 0.06, 'a depth that is too deep goes up'],
    [2.94, -3, false, -0.06, 'a depth that is not deep enough goes down'],
    [-3.06, -3, true, 0.06, 'a depth with its sign is the same'],
    [25.1, 25, false, -0.1, 'a hole too far out comes back'],
    [24.9, 25, false, 0.1, 'a hole not far enough out goes on'],
    [25.1, -25, false, 0.1, 'a hole too far out on the other side comes back as well'],
    [40.2, 40, false, -0.2, 'a piece too long is stopped shorter'],
    [3, -3, false, 0, 'what reads right changes nothing'],
  ])('%f for %f: %s', (reading, nominal, isSigned, by) => {
    expect(correctionFrom(reading, nominal, isSigned)).toBe(by);
  });
});

describe('a correction', () => {
  it('in millimetres is worked out from the reading, shown, and changes the target from now on', async () => {
    const rig = await atPoints();
    const before = shownZ(rig);
    await rig.press([...toDepth, ...typed('6.06'), 'enter']);
    expect(rig.panel().facts[0]).toBe('depth (Z): -6.00 mm becomes -5.94 mm (+0.06 mm)');
    expect(rig.commands.at(-1)?.kind).not.toBe('correct');
    await rig.press([line('size out')]);
    expect([before, shownZ(rig)]).toEqual(['-6.00', '-5.94']);
    expect(rig.commands.at(-1)).toEqual({ kind: 'correct', axis: 'z', by: 0.06, reading: 6.06, reason: 'size out' });
    expect(rig.panel().facts[0]).toBe('Z corrected by +0.06 mm: size out.');
    await rig.press(['backspace']);
    expect(shownZ(rig)).toBe('-6.00');
  });

  it('that follows another is measured against the plan, not against the corrected target', async () => {
    const rig = await atPoints();
    await rig.press([...toDepth, ...typed('6.06'), 'enter', line('size out')]);
    await rig.press([...toDepth, ...typed('6.02'), 'enter', line('size out')]);
    expect(shownZ(rig)).toBe('-5.92');
  });

  it('in inches takes the reading in inches', async () => {
    const rig = await atPoints(inchPlan);
    // 6 mm is .2362 in; .2392 is .003 deeper, so that it goes up by .003 in = 0.0762 mm (1 in = 25.4 mm).
    await rig.press([...toDepth, ...typed('.2392'), 'enter', line('size out')]);
    const last = rig.commands.at(-1);
    expect(last?.kind === 'correct' && [last.axis, last.reading]).toEqual(['z', expect.closeTo(6.0757, 4)]);
    expect(last?.kind === 'correct' && last.by).toBeCloseTo(0.0757, 4);
  });

  it('of an amount is given after an empty Enter, by the way it must go', async () => {
    const rig = await atPoints();
    await rig.press([...toDepth, 'enter']);
    expect(rig.panel().headline?.text).toBe('THE HOLE MUST GET');
    await rig.press([line('deeper'), ...typed('0.06'), 'enter', line('size out')]);
    expect(shownZ(rig)).toBe('-6.06');
    expect(rig.commands.at(-1)).toMatchObject({ by: -0.06, reading: null });
  });

  it('of an amount in inches is taken in inches', async () => {
    const rig = await atPoints(inchPlan);
    await rig.press([...toDepth, 'enter', line('less deep'), ...typed('.003'), 'enter', line('size out')]);
    expect(rig.commands.at(-1)).toMatchObject({ by: expect.closeTo(0.0762, 9), reading: null });
  });

  it('the amount typed where the reading is asked is refused', async () => {
    const rig = await atPoints();
    await rig.press([...toDepth, ...typed('0.06'), 'enter']);
    expect(rig.panel().message?.text).toBe('that is 5.94 mm off: read it again');
  });

  it('of the stop makes a piece that is too long shorter', async () => {
    const saw = samplePlan({ operations: [anOperation(10, { stopLength: 40 })] });
    const rig = await makeRig(saw);
    for (let i = 0; i < 20 && rig.batch().cards.length > 0; i += 1) await rig.press(['enter']);
    await rig.press([...toCorrect, line('stop length'), ...typed('40.2'), 'enter', line('size out')]);
    expect(rig.commands.at(-1)).toMatchObject({ kind: 'correct', axis: 'stop', by: -0.2, reading: 40.2 });
    expect(rig.batch().corrections.at(-1)).toMatchObject({ axis: 'stop', by: -0.2 });
  });

  it('as large as the depth is refused with the numbers, and can be typed anew', async () => {
    const rig = await atPoints();
    await rig.press([...toDepth, 'enter', line('deeper'), '6', 'enter']);
    expect(rig.panel().message?.text).toBe('not taken: 6 mm more on a depth of 6 mm is another depth; amend the plan');
    await rig.press([...typed('0.06'), 'enter', line('size out')]);
    expect(shownZ(rig)).toBe('-6.06');
  });

  it('over a fifth of the depth wants a second answer, and Enter alone is no', async () => {
    const rig = await atPoints();
    await rig.press([...toDepth, 'enter', line('less deep'), '2', 'enter']);
    expect(rig.panel().headline?.text).toBe('A LARGE CORRECTION');
    expect(rig.panel().facts.slice(0, 4)).toEqual([
      'depth (Z): -6.00 mm becomes -4.00 mm (+2.00 mm)',
      'Both holes.',
      'In all 2 mm: 33 % of the depth of 6 mm.',
      // The plan checks 3.00 to 0.05.
      'In all 2 mm: 40 times the tolerance of 0.05 mm.',
    ]);
    await rig.press(['enter']);
    expect(rig.panel().headline?.text).toBe('THE HOLE MUST GET');
    expect(rig.commands.at(-1)?.kind).not.toBe('correct');
    await rig.press([line('less deep'), '2', 'enter', line('yes'), line('size out')]);
    expect(shownZ(rig)).toBe('-4.00');
  });

  it('where nothing is wound to says so, and Enter goes back to the work', async () => {
    const rig = await makeRig(samplePlan({ operations: [anOperation(10)] }));
    await rig.press(toCorrect);
    expect(rig.panel().headline?.text).toBe('NOTHING IS WOUND TO HERE');
    await rig.press(['enter']);
    expect(rig.controller.read().flow).toBeNull();
    expect(rig.batch().cells[0]?.good).toBe(0);
  });
});

// The sample drills hole 1 at X 10, Y -15 and hole 2 at X 20, Y -15 in operation 20, and taps both in 30 by the same zero.
describe('the place of a hole', () => {
  const shown = (rig: Rig, label: string) => rig.panel().readings.find((one) => one.label === label)?.text;
  const last = (rig: Rig) => rig.commands.at(-1);

  it('measured 15.06 from a jaw behind it goes away from you, nearer the zero: Y -15.00 becomes -14.94', async () => {
    const rig = await atPoints();
    await rig.press([...toCorrect, line('Y, now'), 'enter']);
    expect(rig.panel().headline?.text).toBe('THE HOLE MUST GO');
    expect(rig.panel().facts.join(' ')).toMatch(
      /1 {2}away from you, nearer the zero.*2 {2}towards you, farther from the zero/,
    );
    await rig.press([line('away from you'), ...typed('0.06'), 'enter', line('both holes'), line('no, only here')]);
    expect(rig.panel().facts.slice(0, 2)).toEqual(['Y: -15.00 mm becomes -14.94 mm (+0.06 mm)', 'Both holes.']);
    await rig.press([line('size out')]);
    expect(shown(rig, 'Y')).toBe('-14.94');
  });

  it.each([
    ['X', 'to the right, farther from the zero', '10.06'],
    ['X', 'to the left, nearer the zero', '9.94'],
    ['Y', 'away from you, nearer the zero', '-14.94'],
    ['Y', 'towards you, farther from the zero', '-15.06'],
  ])('%s %s', async (axis, way, becomes) => {
    const rig = await atPoints();
    await rig.press([
      ...toCorrect,
      line(`${axis}, now`),
      'enter',
      line(way),
      ...typed('.06'),
      'enter',
      line('both holes'),
    ]);
    await rig.press([line('no, only here'), line('wrong place')]);
    expect(shown(rig, axis)).toBe(becomes);
  });

  it('takes no sign with the amount, for the way is said', async () => {
    const rig = await atPoints();
    await rig.press([...toCorrect, line('Y, now'), 'enter', line('towards you'), ...typed('-0.06'), 'enter']);
    expect(rig.panel().message?.text).toBe('no sign: the way is said already');
  });

  it('is corrected of this hole alone: the next one stays, and the screen says which', async () => {
    const rig = await atPoints();
    await rig.press([...toCorrect, line('X, now'), ...typed('10.1'), 'enter']);
    expect(rig.panel().headline?.text).toBe('WHICH HOLES?');
    await rig.press([line('only this hole, hole 1'), line('no, only here'), line('wrong place')]);
    expect(last(rig)).toEqual({ kind: 'correct', axis: 'x', by: -0.1, reading: 10.1, reason: 'wrong place', point: 0 });
    expect(shown(rig, 'X')).toBe('9.90');
    expect(rig.panel().facts[0]).toBe('X corrected by -0.10 mm at hole 1 alone: wrong place.');
    await rig.press(['enter']);
    expect(shown(rig, 'X')).toBe('20.00');
    expect(rig.panel().facts.join(' ')).not.toContain('corrected');
  });

  it('goes with it to later operations of the same zero, where that is said, and comes back with one take-back', async () => {
    const rig = await atPoints();
    await rig.press([...toCorrect, line('X, now'), ...typed('10.1'), 'enter', line('only this hole')]);
    expect(rig.panel().headline?.text).toBe('THERE AS WELL?');
    expect(rig.panel().facts.join(' ')).toContain('To the same hole: op 30 Tap.');
    await rig.press([line('yes, also op 30')]);
    expect(rig.panel().facts.slice(0, 2)).toEqual([
      'X: 10.00 mm becomes 9.90 mm (-0.10 mm)',
      'Only hole 1, also op 30.',
    ]);
    await rig.press([line('wrong place')]);
    expect(last(rig)).toMatchObject({ point: 0, also: [{ operation: 30, cut: 0, point: 0 }] });
    expect(rig.batch().corrections.map((one) => [one.operation, one.point, one.takenBack])).toEqual([
      [20, 0, false],
      [30, 0, false],
    ]);
    await rig.press(['backspace']);
    expect(rig.batch().corrections.map((one) => one.takenBack)).toEqual([true, true]);
    expect(shown(rig, 'X')).toBe('10.00');
  });
});
