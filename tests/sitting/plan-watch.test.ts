import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { foldLine } from '../../src/batch/evolve.ts';
import { type Batch, noBatch } from '../../src/batch/state.ts';
import { loadPlan, type PastTimesSource } from '../../src/sitting/plan-loading.ts';
import { lookAtPlan, makePlanWatch, planSightWords } from '../../src/sitting/plan-watch.ts';
import { isFault } from '../../src/store/fault.ts';
import { realDisk } from '../../src/store/real-disk.ts';
import { instantAt } from '../batch/playing.ts';

const bundled = new URL('../../jobs/keeper-plates.yaml', import.meta.url).pathname;
let folder = '';
let path = '';
const text = readFileSync(bundled, 'utf8');

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'millside-plan-'));
  path = join(folder, 'plan.yaml');
  writeFileSync(path, text);
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

async function openedBatch(past?: PastTimesSource): Promise<Batch> {
  const loaded = await loadPlan(realDisk, path, {}, past);
  if (isFault(loaded) || loaded.kind !== 'plan') throw new Error('the bundled plan does not load');
  const opening = {
    planText: loaded.file.text,
    planSha256: loaded.file.sha256,
    planPath: path,
    plan: loaded.resolved,
    zone: 'Europe/Berlin',
    hours: null,
    rate: null,
    overrides: [],
  };
  const state = foldLine(noBatch, { at: instantAt(0), events: [{ kind: 'BatchOpened', ...opening }] });
  if (state.kind === 'none') throw new Error('not opened');
  return state;
}

describe('[P7] the plan file of a running batch', () => {
  it('as it was opened is no news', async () => {
    const batch = await openedBatch();
    expect(planSightWords(await lookAtPlan(realDisk, batch))).toBeNull();
  });

  it('as it was opened is not read as a plan again: it is looked at every few seconds', async () => {
    const batch = await openedBatch();
    const asked: string[] = [];
    const ownKeys = (): string[] => {
      asked.push('machines');
      return [];
    };
    const machines = new Proxy({}, { ownKeys });
    await lookAtPlan(realDisk, batch, machines);
    expect(asked).toEqual([]);
    writeFileSync(path, text.replace('spares: 2', 'spares: 3'));
    await lookAtPlan(realDisk, batch, machines);
    expect(asked).toContain('machines');
  });

  it('changed is mentioned and offered, with the plan that it would bring', async () => {
    const batch = await openedBatch();
    writeFileSync(path, text.replace('spares: 2', 'spares: 3'));
    const sight = await lookAtPlan(realDisk, batch);
    expect(sight.kind === 'changed' && sight.amendment.plan.spares).toBe(3);
    expect(planSightWords(sight)).toContain('has changed');
    expect(batch.plan.spares).toBe(2);
  });

  it('changed keeps the times of past batches with which the batch was opened, whatever the history says by then', async () => {
    const open = text.replaceAll(/^ +estimate:.*$/gm, '');
    writeFileSync(path, open);
    const batch = await openedBatch(() => ({ computed_s }) => ({ piece_s: computed_s * 2, batches: 3 }));
    writeFileSync(path, open.replace('spares: 2', 'spares: 3'));
    const sight = await lookAtPlan(realDisk, batch);
    const times = (plan: Batch['plan']) => plan.operations.map((one) => one.estimate);
    expect(times(batch.plan).filter((one) => one.from === 'past batches').length).toBeGreaterThan(3);
    expect(sight.kind === 'changed' && times(sight.amendment.plan)).toEqual(times(batch.plan));
  });

  it('declined once is not offered again', async () => {
    const batch = await openedBatch();
    writeFileSync(path, text.replace('spares: 2', 'spares: 3'));
    const sight = await lookAtPlan(realDisk, batch);
    const declined = sight.kind === 'changed' ? [sight.amendment.planSha256] : [];
    expect((await lookAtPlan(realDisk, { ...batch, declinedPlans: declined })).kind).toBe('as opened');
  });

  it.each([
    ['halved', text.slice(0, text.length / 2)],
    ['spoiled', '\u0000\u0001 not a plan'],
    ['emptied', ''],
  ])('%s is mentioned as unusable', async (_, spoiled) => {
    const batch = await openedBatch();
    writeFileSync(path, spoiled);
    const sight = await lookAtPlan(realDisk, batch);
    expect(sight.kind).toBe('unusable');
    expect(planSightWords(sight)).toContain('goes on with the plan it was opened with');
  });

  it('gone is mentioned as unusable', async () => {
    const batch = await openedBatch();
    rmSync(path);
    expect((await lookAtPlan(realDisk, batch)).kind).toBe('unusable');
  });

  it('is looked at again only after a while, and a change is told once', async () => {
    const batch = await openedBatch();
    writeFileSync(path, text.replace('spares: 2', 'spares: 3'));
    let told = 0;
    const seen = new Promise<void>((resolve) => {
      const watch = makePlanWatch(realDisk, () => {
        told += 1;
        resolve();
      });
      watch.look(batch, 0);
      watch.look(batch, 10);
      watch.look(batch, 20);
    });
    await seen;
    expect(told).toBe(1);
  });
});
