import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runBatches } from '../../src/cli/batches.ts';
import { batchListSchema, comparisonSchema, estimatesSchema } from '../../src/cli/batches-shape.ts';
import { readPastBatches } from '../../src/sitting/history.ts';
import { isFault } from '../../src/store/fault.ts';
import { aShop, keepBatch, runIn, type Said, type Shop } from './kept-batches.ts';

const plates = 'jobs/keeper-plates.yaml';
const straps = 'jobs/hinge-straps.yaml';
let shop: Shop;

beforeAll(async () => {
  shop = await aShop();
  await keepBatch(shop, plates, { id: 'aaaaaaaaaaa1', start: '2027-01-11T18:00:00Z', seed: 1 });
  await keepBatch(shop, plates, { id: 'aaaaaaaaaaa2', start: '2027-02-08T18:00:00Z', seed: 2 });
  await keepBatch(shop, plates, { id: 'aaaaaaaaaaa3', start: '2027-03-01T18:00:00Z', seed: 3, part: 0.4 });
  await keepBatch(shop, straps, { id: 'bbbbbbbbbbb1', start: '2027-02-20T18:00:00Z', seed: 4 });
}, 60_000);
afterAll(() => rmSync(shop.folder, { recursive: true, force: true }));

const batches = (...args: string[]): Promise<Said> => runIn(shop, runBatches, args);
const listed = async (...args: string[]): Promise<readonly string[]> => {
  const said = await batches('--json', ...args);
  return batchListSchema
    .parse(JSON.parse(said.out))
    .batches.map((row) => row.batch)
    .sort();
};

describe('millside batches', () => {
  it('lists every batch in the documented shape', async () => {
    expect(await listed()).toEqual(['aaaaaaaaaaa1', 'aaaaaaaaaaa2', 'aaaaaaaaaaa3', 'bbbbbbbbbbb1']);
  });

  it.each([
    [['--open'], ['aaaaaaaaaaa3']],
    [['--finished'], ['aaaaaaaaaaa1', 'aaaaaaaaaaa2', 'bbbbbbbbbbb1']],
    [
      ['--since', '2027-02-20'],
      ['aaaaaaaaaaa3', 'bbbbbbbbbbb1'],
    ],
    [['--before', '2027-02-01'], ['aaaaaaaaaaa1']],
    [['--job', 'STRAP'], ['bbbbbbbbbbb1']],
    [['--job', 'strap', '--open'], []],
  ])('%j leaves %j', async (args, ids) => {
    expect(await listed(...args)).toEqual(ids);
  });

  it.each([[['--since', 'yesterday']], [['--open', '--finished']], [['extra']]])(
    'refuses %j as usage',
    async (args) => {
      const said = await batches(...args);
      expect(said.code).toBe(64);
      expect(said.out).toBe('');
      expect(said.err).toContain('millside batches');
    },
  );

  it('puts the finished batches of one plan side by side, oldest first', async () => {
    const plan = batchListSchema.parse(JSON.parse((await batches('--json', '--open')).out)).batches[0]?.plan ?? '';
    const compared = comparisonSchema.parse(JSON.parse((await batches('--json', '--compare', plan)).out));
    expect(compared.batches.map((one) => one.batch)).toEqual(['aaaaaaaaaaa1', 'aaaaaaaaaaa2']);
    expect(compared.operations.every((row) => row.medians_s.length === 2)).toBe(true);
    const text = (await batches('--compare', plan)).out;
    expect(text).toContain('2027-01-11');
    expect(text).toMatch(/: 2 batches\n/);
    expect(text).toMatch(/^work, h:mm +\d+:\d\d +\d+:\d\d$/m);
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('says which plans there are when none is like that', async () => {
    const said = await batches('--compare', 'gate');
    expect(said.code).toBe(1);
    expect(said.err).toContain('keeper');
  });

  it('gives estimates by kind, tools and material with the batches that they rest on', async () => {
    const said = await batches('--json', '--estimates');
    const { estimates, past_batches } = estimatesSchema.parse(JSON.parse(said.out));
    expect(past_batches).toBe(3);
    expect(Math.max(...estimates.map((one) => one.batches))).toBeGreaterThanOrEqual(2);
    expect(estimates.every((one) => one.least_s <= one.piece_s && one.piece_s <= one.greatest_s)).toBe(true);
    expect((await batches('--estimates')).out).toContain('rests on 2 batches');
  });
});

describe('the history', () => {
  const summary = (): string => join(shop.world.home.batches, 'aaaaaaaaaaa1', 'summary.json');

  it('[P14] makes a summary again that is gone or spoiled, the same as before', async () => {
    const before = await readPastBatches(shop.world);
    expect(existsSync(summary())).toBe(true);
    const kept = readFileSync(summary(), 'utf8');
    rmSync(summary());
    expect(await readPastBatches(shop.world)).toEqual(before);
    expect(readFileSync(summary(), 'utf8')).toBe(kept);
    writeFileSync(summary(), '{"v": 1');
    expect(await readPastBatches(shop.world)).toEqual(before);
  });

  it('teaches the next forecast: a prior from three batches, lessons by kind of work, bands judged three times', async () => {
    const read = await readPastBatches(shop.world);
    if (isFault(read)) throw new Error(read.what);
    expect(read.past.prior?.batches).toBe(3);
    for (const lesson of read.past.lessons) {
      expect(lesson.bandMisses).toHaveLength(3);
      expect(lesson.operations.length).toBeGreaterThan(3);
      // The invented operator works to the plan (rehearsal.ts), so the factor is near nothing.
      expect(Math.abs(lesson.cycleFactor)).toBeLessThan(0.15);
    }
  });
});
