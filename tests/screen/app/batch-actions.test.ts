import { describe, expect, it } from 'vitest';
import { planChanges } from '../../../src/batch/plan-changes.ts';
import type { Supposition } from '../../../src/forecast/suppose.ts';
import { parseTimeOfDay } from '../../../src/screen/app/what-if-steps.ts';
import { anOperation, samplePlan, twoVariantPlan } from '../../batch/sample-plan.ts';
import { line } from '../../menu-lines.ts';
import { makeRig } from './rig.ts';

const bench = samplePlan({ operations: [anOperation(10), anOperation(20)] });

describe('a time of day', () => {
  it.each([
    ['2130', 1290],
    ['21:30', 1290],
    ['21.30', 1290],
    ['930', 570],
    ['9', 540],
    ['24:00', 1440],
    ['0', 0],
  ])('%s is %i minutes after midnight', (text, minutes) => {
    expect(parseTimeOfDay(text)).toBe(minutes);
  });

  it.each(['2160', '25', '24:01', '21:3', ':', '-9', '12345'])('%s is refused', (text) => {
    expect(parseTimeOfDay(text)).toBe(`"${text}" is no time of day`);
  });
});

describe('what if', () => {
  it.each([
    ['if I stop', ['2', '1', ':', '3', '0', 'enter'], { until: '21:30' }],
    ['if I stop', ['page-up', 'page-down', 'insert', 'enter'], { until: '09:30' }],
    ['if I make more', ['6', 'enter'], { more: 6 }],
    ['with the rest of this operation', ['2', 'enter'], { loads: 2 }],
  ])('"%s" asks with %s and shows the answer', async (words, keys, question) => {
    const asked: Supposition[] = [];
    const suppose = (_: unknown, __: unknown, what: Supposition) => {
      asked.push(what);
      return ['by then: 14 to 17 more'];
    };
    const rig = await makeRig(bench, {}, { services: { suppose } });
    await rig.press(['/']);
    await rig.press([line('show:')]);
    await rig.press([line('what if:')]);
    await rig.press([line(words)]);
    await rig.press(keys);
    expect(asked).toEqual([question]);
    expect(rig.panel().facts).toEqual(['by then: 14 to 17 more']);
    expect(rig.commands).toEqual([]);
  });

  it('a time that is none is refused and can be typed again', async () => {
    const rig = await makeRig(bench);
    await rig.press(['/', line('show:')]);
    await rig.press([line('what if:')]);
    await rig.press(['1', '2', '5', '0', '0', 'enter']);
    expect(rig.panel().message?.text).toBe('"2500" is no time of day');
  });
});

it('"tonight until" changes the hours of today alone', async () => {
  const rig = await makeRig(bench);
  await rig.press(['/', line('show:')]);
  await rig.press([line('tonight until')]);
  await rig.press(['2', '2', '3', '0', 'enter']);
  expect(rig.batch().hours?.changes.map((change) => change.open.at(-1)?.[1])).toEqual(['22:30']);
  expect(rig.panel().message?.text).toBe('the hours of today are changed for this batch');
});

describe('a changed plan file', () => {
  const before = twoVariantPlan({ threaded: 2, clearance: 2 });
  const [first, ...others] = before.operations;
  const after = { ...before, operations: first === undefined ? [] : [{ ...first, title: 'Saw longer' }, ...others] };
  const amendment = { planText: 'changed', planSha256: 'f'.repeat(64), plan: after };
  const changes = planChanges(before, after);
  const planChange = () => ({ sha256: amendment.planSha256, changes });

  it('shows what changes before it asks, and yes takes it up', async () => {
    const rig = await makeRig(before, {}, { services: { planChange }, amendment });
    await rig.press(['/', line('batch:')]);
    await rig.press([line('the changed plan')]);
    expect(rig.panel().facts).toContain(changes[0]);
    expect(rig.commands).toEqual([]);
    await rig.press([line('yes')]);
    expect(rig.batch().plan.operations[0]?.title).toBe('Saw longer');
  });

  it('no keeps the plan and declines this change', async () => {
    const rig = await makeRig(before, {}, { services: { planChange }, amendment });
    await rig.press(['/', line('batch:')]);
    await rig.press([line('the changed plan')]);
    await rig.press([line('no:')]);
    expect(rig.batch().declinedPlans).toEqual([amendment.planSha256]);
    expect(rig.batch().plan).toEqual(before);
  });

  it('that changed once more since it was shown is not taken up unseen', async () => {
    let sha256 = 'a'.repeat(64);
    const rig = await makeRig(before, {}, { services: { planChange: () => ({ sha256, changes }) }, amendment });
    await rig.press(['/', line('batch:')]);
    await rig.press([line('the changed plan')]);
    sha256 = amendment.planSha256;
    await rig.press([line('yes')]);
    expect(rig.commands).toEqual([]);
    expect(rig.panel().message?.text).toBe('the plan file has changed once more: look at the list again');
  });

  it('that cannot be taken up says why', async () => {
    const other = { ...amendment, plan: { ...after, id: 'another' } };
    const rig = await makeRig(before, {}, { services: { planChange }, amendment: other });
    await rig.press(['/', line('batch:')]);
    await rig.press([line('the changed plan')]);
    await rig.press([line('yes')]);
    expect(rig.panel().message?.text).toBe('that is another plan; open a new batch for it');
  });

  it('many changes are shown in part, the rest behind a line', async () => {
    const many = Array.from({ length: 12 }, (_, i) => `change ${i + 1}`);
    const rig = await makeRig(
      before,
      {},
      { services: { planChange: () => ({ sha256: 'a', changes: many }) }, amendment },
    );
    await rig.press(['/', line('batch:')]);
    await rig.press([line('the changed plan')]);
    expect(rig.panel().facts).toContain('and 7 more: 4 shows all');
    await rig.press(['4']);
    expect(rig.panel().facts).toEqual(many);
  });
});

describe('a handover', () => {
  it('shows the new person where it stands, what is not as planned, and what to prove', async () => {
    const rig = await makeRig(twoVariantPlan({ threaded: 2, clearance: 2 }));
    for (let i = 0; i < 40 && rig.controller.moment() !== 'points'; i += 1) await rig.press(['enter']);
    await rig.press(['/']);
    await rig.press([line('work:')]);
    await rig.press([line('note')]);
    await rig.press(['v', 'i', 'c', 'e', 'enter']);
    await rig.press(['/']);
    await rig.press([line('work:')]);
    await rig.press([line('initials')]);
    await rig.press(['M', 'K', 'enter']);
    expect(rig.batch().by).toBe('MK');
    const page = rig.panel();
    expect(page.headline?.text).toBe('MK CARRIES ON');
    expect(page.facts.join('\n')).toMatch(/Op \d+ .*good/);
    expect(page.facts.join('\n')).toContain(': vice');
    expect(page.facts.join('\n')).toContain('PROVE');
  });

  it('initials too long are refused, and nothing is handed over', async () => {
    const rig = await makeRig(bench);
    await rig.press(['/', line('work:')]);
    await rig.press([line('initials')]);
    await rig.press([...'abcdefghijklmnop', 'enter']);
    expect(rig.controller.read().page).toBeNull();
    expect(rig.panel().message?.text).toBe('the initials are longer than 12 characters');
  });
});
