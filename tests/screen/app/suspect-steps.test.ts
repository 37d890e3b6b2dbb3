import { describe, expect, it } from 'vitest';
import { cellAt, placeAt } from '../../../src/batch/flow.ts';
import { checkReports } from '../../../src/report/from-batch/quality-rows.ts';
import { partOf } from '../../../src/screen/app/suspect-steps.ts';
import { aCheck, anOperation, aVariant, samplePlan } from '../../batch/sample-plan.ts';
import { line } from '../../menu-lines.ts';
import { makeRig, type Rig } from './rig.ts';

const plan = samplePlan({
  variants: [aVariant('plate', 60)],
  operations: [anOperation(10, { checks: [aCheck('size', { title: 'Width', every: 5 })] }), anOperation(20)],
});

/** Pieces counted to the next check, which is answered with `value`. */
async function toCheck(rig: Rig, value: string): Promise<void> {
  for (let i = 0; i < 9 && rig.controller.moment() !== 'check'; i += 1) await rig.press(['enter'], 60);
  await rig.press([...value, 'enter']);
}

/** The first check good, the fifth piece out of limits: 2 to 5 are suspect. */
async function withSuspects(): Promise<Rig> {
  const rig = await makeRig(plan);
  await toCheck(rig, '3');
  await toCheck(rig, '3.2');
  return rig;
}

const openSuspects = async (rig: Rig): Promise<void> => {
  await rig.press(['/']);
  await rig.press([line('pieces:'), line('suspect pieces')]);
};
const ranges = (rig: Rig) =>
  rig
    .batch()
    .suspects.map(({ from, to }) => `${from}-${to}`)
    .sort();

describe('the part of a range that is typed', () => {
  it.each([
    ['4', { from: 4, to: 4 }],
    ['2-5', { from: 2, to: 5 }],
    ['9', '9 is not among the suspect pieces 2 to 5'],
    ['1-3', '1 is not among the suspect pieces 2 to 5'],
    ['4-6', '6 is not among the suspect pieces 2 to 5'],
    ['5-2', '5 comes after 2: type 2-5'],
    ['-', '"-" names no pieces: type 5, or 2-5'],
    ['2-', '"2-" names no pieces: type 5, or 2-5'],
  ])('%s', (text, wanted) => {
    expect(partOf(text, 2, 5)).toEqual(wanted);
  });
});

describe('suspect pieces in the menu', () => {
  it('are named with their operation and check, and are cleared whole with one digit', async () => {
    const rig = await withSuspects();
    await openSuspects(rig);
    expect(rig.panel().headline?.text).toBe('SUSPECT: pieces 2 to 5');
    expect(rig.panel().facts[0]).toBe('Operation 10, Width.');
    await rig.press([line('measured one by one')]);
    expect(ranges(rig)).toEqual([]);
    expect(rig.panel().message?.text).toBe('cleared; - takes it back');
    await rig.press(['-']);
    expect(ranges(rig)).toEqual(['2-5']);
  });

  it.each([
    ['keyboard', ['4', 'enter']],
    ['keypad with NumLock off', ['left', 'kp-enter']],
  ])('one piece is typed on the %s and cleared alone', async (_, keys) => {
    const rig = await withSuspects();
    await openSuspects(rig);
    await rig.press([line('only some')]);
    await rig.press(keys);
    expect(rig.panel().headline?.text).toBe('SUSPECT: piece 4');
    await rig.press([line('measured, good')]);
    expect(ranges(rig)).toEqual(['2-3', '5-5']);
  });

  it('a part is scrapped with its reason, which the keypad gives as well', async () => {
    const rig = await withSuspects();
    await openSuspects(rig);
    await rig.press([line('only some')]);
    await rig.press(['kp-4', 'kp-minus', 'kp-5', 'kp-enter']);
    await rig.press([line('scrap'), line('size out')]);
    expect(ranges(rig)).toEqual(['2-3']);
    expect(rig.batch().cells[0]).toMatchObject({ good: 3, scrap: 2 });
    expect(rig.commands.at(-1)).toMatchObject({ kind: 'scrapSuspects', from: 4, to: 5, reason: 'size out' });
  });

  it('a number that is none of them is refused with the reason, and nothing is sent', async () => {
    const rig = await withSuspects();
    const sent = rig.commands.length;
    await openSuspects(rig);
    await rig.press([line('only some')]);
    await rig.press(['9', 'enter']);
    expect(rig.panel().message?.text).toBe('9 is not among the suspect pieces 2 to 5');
    await rig.press(['3', ',', 'enter', '/', '/', '/', '/']);
    expect(rig.commands.length).toBe(sent);
  });

  it("are kept on the owner's word with a reason that a keypad can give", async () => {
    const rig = await withSuspects();
    await openSuspects(rig);
    await rig.press([line('kept'), line('it does not matter')]);
    expect(rig.commands.at(-1)).toMatchObject({
      kind: 'clearSuspects',
      how: 'owner',
      reason: 'it does not matter there',
    });
  });

  it('every range can be reached, however many there are', async () => {
    const rig = await withSuspects();
    for (const value of ['3', '3.2', '3', '3.2', '3', '3.2', '3', '3.2', '3', '3.2']) await toCheck(rig, value);
    const all = ranges(rig).length;
    expect(all).toBe(6);
    await openSuspects(rig);
    await rig.press(['-', '-', '-', '-', '-', 'enter']);
    await rig.press([line('measured')]);
    expect(ranges(rig).length).toBe(5);
  });

  it('that may lie in two places are scrapped where the operator says', async () => {
    const rig = await withSuspects();
    await rig.press(['n']);
    await rig.press(['enter', 'enter'], 60);
    await openSuspects(rig);
    await rig.press([line('only some')]);
    await rig.press(['2', '-', '3', 'enter']);
    await rig.press([line('scrap')]);
    expect(rig.panel().headline?.text).toBe('WHERE DO THEY LIE NOW?');
    await rig.press([line('done with Op 20'), line('size out')]);
    expect(rig.batch().cells[1]).toMatchObject({ good: 0, scrap: 2 });
  });

  it('when there are none it says so', async () => {
    const rig = await makeRig(plan);
    await openSuspects(rig);
    expect(rig.panel().headline?.text).toBe('NO PIECE IS SUSPECT');
    await rig.press(['enter']);
    expect(rig.controller.read().flow).toBeNull();
  });
});

describe('pieces back from away', () => {
  const away = samplePlan({
    variants: [aVariant('plate', 4)],
    operations: [
      anOperation(10),
      anOperation(20, { title: 'Plate', kind: 'away', away: { to: 'the plater', changes: [] } }),
      anOperation(30),
    ],
  });
  const out = async (): Promise<Rig> => {
    const rig = await makeRig(away);
    for (let i = 0; i < 20 && rig.batch().cells[1]?.out !== 4; i += 1) await rig.press(['enter'], 60);
    return rig;
  };

  it('fewer than went out: what became of the others is asked, and the shortage follows with what to do', async () => {
    const rig = await out();
    await rig.press(['kp-3', 'kp-enter']);
    expect(rig.panel().headline?.text).toBe('WHERE IS THE MISSING PIECE?');
    await rig.press([line('spoiled there')]);
    expect(rig.batch().cells[1]).toMatchObject({ good: 3, scrap: 1, out: 0 });
    expect(rig.panel().headline?.text).toBe('SHORT OF THE ORDER');
    expect(rig.panel().facts.join(' ')).toContain('To make more: / for the menu');
  });

  it('some still there: they stay out, and nothing is scrap', async () => {
    const rig = await out();
    await rig.press(['1', 'enter']);
    await rig.press([line('still there')]);
    expect(rig.batch().cells[1]).toMatchObject({ good: 1, scrap: 0, out: 3 });
    expect(rig.panel().headline?.text).toBe('PIECES ARE OUT');
  });

  it('asking is left with Esc: nothing is recorded, and the number can be typed anew', async () => {
    const rig = await out();
    await rig.press(['3', 'enter', 'escape']);
    expect(rig.batch().cells[1]).toMatchObject({ good: 0, out: 4 });
    await rig.press(['4', 'enter']);
    expect(rig.batch().cells[1]).toMatchObject({ good: 4, out: 0 });
  });
});

describe('pieces out of limits', () => {
  const words = (rig: Rig) => rig.panel().facts.join(' ');
  const toEnd = async (rig: Rig): Promise<void> => {
    for (let i = 0; i < 300 && rig.batch().cards[0]?.kind !== 'suspects'; i += 1) {
      const card = rig.batch().cards[0];
      await rig.press(card?.kind === 'check' ? ['3', 'enter'] : ['enter'], 60);
    }
    rig.wait(2);
  };
  const few = samplePlan({
    variants: [aVariant('plate', 7)],
    operations: [anOperation(10, { checks: [aCheck('size', { title: 'Width', every: 5 })] }), anOperation(20)],
  });

  it('are named in the banner and under the work, with the value and by how much it is over', async () => {
    const rig = await withSuspects();
    for (let i = 0; i < 5 && rig.controller.moment() !== 'count'; i += 1) await rig.press(['enter'], 60);
    expect(rig.panel().banner.counts).toContain(', 4 SUSPECT');
    // The width is 3.00 within 0.05.
    expect(words(rig)).toContain('Pieces 2 to 5 SUSPECT (3.20 mm, 0.15 mm over): kept apart; / 1 6 settles them.');
  });

  it('are asked for when their operation is done, and named at every later one until they are settled', async () => {
    const rig = await makeRig(few);
    await toCheck(rig, '3');
    await toCheck(rig, '3.2');
    await toEnd(rig);
    expect(rig.panel().headline?.text).toBe('SUSPECT PIECES: SETTLE THEM NOW?');
    expect(words(rig)).toContain('pieces 2 to 5: Width 3.20 mm, 0.15 mm over.');
    await rig.press(['enter'], 60);
    expect(rig.panel().headline?.text).toBe('OPERATION DONE');
    expect(rig.panel().readings[0]?.below).toBe('good, 4 of them SUSPECT; ordered 7');
    await rig.press(['enter'], 60);
    expect(rig.panel().banner.counts).toContain(', 4 SUSPECT');
    expect(words(rig)).toContain('Of op 10: pieces 2 to 5 SUSPECT (3.20 mm, 0.15 mm over)');
    await openSuspects(rig);
    await rig.press([line('measured one by one')]);
    expect(rig.panel().banner.counts).not.toContain('SUSPECT');
    expect(words(rig)).not.toContain('SUSPECT');
  });

  it('that are settled from the card leave nothing to ask', async () => {
    const rig = await makeRig(few);
    await toCheck(rig, '3');
    await toCheck(rig, '3.2');
    await toEnd(rig);
    await openSuspects(rig);
    await rig.press([line('measured one by one')]);
    expect(rig.batch().cards.map((card) => card.kind)).toEqual(['operation ended']);
  });
});

describe('a first-off passed over by Enter', () => {
  const skipped = async (): Promise<Rig> => {
    const rig = await makeRig(plan);
    for (let i = 0; i < 9 && rig.controller.moment() !== 'check'; i += 1) await rig.press(['enter'], 60);
    await rig.press(['enter'], 60);
    return rig;
  };
  const words = (rig: Rig) => rig.panel().facts.join(' ');
  const reminder = 'FIRST-OFF SKIPPED at piece 1: Width.';

  it('is reminded of at the work, piece after piece, until it is measured', async () => {
    const rig = await skipped();
    expect(words(rig)).toContain(reminder);
    await rig.press(['enter', 'escape'], 60);
    expect(words(rig)).toContain(reminder);
    await rig.press(['m', '3', 'enter'], 60);
    expect(words(rig)).not.toContain('SKIPPED');
  });

  it('or until it is left at that by word, which the report keeps and which alters no later check', async () => {
    const rig = await skipped();
    const due = rig.batch().cells[0]?.checks;
    await rig.press(['/', line('pieces:'), line('first-off skipped'), line('same setup as before')]);
    expect(words(rig)).not.toContain('SKIPPED');
    expect(rig.batch().cells[0]?.checks).toEqual(due);
    const [check] = checkReports(cellAt(rig.batch(), 0), placeAt(rig.batch(), 0).operation);
    expect(check).toMatchObject({ skipped: 1, results: [{ piece: 1, passed: null, word: 'same setup as before' }] });
    expect(check?.says).toContain('1 skipped (same setup as before)');
  });

  it('and one that was made has nothing to leave', async () => {
    const rig = await makeRig(plan);
    await toCheck(rig, '3');
    await rig.press(['/', line('pieces:'), line('first-off skipped')]);
    expect(rig.panel().headline?.text).toBe('NO FIRST-OFF IS SKIPPED HERE');
  });
});
