// P1: after kill -9 the batch opens and shows the number last shown, or one more for the press in flight.
import { afterEach, describe, expect, it } from 'vitest';
import { canRunStories } from './harness.ts';
import { closeShops, countOne, makeShop, openToWork, passCards, shownGood } from './shop.ts';

afterEach(closeShops);

describe.skipIf(!canRunStories())('the mains fail', () => {
  it('after each of twenty counts, and every count that was shown is there again', async () => {
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

  it('at any moment of opening, cards and counts, and no count that was shown is gone', {
    timeout: 240_000,
  }, async () => {
    const shop = makeShop();
    const plan = shop.plan('thirty-blanks');
    // Seeded: so many bytes of the program's answers are seen before the cut, from none to a few screens.
    let seed = 11;
    for (let cut = 0; cut < 16; cut += 1) {
      seed = (seed * 1103515245 + 12345) % 2 ** 31;
      const t = await shop.open({ args: [plan] });
      const last = seed % 9000;
      for (let press = 0; press < 4 && t.mark() < last; press += 1) {
        const before = t.mark();
        t.press('enter');
        await t.waitFor(() => t.mark() > before, 'an answer', 1000).catch(() => undefined);
      }
      t.kill('SIGKILL');
      await t.gone();
      const shown = shownGood(t.screen()) ?? 0;
      const counted = shop.journalBytes() === 0 ? 0 : shop.events('LoadCounted').length;
      expect(counted).toBeGreaterThanOrEqual(shown);
      if (counted > 0) expect(shop.status().operations[0]?.good).toBe(counted);
    }
    const t = await openToWork(shop, { args: [plan] });
    expect(shownGood(t.screen())).toBe(shop.events('LoadCounted').length);
  });

  it('while a press is in flight, and the count is the one shown or one more', async () => {
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
