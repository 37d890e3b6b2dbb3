// What a reading command opens and what a count writes: figures that must not creep up unseen.
import { spawnSync } from 'node:child_process';
import { cpSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { canRunStories } from './harness.ts';
import { builtProgram, closeShops, countOne, makeShop, openToWork, passCards } from './shop.ts';

afterEach(closeShops);

/** Module files that the program opens for `args`, as the module loader asks for them. */
function modulesOpened(folder: string, args: readonly string[]): readonly string[] {
  const list = join(folder, 'opened.txt');
  const hooks = join(folder, 'hooks.mjs');
  const register = join(folder, 'register.mjs');
  writeFileSync(
    hooks,
    `import { appendFileSync } from 'node:fs';
     export async function load(url, context, next) {
       if (url.startsWith('file:')) appendFileSync(${JSON.stringify(list)}, url.slice(7) + '\\n');
       return next(url, context);
     }`,
  );
  writeFileSync(register, `import { register } from 'node:module'; register(${JSON.stringify(`file://${hooks}`)});`);
  writeFileSync(list, '');
  const [node = '', main = ''] = builtProgram;
  const ran = spawnSync(node, ['--import', register, main, ...args], { cwd: folder, encoding: 'utf8' });
  expect(ran.status).toBe(0);
  return readFileSync(list, 'utf8')
    .split('\n')
    .filter((line) => line.endsWith('.js'));
}

/** Names of the libraries whose files the bundler says it put into these modules. */
function librariesIn(texts: readonly string[]): readonly string[] {
  const names = texts.flatMap((text) =>
    [...text.matchAll(/^\/\/ .*node_modules\/((?:@[^/]+\/)?[^/]+)\//gm)].map((found) => found[1] ?? ''),
  );
  return [...new Set(names)].sort();
}

/** Files that were bundled into the one of the subcommands and are run for `args`, as the engine counts their calls. */
function filesRun(folder: string, args: readonly string[]): readonly string[] {
  const program = join(folder, 'program');
  cpSync(dirname(builtProgram[1] ?? ''), program, { recursive: true });
  // What is taken from compiled code is not counted.
  rmSync(join(program, 'commands.cjs.code'));
  const counts = join(folder, 'counts');
  const env = { ...process.env, NODE_V8_COVERAGE: counts };
  const ran = spawnSync(process.execPath, [join(program, 'main.js'), ...args], { cwd: folder, env, encoding: 'utf8' });
  expect(ran.status).toBe(0);
  const [file = ''] = readdirSync(counts);
  const { result } = JSON.parse(readFileSync(join(counts, file), 'utf8')) as Counts;
  const commands = result.find(({ url }) => url.endsWith('commands.cjs'));
  const called = commands?.functions.filter(({ ranges }) => (ranges[0]?.count ?? 0) > 0) ?? [];
  return called.map(({ functionName }) => functionName).filter((name) => /\.[cm]?[jt]sx?$/.test(name));
}

type Counts = {
  readonly result: readonly {
    readonly url: string;
    readonly functions: readonly {
      readonly functionName: string;
      readonly ranges: readonly { readonly count: number }[];
    }[];
  }[];
};

describe('the figures of a run', () => {
  it('check opens under forty modules, and of the libraries it runs only those that read and prove a plan', () => {
    const shop = makeShop();
    const args = ['check', shop.plan('three-plates')];
    const opened = modulesOpened(shop.folder, args);
    expect(opened.length).toBeGreaterThan(1);
    expect(opened.length).toBeLessThan(40);
    const texts = opened.map((path) => readFileSync(path, 'utf8'));
    expect(librariesIn(texts)).toEqual([]);
    expect(texts.reduce((sum, text) => sum + text.length, 0)).toBeLessThan(100_000);
    const run = filesRun(shop.folder, args);
    expect(librariesIn(run.map((name) => `// ${name}`))).toEqual(['yaml', 'zod']);
    expect(run.filter((name) => /^src\/(?:(?:batch|forecast|screen)\/|plan\/resolved)/.test(name))).toEqual([]);
  });

  it('the version is told without any library', () => {
    const opened = modulesOpened(makeShop().folder, ['--version']);
    expect(opened.length).toBeLessThan(8);
    expect(librariesIn(opened.map((path) => readFileSync(path, 'utf8')))).toEqual([]);
  });

  it.skipIf(!canRunStories())(
    'one count writes one line of under 1 kB, and the screen gets under 4 kB for it',
    async () => {
      const shop = makeShop();
      const t = await openToWork(shop, { args: [shop.plan('thirty-blanks')] });
      await passCards(shop, t);
      await countOne(shop, t);
      const [lines, bytes, mark] = [shop.journal().length, shop.journalBytes(), t.mark()];
      await countOne(shop, t);
      expect(shop.journal().length).toBe(lines + 1);
      expect(shop.journalBytes() - bytes).toBeLessThan(1000);
      expect(t.mark() - mark).toBeLessThan(4000);
    },
  );
});
