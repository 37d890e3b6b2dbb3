import { appendFileSync, existsSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  isKnownOver,
  lastTimeOf,
  medianLastTime,
  readPastBatches,
  readPastTimes,
  workLastTime,
} from '../../src/sitting/history.ts';
import { openBatch } from '../../src/sitting/opening.ts';
import { loadPlan } from '../../src/sitting/plan-loading.ts';
import { listBatches } from '../../src/store/batches.ts';
import { isFault } from '../../src/store/fault.ts';
import { aShop, keepBatch, type Shop } from '../cli/kept-batches.ts';

const plates = 'jobs/keeper-plates.yaml';
const straps = 'jobs/hinge-straps.yaml';
let shop: Shop;

beforeEach(async () => {
  shop = await aShop();
});
afterEach(() => rmSync(shop.folder, { recursive: true, force: true }));

const summaryOf = (id: string): string => join(shop.world.home.batches, id, 'summary.json');
const history = async () => {
  const read = await readPastBatches(shop.world);
  if (isFault(read)) throw new Error(read.what);
  return read;
};

describe('the history of a shop', () => {
  it('is empty before the first batch is over, and open batches are no part of it', async () => {
    await keepBatch(shop, plates, { id: 'aaaaaaaaaaa1', start: '2027-01-11T18:00:00Z', part: 0.3 });
    const read = await history();
    expect(read.summaries).toEqual([]);
    expect(read.past.prior).toBeUndefined();
    expect(existsSync(summaryOf('aaaaaaaaaaa1'))).toBe(false);
  });

  it('keeps the summary of a batch that ends when it is left; one given up teaches nothing', async () => {
    await keepBatch(shop, plates, { id: 'aaaaaaaaaaa1', start: '2027-01-11T18:00:00Z', part: 0.3 });
    const opened = await openBatch(shop.world, 'aaaaaaaaaaa1', {
      takeFromOtherHost: false,
      by: null,
      amendment: () => null,
    });
    if (isFault(opened) || opened.kind !== 'opened') throw new Error('not opened');
    await opened.sitting.send({ kind: 'giveUp', name: 'Keeper plates', reason: 'no stock' });
    expect(await opened.leave('left')).toBeUndefined();
    expect(existsSync(summaryOf('aaaaaaaaaaa1'))).toBe(true);
    const read = await history();
    expect(read.summaries.map((one) => [one.state, one.lesson])).toEqual([['given up', null]]);
    expect(read.past.lessons).toEqual([]);
  });

  it('knows a batch to be over without its journal, as long as the summary is of that journal', async () => {
    await keepBatch(shop, plates, { id: 'aaaaaaaaaaa1', start: '2027-01-11T18:00:00Z' });
    await keepBatch(shop, plates, { id: 'aaaaaaaaaaa2', start: '2027-01-18T18:00:00Z', part: 0.3 });
    const known = async (): Promise<readonly [string, boolean][]> => {
      const entries = await listBatches(shop.world.disk, shop.world.home);
      if (isFault(entries)) throw new Error(entries.what);
      const all = entries.map(async (one): Promise<[string, boolean]> => [one.id, await isKnownOver(shop.world, one)]);
      return (await Promise.all(all)).sort();
    };
    await history();
    expect(await known()).toEqual([
      ['aaaaaaaaaaa1', true],
      ['aaaaaaaaaaa2', false],
    ]);
    appendFileSync(join(shop.world.home.batches, 'aaaaaaaaaaa1', 'journal.jsonl'), '{}\n');
    expect((await known())[0]).toEqual(['aaaaaaaaaaa1', false]);
  });

  it('gives times to work that a plan leaves open, the same with summaries spoiled, and none of a journal that is gone', async () => {
    await keepBatch(shop, straps, { id: 'aaaaaaaaaaa1', start: '2027-01-11T18:00:00Z', seed: 1, slower: 2 });
    await keepBatch(shop, straps, { id: 'aaaaaaaaaaa2', start: '2027-02-08T18:00:00Z', seed: 2, slower: 2 });
    const loaded = await loadPlan(shop.world.disk, straps);
    if (isFault(loaded) || loaded.kind !== 'plan') throw new Error('not loaded');
    const operation = loaded.resolved.operations.find((one) => one.number === 40);
    if (operation === undefined) throw new Error('no operation 40');
    const asked = {
      plan: 'hinge-straps',
      operation: 40,
      kind: operation.kind,
      tool: '8.5 mm drill',
      material: loaded.resolved.material,
      computed_s: operation.estimate.piece,
    };
    const first = (await readPastTimes(shop.world))(asked);
    expect(first?.batches).toBe(2);
    // Twice as slow, in two batches: between what is computed and twice that.
    expect((first?.piece_s ?? 0) / asked.computed_s).toBeGreaterThan(1.3);
    expect((first?.piece_s ?? 0) / asked.computed_s).toBeLessThan(2);
    writeFileSync(summaryOf('aaaaaaaaaaa1'), '{"v":2,"payload":');
    expect((await readPastTimes(shop.world))(asked)).toEqual(first);
    rmSync(join(shop.world.home.batches, 'aaaaaaaaaaa1'), { recursive: true });
    expect((await readPastTimes(shop.world))(asked)).toBeNull();
  });

  it('knows last time: the newest finished batch of the plan, never the batch itself or one given up', async () => {
    await keepBatch(shop, plates, { id: 'aaaaaaaaaaa1', start: '2027-01-11T18:00:00Z', seed: 1 });
    await keepBatch(shop, plates, { id: 'aaaaaaaaaaa2', start: '2027-02-08T18:00:00Z', seed: 2 });
    const { summaries } = await history();
    const then = lastTimeOf(summaries, 'keeper-plates', 'aaaaaaaaaaa2');
    expect(then?.batch).toBe('aaaaaaaaaaa1');
    expect(lastTimeOf(summaries, 'keeper-plates', '')?.batch).toBe('aaaaaaaaaaa2');
    expect(lastTimeOf(summaries, 'another', '')).toBeNull();
    expect(medianLastTime(then, 10, '*')).toBeGreaterThan(30);
    expect(medianLastTime(then, 999, '*')).toBeNull();
    expect(workLastTime(then)).toBeCloseTo((then?.worked_s ?? 0) / (then?.good ?? 1), 9);
    expect(workLastTime(null)).toBeNull();
  });
});
