// What happens in a real batch, each in its own short story: pieces out and back, a changed plan taken up or left alone, a
// batch finished short or given up, several batches open, how pieces are counted, who works.
import { readFileSync, writeFileSync } from 'node:fs';
import { afterEach, describe, expect, it } from 'vitest';
import type { ReportModel } from '../../src/report/model.ts';
import { line } from '../menu-lines.ts';
import { cardUp, goodAt, isWorkingAt, perform, pressSteps, typed, workUntil } from './driving.ts';
import { canRunStories } from './harness.ts';
import { closeShops, countOne, makeShop, openToWork, passCards } from './shop.ts';

afterEach(closeShops);

const reportOf = (shop: ReturnType<typeof makeShop>) => JSON.parse(shop.ask('report', '--json').out) as ReportModel;

describe.skipIf(!canRunStories())('the changed plan file', () => {
  const fewer = (path: string): void =>
    writeFileSync(path, readFileSync(path, 'utf8').replace('quantity: 30', 'quantity: 12'));

  it('is taken up by a yes, and the record names what changed', async () => {
    const shop = makeShop();
    const plan = shop.plan('thirty-blanks');
    const t = await openToWork(shop, { args: [plan] });
    await passCards(shop, t);
    await countOne(shop, t);
    fewer(plan);
    await t.waitFor((screen) => /plan file/i.test(screen.text), 'a word about the plan file');
    const amended = await perform(shop, t, 'PlanAmended', ['/', line('batch:'), line('the changed plan'), line('yes')]);
    expect(amended.changes.join()).toMatch(/30.*12/);
    expect(shop.status().operations[0]).toMatchObject({ ordered: 12, good: 1, left: 11 });
    expect(reportOf(shop).remarks.join()).toMatch(/plan was amended/);
  });

  it('is left alone by a no, for good', async () => {
    const shop = makeShop();
    const plan = shop.plan('thirty-blanks');
    const t = await openToWork(shop, { args: [plan] });
    await passCards(shop, t);
    fewer(plan);
    await t.waitFor((screen) => /plan file/i.test(screen.text), 'a word about the plan file');
    await perform(shop, t, 'PlanChangeDeclined', ['/', line('batch:'), line('the changed plan'), line('no:')]);
    expect(await countOne(shop, t)).toBe(1);
    expect(shop.status().operations[0]).toMatchObject({ ordered: 30, left: 29 });
    expect(reportOf(shop).remarks.join()).toMatch(/left alone/);
  });
});

describe.skipIf(!canRunStories())('a batch', () => {
  it('sends pieces out and takes fewer back; the rest is lost with its line in the report', async () => {
    const shop = makeShop();
    const t = await openToWork(shop, { args: [shop.plan('gate-evening')] });
    await workUntil(shop, t, () => cardUp(shop)?.kind === 'away');
    const out = await perform(shop, t, 'SentAway', ['enter']);
    expect(out).toMatchObject({ operation: 100, lane: 'threaded', pieces: 5, to: 'the plater' });
    const back = await perform(shop, t, 'CameBack', ['3', 'enter', line('spoiled there')]);
    expect(back).toMatchObject({ pieces: 3, lost: 2, reason: 'spoiled there' });
    expect(reportOf(shop).losses).toMatchObject([
      { operation: 100, what: 'lost away', pieces: 2, reason: 'spoiled there' },
    ]);
  });

  it('is finished short with its reason', async () => {
    const shop = makeShop();
    const t = await openToWork(shop, { args: [shop.plan('thirty-blanks')] });
    await passCards(shop, t);
    await countOne(shop, t);
    await perform(shop, t, 'BatchFinished', [
      '/',
      line('batch:'),
      line('finish short'),
      line('other'),
      ...typed('no more bar'),
      'enter',
    ]);
    expect(reportOf(shop)).toMatchObject({ state: 'finished', because: 'no more bar', good: 1 });
    expect(reportOf(shop).variants).toMatchObject([{ short: 29 }]);
  });

  it('is given up only by typing its name', async () => {
    const shop = makeShop();
    const t = await openToWork(shop, { args: [shop.plan('thirty-blanks')] });
    await passCards(shop, t);
    await countOne(shop, t);
    await pressSteps(t, ['/', line('batch:'), line('give'), ...typed('blanks'), 'enter', 'enter']);
    await t.waitFor((screen) => screen.text.includes('Thirty blanks'), 'the name that is wanted');
    expect(shop.events('BatchGivenUp')).toEqual([]);
    await perform(shop, t, 'BatchGivenUp', [
      '/',
      line('batch:'),
      line('give'),
      ...typed('Thirty blanks'),
      'enter',
      ...typed('lost'),
      'enter',
    ]);
    expect(reportOf(shop)).toMatchObject({ state: 'given up', because: 'lost', good: 1 });
  });

  it('counts by the piece instead of by the point when told so', async () => {
    const shop = makeShop();
    const t = await openToWork(shop, { args: [shop.plan('three-plates')] });
    await workUntil(shop, t, isWorkingAt(shop, 10));
    await perform(shop, t, 'CountingChanged', ['/', line('work:'), line('count piece')]);
    await perform(shop, t, 'LoadCounted', ['enter']);
    expect([goodAt(shop, 10), shop.events('PointDone').length]).toEqual([1, 0]);
    await perform(shop, t, 'CountingChanged', ['/', line('work:'), line('count point')]);
    await workUntil(shop, t, isWorkingAt(shop, 10));
    await perform(shop, t, 'PointDone', ['enter']);
    expect(shop.status().at).toMatchObject({ operation: 10, point: 2 });
  });

  it('knows who works: two people in one sitting stand in the report', async () => {
    const shop = makeShop();
    const t = await openToWork(shop, { args: [shop.plan('thirty-blanks')] });
    await passCards(shop, t);
    await perform(shop, t, 'InitialsGiven', ['/', line('work:'), line('initials'), ...typed('ab'), 'enter']);
    await workUntil(shop, t, () => goodAt(shop, 10) === 1);
    await perform(shop, t, 'InitialsGiven', ['/', line('work:'), line('initials'), ...typed('jo'), 'enter']);
    expect(reportOf(shop).sittings).toMatchObject([{ by: 'ab, jo' }]);
  });
});

describe.skipIf(!canRunStories())('several batches', () => {
  it('are open at once, and the list says where each stands', async () => {
    const shop = makeShop();
    for (const plan of ['thirty-blanks', 'gate-evening']) {
      const t = await shop.open({ args: [shop.plan(plan)] });
      await t.waitFor((screen) => /of \d+ good/.test(screen.text), 'the batch');
      t.press('q');
      expect(await t.exit()).toBe(0);
    }
    const list = JSON.parse(shop.ask('batches', '--json').out) as { batches: { job: string; state: string }[] };
    expect(list.batches.map(({ job, state }) => [job, state]).sort()).toEqual([
      ['Gate plates', 'left'],
      ['Thirty blanks', 'left'],
    ]);
  });
});
