// P6: a number that a gauge types where none is asked for counts nothing, rejects nothing and takes nothing back.
import { afterEach, describe, expect, it } from 'vitest';
import { cardUp, isWorkingAt, perform, typed, workUntil } from './driving.ts';
import { canRunStories, type Program } from './harness.ts';
import { closeShops, makeShop, openToWork, passCards, type Shop } from './shop.ts';

afterEach(closeShops);

const counts = (shop: Shop) => {
  const { good, scrap } = shop.state().cells[0] ?? {};
  return { good, scrap };
};

async function sent(shop: Shop, t: Program, text: string): Promise<void> {
  const before = counts(shop);
  t.type(`${text}\r`);
  await t.waitFor((screen) => screen.text.includes(`${text}: no value`), `a word about ${text}`);
  expect(counts(shop)).toEqual(before);
}

describe.skipIf(!canRunStories())('a gauge that types', () => {
  it.each([
    [24, 80],
    [15, 50],
  ])('at %i rows and %i columns does nothing at the work and in a list', async (rows, cols) => {
    const shop = makeShop();
    const t = await openToWork(shop, { args: [shop.plan('thirty-blanks')], rows, cols });
    await passCards(shop, t);
    await perform(shop, t, 'LoadCounted', ['enter']);
    await passCards(shop, t);
    for (const text of ['60.02', '10.02', '-0.15']) await sent(shop, t, text);
    t.press('/');
    await t.waitFor((screen) => screen.text.includes('WHAT'), 'the menu');
    await sent(shop, t, '-0.15');
  });

  it('opens the check of the work, which takes the value by Enter', async () => {
    const shop = makeShop();
    const t = await openToWork(shop, { args: [shop.plan('gate-evening')] });
    await workUntil(shop, t, () => isWorkingAt(shop, 30)() && shop.events('Checked').length === 1);
    t.type('60.02\r');
    await t.waitFor(() => cardUp(shop)?.kind === 'check', 'the check');
    await t.waitFor((screen) => screen.text.includes('60.02') || screen.hasDigits('60.02'), 'the value');
    const { result } = await perform(shop, t, 'Checked', ['enter']);
    expect(result).toMatchObject({ value: 60.02, within: true });
  });

  it('is answered as ever where its value is asked for', async () => {
    const shop = makeShop();
    const t = await openToWork(shop, { args: [shop.plan('gate-evening')] });
    await workUntil(shop, t, () => cardUp(shop)?.kind === 'check');
    const { result } = await perform(shop, t, 'Checked', [...typed('60.04'), 'enter']);
    expect(result).toMatchObject({ value: 60.04, within: true });
  });
});
