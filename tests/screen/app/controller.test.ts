import { describe, expect, it } from 'vitest';
import { waitingAt } from '../../../src/batch/flow.ts';
import { reworkStep } from '../../../src/screen/app/work-steps.ts';
import { aCheck, anOperation, aVariant, samplePlan, twoVariantPlan } from '../../batch/sample-plan.ts';
import { line } from '../../menu-lines.ts';
import { makeRig, type Rig } from './rig.ts';

const plan = twoVariantPlan({ threaded: 2, clearance: 2 });
const bench = samplePlan({ operations: [anOperation(10), anOperation(20)] });
const checked = samplePlan({ operations: [anOperation(10, { checks: [aCheck('length', { every: 2 })] })] });

/** Presses a key until the batch is closed; the number of presses. */
async function pressToTheEnd(rig: Rig, key: string): Promise<number> {
  for (let presses = 1; presses < 500; presses += 1) {
    await rig.press([key]);
    if (rig.batch().kind !== 'open') return presses;
  }
  throw new Error('the batch did not end');
}

describe('a whole batch', () => {
  it.each(['enter', 'kp-enter', 'kp-plus', '+', ' '])('is run with %s alone, the guard on', async (key) => {
    const rig = await makeRig(plan);
    await pressToTheEnd(rig, key === ' ' ? ' ' : key);
    expect(rig.batch().kind).toBe('finished');
    expect(rig.batch().cells.every((cell) => cell.scrap === 0)).toBe(true);
  });

  it.each(['0', 'insert', '1', 'end', 'kp-0', 'kp-1'])(
    'is run on the left-hand keypad with %s where no value is asked',
    async (key) => {
      const rig = await makeRig(bench, { hand: 'left' });
      await pressToTheEnd(rig, key);
      expect(rig.batch().kind).toBe('finished');
    },
  );

  it('asks nothing before the first Enter but the distance, and Enter takes the middle', async () => {
    const rig = await makeRig(bench, { digitRows: null, mayTry: true });
    expect(rig.controller.read().isTrial).toBe(true);
    await rig.press(['enter']);
    expect(rig.controller.read()).toMatchObject({ isTrial: false, digitRows: 7 });
    expect(rig.saved).toEqual([{ digit_rows: 7 }]);
    await pressToTheEnd(rig, 'enter');
    expect(rig.batch().kind).toBe('finished');
  });
});

describe('the distance trial', () => {
  it.each([
    ['1', 5],
    ['end', 5],
    ['2', 7],
    ['3', 10],
  ])('%s chooses %i rows', async (key, rows) => {
    const rig = await makeRig(bench, { digitRows: null, mayTry: true });
    await rig.press([key]);
    expect(rig.controller.read().digitRows).toBe(rows);
  });

  it('stands nowhere when the rows are set, or when the program is driven from outside', async () => {
    expect((await makeRig(bench, { digitRows: 7, mayTry: true })).controller.read().isTrial).toBe(false);
    expect((await makeRig(bench, { digitRows: null, mayTry: false })).controller.read().isTrial).toBe(false);
  });

  it('z makes the digits larger at any time and keeps it', async () => {
    const rig = await makeRig(bench);
    await rig.press(['z', 'z', 'z', 'z']);
    expect(rig.saved.map((patch) => patch.digit_rows)).toEqual([7, 10, 14, 5]);
  });
});

describe('the pedal', () => {
  it('counts, and never answers a card', async () => {
    const rig = await makeRig(checked);
    await rig.press(['f9']);
    expect(rig.batch().cells[0]?.good).toBe(1);
    expect(rig.batch().cards[0]?.kind).toBe('check');
    await rig.press(['f9', 'f9', 'f9']);
    expect(rig.batch().cards[0]?.kind).toBe('check');
    expect(rig.panel().message?.text).toBe('a card is waiting: answer it with Enter');
  });

  it('is changed by pressing another, which then counts; the old one does not', async () => {
    const rig = await makeRig(bench);
    await rig.press(['/', line('screen:'), line('the pedal'), 'f7']);
    expect(rig.savedKeys).toEqual([{ count: { pedal: ['f7'] } }]);
    await rig.press(['f7']);
    expect(rig.batch().cells[0]?.good).toBe(1);
    await rig.press(['f9']);
    expect(rig.batch().cells[0]?.good).toBe(1);
  });

  it('a key that means something already is refused, with its meaning', async () => {
    const rig = await makeRig(bench);
    await rig.press(['/', line('screen:'), line('the pedal'), 'p']);
    expect(rig.panel().message?.text).toBe('not taken: p already means pause');
    expect(rig.savedKeys).toEqual([]);
  });
});

describe('the guard', () => {
  it('a key held for a minute counts once, and the reason is shown', async () => {
    const rig = await makeRig(bench);
    await rig.press(['enter']);
    await rig.press(
      Array.from({ length: 200 }, () => 'enter'),
      0.3,
    );
    expect(rig.batch().cells[0]?.good).toBe(1);
    expect(rig.panel().message?.text).toBe('not taken: the key is held: let it rest');
  });

  it('a press inside two fifths of the usual time counts, is marked, and taking back is offered', async () => {
    const rig = await makeRig(
      samplePlan({
        operations: [anOperation(10)],
        variants: [{ id: 'plate', title: 'plate', marking: null, quantity: 9 }],
      }),
    );
    await rig.press(['enter', 'enter', 'enter', 'enter'], 60);
    await rig.press(['enter'], 10);
    expect(rig.panel().message?.text).toBe('QUICK: counted; - takes it back if it was not meant');
    await rig.press(['kp-minus']);
    expect(rig.batch().cells[0]?.good).toBe(4);
  });

  it('a paste counts nothing', async () => {
    const rig = await makeRig(bench);
    rig.controller.press({ name: 'paste' });
    expect(rig.commands).toEqual([]);
    expect(rig.panel().message?.text).toBe('a paste is not taken');
  });
});

describe('looking', () => {
  it('at another operation counts nothing: the first Enter only comes back', async () => {
    const rig = await makeRig(bench);
    await rig.press(['right']);
    expect(rig.panel().headline?.text).toBe('LOOKING AT Op 20 Operation 20');
    expect(rig.panel().banner.right).toBe('LOOKING');
    await rig.press(['enter']);
    expect(rig.batch().cells[0]?.good).toBe(0);
    await rig.press(['enter']);
    expect(rig.batch().cells[0]?.good).toBe(1);
  });

  it.each(['5', 'begin', 'kp-5', 'escape'])('%s comes back', async (key) => {
    const rig = await makeRig(bench);
    await rig.press(['right', key]);
    expect(rig.controller.read().lookAt).toBeNull();
  });

  it('past the ends stays there, and over the one in hand is live', async () => {
    const rig = await makeRig(bench);
    await rig.press(['right', 'right', 'right']);
    expect(rig.controller.read().lookAt).toBe(1);
    await rig.press(['left']);
    expect(rig.controller.read().lookAt).toBeNull();
  });

  it('at the points ahead shows them and leaves the next one where it is', async () => {
    const rig = await makeRig(plan);
    for (let i = 0; i < 40 && rig.batch().cells[1]?.load.stop !== 1; i += 1) await rig.press(['enter']);
    const before = rig.panel().headline?.text;
    await rig.press(['down']);
    expect(rig.panel().headline?.text).not.toBe(before);
    await rig.press(['5']);
    expect(rig.panel().headline?.text).toBe(before);
  });
});

describe('a value at a card', () => {
  it.each([
    ['typed on the keyboard', ['3', '.', '0', '2', 'enter']],
    ['on a keypad with NumLock on', ['kp-3', 'kp-decimal', 'kp-0', 'kp-2', 'kp-enter']],
    ['on a keypad with NumLock off', ['page-down', 'delete', 'insert', 'down', 'kp-enter']],
  ])('%s is taken as 3.02', async (_, keys) => {
    const rig = await makeRig(checked);
    await rig.press(['enter', ...keys]);
    expect(rig.batch().cells[0]?.checkLog?.item.result).toEqual({ kind: 'measured', value: 3.02, within: true });
  });

  it('is judged while it is typed', async () => {
    const rig = await makeRig(checked);
    await rig.press(['enter', '3', '.', '1']);
    expect(rig.panel().readings[0]).toMatchObject({
      text: '3.1',
      below: 'OVER by 0.05 mm; limits 2.95 to 3.05',
    });
  });

  it('rubbing out more than was typed takes no count back', async () => {
    const rig = await makeRig(checked);
    await rig.press(['enter', '3', '.', 'backspace', 'backspace', 'backspace', 'backspace']);
    expect(rig.batch().cells[0]?.good).toBe(1);
    expect(rig.controller.read().typed).toBe('');
    await rig.press(['u']);
    expect(rig.batch().cells[0]?.good).toBe(0);
  });

  it('a comma is refused at once; only the point goes on from there, so that 3,06 is neither 3 nor 306', async () => {
    const rig = await makeRig(checked);
    const words = 'a point, not a comma: press the point';
    await rig.press(['enter', '3', ',']);
    expect(rig.panel().message?.text).toBe(words);
    expect(rig.controller.read().typed).toBe('3');
    await rig.press(['0', '6', 'enter']);
    expect(rig.panel().message?.text).toBe(words);
    expect(rig.controller.read().typed).toBe('3');
    expect(rig.batch().cards[0]?.kind).toBe('check');
    await rig.press(['.']);
    expect(rig.panel().message).toBeNull();
    await rig.press(['0', '2', 'enter']);
    expect(rig.batch().cells[0]?.checkLog?.item.result).toMatchObject({ value: 3.02 });
  });

  it('from a gauge that types all at once and ends with Enter is taken whole', async () => {
    const rig = await makeRig(checked);
    await rig.press(['enter']);
    rig.wait(3);
    await rig.press(['3', '.', '0', '2', 'enter'], 0);
    expect(rig.batch().cells[0]?.checkLog?.item.result).toMatchObject({ value: 3.02 });
  });

  it('from a gauge pressed before the card was read stays typed, and the next Enter takes it', async () => {
    const rig = await makeRig(checked);
    await rig.press(['enter']);
    await rig.press(['3', '.', '0', '2', 'kp-enter'], 0);
    expect(rig.panel().message?.text).toBe('not taken: read the card first');
    expect(rig.controller.read().typed).toBe('3.02');
    await rig.press(['kp-enter']);
    expect(rig.batch().cells[0]?.checkLog?.item.result).toMatchObject({ value: 3.02 });
  });

  it.each(['kp-minus', '-'])('%s rubs out all that is typed, and takes back only when nothing is', async (key) => {
    const rig = await makeRig(checked);
    await rig.press(['enter', '3', '.', '9', key]);
    expect(rig.controller.read().typed).toBe('');
    expect(rig.batch().cells[0]?.good).toBe(1);
    await rig.press([key], 0.5);
    expect(rig.batch().cells[0]?.good).toBe(1);
    await rig.press([key]);
    expect(rig.batch().cells[0]?.good).toBe(0);
  });

  it('far from the dimension is refused with both numbers, and typed anew', async () => {
    const rig = await makeRig(checked);
    await rig.press(['enter', '3', '0', '6', 'enter']);
    expect(rig.panel().message?.text).toBe('306 mm is far from 3 mm; look at its point');
    await rig.press(['3', '.', '0', 'enter']);
    expect(rig.batch().cells[0]?.checkLog?.item.result).toMatchObject({ value: 3, within: true });
  });

  it('out of limits says what to do and names the suspects', async () => {
    const rig = await makeRig(checked);
    await rig.press(['enter', '3', '.', '2', 'enter']);
    expect(rig.panel().message?.text).toBe('NOT GOOD: 3.20 mm, 0.15 mm over; piece 1 suspect. Stop, correct (/ 2).');
    for (let i = 0; i < 5 && rig.controller.moment() !== 'count'; i += 1) await rig.press(['enter']);
    expect(rig.panel().facts.join(' ')).toContain('SUSPECT');
  });

  it('of forty digits says that it is too long, and Enter takes no part of it', async () => {
    const rig = await makeRig(checked);
    await rig.press(['enter', ...'x0y'.repeat(40), '3'], 0);
    expect(rig.controller.read().typed).toBe('0'.repeat(12));
    expect(rig.panel().message?.text).toBe('at most 12 characters');
    await rig.press(['enter']);
    expect(rig.panel().message?.text).toBe('not taken: more than 12 characters; type it anew');
    expect(rig.controller.read().typed).toBe('');
    expect(rig.batch().cards[0]?.kind).toBe('check');
  });

  it('an empty Enter skips it', async () => {
    const rig = await makeRig(checked);
    await rig.press(['enter', 'enter']);
    expect(rig.batch().cells[0]?.checkLog?.item.result).toEqual({ kind: 'skipped' });
  });
});

describe('the parting', () => {
  it('takes the number of the first kind; the rest are the other', async () => {
    const rig = await makeRig(plan);
    for (let i = 0; i < 60 && rig.batch().cards[0]?.kind !== 'parting'; i += 1) await rig.press(['enter']);
    await rig.press(['1', 'enter']);
    expect(rig.batch().allotted).toEqual({ threaded: 1, clearance: 3 });
  });

  it('more than there are is refused', async () => {
    const rig = await makeRig(plan);
    for (let i = 0; i < 60 && rig.batch().cards[0]?.kind !== 'parting'; i += 1) await rig.press(['enter']);
    await rig.press(['9', 'enter']);
    expect(rig.panel().message?.text).toBe('only 4 pieces part here');
  });
});

describe('the menu on a bare keypad', () => {
  it('rejects the piece in hand with its reason, and takes it back', async () => {
    const rig = await makeRig(bench);
    await rig.press(['kp-0', 'kp-1', 'kp-1']);
    expect(rig.batch().cells[0]?.scrap).toBe(1);
    await rig.press(['kp-minus']);
    expect(rig.batch().cells[0]?.scrap).toBe(0);
  });

  it('a piece in hand that is rejected is told as rejected, not as counted, and rings no bell', async () => {
    let rung = 0;
    const rig = await makeRig(bench, { isBellOn: true, bell: () => (rung += 1) });
    await rig.press(['kp-0', line('the piece in hand'), line('size out')], 0.1);
    expect(rig.panel().message?.text).toMatch(/^rejected: size out; \d+ left; - takes it back$/);
    expect(rig.panel().headline?.text).not.toBe('COUNTED');
    expect(rung).toBe(0);
    // The first Enter passes the card of the shortage.
    await rig.press(['kp-plus', 'kp-plus']);
    expect([rig.panel().headline?.text, rung]).toEqual(['COUNTED', 1]);
  });

  it('/ opens it and goes back from it; nothing is sent', async () => {
    const rig = await makeRig(bench);
    await rig.press(['kp-divide', 'kp-1', 'kp-divide', 'kp-divide']);
    expect(rig.controller.read().flow).toBeNull();
    expect(rig.commands).toEqual([]);
  });

  it('goes to another operation where pieces wait', async () => {
    const rig = await makeRig(bench);
    await rig.press(['enter']);
    expect(waitingAt(rig.batch(), 1)).toBe(1);
    await rig.press(['kp-divide', line('work:'), line('other operation'), line('op 20')]);
    expect(rig.batch().current).toBe(1);
  });

  it('leaves', async () => {
    const rig = await makeRig(bench);
    await rig.press(['kp-divide', line('batch:'), line('leave')]);
    expect(rig.leftWith()).toBe(0);
  });

  it('pauses with * and goes on with it', async () => {
    const rig = await makeRig(bench);
    await rig.press(['kp-multiply']);
    expect(rig.batch().presence).toBe('paused');
    expect(rig.panel().readings[0]?.text).toBe('PAUSED');
    await rig.press(['kp-multiply']);
    expect(rig.batch().presence).toBe('here');
  });

  it('switches to piece by piece while running', async () => {
    const rig = await makeRig(plan);
    for (let i = 0; i < 40 && rig.controller.moment() !== 'points'; i += 1) await rig.press(['enter']);
    await rig.press(['kp-divide', line('work:'), line('count piece by piece')]);
    expect(rig.commands.at(-1)).toEqual({ kind: 'changeCounting', counting: 'piece' });
  });
});

it('q leaves, Escape never does', async () => {
  const rig = await makeRig(bench);
  await rig.press(['escape', 'escape']);
  expect(rig.leftWith()).toBeNull();
  await rig.press(['q']);
  expect(rig.leftWith()).toBe(0);
});

describe('the end of a batch', () => {
  it('with a suspect piece does not call itself done, and says the ways out', async () => {
    const one = samplePlan({
      variants: [aVariant('only', 1)],
      operations: [anOperation(10, { checks: [aCheck('length', {})] })],
    });
    const rig = await makeRig(one);
    await rig.press(['enter', '3', '.', '2', 'enter']);
    for (let i = 0; i < 6 && rig.batch().cards[0]?.kind !== 'batch ended'; i += 1) await rig.press(['enter']);
    expect(rig.batch().cards[0]?.kind).toBe('batch ended');
    expect(rig.panel().readings[0]?.text).toBe('SUSPECT');
    expect(rig.panel().facts.join(' ')).toContain('finish short');
    await rig.press(['enter']);
    expect(rig.batch().kind).toBe('open');
  });
});

describe('a load with a bad place', () => {
  const loads = (loadSize: number) =>
    samplePlan({
      variants: [aVariant('plate', 24)],
      spares: 9,
      operations: [anOperation(10, { loadSize, counting: 'load' })],
    });

  it('any place that still holds its piece is listed, and none that was rejected before', async () => {
    const rig = await makeRig(loads(8));
    await rig.press(['r', line('place 8'), line('size out')]);
    await rig.press(['r']);
    expect(rig.panel().facts.filter((fact) => fact.includes('of the load in hand'))).toHaveLength(7);
    await rig.press([line('place 7'), line('size out'), 'enter']);
    expect(rig.batch().cells[0]).toMatchObject({ good: 6, scrap: 2 });
  });

  it('a place of a tray of twelve is typed, one that is not there is refused', async () => {
    const rig = await makeRig(loads(12));
    await rig.press(['r', line('one of the 12 in hand'), '1', '3', 'enter']);
    expect(rig.panel().message?.text).toBe('no piece lies in place 13 of this load');
    await rig.press(['1', '2', 'enter', line('size out')]);
    expect(rig.commands.at(-1)).toMatchObject({ kind: 'reject', place: 12, counted: false });
    expect(rig.batch().cells[0]?.load.rejected).toEqual([12]);
  });
});

describe('rework', () => {
  it('is offered to this operation and the nearest before it, however long the route', async () => {
    const long = samplePlan({ operations: Array.from({ length: 12 }, (_, i) => anOperation((i + 1) * 10)) });
    const rig = await makeRig(long);
    for (let i = 0; i < 200 && rig.batch().cells[rig.batch().current ?? 0]?.operation !== 110; i += 1) {
      await rig.press(['enter']);
    }
    const step = reworkStep(rig.batch());
    const labels = step.kind === 'choice' ? step.options.map((option) => option.label) : [];
    expect(labels).toEqual([30, 40, 50, 60, 70, 80, 90, 100, 110].map((number) => `operation ${number}`));
  });
});

describe('what was said', () => {
  it('ends at the next key that is taken, and stands while keys are refused or mean nothing', async () => {
    const rig = await makeRig(bench);
    rig.controller.press({ name: 'paste' });
    expect(rig.panel().message?.text).toBe('a paste is not taken');
    await rig.press(['f5']);
    expect(rig.panel().message?.text).toBe('a paste is not taken');
    await rig.press(['right']);
    expect(rig.panel().message).toBeNull();
    await rig.press(['5', 'u']);
    expect(rig.panel().message?.text).toBe('nothing to take back');
    await rig.press(['down']);
    expect(rig.panel().message).toBeNull();
  });

  it('of a check out of limits stands until something else happens', async () => {
    const rig = await makeRig(checked);
    await rig.press(['enter', '3', '.', '2', 'enter', '/', '/', 'right', '5']);
    expect(rig.panel().message?.text).toMatch(/^NOT GOOD: .* piece 1 suspect/);
    await rig.press(['enter']);
    expect(rig.panel().message?.text ?? '').not.toMatch(/NOT GOOD/);
  });

  it('to a paste in a flow is seen there, and nothing is typed', async () => {
    const rig = await makeRig(bench);
    await rig.press(['/', line('work:'), line('note')]);
    rig.controller.press({ name: 'paste' });
    expect(rig.panel().message?.text).toBe('a paste is not taken');
    await rig.press(['a']);
    expect(rig.panel().message).toBeNull();
    expect(rig.controller.read().flow?.typed).toBe('a');
  });
});
