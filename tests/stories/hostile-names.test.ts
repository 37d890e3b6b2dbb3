// P8: none of a plan's or a name's bytes reaches the terminal raw, no name becomes a path, and no pipe is waited for.
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { canRunStories } from './harness.ts';
import { closeShops, makeShop } from './shop.ts';

afterEach(closeShops);

// In a YAML string: sets the window's title, asks the terminal for its answer back, clears the screen (ECMA-48, xterm).
const hostile = '\\e]0;taken\\a\\e[6n\\e[2J\\x9b5n';
// As raw bytes these would be: OSC, CSI 6n, and the one-byte CSI.
const rawBytes = ['\u001b]0;', '\u001b[6n', '\u009b'];

function hasRaw(text: string): readonly string[] {
  return rawBytes.filter((bytes) => text.includes(bytes));
}

describe.skipIf(!canRunStories())('control characters', () => {
  it('in the texts of a plan are refused with their place, and none is sent to the terminal', async () => {
    const shop = makeShop();
    const path = shop.plan('thirty-blanks');
    const text = readFileSync(path, 'utf8')
      .replace('job: Thirty blanks', `job: "Thirty ${hostile} blanks"`)
      .replace('title: Deburr', `title: "Deburr ${hostile}"`)
      .replace('name: Bench,', `name: "Bench ${hostile}",`);
    writeFileSync(path, text);
    for (const command of ['check', 'steps']) {
      const { code, out, err } = shop.ask(command, path);
      expect(code).toBe(65);
      expect(err.match(/:\d+:\d+ /g)).toHaveLength(3);
      expect(hasRaw(out + err)).toEqual([]);
    }
    const t = await shop.open({ args: [path] });
    expect(await t.exit()).toBe(65);
    expect(hasRaw(t.bytesSince(0).toString())).toEqual([]);
  });

  it('in a name are shown printable, and a name that climbs out of the data folder opens nothing', async () => {
    const shop = makeShop();
    const secret = join(shop.folder, 'secret');
    writeFileSync(secret, 'nothing to see');
    for (const name of ['../secret', '..', '/etc', 'a\u001b]0;taken\u0007b', '%2e%2e', 'x'.repeat(5000)]) {
      const { code, out, err } = shop.ask('status', name);
      expect([name.slice(0, 20), code]).toEqual([name.slice(0, 20), 66]);
      expect(hasRaw(out + err)).toEqual([]);
    }
    expect(existsSync(shop.data)).toBe(false);
  });

  it('do not matter in a pipe: it is refused at once, not waited for', async () => {
    const shop = makeShop();
    const pipe = join(shop.folder, 'pipe.yaml');
    execFileSync('mkfifo', [pipe]);
    for (const path of [pipe, '/dev/zero', shop.folder]) {
      const { code, err } = shop.ask('check', path);
      expect([path, code]).toEqual([path, 66]);
      expect(err).not.toMatch(/^\s+at .*\.js:\d+/m);
    }
  });
});
