import { rmSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runRehearse } from '../../src/cli/rehearse.ts';
import { makeServices } from '../../src/cli/services.ts';
import { runSheet } from '../../src/cli/sheet.ts';
import { runStatus } from '../../src/cli/status.ts';
import { runSteps } from '../../src/cli/steps.ts';
import type { PlanSteps } from '../../src/plan/steps-model.ts';
import { lookAtBatch } from '../../src/sitting/opening.ts';
import { makePlanWatch } from '../../src/sitting/plan-watch.ts';
import { loadSettings } from '../../src/sitting/settings.ts';
import { readShopMachines } from '../../src/sitting/shop-machines.ts';
import { isFault } from '../../src/store/fault.ts';
import { aShop, keepBatch, runIn, type Shop } from './kept-batches.ts';

const straps = 'jobs/hinge-straps.yaml';
let [fresh, used]: Shop[] = [];

beforeAll(async () => {
  fresh = await aShop();
  used = await aShop();
  await keepBatch(used, straps, { id: 'aaaaaaaaaaa1', start: '2027-01-11T18:00:00Z', seed: 1, slower: 2 });
  await keepBatch(used, straps, { id: 'aaaaaaaaaaa2', start: '2027-02-08T18:00:00Z', seed: 2, slower: 2 });
}, 60_000);
afterAll(() => {
  for (const shop of [fresh, used]) if (shop !== undefined) rmSync(shop.folder, { recursive: true, force: true });
});

function shops(): { readonly fresh: Shop; readonly used: Shop } {
  if (fresh === undefined || used === undefined) throw new Error('not made');
  return { fresh, used };
}

/** The estimate of an operation as `steps --json` tells it. */
async function estimateIn(
  shop: Shop,
  number: number,
): Promise<PlanSteps['operations'][number]['estimate'] | undefined> {
  const told = JSON.parse((await runIn(shop, runSteps, [straps, '--json'])).out) as PlanSteps;
  return told.operations.find((one) => one.number === number)?.estimate;
}

describe('times on a computer with two finished batches of the plan', () => {
  it('come from them where the plan leaves them open, and what is given stays given', async () => {
    const { fresh, used } = shops();
    const computed = await estimateIn(fresh, 40);
    expect(computed).toMatchObject({ from: 'computed', batches: null });
    const past = await estimateIn(used, 40);
    expect(past).toMatchObject({ from: 'past batches', batches: 2 });
    expect(past?.piece_s).toBeGreaterThan(1.2 * (computed?.piece_s ?? 0));
    // Operation 80 states 40 s.
    expect(await estimateIn(used, 80)).toMatchObject({ piece_s: 40, from: 'plan', batches: null });
  });

  it('are said on steps and sheet with what they rest on', async () => {
    const { fresh, used } = shops();
    const steps = (await runIn(used, runSteps, [straps])).out;
    expect(steps).toContain('a piece (past batches, 2)');
    expect(steps).toContain('a piece (given)');
    expect((await runIn(used, runSheet, [straps])).out).toContain('past batches, 2');
    expect((await runIn(fresh, runSheet, [straps])).out).not.toContain('past batches');
    expect((await runIn(fresh, runSteps, [straps])).out).toContain('a piece (computed)');
  });

  it('are what a rehearsal is led by', async () => {
    const { fresh, used } = shops();
    type Row = { operation: number; plan: { piece_s: number; from: string; batches: number | null } };
    type Rows = { readonly operations: readonly Row[] };
    const rowIn = async (shop: Shop) => {
      const report = JSON.parse((await runIn(shop, runRehearse, [straps, '--json'])).out) as Rows;
      return report.operations.find((one) => one.operation === 40)?.plan;
    };
    const [slow, quick] = [await rowIn(used), await rowIn(fresh)];
    expect(slow).toMatchObject({ from: 'past batches', batches: 2 });
    expect(quick).toMatchObject({ from: 'computed', batches: null });
    expect(slow?.piece_s).toBeGreaterThan(1.2 * (quick?.piece_s ?? 0));
  });

  it('[P14] are kept in the first line of a batch that is opened with them, and stay when the history is gone', async () => {
    const { used } = shops();
    const { world } = used;
    const settings = loadSettings(world.configFolder).values;
    const plan = makePlanWatch(world.disk, () => {}, readShopMachines(settings.machines));
    const begun = await makeServices({ world, settings, plans: [], plan }).begin(straps, null);
    if (isFault(begun) || begun.kind !== 'begun') throw new Error('not begun');
    const status = JSON.parse((await runIn(used, runStatus, [begun.id, '--json'])).out) as {
      rests_on: { estimates: readonly { operation: number; batches: number; same: string }[] };
    };
    expect(status.rests_on.estimates.find((one) => one.operation === 40)).toMatchObject({
      batches: 2,
      same: 'as opened',
    });
    for (const id of ['aaaaaaaaaaa1', 'aaaaaaaaaaa2']) rmSync(`${world.home.batches}/${id}`, { recursive: true });
    const looked = await lookAtBatch(world, begun.id);
    if (isFault(looked) || looked.state.kind === 'none') throw new Error('not there');
    const estimate = looked.state.plan.operations.find((one) => one.number === 40)?.estimate;
    expect(estimate).toMatchObject({ from: 'past batches', past: { batches: 2 } });
    expect(estimate?.piece).toBeGreaterThan(1.2 * (estimate?.past?.computed ?? 0));
    expect(await estimateIn(used, 40)).toMatchObject({ from: 'computed' });
  });
});
