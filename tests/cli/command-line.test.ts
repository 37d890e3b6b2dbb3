// Runs the built program (dist/), which `pretest` makes.
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { helpOf, helpOfAll } from '../../src/cli/help.ts';
import { runOpen } from '../../src/cli/open.ts';
import { runners } from '../../src/cli/runners.ts';
import { subcommands } from '../../src/cli/subcommands.ts';
import { type Bench, makeBench } from './fake-io.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const { version } = JSON.parse(readFileSync(`${root}/package.json`, 'utf8'));
let bench: Bench;
beforeEach(() => {
  bench = makeBench();
});
afterEach(() => bench.clear());

function program(args: readonly string[], node: readonly string[] = []) {
  const env = { ...process.env, MILLSIDE_HOME: bench.at('home'), MILLSIDE_CONFIG: bench.at('config') };
  const run = spawnSync(process.execPath, [...node, 'dist/main.js', ...args], { cwd: root, env, encoding: 'utf8' });
  return { code: run.status, out: run.stdout, err: run.stderr };
}

describe('the table of subcommands', () => {
  it('has a runner for every row and a row for every runner', () => {
    expect(Object.keys(runners).sort()).toEqual(subcommands.map((one) => one.name).sort());
  });

  it('gives every row a summary, an example that begins with the program, and no option twice', () => {
    for (const one of subcommands) {
      expect(one.summary).toMatch(/^[a-z]/);
      expect(one.example.startsWith(`millside ${one.name}`)).toBe(true);
      expect(new Set(one.options.map(({ flag }) => flag)).size).toBe(one.options.length);
    }
  });

  it('fits its help into 80 columns, with every name and option', () => {
    for (const text of [helpOfAll(), ...subcommands.map(helpOf)]) {
      const [, ...lines] = text.split('\n').filter((line) => !line.startsWith('Example:'));
      expect(lines.filter((line) => line.length > 80)).toEqual([]);
    }
    for (const one of subcommands) {
      expect(helpOfAll()).toContain(one.usage);
      for (const { flag } of one.options) expect(helpOf(one)).toContain(`--${flag}`);
    }
  });
});

describe('the first word', () => {
  it.each([
    ['chek', 'check'],
    ['setings', 'settings'],
    ['stat', 'status'],
    ['Sheet', 'sheet'],
  ])('%s, neither file nor batch, names %s: exit 64', async (word, meant) => {
    const told = await bench.run(runOpen, word);
    expect(told).toMatchObject({ code: 64, out: '' });
    expect(told.err).toContain(`did you mean millside ${meant}?`);
  });

  it('that is like nothing, without a terminal, is told that a terminal is needed', async () => {
    const told = await bench.run(runOpen, 'qqqqqqqq');
    expect(told.code).toBe(64);
    expect(told.err).toContain('terminal');
  });
});

describe('the built program', () => {
  it('says its version and its help on standard output', () => {
    expect(program(['--version'])).toEqual({ code: 0, out: `millside ${version}\n`, err: '' });
    expect(program(['--help'])).toEqual({ code: 0, out: helpOfAll(), err: '' });
    expect(program(['bars', '--help']).out).toMatch(/^Usage: millside bars PLAN/);
  });

  it('passes exit codes on: 0, 64, 65, 66, 73', () => {
    const page = bench.at('a.html');
    expect(program(['check', 'jobs/keeper-plates.yaml']).code).toBe(0);
    expect(program(['check']).code).toBe(64);
    expect(program(['check', 'package.json']).code).toBe(65);
    expect(program(['check', 'jobs/none.yaml']).code).toBe(66);
    expect(program(['sheet', 'jobs/keeper-plates.yaml', '--html', page]).code).toBe(0);
    expect(program(['sheet', 'jobs/keeper-plates.yaml', '--html', page]).code).toBe(73);
  });

  it('keeps a changed setting for the next run', () => {
    expect(program(['settings', 'screen.hand', 'left']).code).toBe(0);
    expect(program(['settings', 'screen.hand']).out).toMatch(/^screen\.hand = left {2}\(settings\)/);
  });

  it('makes nothing in the data folder for what only reads', () => {
    program(['check', 'jobs/keeper-plates.yaml']);
    program(['bars', 'jobs/keeper-plates.yaml']);
    program(['settings']);
    expect(() => readFileSync(bench.at('home'))).toThrow(/ENOENT/);
    expect(() => readFileSync(bench.at('config'))).toThrow(/ENOENT/);
  });

  it.each([[['--version']], [['check', 'jobs/keeper-plates.yaml']]])('%j loads neither Ink nor React', (args) => {
    const hooks =
      "import { writeSync } from 'node:fs'; export const load = (url, context, next) => { writeSync(2, 'opened ' + url + '\\n'); return next(url, context); };";
    writeFileSync(bench.at('hooks.mjs'), hooks);
    writeFileSync(
      bench.at('register.mjs'),
      "import { register } from 'node:module'; register('./hooks.mjs', import.meta.url);",
    );
    const told = program(args, ['--import', bench.at('register.mjs')]);
    const opened = [...told.err.matchAll(/^opened (file:.*)$/gm)].map((match) => fileURLToPath(match[1] ?? ''));
    expect(opened.some((path) => path.endsWith('main.js'))).toBe(true);
    expect(opened.length).toBeLessThan(args[0] === 'check' ? 40 : 8);
    // The subcommands are in one file, which is read and not imported.
    const read = args[0] === 'check' ? [join(dirname(opened[0] ?? ''), 'commands.cjs')] : [];
    const text = [...opened, ...read].map((path) => readFileSync(path, 'utf8')).join('\n');
    expect(text).not.toMatch(/react-reconciler|reactjs\.org|react\.dev/);
  });
});
