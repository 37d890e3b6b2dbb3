// P1: after kill -9 the batch opens and shows the number last shown, or one more for the press in flight.
import { afterEach, describe, expect, it } from 'vitest';
import { canRunStories } from './harness.ts';
import { closeShops, countOne, makeShop, openToWork, passCards, shownGood } from './shop.ts';

afterEach(closeShops);

describe.skipIf(!canRunStories())('the mains fail', () => {
  it('after each of twenty counts, and every count that was shown is there again', { timeout: 120_000 }, async () => {
    const shop = makeShop();
    const plan = shop.plan('thirty-blanks');
    let shown = 0;
    for (let cut = 0; cut < 20; cut += 1) {
      const t = await openToWork(shop, { args: [plan] });
      expect(shownGood(t.screen())).toBe(shown);
      await passCards(shop, t);
      shown = await countOne(shop, t);
      t.kill('SIGKILL');
      await t.gone();
    }
    expect(shown).toBe(20);
    expect(shop.status()).toMatchObject({ state: 'left', held_by: null, operations: [{ good: 20, left: 10 }] });
    expect(shop.events('SittingBegan').map((event) => event.afterCut)).toEqual([false, ...Array(19).fill(true)]);
  });

  it('while a press is in flight, and the count is the one shown or one more', { timeout: 60_000 }, async () => {
    const shop = makeShop();
    const plan = shop.plan('thirty-blanks');
    for (let cut = 0; cut < 5; cut += 1) {
      const t = await openToWork(shop, { args: [plan] });
      await passCards(shop, t);
      const shown = await countOne(shop, t);
      const before = t.mark();
      t.press('enter');
      // Cut at five different moments after the press: at once, or with the first bytes that answer it.
      if (cut % 2 === 0) await t.waitFor(() => t.mark() > before, 'an answer');
      t.kill('SIGKILL');
      await t.gone();
      const good = shop.status().operations[0]?.good;
      expect([shown, shown + 1]).toContain(good);
    }
  });
});
