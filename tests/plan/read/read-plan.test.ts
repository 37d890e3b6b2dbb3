import { describe, expect, it } from 'vitest';
import { formatProblem } from '../../../src/plan/read/problem.ts';
import { readPlan } from '../../../src/plan/read/read-plan.ts';
import { YARDS_IN_A_SECOND, yardsOf } from '../../yard.ts';
import { problemsOf, textOf } from '../plan-samples.ts';

const TEN_FAULTS = `format: 1
id: Latch Bars
job: Latch bars
units: mm
material: mild steel
part: { length: 120, width: 20 }
quantity: many
machines:
  lathe: { station: lathe }
  mill: { station: mill, speeds: [200, fast], revers: never }
tools:
  drill: { kind: dril, diameter: 6,5 }
setups:
  vice: { machine: mill, hold: vice }
  vice: { machine: mill, hold: vice }
points:
  a: { row: { start: { x: 10, y: 10 }, count: 3, pitch: 0 } }
operations:
  - { number: 10, title: Drill, kind: drill, setup: vice, tool: drill, points: a, depth: deep }
`;

const faultsOf = (text: string) => {
  const reading = readPlan(text);
  return reading.ok ? [] : reading.problems;
};

const places = (text: string) => faultsOf(text).map((problem) => `${problem.line}:${problem.column} ${problem.path}`);

describe('reading a plan', () => {
  it('reads the bundled job', () => {
    expect(readPlan(textOf('jobs/keeper-plates.yaml')).ok).toBe(true);
  });

  it('reports all faults of a file together, each with line, column and path', () => {
    expect(places(TEN_FAULTS)).toEqual([
      '2:5 id',
      '6:7 part.thickness',
      '7:11 quantity',
      '9:21 machines.lathe.station',
      '10:40 machines.mill.speeds[2]',
      '10:47 machines.mill.revers',
      '12:18 tools.drill.kind',
      '12:36 tools.drill.5',
      '15:3 setups.vice',
      '17:57 points.a.row.pitch',
      '19:90 operations[1].depth',
    ]);
  });

  it('says what was found, what is wanted and what to try', () => {
    const byPath = new Map(faultsOf(TEN_FAULTS).map((problem) => [problem.path, problem]));
    expect(byPath.get('tools.drill.kind')).toMatchObject({ found: '"dril"', tryThis: 'did you mean "drill"?' });
    expect(byPath.get('machines.mill.revers')?.tryThis).toBe('did you mean "reverse"?');
    expect(byPath.get('part.thickness')).toMatchObject({ found: 'nothing', tryThis: 'add "thickness:"' });
    expect(byPath.get('setups.vice')?.message).toContain('first on line 14');
  });

  it('tells plainly that a lathe is not a station yet', () => {
    const fault = faultsOf(TEN_FAULTS).find((problem) => problem.path === 'machines.lathe.station');
    expect(fault?.wanted).toContain('a lathe is not a station yet');
  });

  it.each(['0 s', '0 min'])('refuses a stopping time of %s, where it stands and with the reason', (time) => {
    const text = textOf('tests/samples/wrong-plans/before-its-hole.yaml');
    const faults = faultsOf(text.replace('stopping time: 2 s', `stopping time: ${time}`));
    const line = text.split('\n').findIndex((one) => one.includes('stopping time')) + 1;
    expect(faults).toMatchObject([{ line, path: 'machines.mill.stopping time', wanted: 'above 0 s, at most 120 s' }]);
    expect(faults[0]?.tryThis).toContain('no spindle stands at once');
  });

  it.each(['0', '-1', '2.5', '366', 'a week'])('refuses %s days away, where they stand', (days) => {
    const text = textOf('jobs/hinge-straps.yaml');
    expect(faultsOf(text)).toEqual([]);
    const faults = faultsOf(text.replace('days: 5', `days: ${days}`));
    expect(faults.map(({ path }) => path)).toEqual(['operations[9].away.days']);
  });

  it('shows of a union the branch that the writer most likely meant', () => {
    const fault = faultsOf(TEN_FAULTS).find((problem) => problem.path === 'points.a.row.pitch');
    expect(fault?.message).toContain('length 0 mm');
  });

  it('refuses a future format in plain words, and nothing else of it', () => {
    const faults = faultsOf('format: 2\nid: x\nnew key: 1\n');
    expect(faults).toHaveLength(1);
    expect(faults[0]?.message).toContain('format 2');
  });

  it('keeps values as written: a fraction is inches, a number drill is named', () => {
    const reading = readPlan(textOf('tests/samples/sound-plans/pump-spacer.yaml'));
    if (!reading.ok) throw new Error('not read');
    expect(reading.plan.tools?.['drill-29']?.diameter).toBeCloseTo(0.136 * 25.4, 9);
    expect(reading.plan.tools?.['drill-23-64']?.diameter).toBeCloseTo((23 / 64) * 25.4, 9);
    expect(reading.positions.textOf(['part', 'length'])).toBe('2.500');
  });

  it('shows a problem with its line, a mark under the column and no control character', () => {
    const text = 'format: 1\nid: x\njob: "a\\x1b[2Jb"\n';
    const shown = faultsOf(text)
      .map((problem) => formatProblem(problem, text, 'plan\u001b.yaml'))
      .join('\n');
    expect(shown).toContain('plan?.yaml:3:6');
    expect(shown).toMatch(/\n {4}\| job: "a\\x1b\[2Jb"\n {4}\| {6}\^/);
    expect([...shown].some((sign) => sign !== '\n' && sign < ' ')).toBe(false);
  });
});

describe('[P8] any text at all', () => {
  const sound = textOf('jobs/keeper-plates.yaml');
  const bomb = `a: &a [x,x,x,x,x,x,x,x,x]\n${[...'bcdefghi'].map((name, at) => `${name}: &${name} [${`*${'abcdefgh'[at]},`.repeat(9)}]`).join('\n')}\n`;
  const hostile: [name: string, text: string, says: RegExp][] = [
    ['an empty file', '', /empty/],
    ['5 MB of spaces', ' '.repeat(5_000_000), /too long/],
    ['aliases that explode', `format: 1\n${bomb}`, /alias|key of/],
    ['brackets 10,000 deep', `a: ${'['.repeat(10_000)}`, /nested too deeply/],
    ['braces 5,000 deep over many lines', '{a:\n'.repeat(5000), /nested too deeply/],
    ['list marks 10,000 deep', `${'- '.repeat(10_000)}x`, /nested too deeply/],
    ['indents 400 deep', Array.from({ length: 400 }, (_, at) => `${' '.repeat(at)}a:`).join('\n'), /nested too deeply/],
    ['15,000 keys', Array.from({ length: 15_000 }, (_, at) => `k${at}:`).join('\n'), /too long/],
    ['5,000 keys', Array.from({ length: 5000 }, (_, at) => `k${at}:`).join('\n'), /not a key|missing/],
    ['a list of 15,000 in brackets', `a: [${'x,'.repeat(15_000)}]`, /not a key|missing/],
    ['a list of 60,000 in brackets', `a: [${'x,'.repeat(60_000)}]`, /too long/],
    ['a key __proto__', `${sound}\n__proto__: { x: 1 }\n`, /cannot be a key/],
    ['a key constructor', `${sound}\nconstructor: 1\n`, /cannot be a key/],
    ['a map as a key', '{ a: 1 }: b\n', /plain text/],
    ['a control character', 'format: 1\njob: a\u0007b\n', /control character/],
    ['an escape in quotes', sound.replace('job: Keeper plates', 'job: "a\\e[2Jb"'), /hidden characters/],
    ['Latin-1 bytes', 'format: 1\njob: K\ufffdln\n', /UTF-8/],
    ['not a number', sound.replace('length: 60', 'length: NaN'), /finite/],
    ['1e9 pieces', sound.replace('quantity: 20', 'quantity: 1e9'), /exponent/],
    ['a billion pieces', sound.replace('quantity: 20', 'quantity: 1000000000'), /10000/],
    ['tags', 'format: !!js/function "x"\n', /tag|missing/],
    ['tabs as indents', 'part:\n\tlength: 1\n', /tab/],
    ['two documents', `${sound}\n---\nformat: 1\n`, /more than one document/],
    ['an open quote', 'job: "abc\n', /sign is missing|not YAML/],
    ['a list', '- 1\n- 2\n', /no keys/],
    ['an inherited name as a reference', sound.replace('tool: spot-8', 'tool: toString'), /no tool "toString"/],
  ];

  it.each(hostile)('%s is refused in words, within a second', (_name, text, says) => {
    let problems: ReturnType<typeof problemsOf> = [];
    const taken = yardsOf(() => {
      problems = problemsOf(text);
    });
    expect(taken).toBeLessThan(YARDS_IN_A_SECOND);
    expect(problems.length).toBeGreaterThan(0);
    expect(problems.map((problem) => problem.message).join('\n')).toMatch(says);
    expect(problems.every((problem) => problem.line >= 1 && problem.column >= 1)).toBe(true);
  });

  it.each([
    ['Windows line ends', sound.replaceAll('\n', '\r\n')],
    ['a byte order mark', `\ufeff${sound}`],
    ['spaces at the ends of lines', sound.replaceAll('\n', '  \n')],
  ])('%s are read rightly', (_name, text) => {
    expect(problemsOf(text)).toEqual([]);
  });

  it('no key of a plan reaches the prototype of an object', () => {
    problemsOf('__proto__: { polluted: yes }\nformat: 1\n');
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });
});
