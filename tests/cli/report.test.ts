import { copyFileSync, existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runReport } from '../../src/cli/report.ts';
import { readPlan } from '../../src/plan/read/read-plan.ts';
import { reportSchema } from '../../src/report/model.ts';
import { aShop, keepBatch, runIn, type Said, type Shop } from './kept-batches.ts';

const bundled = 'jobs/keeper-plates.yaml';
let shop: Shop;
let ownPlan: string;

/** Two whole batches of the bundled plan, and a copy of it that may be written to. */
beforeAll(async () => {
  shop = await aShop();
  ownPlan = join(shop.folder, 'plates.yaml');
  copyFileSync(bundled, ownPlan);
  await keepBatch(shop, bundled, { id: 'aaaaaaaaaaa1', start: '2027-01-11T18:00:00Z', seed: 1 });
  await keepBatch(shop, bundled, { id: 'aaaaaaaaaaa2', start: '2027-02-11T18:00:00Z', seed: 2 });
}, 60_000);
afterAll(() => rmSync(shop.folder, { recursive: true, force: true }));

const report = (...args: string[]): Promise<Said> => runIn(shop, runReport, args);

describe('millside report', () => {
  it('gives the model as JSON, strictly', async () => {
    const said = await report('aaaaaaaaaaa2', '--json');
    const value: unknown = JSON.parse(said.out);
    expect(reportSchema.strict().parse(value)).toEqual(value);
  });

  it('ends its text with each operation and the batch against last time', async () => {
    const { out } = await report('aaaaaaaaaaa2');
    const short = out.slice(out.indexOf('IN SHORT'));
    expect(short).toMatch(/a piece; .* (quicker|slower) than last time/);
    expect(short).toMatch(/good of \d+ in .* of work a piece, .* than last time/);
    expect((await report('aaaaaaaaaaa1')).out).toContain('IN SHORT');
  });

  it('writes files, and none over another without --force', async () => {
    const csv = join(shop.folder, 'times.csv');
    expect((await report('aaaaaaaaaaa2', '--csv', csv)).code).toBe(0);
    expect(readFileSync(csv, 'utf8')).toContain('operation');
    const again = await report('aaaaaaaaaaa2', '--csv', csv);
    expect(again.code).toBe(73);
    expect(again.err).toContain('--force');
    expect((await report('aaaaaaaaaaa2', '--csv', csv, '--force')).code).toBe(0);
  });
});

describe('millside report --write-back', () => {
  const changes = async (): Promise<number> =>
    reportSchema.parse(JSON.parse((await report('aaaaaaaaaaa2', '--json')).out)).next_time.length;

  it('writes the estimates worth changing into the plan, keeps its comments, and keeps the plan as it was beside it', async () => {
    expect(await changes()).toBeGreaterThan(0);
    const before = readFileSync(ownPlan, 'utf8');
    const said = await report('aaaaaaaaaaa2', '--write-back', ownPlan);
    expect(said.err).toContain('becomes');
    expect(said.code).toBe(0);
    expect(said.out).toBe('');
    const after = readFileSync(ownPlan, 'utf8');
    expect(readFileSync(`${ownPlan}.before`, 'utf8')).toBe(before);
    expect(after).not.toBe(before);
    const comments = (text: string): readonly string[] => text.match(/#.*$/gm) ?? [];
    expect(comments(after)).toEqual(comments(before));
    expect(readPlan(after).ok).toBe(true);
  });

  it('does not touch the plan when the copy of an earlier write-back stands in the way', async () => {
    const before = readFileSync(ownPlan, 'utf8');
    const said = await report('aaaaaaaaaaa2', '--write-back', ownPlan);
    expect(said.code).toBe(73);
    expect(readFileSync(ownPlan, 'utf8')).toBe(before);
  });

  it('refuses another plan, a plan with problems and a file that is not there', async () => {
    const other = join(shop.folder, 'straps.yaml');
    copyFileSync('jobs/hinge-straps.yaml', other);
    expect((await report('aaaaaaaaaaa2', '--write-back', other)).code).toBe(1);
    writeFileSync(join(shop.folder, 'bad.yaml'), 'format: 1\n');
    expect((await report('aaaaaaaaaaa2', '--write-back', join(shop.folder, 'bad.yaml'))).code).toBe(65);
    expect((await report('aaaaaaaaaaa2', '--write-back', join(shop.folder, 'none.yaml'))).code).toBe(66);
    expect(existsSync(`${other}.before`)).toBe(false);
  });
});
