// P4: one writer a batch; the others are told who has it, may look on, and never write.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { canRunStories, type Program } from './harness.ts';
import { closeShops, countOne, makeShop, openToWork, passCards, type Shop, shownGood } from './shop.ts';

afterEach(closeShops);

const journalText = (shop: Shop): string => readFileSync(join(shop.batchFolder(), 'journal.jsonl'), 'utf8');

describe.skipIf(!canRunStories())('several terminals on one batch', () => {
  it('gives it to one; a second is told who has it and its keys write nothing', async () => {
    const shop = makeShop();
    const plan = shop.plan('thirty-blanks');
    const first = await openToWork(shop, { args: [plan] });
    await passCards(shop, first);
    await countOne(shop, first);

    const before = journalText(shop);
    const second = await openToWork(shop, { args: [plan] });
    await second.waitFor((screen) => screen.text.includes(String(first.pid)), 'who has it');
    second.press('f9', 'backspace', 'p', 'r', 'b', 'n', 't', 'm', '/', 'kp-minus', 'kp-multiply', 'q');
    expect(await second.exit()).toBe(75);
    expect(journalText(shop)).toBe(before);
    expect(shop.status().held_by?.pid).toBe(first.pid);
    expect(await countOne(shop, first)).toBe(2);
  });

  it('when three are started together exactly one wins, and when it is killed the next one opens it', async () => {
    const shop = makeShop();
    const plan = shop.plan('thirty-blanks');
    const t = await openToWork(shop, { args: [plan] });
    t.press('q');
    await t.exit();

    const three = await Promise.all([1, 2, 3].map(() => openToWork(shop, { args: [plan] })));
    const holder = shop.status().held_by?.pid;
    const winner = three.find((one) => one.pid === holder) as Program;
    const others = three.filter((one) => one !== winner);
    expect(others).toHaveLength(2);
    for (const other of others) await other.waitFor((screen) => screen.text.includes(String(holder)), 'who has it');
    expect(shop.events('SittingBegan')).toHaveLength(2);

    winner.kill('SIGKILL');
    await winner.gone();
    const [next, last] = others as [Program, Program];
    next.press('enter');
    await next.waitFor(() => shop.events('SittingBegan').length === 3, 'the next to open it');
    last.press('enter');
    await last.waitFor((screen) => screen.text.includes(String(next.pid)), 'who has it now');
    await passCards(shop, next);
    expect(await countOne(shop, next)).toBe(1);
    expect(shownGood(last.screen())).toBe(0);
  });
});
