// P6: one press is one piece at most: a held key, a burst and a paste add none, and a refused press says so.
import { afterEach, describe, expect, it } from 'vitest';
import { canRunStories, type Program } from './harness.ts';
import { closeShops, makeShop, openToWork, pressEnterUntil, shownGood } from './shop.ts';

afterEach(closeShops);

const guard_ms = 1200;
/** Longer than the guard: a press given again after this is taken. */
const patience_ms = 1600;

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
    await pressEnterUntil(shop, t, () => shop.state().cards.length === 0, patience_ms);

    // The key that passed the last card is still held: none of its repeats counts.
    await hold(t);
    expect(counts()).toBe(0);

    await pressEnterUntil(shop, t, () => counts() === 1, patience_ms);
    await t.waitFor((screen) => shownGood(screen) === 1 && !screen.text.includes('not taken'), 'the count');
    await hold(t);
    expect(counts()).toBe(1);

    // Bracketed paste (xterm, mode 2004).
    t.type('\u001b[200~\r\r\r+++\r\u001b[201~');
    await t.waitFor((screen) => /paste/.test(screen.text), 'a word about the paste');
    expect(counts()).toBe(1);
  });
});
