import { expect, it } from 'vitest';
import { anOperation, samplePlan } from '../../batch/sample-plan.ts';
import { line } from '../../menu-lines.ts';
import { makeRig } from './rig.ts';

const bench = samplePlan({ operations: [anOperation(10), anOperation(20)] });

it.each([
  // Cards and messages name these places of the menu: "correct (/ 2)", "reject them (/ 1)", "finish short (/ 5)", "see / 5 5".
  ['1', 'pieces:', []],
  ['2', 'machine:', []],
  ['5', 'batch:', []],
  ['1', 'pieces:', ['5', 'make more']],
  ['1', 'pieces:', ['6', 'suspect pieces']],
  ['5', 'batch:', ['5', 'the changed plan']],
] as const)('/ %s is "%s", as the words on the screen say', async (digit, label, [then, inner]) => {
  const rig = await makeRig(bench);
  await rig.press(['/']);
  expect(rig.panel().facts.find((fact) => fact.includes(` ${digit}  `))).toContain(label);
  if (then === undefined) return;
  await rig.press([digit]);
  expect(rig.panel().facts.find((fact) => fact.includes(` ${then}  `))).toContain(inner);
});

it('taking back names what went, so that another thing than the count is seen', async () => {
  const rig = await makeRig(bench);
  await rig.press(['enter', 'enter', '/', line('pieces:'), line('make more'), '2', 'enter', line('material')]);
  await rig.press(['-']);
  expect(rig.panel().message?.text).toBe('taken back: the pieces made more');
  await rig.press(['-']);
  expect(rig.panel().message?.text).toBe('taken back: the count of piece 2');
  expect(rig.batch()).toMatchObject({ more: 0, cells: [{ good: 1 }, {}] });
});

it('the places to go to have their titles', async () => {
  const rig = await makeRig(bench);
  await rig.press(['enter', 'enter', '/', line('work:'), line('other operation')]);
  const [first, second] = bench.operations.map((one) => one.title);
  expect(rig.panel().facts.join(' ')).toContain(`op 10 ${first}, 1 waiting`);
  expect(rig.panel().facts.join(' ')).toContain(`op 20 ${second}, 2 waiting`);
});

it('where only the waiting ones ran out the end says how many are to come, from where, and what becomes of the setup', async () => {
  const rig = await makeRig(bench);
  await rig.press(['enter', '/', line('work:'), line('other operation'), line('op 20'), 'enter']);
  rig.wait(2);
  expect(rig.panel().headline?.text).toMatch(/^NONE WAITING, \d+ TO COME$/);
  expect(rig.panel().facts.join(' ')).toContain('They come through Op 10');
  expect(rig.panel().facts.join(' ')).toContain('This setup can stay as it is for the rest.');
});
