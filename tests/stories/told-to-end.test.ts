// P10: every catchable exit gives the terminal back, and the sitting ends with an event. P12: SIGUSR1 opens no port.
import { afterEach, describe, expect, it } from 'vitest';
import { canRunStories } from './harness.ts';
import { closeShops, countOne, makeShop, openToWork, passCards } from './shop.ts';
import { openSockets } from './sockets.ts';

afterEach(closeShops);

const signals = [
  { signal: 'SIGTERM', code: 143 },
  { signal: 'SIGHUP', code: 129 },
  { signal: 'SIGQUIT', code: 131 },
  { signal: 'SIGINT', code: 130 },
] as const;

describe.skipIf(!canRunStories())('a program told to end', () => {
  for (const { signal, code } of signals) {
    it(`by ${signal} gives the terminal back and says where the batch stands`, async () => {
      const shop = makeShop();
      const t = await openToWork(shop, { args: [shop.plan('thirty-blanks')] });
      await passCards(shop, t);
      await countOne(shop, t);
      const mark = t.mark();
      t.kill(signal);
      expect(await t.exit()).toBe(code);
      const screen = t.screen();
      expect(screen.isAlternate).toBe(false);
      expect(screen.text).toMatch(/Thirty blanks.*1 good/);
      const last = t.bytesSince(mark).toString();
      // Cursor shown, bracketed paste off, alternate screen left: DECTCEM, xterm modes 2004 and 1049.
      for (const mode of ['\u001b[?25h', '\u001b[?2004l', '\u001b[?1049l']) expect(last).toContain(mode);
      expect(shop.events('SittingEnded')).toMatchObject([{ why: signal === 'SIGHUP' ? 'hang-up' : 'signal' }]);
      expect(shop.status()).toMatchObject({ state: 'left', held_by: null, operations: [{ good: 1 }] });
    });
  }

  it('by the closing of its window ends within 3 s with the sitting closed', async () => {
    const shop = makeShop();
    const t = await openToWork(shop, { args: [shop.plan('thirty-blanks')] });
    await passCards(shop, t);
    await countOne(shop, t);
    t.hangUp();
    await t.gone(3000);
    expect(shop.events('SittingEnded')).toMatchObject([{ why: 'hang-up' }]);
    expect(shop.status()).toMatchObject({ state: 'left', held_by: null, operations: [{ good: 1 }] });
  });

  it('by SIGUSR1 does not, and opens no debugger port', async () => {
    const shop = makeShop();
    const t = await openToWork(shop, { args: [shop.plan('thirty-blanks')] });
    await passCards(shop, t);
    t.kill('SIGUSR1');
    // A signal is taken before a key that comes after it: once that is answered the port would be open.
    await countOne(shop, t);
    await countOne(shop, t);
    expect(openSockets(t.pid).filter((socket) => socket !== 'unix')).toEqual([]);
    expect(t.screen().text).not.toMatch(/debugger/i);
  });
});
