// P10: a frozen terminal, a window of any size and a stop by the shell stop no counting and lose no place.
import { afterEach, describe, expect, it } from 'vitest';
import { canRunStories } from './harness.ts';
import {
  builtProgram,
  closeShops,
  countOne,
  makeShop,
  openToWork,
  passCards,
  pressEnterUntil,
  shownGood,
} from './shop.ts';

afterEach(closeShops);

describe.skipIf(!canRunStories())('an awkward terminal', () => {
  it('that is frozen goes on counting, and shows the count when it thaws', async () => {
    const shop = makeShop();
    const t = await openToWork(shop, { args: [shop.plan('thirty-blanks')] });
    await passCards(shop, t);
    await countOne(shop, t);
    t.freeze();
    const counted = (): number => shop.events('LoadCounted').length;
    for (let piece = 2; piece <= 6; piece += 1) await pressEnterUntil(shop, t, () => counted() >= piece);
    const six = counted();
    expect(shownGood(t.screen())).toBe(1);
    t.thaw();
    await t.waitFor((screen) => shownGood(screen) === six, 'the count after the thaw');
  });

  it('that is frozen when the program is told to end does not keep it', async () => {
    const shop = makeShop();
    const t = await openToWork(shop, { args: [shop.plan('thirty-blanks')] });
    await passCards(shop, t);
    t.freeze();
    await pressEnterUntil(shop, t, () => shop.events('LoadCounted').length === 1);
    t.kill('SIGTERM');
    await t.gone(3000);
    expect(shop.events('SittingEnded')).toMatchObject([{ why: 'signal' }]);
  });

  it('that is frozen when its window is closed does not keep it either', async () => {
    const shop = makeShop();
    const t = await openToWork(shop, { args: [shop.plan('thirty-blanks')] });
    await passCards(shop, t);
    t.freeze();
    await pressEnterUntil(shop, t, () => shop.events('LoadCounted').length === 1);
    t.hangUp();
    await t.gone(3000);
    expect(shop.events('SittingEnded')).toMatchObject([{ why: 'hang-up' }]);
    expect(shop.status()).toMatchObject({ state: 'left', operations: [{ good: 1 }] });
  });

  it('that changes its size forty times in a row counts meanwhile and ends with a whole screen', async () => {
    const shop = makeShop();
    const t = await openToWork(shop, { args: [shop.plan('thirty-blanks')] });
    await passCards(shop, t);
    for (let step = 0; step < 40; step += 1) {
      t.resize(8 + ((step * 7) % 50), 20 + ((step * 13) % 150));
      if (step % 10 === 5) {
        const before = shop.events('LoadCounted').length;
        await pressEnterUntil(shop, t, () => shop.events('LoadCounted').length > before);
      }
    }
    t.resize(24, 80);
    const good = shop.events('LoadCounted').length;
    expect(good).toBeGreaterThanOrEqual(4);
    await t.waitFor((screen) => shownGood(screen) === good, 'the count at the last size');
    expect(t.screen().isAlternate).toBe(true);
  });

  it.each([
    [10, 40],
    [5, 20],
  ])('of %i rows and %i columns still counts', async (rows, cols) => {
    const shop = makeShop();
    const t = await shop.open({ args: [shop.plan('thirty-blanks')], rows, cols });
    await t.waitFor(() => shop.events('SittingBegan').length === 1, 'the sitting');
    await passCards(shop, t);
    await pressEnterUntil(shop, t, () => shop.events('LoadCounted').length === 1);
    await t.waitFor((screen) => /\b1\b/.test(screen.text) || screen.hasDigits('1'), 'the count');
    t.resize(24, 80);
    await t.waitFor((screen) => shownGood(screen) === 1, 'the count in a larger window');
  });

  it('whose shell stops the program keeps the place, and gives the screen back meanwhile', async () => {
    const shop = makeShop();
    const plan = shop.plan('thirty-blanks');
    // A shell with job control: on Ctrl-Z it has the terminal, on Enter it gives it back.
    const script = 'set -m; "$@"; echo stopped here; read line; fg %1 >/dev/null';
    const t = await openToWork(shop, { program: ['bash', '-c', script, 'bash', ...builtProgram], args: [plan] });
    await passCards(shop, t);
    await countOne(shop, t);
    t.press('ctrl-z');
    await t.waitFor((screen) => screen.text.includes('stopped here') && !screen.isAlternate, 'the shell');
    t.press('enter');
    await t.waitFor((screen) => screen.isAlternate && shownGood(screen) === 1, 'the batch again');
    expect(await countOne(shop, t)).toBe(2);
    expect(shop.events('SittingBegan')).toHaveLength(1);
    t.press('q');
    expect(await t.exit()).toBe(0);
  });

  it('that stands still with the program itself (SIGSTOP, SIGCONT) keeps the place', async () => {
    const shop = makeShop();
    const plan = shop.plan('thirty-blanks');
    const t = await openToWork(shop, { args: [plan] });
    await passCards(shop, t);
    await countOne(shop, t);
    t.kill('SIGSTOP');
    const other = await openToWork(shop, { args: [plan] });
    await other.waitFor((screen) => screen.text.includes(String(t.pid)), 'who has it');
    t.kill('SIGCONT');
    expect(await countOne(shop, t)).toBe(2);
  });
});
