import { afterEach, describe, expect, it } from 'vitest';
import { line } from '../menu-lines.ts';
import { cardUp, perform, pressSteps, type Step, workUntil } from './driving.ts';
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

describe.skipIf(!canRunStories())('a keypad alone at a check', () => {
  it.each(sizes)(
    'at %i rows and %i columns types, rubs out, is refused a comma, and settles the suspects singly',
    { timeout: 60_000 },
    async (rows, cols) => {
      const shop = makeShop();
      const t = await openToWork(shop, { args: [shop.plan('gate-evening')], rows, cols });
      const atCheck = (checks: number) => (): boolean =>
        cardUp(shop)?.kind === 'check' && shop.events('Checked').length === checks;
      const shown = () => t.waitFor((screen) => /CHECK.*Length/.test(screen.text), 'the check on the screen');
      await workUntil(shop, t, atCheck(0));
      await shown();
      // 6 by mistake, all rubbed out; then 60,0 that goes on with a point: the length of 60 +- 0.1 is good.
      await perform(shop, t, 'Checked', ['6', 'kp-minus', '6', '0', ',', '.', '0', '2', 'kp-enter']);
      expect(shop.events('Checked').at(-1)?.result).toMatchObject({ value: 60.02, within: true });
      await workUntil(shop, t, atCheck(1));
      await shown();
      await perform(shop, t, 'PiecesSuspected', ['5', '9', '.', '5', 'kp-enter']);
      expect(shop.state().suspects).toMatchObject([{ operation: 30, from: 3, to: 4 }]);
      const suspects = ['kp-divide', line('pieces:'), line('suspect pieces')];
      await perform(shop, t, 'SuspectsSettled', [...suspects, line('only some'), '3', 'kp-plus', line('measured')]);
      await perform(shop, t, 'SuspectsSettled', [...suspects, line('scrap'), line('size out')]);
      expect(shop.state().suspects).toEqual([]);
      expect(shop.state().cells[2]).toMatchObject({ good: 3, scrap: 1 });
      await perform(shop, t, 'TakenBack', ['kp-minus']);
      expect(shop.state().suspects).toMatchObject([{ from: 4, to: 4 }]);
      expect(shop.state().cells[2]).toMatchObject({ good: 4, scrap: 0 });
    },
  );
});

describe.skipIf(!canRunStories())('a pedal that counts beside a keypad that answers', () => {
  it('makes a whole batch, and the pedal passes no card', async () => {
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
  it('counts a whole batch with Enter and says each count', async () => {
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
