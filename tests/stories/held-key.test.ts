// P6: one press is one piece at most: a held key, a burst and a paste add none, and a refused press says so.
import { afterEach, describe, expect, it } from 'vitest';
import { canRunStories, type Program } from './harness.ts';
import { closeShops, makeShop, openToWork, pressEnterUntil, shownGood } from './shop.ts';

afterEach(closeShops);

const guard_ms = 1200;

/** Holds Enter until the screen says that it is not taken: ten repeats at a time, never resting as long as the guard. */
async function hold(t: Program): Promise<void> {
  const isRefused = (): boolean => t.screen().text.includes('not taken');
  while (!isRefused()) {
    t.type('\r'.repeat(10));
    await t.waitFor(isRefused, 'why it was not taken', 100).catch(() => undefined);
  }
}

describe.skipIf(!canRunStories())('the count key', () => {
  it('held, in a burst or pasted counts once at most, and says why the rest was not taken', async () => {
    const shop = makeShop();
    const t = await openToWork(shop, {
      args: [shop.plan('thirty-blanks')],
      env: { MILLSIDE_GUARD_MS: String(guard_ms) },
    });
    const counts = (): number => shop.events('LoadCounted').length;
    await pressEnterUntil(shop, t, () => shop.state().cards.length === 0);

    // The first of a held key's presses counts, none of its repeats does.
    await hold(t);
    await t.waitFor((screen) => shownGood(screen) === 1, 'the count');
    expect(counts()).toBe(1);

    // What the guard asks for is rest: one press after it counts.
    const rested_ms = performance.now() + 1.5 * guard_ms;
    await t.waitFor(() => performance.now() > rested_ms, 'the key to have rested');
    t.press('enter');
    await t.waitFor((screen) => shownGood(screen) === 2 && !screen.text.includes('not taken'), 'the next count');
    expect(counts()).toBe(2);

    // Bracketed paste (xterm, mode 2004).
    t.type('\u001b[200~\r\r\r+++\r\u001b[201~');
    await t.waitFor((screen) => /paste/.test(screen.text), 'a word about the paste');
    expect(counts()).toBe(2);
  });

  it('that passed a card counts nothing while it is still held', async () => {
    const shop = makeShop();
    const t = await openToWork(shop, {
      args: [shop.plan('three-plates')],
      env: { MILLSIDE_GUARD_MS: String(guard_ms) },
    });
    const done = (): number => shop.events('LoadCounted').length + shop.events('PointDone').length;
    // One press after each rest of the key, until no card stands before the first point.
    while (shop.state().cards.length > 0) {
      const rested_ms = performance.now() + 1.5 * guard_ms;
      await t.waitFor(() => performance.now() > rested_ms, 'the key to have rested');
      const passed = shop.events('CardPassed').length;
      t.press('enter');
      await t.waitFor(() => shop.events('CardPassed').length > passed, 'the card to be passed');
    }
    await hold(t);
    expect(done()).toBe(0);
  });
});
