import { mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { runSheet } from '../../src/cli/sheet.ts';
import { plansIn, textOf } from '../plan/plan-samples.ts';
import { type Bench, makeBench } from './fake-io.ts';

let bench: Bench;
beforeEach(() => {
  bench = makeBench();
});
afterEach(() => bench.clear());

const plates = 'jobs/keeper-plates.yaml';
const read = (name: string) => readFileSync(bench.at(name), 'utf8');

describe('millside sheet', () => {
  it.each(plansIn('jobs/'))('%s as Markdown on standard output, every operation on it', async (name) => {
    const told = await bench.run(runSheet, name);
    expect(told).toMatchObject({ code: 0, err: '' });
    for (const [, number] of textOf(name).matchAll(/- number: (\d+)/g)) expect(told.out).toContain(`| ${number} |`);
  });

  it('writes one page with a drawing a setup, and Markdown beside it, and nothing on standard output', async () => {
    const told = await bench.run(runSheet, plates, '--html', bench.at('a.html'), '--markdown', bench.at('a.md'));
    expect(told).toMatchObject({ code: 0, out: '' });
    expect(read('a.html').match(/<svg[^>]*role="img"/g)?.length).toBeGreaterThanOrEqual(3);
    expect(read('a.md')).toBe((await bench.run(runSheet, plates)).out);
    expect(statSync(bench.at('a.html')).mode & 0o077).toBe(0);
  });

  it('goes over a file only with --force', async () => {
    writeFileSync(bench.at('a.html'), 'mine');
    const told = await bench.run(runSheet, plates, '--html', bench.at('a.html'));
    expect(told.code).toBe(73);
    expect(told.err).toContain('--force');
    expect(read('a.html')).toBe('mine');
    expect((await bench.run(runSheet, plates, '--html', bench.at('a.html'), '--force')).code).toBe(0);
    expect(read('a.html')).toContain('<!DOCTYPE html>');
  });

  it('says where it cannot write', async () => {
    expect((await bench.run(runSheet, plates, '--html', bench.at('no/such/a.html'))).code).toBe(73);
    mkdirSync(bench.at('folder'));
    expect((await bench.run(runSheet, plates, '--markdown', bench.at('folder'), '--force')).code).toBe(73);
  });

  it('puts a plan with a stop on paper only when asked for, and then the stop is at its top', async () => {
    writeFileSync(bench.at('p.yaml'), textOf(plates).replace('kind: drill, diameter: 5,', 'kind: drill, diameter: 6,'));
    const told = await bench.run(runSheet, bench.at('p.yaml'));
    expect(told).toMatchObject({ code: 65, out: '' });
    expect(told.err).toMatch(/STOP, operation \d+: .*\(tap-drill\)/);
    const asked = await bench.run(runSheet, bench.at('p.yaml'), '--with-stops');
    expect(asked.code).toBe(0);
    const [first = ''] = asked.out.split('\n').filter((line) => line.startsWith('> '));
    expect(first).toMatch(/^> STOP, operation/);
  });

  it('exits 66 without the plan and 65 with a bad one', async () => {
    expect((await bench.run(runSheet, bench.at('none.yaml'))).code).toBe(66);
    writeFileSync(bench.at('bad.yaml'), 'format: 1\n');
    expect((await bench.run(runSheet, bench.at('bad.yaml'))).code).toBe(65);
  });
});
