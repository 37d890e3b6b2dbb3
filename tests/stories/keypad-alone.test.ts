import { afterEach, describe, expect, it } from 'vitest';
import { line } from '../menu-lines.ts';
import { pressSteps, type Step } from './driving.ts';
import { canRunStories } from './harness.ts';
import { closeShops, makeShop, openToWork, passCards, pressEnterUntil } from './shop.ts';

afterEach(closeShops);

const sizes = [
  [24, 80],
  [30, 100],
  [15, 50],
] as const;

describe.skipIf(!canRunStories())('a keypad with nothing else', () => {
  it.each(sizes)('at %i rows and %i columns counts, pauses, rejects, takes back and leaves', async (rows, cols) => {
    const shop = makeShop();
    const t = await openToWork(shop, { args: [shop.plan('thirty-blanks')], rows, cols });
    await passCards(shop, t);
    const lines = (): number => shop.journal().length;
    const atWork = async (): Promise<unknown> =>
      t.waitFor((screen) => screen.text.includes('Enter count'), 'the work in hand');
    const press = async (...steps: Step[]): Promise<void> => {
      const before = lines();
      await pressSteps(t, steps);
      await t.waitFor(() => lines() > before, 'an event');
    };
    await atWork();
    await press('kp-plus');
    expect(shop.state().cells[0]?.good).toBe(1);
    await press('kp-minus');
    expect(shop.state().cells[0]?.good).toBe(0);
    await press('kp-multiply');
    await t.waitFor((screen) => screen.text.includes('PAUSED') || screen.hasDigits('PAUSED'), 'the pause');
    await press('kp-multiply');
    await atWork();
    await press('0', line('the piece in hand'), line('size out'));
    expect(shop.state().cells[0]?.scrap).toBe(1);
    await press('kp-minus');
    await pressSteps(t, ['kp-divide', line('batch:'), line('leave')]);
    expect(await t.exit()).toBe(0);
    expect(shop.events('SittingEnded')).toMatchObject([{ why: 'left' }]);
  });
});

describe.skipIf(!canRunStories())('a pedal that counts beside a keypad that answers', () => {
  it('makes a whole batch, and the pedal passes no card', { timeout: 60_000 }, async () => {
    const shop = makeShop();
    const t = await openToWork(shop, { args: [shop.plan('three-plates')] });
    while (!t.hasEnded()) {
      const before = shop.journalBytes();
      const hasCard = shop.state().kind !== 'open' || shop.state().cards.length > 0;
      if (hasCard) t.press('f9', 'kp-plus');
      else t.press('f9');
      await t.waitFor(() => t.hasEnded() || shop.journalBytes() > before, 'an answer', 1000).catch(() => undefined);
    }
    expect(await t.exit()).toBe(0);
    expect(shop.state().kind).toBe('finished');
  });
});

describe.skipIf(!canRunStories())('a terminal that takes plain lines only', () => {
  it('counts a whole batch with Enter and says each count', { timeout: 60_000 }, async () => {
    const shop = makeShop();
    const t = await shop.open({ args: [shop.plan('three-plates')], env: { TERM: 'dumb' } });
    await t.waitFor((screen) => screen.text.includes('plain lines'), 'the first line');
    await t.waitFor(() => shop.events('SittingBegan').length === 1, 'the sitting');
    await pressEnterUntil(shop, t, () => shop.events('LoadCounted').length === 1);
    await t.waitFor((screen) => screen.text.includes('1 of 3 good'), 'the count');
    await pressEnterUntil(shop, t, t.hasEnded);
    expect(await t.exit()).toBe(0);
    expect(t.screen().isAlternate).toBe(false);
    expect(shop.state().kind).toBe('finished');
  });
});
