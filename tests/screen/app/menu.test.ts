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
  expect(rig.panel().message?.text).toBe('taken back: the count');
  expect(rig.batch()).toMatchObject({ more: 0, cells: [{ good: 1 }, {}] });
});
