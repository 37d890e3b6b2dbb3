import { describe, expect, it } from 'vitest';
import { aCheck, anOperation, samplePlan } from '../../batch/sample-plan.ts';
import { line } from '../../menu-lines.ts';
import { keyOf, makeRig, type Rig } from './rig.ts';

// One measured check of 3.00 +- 0.05; three pieces of it are made.
const plan = samplePlan({ operations: [anOperation(10, { checks: [aCheck('length')] }), anOperation(20)] });

async function atWork(): Promise<Rig> {
  const rig = await makeRig(plan);
  for (let i = 0; i < 20 && rig.batch().cards.length > 0; i += 1) await rig.press(['enter']);
  await rig.press(['enter']);
  while (rig.batch().cards.length > 0) await rig.press(['enter']);
  return rig;
}

const cell = (rig: Rig) => ({ good: rig.batch().cells[0]?.good, scrap: rig.batch().cells[0]?.scrap });
const atOnce = async (rig: Rig, text: string): Promise<void> => {
  rig.controller.typeValue([...[...text].map(keyOf), keyOf('enter')]);
  await rig.press([]);
};

describe('a value at a gauge pace where none is asked', () => {
  it('opens the check that it can belong to, and waits for Enter there', async () => {
    const rig = await atWork();
    await atOnce(rig, '3.02');
    expect(rig.batch().cards[0]).toMatchObject({ kind: 'check', check: 'length', due: 'asked' });
    expect(rig.controller.read().typed).toBe('3.02');
    expect(cell(rig)).toEqual({ good: 1, scrap: 0 });
    await rig.press(['enter']);
    expect(rig.batch().cells[0]?.checkLog?.item.result).toMatchObject({ kind: 'measured', value: 3.02 });
  });

  it.each(['60.02', '10.02', '-0.15', '60'])('%s does nothing but say so', async (text) => {
    const rig = await atWork();
    const before = rig.batch();
    await atOnce(rig, text);
    expect(rig.panel().message?.text).toBe(`${text}: no value is asked for here, nothing was done`);
    expect(rig.batch()).toBe(before);
    expect(rig.controller.read()).toMatchObject({ flow: null, lookAt: null });
  });

  it('leaves a list as it is', async () => {
    const rig = await atWork();
    await rig.press(['/', line('machine:')]);
    await atOnce(rig, '-0.15');
    expect(rig.panel().headline?.text).toBe('MACHINE');
    expect(rig.panel().message?.text).toContain('-0.15: no value is asked for');
  });

  it('of digits alone is a line of a list and what is typed behind it', async () => {
    const rig = await atWork();
    await rig.press(['/', line('pieces:')]);
    await atOnce(rig, '51');
    expect(rig.panel().headline?.text).toBe('WHY?');
    expect(rig.panel().message?.text ?? '').not.toContain('no value');
  });

  it('goes into the field that asks for one', async () => {
    const rig = await atWork();
    await rig.press(['m']);
    rig.wait(3);
    await atOnce(rig, '3.02');
    expect(rig.batch().cells[0]?.checkLog?.item.result).toMatchObject({ kind: 'measured', value: 3.02 });
  });
});

describe('a value at the pace of a hand where none is asked', () => {
  it.each(['60.02', '20.15', '0.15', '.5'])('%s is told by its point: nothing is rejected or counted', async (text) => {
    const rig = await atWork();
    const before = rig.batch();
    await rig.press([...text, 'enter'], 0.3);
    expect(rig.batch()).toBe(before);
    expect(rig.controller.read()).toMatchObject({ flow: null, lookAt: null });
    expect(rig.panel().message?.text).toBe(`${text}: no value is asked for here, nothing was done`);
  });

  it('says what its minus took back, and goes no further', async () => {
    const rig = await atWork();
    await rig.press(['-', '0', '.', '1', '5', 'enter'], 0.3);
    expect(cell(rig)).toEqual({ good: 0, scrap: 0 });
    expect(rig.panel().message?.text).toMatch(/^-0\.15: its minus HAS TAKEN BACK: THE COUNT OF PIECE 1\. No value/);
  });

  it('typed one level of the menu too high leaves the menu', async () => {
    const rig = await atWork();
    const before = rig.batch();
    await rig.press(['/', line('machine:'), '-', '0', '.', '1', '5', 'enter'], 0.3);
    expect(rig.batch()).toBe(before);
    expect(rig.panel().headline?.text).toBe('MACHINE');
  });

  it('is over after a rest: the next digits are keys again', async () => {
    const rig = await atWork();
    await rig.press(['6', '.'], 0.3);
    await rig.press(['0'], 3);
    expect(rig.panel().headline?.text).toBe('REJECT');
  });
});

describe('a reason', () => {
  it('is never chosen by Enter alone: / and four times Enter reject nothing', async () => {
    const rig = await atWork();
    const before = rig.batch();
    await rig.press(['/', 'enter', 'enter', 'enter', 'enter', 'enter']);
    expect(rig.panel().headline?.text).toBe('WHY?');
    expect(rig.panel().message?.text).toBe('Enter alone chooses nothing here: press the digit of a line');
    expect(rig.batch()).toBe(before);
  });

  it('is chosen by its digit, or by Enter once it was moved to', async () => {
    const rig = await atWork();
    await rig.press(['0', line('the piece in hand'), line('size out')]);
    expect(cell(rig)).toEqual({ good: 1, scrap: 1 });
    while (rig.batch().cards.length > 0) await rig.press(['enter']);
    await rig.press(['0', line('the piece in hand'), 'down', 'enter']);
    expect(cell(rig)).toEqual({ good: 1, scrap: 2 });
  });
});
