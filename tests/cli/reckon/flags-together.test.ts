import { describe, expect, it } from 'vitest';
import { topics } from '../../../src/cli/reckon/topics.ts';
import { ask } from './ask.ts';

describe('flags together', () => {
  // A flag that is passed over in silence is an answer to another question.
  it.each([
    ['speed --rpm 1500 --diameter 13 --cutting-speed "30 m/min"', '--rpm and --cutting-speed'],
    ['time --length 25 --speed 800 --feed 0.1 --tooth-feed 0.02', '--feed and --tooth-feed'],
    ['drill --diameter 10 --through 6 --depth 4', '--through and --depth'],
    ['countersink --top 8 --depth 3', '--top and --depth'],
    ['countersink --depth 3 --hole 5', '--depth and --hole'],
    ['tap --thread M6 --engagement 75 --drill 5', '--drill and --engagement'],
    ['tap-turns --thread M6 --full-thread 12 --form "form C" --lead 4', '--lead and --form'],
    ['tap-turns --thread M6 --full-thread 12 --through 10', '--full-thread and --through'],
    ['mirror --points "1,2" --x 3 --y 4', '--x and --y'],
    ['polar --point "3,4" --radius 5', '--point and --radius'],
    ['sine --centres 100 --angle 12.5 --stack 20', '--angle and --stack'],
    ['blanks --bar 1000 --blank 45 --kerf 1 --saw "cold saw"', '--kerf and --saw'],
    ['mass --hexagon 17 --round 10 --length 100 --material brass', '--round and --hexagon'],
    ['loads --pieces 10 --a-load 4 --opening 30', '--a-load and --opening'],
    ['convert --length 5 --angle 4', '--length and --angle'],
  ])('%s: they do not go together (exit 64)', (line, pair) => {
    const said = ask(line);
    expect(said).toMatchObject({ code: 64, out: '' });
    expect(said.err).toContain(`${pair} do not go together`);
  });

  it.each([
    ['drill --diameter 10 --thickness 6', '--thickness goes with --depth'],
    ['drill --diameter 10 --allowance 2', '--allowance goes with --through'],
    ['countersink --top 8 --below 0.2', '--below goes with --head'],
    ['mass --square 17 --length 100 --material brass --wall 3', '--wall goes with --round'],
    ['tap --thread M6 --basis 3H/4', '--basis goes with --engagement'],
    ['tap-turns --thread M6 --through 10 --clearance 1', '--clearance goes with --full-thread'],
    ['time --length 25 --speed 800 --feed 0.1 --teeth 4', '--teeth goes with --tooth-feed'],
    ['speed --cutting-speed "30 m/min" --diameter 10 --tool carbide', '--tool goes with --material'],
  ])('%s: the flag belongs to another (exit 64)', (line, words) => {
    expect(ask(line)).toMatchObject({ code: 64, out: '' });
    expect(ask(line).err).toContain(words);
  });

  it.each(topics)('$name: its rules name flags that it has', ({ flags, apart = [] }) => {
    const names = flags.map((flag) => flag.name);
    const named = [...apart.flat(), ...flags.flatMap((flag) => flag.with ?? [])];
    expect(named.filter((name) => !names.includes(name))).toEqual([]);
  });
});
