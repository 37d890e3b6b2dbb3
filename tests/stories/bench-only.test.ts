// A job of pillar drill, saw and bench alone, without a mill and without a readout.
import { afterEach, describe, expect, it } from 'vitest';
import type { ReportModel } from '../../src/report/model.ts';
import { canRunStories } from './harness.ts';
import { closeShops, makeShop, openToWork, pressEnterUntil } from './shop.ts';

afterEach(closeShops);

describe.skipIf(!canRunStories())('the bundled job without a mill', () => {
  it('is made whole with Enter alone', async () => {
    const shop = makeShop();
    const t = await openToWork(shop, { args: [shop.plan('jobs/hinge-straps.yaml')] });
    await pressEnterUntil(shop, t, t.hasEnded);
    expect(await t.exit()).toBe(0);
    const report = JSON.parse(shop.ask('report', '--json').out) as ReportModel;
    expect(report.state).toBe('finished');
    expect(report.operations.filter((row) => row.good < row.ordered)).toEqual([]);
    expect(new Set(report.operations.map((row) => row.station))).not.toContain('mill');
  });
});
