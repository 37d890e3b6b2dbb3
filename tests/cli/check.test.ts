import { writeFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { runCheck } from '../../src/cli/check.ts';
import { rules } from '../../src/plan/checks/rules.ts';
import { plansIn, textOf } from '../plan/plan-samples.ts';
import { type Bench, makeBench } from './fake-io.ts';

let bench: Bench;
beforeEach(() => {
  bench = makeBench();
});
afterEach(() => bench.clear());

const plates = () => textOf('jobs/keeper-plates.yaml');
const written = (text: string): string => {
  writeFileSync(bench.at('plan.yaml'), text);
  return bench.at('plan.yaml');
};
/** The plates with a tap drill that leaves no thread (M6: minor diameter at most 5.153 mm, ISO 965-1, 6H). */
const spoiled = () => plates().replace('drill-5: { kind: drill, diameter: 5,', 'drill-5: { kind: drill, diameter: 6,');

describe('millside check', () => {
  it.each(plansIn('jobs/'))('%s may be cut: exit 0', async (name) => {
    const told = await bench.run(runCheck, name);
    expect(told).toMatchObject({ code: 0, err: '' });
    expect(told.out).not.toMatch(/STOP|warning/);
  });

  it('groups findings by operation with the line of the plan under each, and exits 65 at a stop', async () => {
    const told = await bench.run(runCheck, written(spoiled()));
    expect(told.code).toBe(65);
    expect(told.out).toMatch(
      /^Operation \d+ {2}.+\n {2}STOP tap-drill: .*\n.*plan\.yaml:\d+:\d+\n {4}\| .+\n {4}\| +\^\n {4}try: /m,
    );
    expect(told.out).toMatch(/\d+ stops?/);
  });

  it('says of a sound plan what was tried, worked out and not to be proved, in a few lines', async () => {
    const told = await bench.run(runCheck, 'jobs/keeper-plates.yaml');
    const lines = told.out.trimEnd().split('\n');
    const from = lines.findIndex((line) => line.startsWith('Tried '));
    expect(lines[from]).toMatch(
      /^Tried \d+ rules on 13 operations, 3 setups, \d+ tools, \d+ points, \d+ passes, \d+ checks\.$/,
    );
    expect(lines[from]).toContain(`Tried ${rules.length} rules`);
    expect(lines[from + 1]).toMatch(/^Worked out, not stated: .*7 speeds/);
    expect(lines.slice(from).join('\n')).toMatch(
      /Not proved, for the plan does not say:\n {2}- room for chuck or holder of/,
    );
    expect(lines.length - from).toBeLessThanOrEqual(8);
    expect(lines.at(-1)).toContain('spindle off');
  });

  it('has a documented JSON shape', async () => {
    const told = await bench.run(runCheck, '--json', written(spoiled()));
    const answer = JSON.parse(told.out);
    expect(Object.keys(answer)).toEqual(['format', 'plan', 'problems', 'findings', 'counts', 'proved']);
    expect(answer).toMatchObject({ format: 1, problems: [], counts: { stop: expect.any(Number) } });
    const stop = answer.findings.find((one: { code: string }) => one.code === 'tap-drill');
    expect(stop).toEqual({
      code: 'tap-drill',
      severity: 'stop',
      operation: expect.any(Number),
      message: expect.any(String),
      tryThis: expect.any(String),
      line: expect.any(Number),
      column: expect.any(Number),
    });
    expect(told.code).toBe(65);
  });

  it('takes warnings as they are, and with --strict as a reason to exit 65', async () => {
    const path = written(`format: 1
id: pegs
job: Pegs
units: mm
material: mild steel
part: { length: 60, width: 30, thickness: 8 }
variants: { left: { quantity: 2 }, right: { quantity: 2 } }
machines: { bench: { station: bench } }
operations:
  - { number: 10, title: Deburr, kind: deburr, machine: bench }
`);
    const loose = await bench.run(runCheck, path);
    expect(loose.out).toMatch(/warning variant-idle/);
    expect(loose.out).not.toMatch(/STOP/);
    expect([loose.code, (await bench.run(runCheck, '--strict', path)).code]).toEqual([0, 65]);
  });

  it('tells every problem of a file with line and column, in words and in JSON, and exits 65', async () => {
    const path = written('format: 1\nunits: mm\nmateriel: brass\noperations: []\n');
    const told = await bench.run(runCheck, path);
    expect(told).toMatchObject({ code: 65, out: '' });
    expect(told.err).toMatch(/plan\.yaml:3:1 {2}"materiel" is not a key/);
    const json = JSON.parse((await bench.run(runCheck, '--json', path)).out);
    expect(json).toMatchObject({ format: 1, findings: [], counts: { stop: 0, warn: 0, note: 0 } });
    expect(json.problems.length).toBeGreaterThan(2);
    expect(Object.keys(json.problems[0]).sort()).toEqual([
      'column',
      'found',
      'line',
      'message',
      'path',
      'tryThis',
      'wanted',
    ]);
  });

  it('exits 66 without the file, 65 for one that is not text, 64 without a name or with a strange flag', async () => {
    expect((await bench.run(runCheck, bench.at('none.yaml'))).code).toBe(66);
    writeFileSync(bench.at('binary.yaml'), Buffer.from([0, 1, 2]));
    expect((await bench.run(runCheck, bench.at('binary.yaml'))).code).toBe(65);
    expect((await bench.run(runCheck)).code).toBe(64);
    expect((await bench.run(runCheck, '--fast', 'x.yaml')).code).toBe(64);
    expect((await bench.run(runCheck, '--rules', 'x.yaml')).code).toBe(64);
  });

  it('lists every rule with its code, severity, what it catches and an example', async () => {
    const json = JSON.parse((await bench.run(runCheck, '--rules', '--json')).out);
    expect(json.format).toBe(1);
    expect(json.rules).toHaveLength(rules.length);
    expect(Object.keys(json.rules[0])).toEqual(['code', 'severity', 'severities', 'catches', 'example']);
    const words = (await bench.run(runCheck, '--rules')).out;
    for (const { code, catches, example } of rules)
      for (const part of [code, catches, example]) expect(words).toContain(part);
  });

  it('knows the machines of the settings', async () => {
    const text = plates().replace(/\n {2}pillar:\n(?: {4}.*\n)+/, '\n');
    expect(text).not.toBe(plates());
    const path = written(text);
    expect((await bench.run(runCheck, path)).err).toContain('there is no machine "pillar"');
    const { runSettings } = await import('../../src/cli/settings.ts');
    const pillar =
      '{"station": "pillar drill", "speeds": [280, 450, 700, 1000, 1550, 2400], "depth read on": "depth stop"}';
    expect((await bench.run(runSettings, 'machines.pillar', pillar)).code).toBe(0);
    expect((await bench.run(runCheck, path)).code).toBe(0);
  });
});
