// P3: what cannot be written is on the screen within 1 s, is not counted, and counting goes on when there is room again.
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { canRunStories, type Program } from './harness.ts';
import { closeShops, countOne, makeShop, openToWork, passCards, type Shop, shownGood } from './shop.ts';

const mounts = new Set<string>();

afterEach(() => {
  closeShops();
  for (const mount of mounts) {
    execFileSync('umount', ['-l', mount]);
    rmSync(mount, { recursive: true });
  }
  mounts.clear();
});

/** A file system of one megabyte, or undefined where this user may mount none. */
function smallDisk(): string | undefined {
  const folder = mkdtempSync(join(tmpdir(), 'small-disk-'));
  const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=1m', 'tmpfs', folder]);
  if (mounted.status === 0) {
    mounts.add(folder);
    return folder;
  }
  rmSync(folder, { recursive: true });
  return undefined;
}

/** Presses Enter, which must be refused within a second, with nothing counted. */
async function pressInVain(shop: Shop, t: Program, good: number): Promise<void> {
  // Another key first, so that the words of an earlier refusal are gone.
  t.press('s');
  await t.waitFor((screen) => !screen.text.includes('NOT COUNTED'), 'other words');
  t.press('enter');
  await t.waitFor((screen) => screen.text.includes('NOT COUNTED'), 'NOT COUNTED', 1000);
  expect(shownGood(t.screen())).toBe(good);
  expect(shop.events('LoadCounted')).toHaveLength(good);
}

const limitFileSize = (pid: number, bytes: number | 'unlimited'): void => {
  execFileSync('prlimit', ['--pid', String(pid), `--fsize=${bytes}:`]);
};
const canLimit = spawnSync('prlimit', ['--version']).status === 0;

describe.skipIf(!canRunStories())('a disk without room', () => {
  it.skipIf(!canLimit)('in the middle of a line counts nothing, and goes on when there is room', async () => {
    const shop = makeShop();
    const t = await openToWork(shop, { args: [shop.plan('thirty-blanks')] });
    await passCards(shop, t);
    await countOne(shop, t);
    // Forty bytes of the next line are taken, then no more: the write comes back short.
    limitFileSize(t.pid, shop.journalBytes() + 40);
    await pressInVain(shop, t, 1);
    await pressInVain(shop, t, 1);
    limitFileSize(t.pid, 'unlimited');
    expect(await countOne(shop, t)).toBe(2);
    t.press('q');
    expect(await t.exit()).toBe(0);
    expect(shop.status().operations[0]?.good).toBe(2);
  });

  it('that is full counts nothing, and goes on when there is room', async (context) => {
    const disk = smallDisk();
    if (disk === undefined) return context.skip('no file system can be mounted here');
    const shop = makeShop({ data: join(disk, 'data') });
    const t = await openToWork(shop, { args: [shop.plan('thirty-blanks')] });
    await passCards(shop, t);
    await countOne(shop, t);
    const ballast = join(disk, 'ballast');
    spawnSync('dd', ['if=/dev/zero', `of=${ballast}`, 'bs=4096']);
    // The journal may have room left in its last block: count until the disk takes no more.
    let good = 1;
    for (;;) {
      t.press('enter');
      const isFull = (): boolean => t.screen().text.includes('NOT COUNTED');
      const next = good + 1;
      await t.waitFor((screen) => isFull() || shownGood(screen) === next, 'an answer');
      if (isFull()) break;
      good = next;
    }
    await pressInVain(shop, t, good);
    rmSync(ballast);
    expect(await countOne(shop, t)).toBe(good + 1);
    expect(shop.status().operations[0]?.good).toBe(good + 1);
  });

  it('that may only be read lets nobody begin or go on, says so, and shows all there is', async (context) => {
    const disk = smallDisk();
    if (disk === undefined) return context.skip('no file system can be mounted here');
    const shop = makeShop({ data: join(disk, 'data') });
    const plan = shop.plan('thirty-blanks');
    const t = await openToWork(shop, { args: [plan] });
    await passCards(shop, t);
    await countOne(shop, t);
    t.press('q');
    expect(await t.exit()).toBe(0);
    execFileSync('mount', ['-o', 'remount,ro', disk]);
    const bytes = shop.journalBytes();
    const locked = await shop.open({ args: [plan], cols: 120 });
    await locked.waitFor((screen) => /read-only/.test(screen.text) || locked.hasEnded(), 'why it cannot go on');
    expect(locked.screen().text).toMatch(/read-only/);
    if (!locked.hasEnded()) locked.press('enter');
    expect(await locked.exit()).toBeGreaterThan(0);
    expect(shop.journalBytes()).toBe(bytes);
    expect(shop.status().operations[0]?.good).toBe(1);
    expect(shop.ask('report').code).toBe(0);
  });

  it('or without its data folder says so before anything begins, and ends with 73', async () => {
    const shop = makeShop();
    writeFileSync(shop.data, 'a file where the folder is wanted');
    const t = await shop.open({ args: [shop.plan('thirty-blanks')] });
    expect(await t.exit()).toBe(73);
    expect(t.screen().text).toContain('data folder cannot be used');
    expect(t.screen().text).toContain(shop.data);
  });

  it('that vanishes in mid-run is told at each press; when it is back counting goes on', async () => {
    const shop = makeShop();
    const t = await openToWork(shop, { args: [shop.plan('thirty-blanks')] });
    await passCards(shop, t);
    await countOne(shop, t);
    const away = join(shop.folder, 'away');
    renameSync(shop.data, away);
    t.press('enter');
    await t.waitFor((screen) => screen.text.includes('NOT COUNTED'), 'NOT COUNTED', 1000);
    expect(shownGood(t.screen())).toBe(1);
    renameSync(away, shop.data);
    expect(await countOne(shop, t)).toBe(2);
  });

  it('that vanishes for good lets the program be left, and tells the truth on the way out', async () => {
    const shop = makeShop();
    const t = await openToWork(shop, { args: [shop.plan('thirty-blanks')] });
    await passCards(shop, t);
    await countOne(shop, t);
    rmSync(shop.data, { recursive: true });
    t.press('enter');
    await t.waitFor((screen) => screen.text.includes('NOT COUNTED'), 'NOT COUNTED', 1000);
    t.press('q');
    expect(await t.exit()).toBe(74);
    expect(t.screen().isAlternate).toBe(false);
    expect(t.screen().text).toMatch(/1 good/);
    expect(t.screen().text).toMatch(/not\s+saved/);
    expect(existsSync(shop.data)).toBe(false);
  });
});
