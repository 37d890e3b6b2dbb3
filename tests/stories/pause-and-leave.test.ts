import { afterEach, describe, expect, it } from 'vitest';
import { canRunStories } from './harness.ts';
import { closeShops, countOne, makeShop, openToWork, passCards, shownGood } from './shop.ts';

afterEach(closeShops);

describe.skipIf(!canRunStories())('pausing and leaving', () => {
  it('goes on where it stood, with the same count, and tells each state from outside', async () => {
    const shop = makeShop();
    const plan = shop.plan('thirty-blanks');
    const first = await openToWork(shop, { args: [plan] });
    expect(shop.status().held_by?.pid).toBe(first.pid);
    await passCards(shop, first);
    await countOne(shop, first);
    await countOne(shop, first);
    expect(shop.status().state).toBe('running');

    first.press('p');
    await first.waitFor((screen) => screen.text.includes('PAUSED'), 'the pause');
    expect(shop.status().state).toBe('paused');
    first.press('q');
    expect(await first.exit()).toBe(0);
    expect(first.screen().text).toMatch(/Thirty blanks.*2 good/);
    expect(shop.status()).toMatchObject({ state: 'left', held_by: null });

    const second = await openToWork(shop, { args: [plan] });
    expect(shownGood(second.screen())).toBe(2);
    await passCards(shop, second);
    expect(await countOne(shop, second)).toBe(3);
    expect(shop.status()).toMatchObject({ state: 'running', held_by: { pid: second.pid } });
    expect(shop.events('BatchOpened')).toHaveLength(1);
  });

  it('leaves with Ctrl-C as with q', async () => {
    const shop = makeShop();
    const t = await openToWork(shop, { args: [shop.plan('thirty-blanks')] });
    t.press('ctrl-c');
    expect(await t.exit()).toBe(0);
    expect(shop.events('SittingEnded')).toMatchObject([{ why: 'left' }]);
  });
});
