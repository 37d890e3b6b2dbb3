// P8: a bad plan is told by message with line and column, never by a stack trace, and nothing is created.
import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { canRunStories } from './harness.ts';
import { closeShops, makeShop } from './shop.ts';

afterEach(closeShops);

const bad: readonly (readonly [string, string, RegExp])[] = [
  ['empty', '', /:1:1 /],
  ['nothing but a comment', '# later\n', /:\d+:\d+ /],
  ['not YAML', 'job: [unclosed\n  : : {\n', /:\d+:\d+ /],
  ['not a plan', '- one\n- two\n', /:1:1 /],
  ['of a future format', 'format: 2\nid: later\njob: Later\n', /:1:9 .*format/],
];

describe.skipIf(!canRunStories())('a plan that is', () => {
  it.each(bad)('%s is refused with its place and exit 65, and nothing is created', async (name, text, place) => {
    const shop = makeShop();
    const path = join(shop.folder, `${name.replaceAll(' ', '-')}.yaml`);
    writeFileSync(path, text);
    const checked = shop.ask('check', path);
    expect(checked.code).toBe(65);
    expect(checked.err).toMatch(place);
    expect(checked.err).not.toMatch(/^\s+at .*\.js:\d+/m);
    const t = await shop.open({ args: [path] });
    expect(await t.exit()).toBe(65);
    expect(t.screen().text.replaceAll('\n', '')).toContain(`${path}:`);
    expect(existsSync(shop.data)).toBe(false);
  });

  it('missing is refused with exit 66, and nothing is created', async () => {
    const shop = makeShop();
    const path = join(shop.folder, 'missing.yaml');
    expect(shop.ask('check', path).code).toBe(66);
    const t = await shop.open({ args: [path] });
    expect(await t.exit()).toBe(66);
    expect(t.screen().text).toContain('missing.yaml');
    expect(existsSync(shop.data)).toBe(false);
  });

  it('wrong in ten ways is told all of them at once, each with line and column', async () => {
    const shop = makeShop();
    const path = shop.plan('ten-faults');
    const { code, err } = shop.ask('check', path);
    expect(code).toBe(65);
    const places = err
      .split('\n')
      .flatMap((line) => (line.startsWith(`${path}:`) ? [line.slice(path.length + 1)] : []));
    expect(places.map((place) => Number(place.split(':')[0]))).toEqual([5, 7, 7, 9, 10, 11, 13, 15, 19, 22]);
    for (const place of places) expect(place).toMatch(/^\d+:\d+ /);
    const t = await shop.open({ args: [path], rows: 60 });
    expect(await t.exit()).toBe(65);
    expect(existsSync(shop.data)).toBe(false);
  });
});
