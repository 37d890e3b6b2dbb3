// P11: data is 0700 and 0600 whatever the umask. P12: no socket beyond AF_UNIX while the program runs.
import { spawnSync } from 'node:child_process';
import { lstatSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { canRunStories } from './harness.ts';
import { builtProgram, closeShops, countOne, makeShop, openToWork, passCards } from './shop.ts';
import { openSockets } from './sockets.ts';

afterEach(closeShops);

/** Every path under `folder` with its permission bits, `folder` itself included. */
function modesUnder(folder: string): readonly (readonly [string, string])[] {
  const paths = [folder, ...readdirSync(folder, { recursive: true }).map((name) => join(folder, String(name)))];
  return paths.map((path) => {
    const facts = lstatSync(path);
    return [`${facts.isDirectory() ? 'folder' : 'file'} ${path}`, (facts.mode & 0o777).toString(8)] as const;
  });
}

describe.skipIf(!canRunStories())('what the program keeps and opens', () => {
  it('is readable by nobody else, under a umask that would allow everything', async () => {
    const shop = makeShop();
    const program = ['sh', '-c', 'umask 000; exec "$@"', 'sh', ...builtProgram];
    const t = await openToWork(shop, { program, args: [shop.plan('thirty-blanks')] });
    await passCards(shop, t);
    await countOne(shop, t);
    const modes = modesUnder(shop.data);
    expect(modes.length).toBeGreaterThan(4);
    const open = modes.filter(([path, mode]) => mode !== (path.startsWith('folder') ? '700' : '600'));
    expect(open).toEqual([]);
    t.press('q');
    await t.exit();
    expect(
      modesUnder(shop.data).filter(([path, mode]) => mode !== (path.startsWith('folder') ? '700' : '600')),
    ).toEqual([]);
  });

  it.skipIf(process.platform !== 'linux')('is no socket but the lock of the batch', async () => {
    const shop = makeShop();
    const t = await openToWork(shop, { args: [shop.plan('thirty-blanks')] });
    await passCards(shop, t);
    await countOne(shop, t);
    const sockets = openSockets(t.pid);
    expect(sockets.length).toBeGreaterThan(0);
    expect(sockets.filter((socket) => socket !== 'unix')).toEqual([]);
  });

  it.skipIf(spawnSync('unshare', ['-n', 'true']).status !== 0)(
    'is nothing of the network, which may be missing',
    async () => {
      const shop = makeShop();
      const program = ['unshare', '-n', ...builtProgram];
      const t = await openToWork(shop, { program, args: [shop.plan('thirty-blanks')] });
      await passCards(shop, t);
      expect(await countOne(shop, t)).toBe(1);
    },
  );
});
