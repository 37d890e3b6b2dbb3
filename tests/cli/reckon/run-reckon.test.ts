import { describe, expect, it } from 'vitest';
import { topics } from '../../../src/cli/reckon/topics.ts';
import { ask } from './ask.ts';

describe('reckon', () => {
  it('help names every topic, within 80 columns; no topic at all is a usage error with the same page', () => {
    const help = ask('--help');
    expect(help.code).toBe(0);
    for (const topic of topics) expect(help.out).toContain(`\n  ${topic.name} `);
    expect(help.out.split('\n').filter((line) => line.length > 80)).toEqual([]);
    expect(ask('-h').out).toBe(help.out);
    expect(ask('')).toEqual({ code: 64, out: '', err: help.out });
  });

  it('an unknown topic names the nearest, or all', () => {
    expect(ask('dril --diameter 5')).toMatchObject({ code: 64, out: '' });
    expect(ask('dril').err).toContain('nearest: drill');
    expect(ask('xxxxxxxxxxxxxxxx').err).toContain('topics: speed');
  });

  it('an unknown flag names the nearest', () => {
    expect(ask('drill --diametre 5')).toMatchObject({ code: 64 });
    expect(ask('drill --diametre 5').err).toContain('nearest: --diameter');
    expect(ask('drill --zzzzzzzzzzzzzzz 5').err).toContain('no flag --zzzzzzzzzzzzzzz.');
  });

  it.each([
    ['drill --diameter', '--diameter wants a value'],
    ['drill --diameter=', '--diameter wants a value'],
    ['drill --diameter 5 --diameter 6', '--diameter is given twice'],
    ['drill --diameter 5 extra', 'does not know what to do with "extra"'],
    ['drill --diameter 5 -- extra', 'does not know what to do with "extra"'],
    ['drill --diameter 5 --units furlong', '--units is mm or inch'],
    ['drill --diameter 5 --json=yes', '--json takes no value'],
    ['drill', 'wants --diameter'],
  ])('%s: %s (exit 64)', (line, words) => {
    const said = ask(line);
    expect(said.code).toBe(64);
    expect(said.err).toContain(words);
  });

  it('a refusal goes to err with exit 1, names the flag, and leaves out empty, with --json too', () => {
    const said = ask('drill --diameter "10 furlongs" --json');
    expect(said).toMatchObject({ code: 1, out: '' });
    expect(said.err).toContain('--diameter "10 furlongs": allowed is');
  });

  it('control characters in what was typed do not reach the terminal', () => {
    expect(ask('drill --diameter "\u001b[2J"').err).not.toContain('\u001b');
    expect(ask('\u001b[2J').err).not.toContain('\u001b');
  });
});
