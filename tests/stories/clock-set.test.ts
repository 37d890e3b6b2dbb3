import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, describe, expect, it } from 'vitest';
import { canRunStories } from './harness.ts';
import { closeShops, countOne, makeShop, openToWork, passCards } from './shop.ts';

const folder = mkdtempSync(join(tmpdir(), 'millside-clock-'));
const file = join(folder, 'shift.json');
const preload = new URL('./shift-clock.mjs', import.meta.url).href;
const year_ms = 365 * 86_400_000;
const hour_ms = 3_600_000;

function setClock(wall_ms: number, slept_ms = 0): void {
  writeFileSync(file, JSON.stringify({ wall_ms, slept_ms }));
}

afterEach(closeShops);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Moments at which summer time begins and ends in Berlin (UTC), what the clock says then, and the offsets around it. */
const changes = [
  ['begins', Date.UTC(2027, 2, 28, 1), '03:00', '+01:00', '+02:00'],
  ['ends', Date.UTC(2027, 9, 31, 1), '02:00', '+02:00', '+01:00'],
] as const;

describe.skipIf(!canRunStories())('[P5] the clock of the computer', () => {
  it.each(changes)(
    'when summer time %s under a running batch',
    async (_, change_ms, clock, before, after) => {
      setClock(0);
      const shop = makeShop();
      const env = { NODE_OPTIONS: `--import=${preload}`, SHIFT_CLOCK_FILE: file, TZ: 'Europe/Berlin' };
      const t = await openToWork(shop, { args: [shop.plan('thirty-blanks')], env });
      await passCards(shop, t);
      // Set to a few seconds before the change; the batch goes on, then the clock runs over it without anybody setting it.
      const shift_ms = change_ms - 5000 - Date.now();
      setClock(shift_ms);
      await t.waitFor(() => shop.events('ClockStepped').length === 1, 'the clock that was set', 60_000);
      await passCards(shop, t);
      await countOne(shop, t);
      await t.waitFor(() => Date.now() + shift_ms > change_ms + 1000, 'the change', 60_000);
      await t.waitFor((screen) => screen.text.includes(clock), `the clock at ${clock}`, 60_000);
      await countOne(shop, t);
      await countOne(shop, t);
      expect(shop.events('ClockStepped')).toHaveLength(1);
      expect(shop.events('SuspendNoticed')).toHaveLength(0);
      const times = shop.events('LoadCounted').map((event) => event.ms ?? 0);
      for (const ms of times) {
        expect(ms).toBeGreaterThanOrEqual(0);
        expect(ms).toBeLessThan(hour_ms / 2);
      }
      t.press('q');
      expect(await t.exit()).toBe(0);
      const { accounts } = shop.state();
      for (const ms of Object.values(accounts)) {
        expect(ms).toBeGreaterThanOrEqual(0);
        expect(ms).toBeLessThan(hour_ms / 2);
      }
      const report = JSON.parse(shop.ask('report', '--json').out) as { readonly loads: { readonly at: string }[] };
      const offsets = report.loads.map((load) => load.at.slice(-6));
      expect(offsets.at(-1)).toBe(after);
      expect([before, after]).toContain(offsets[0]);
    },
    180_000,
  );

  it('set by a year and back, over summer time, or after a sleep changes no piece time', async () => {
    setClock(0);
    const shop = makeShop();
    const env = { NODE_OPTIONS: `--import=${preload}`, SHIFT_CLOCK_FILE: file, TZ: 'Europe/Berlin' };
    const t = await openToWork(shop, { args: [shop.plan('thirty-blanks')], env });
    await passCards(shop, t);
    await countOne(shop, t);
    // Forward a year, back to the year before, one hour on as at summer time, then a sleep of an hour.
    const steps = [
      { wall_ms: year_ms, slept_ms: 0, told: 'ClockStepped' },
      { wall_ms: -year_ms, slept_ms: 0, told: 'ClockStepped' },
      { wall_ms: -year_ms + hour_ms, slept_ms: 0, told: 'ClockStepped' },
      { wall_ms: -year_ms + 2 * hour_ms, slept_ms: hour_ms, told: 'SuspendNoticed' },
    ] as const;
    for (const { wall_ms, slept_ms, told } of steps) {
      const before = shop.events(told).length;
      setClock(wall_ms, slept_ms);
      await t.waitFor(() => shop.events(told).length > before, told, 60_000);
      await passCards(shop, t);
      await countOne(shop, t);
    }
    const times = shop.events('LoadCounted').map((event) => event.ms ?? 0);
    expect(times).toHaveLength(5);
    for (const ms of times) {
      expect(ms).toBeGreaterThanOrEqual(0);
      expect(ms).toBeLessThan(hour_ms / 2);
    }
    t.press('q');
    expect(await t.exit()).toBe(0);
    const { accounts } = shop.state();
    expect(accounts.run).toBeLessThan(hour_ms / 2);
    expect(accounts.pause).toBeGreaterThanOrEqual(hour_ms - 2000);
    for (const ms of Object.values(accounts)) expect(ms).toBeGreaterThanOrEqual(0);
  }, 180_000);
});
