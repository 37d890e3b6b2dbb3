// P7: a run keeps the plan it began with; a changed, spoiled or missing plan file is mentioned, never applied without a yes.
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { afterEach, describe, expect, it } from 'vitest';
import { canRunStories } from './harness.ts';
import { closeShops, countOne, makeShop, openToWork, passCards } from './shop.ts';

afterEach(closeShops);

const changes: readonly (readonly [string, (path: string) => void])[] = [
  ['changed', (path) => writeFileSync(path, readFileSync(path, 'utf8').replace('quantity: 30', 'quantity: 12'))],
  ['halved', (path) => writeFileSync(path, readFileSync(path).subarray(0, 300))],
  ['spoiled', (path) => writeFileSync(path, Buffer.from([0xff, 0x00, 0x80, 0x1b, 0x5b]))],
  ['deleted', (path) => rmSync(path)],
];

describe.skipIf(!canRunStories())('the plan file of a running batch', () => {
  it.each(changes)('when it is %s is mentioned, and the batch goes on as it was opened', async (_, change) => {
    const shop = makeShop();
    const plan = shop.plan('thirty-blanks');
    const t = await openToWork(shop, { args: [plan] });
    await passCards(shop, t);
    await countOne(shop, t);
    change(plan);
    await t.waitFor((screen) => /plan file/i.test(screen.text), 'a word about the plan file');
    expect(await countOne(shop, t)).toBe(2);
    expect(shop.events('PlanAmended')).toEqual([]);
    t.press('q');
    expect(await t.exit()).toBe(0);

    const again = await openToWork(shop, { args: [shop.status().batch] });
    await again.waitFor((screen) => /plan file/i.test(screen.text), 'a word about the plan file on reopening');
    await passCards(shop, again);
    expect(await countOne(shop, again)).toBe(3);
    expect(shop.events('PlanAmended')).toEqual([]);
    expect(shop.status().operations[0]).toMatchObject({ ordered: 30, good: 3 });
  });
});
