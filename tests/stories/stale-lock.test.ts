// P4: a lock left by a killed process, a reused process number or another boot never blocks; one from another computer is
// named, and taken only by an explicit yes.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { processStart, readBootId } from '../../src/store/boot.ts';
import { canRunStories } from './harness.ts';
import { closeShops, countOne, makeShop, openToWork, passCards, type Shop, shownGood } from './shop.ts';

afterEach(closeShops);

const here = { host: hostname(), boot: readBootId(), pid: process.pid, started: processStart(process.pid) ?? '' };
const ended = spawnSync('true').pid;

/** A batch with one piece counted and nobody in it, and the file that would say who has it. */
async function batchLeft(): Promise<{ readonly shop: Shop; readonly plan: string; readonly ownerFile: string }> {
  const shop = makeShop();
  const plan = shop.plan('thirty-blanks');
  const t = await openToWork(shop, { args: [plan] });
  await passCards(shop, t);
  await countOne(shop, t);
  t.press('q');
  await t.exit();
  const ownerFile = join(shop.batchFolder(), 'owner.json');
  expect(existsSync(ownerFile)).toBe(false);
  return { shop, plan, ownerFile };
}

describe.skipIf(!canRunStories())('a lock left behind', () => {
  it.each([
    ['by a process that is dead', JSON.stringify({ ...here, pid: ended })],
    ['by a process whose number another has now', JSON.stringify({ ...here, started: '12345' })],
    ['before the computer was started anew', JSON.stringify({ ...here, boot: 'abcdefabcdef' })],
    ['with nothing readable in it', '{"host":'],
  ])('%s does not keep anybody out', async (_, owner) => {
    const { shop, plan, ownerFile } = await batchLeft();
    writeFileSync(ownerFile, owner);
    expect(shop.status().held_by).toBeNull();
    const t = await openToWork(shop, { args: [plan] });
    await passCards(shop, t);
    expect(await countOne(shop, t)).toBe(2);
    expect(shop.status().held_by?.pid).toBe(t.pid);
  });

  it('by another computer is named; only y takes it', async () => {
    const { shop, plan, ownerFile } = await batchLeft();
    const elsewhere = JSON.stringify({ ...here, host: 'far-bench', pid: 4711 });
    writeFileSync(ownerFile, elsewhere);
    expect(shop.status().held_by).toEqual({ host: 'far-bench', pid: 4711 });

    const t = await shop.open({ args: [plan] });
    await t.waitFor((screen) => screen.text.includes('far-bench'), 'who has it');
    t.press('enter');
    await t.waitFor((screen) => /LOOKING ON/.test(screen.text) && screen.text.includes('far-bench'), 'looking on');
    t.press('q');
    expect(await t.exit()).toBe(75);
    expect(readFileSync(ownerFile, 'utf8')).toBe(elsewhere);
    expect(shop.events('SittingBegan')).toHaveLength(1);

    const taker = await shop.open({ args: [plan] });
    await taker.waitFor((screen) => screen.text.includes('far-bench'), 'who has it');
    taker.press('y');
    await taker.waitFor((screen) => shownGood(screen) === 1, 'the batch');
    await passCards(shop, taker);
    expect(await countOne(shop, taker)).toBe(2);
    expect(shop.status().held_by).toEqual({ host: hostname(), pid: taker.pid });
  });
});
