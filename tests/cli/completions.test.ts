import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { runCompletions, shells } from '../../src/cli/completions.ts';
import { exitMeanings } from '../../src/cli/conventions.ts';
import { exitCodes } from '../../src/cli/exit-codes.ts';
import { manPage } from '../../src/cli/man-page.ts';
import { topics } from '../../src/cli/reckon/topics.ts';
import { settingKeys } from '../../src/cli/setting-keys.ts';
import { subcommands } from '../../src/cli/subcommands.ts';
import { type Bench, makeBench } from './fake-io.ts';

let bench: Bench;
beforeEach(() => {
  bench = makeBench();
});
afterEach(() => bench.clear());

/** What bash offers for a line whose last word is being typed. */
async function offered(...line: string[]): Promise<string[]> {
  writeFileSync(bench.at('c.bash'), (await bench.run(runCompletions, 'bash')).out);
  const script =
    'source "$0"; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _millside; IFS="\n"; echo "$' + '{COMPREPLY[*]}"';
  const run = spawnSync('bash', ['-c', script, bench.at('c.bash'), 'millside', ...line], { encoding: 'utf8' });
  expect(run.stderr).toBe('');
  return run.stdout.split('\n').filter((word) => word !== '');
}

describe('completions', () => {
  it('in bash offer subcommands, flags, plans, topics with their flags, and keys of the settings', async () => {
    expect(await offered('')).toEqual(expect.arrayContaining(subcommands.map((one) => one.name)));
    expect(await offered('che')).toEqual(['check']);
    expect(await offered('check', '--s')).toEqual(['--strict']);
    expect(await offered('steps', 'jobs/keep')).toEqual(['jobs/keeper-plates.yaml']);
    expect(await offered('jobs/keep')).toEqual(['jobs/keeper-plates.yaml']);
    expect(await offered('reckon', '')).toEqual(expect.arrayContaining(topics.map((topic) => topic.name)));
    expect(await offered('reckon', 'tap', '--thr')).toEqual(['--thread']);
    expect(await offered('settings', 'screen.h')).toEqual(['screen.hand']);
    expect(await offered('sheet', 'x.yaml', '--html', 'package.j')).toEqual(['package.json']);
  });

  it.each(Object.keys(shells))('for %s hold every subcommand and every flag of it', (shell) => {
    const text = shells[shell]?.() ?? '';
    for (const one of subcommands) {
      expect(text).toContain(one.name);
      for (const { flag } of one.options) expect(text).toContain(shell === 'fish' ? `-l ${flag} ` : `--${flag}`);
    }
    for (const { key } of settingKeys()) expect(text).toContain(key);
  });

  it('for another shell are refused with the nearest: exit 64', async () => {
    expect(await bench.run(runCompletions, 'fishh')).toMatchObject({
      code: 64,
      out: '',
      err: expect.stringContaining('mean fish?'),
    });
    expect((await bench.run(runCompletions, 'constructor')).code).toBe(64);
    expect((await bench.run(runCompletions)).code).toBe(64);
  });
});

describe('the manual page', () => {
  it('has every subcommand, option and exit code, and no line that is taken for a request by chance', () => {
    const page = manPage();
    const plain = page.replaceAll('\\-', '-').replaceAll('\\&...', '…');
    for (const one of subcommands) {
      expect(plain).toContain(`.SS ${one.usage}`);
      for (const { flag } of one.options) expect(plain).toContain(`.B --${flag}`);
    }
    for (const line of page.trimEnd().split('\n')) expect(line).toMatch(/^(\.(TH|SH|SS|TP|B|RI|I|br|PP)\b|[^.'])/);
  });

  it('tells the meaning of every exit code', () => {
    expect(exitMeanings.map(([code]) => code)).toEqual(Object.values(exitCodes));
  });
});
