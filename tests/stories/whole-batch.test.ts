import { afterEach, describe, expect, it } from 'vitest';
import { canRunStories } from './harness.ts';
import { closeShops, makeShop, openToWork, pressEnterUntil, type Shop } from './shop.ts';

afterEach(closeShops);

type Row = { readonly operation: number; readonly ordered: number; readonly good: number; readonly scrap: number };

async function makeWholeBatch(plan: string): Promise<{ readonly shop: Shop; readonly rows: readonly Row[] }> {
  const shop = makeShop();
  const t = await openToWork(shop, { args: [shop.plan(plan)] });
  await pressEnterUntil(shop, t, t.hasEnded);
  expect(await t.exit()).toBe(0);
  expect(t.screen().text).toContain('finished');
  expect(t.screen().isAlternate).toBe(false);
  const report = shop.ask('report', '--json');
  expect(report.code).toBe(0);
  return { shop, rows: (JSON.parse(report.out) as { operations: Row[] }).operations };
}

describe.skipIf(!canRunStories())('a whole batch with Enter alone', () => {
  it('of two kinds with points, a check and a tap ends with good as ordered, and the check is told as skipped', async () => {
    const { shop, rows } = await makeWholeBatch('three-plates');
    expect(rows.map((row) => [row.operation, row.good, row.scrap])).toEqual([
      [10, 3, 0],
      [20, 3, 0],
      [30, 2, 0],
      [40, 1, 0],
      [50, 2, 0],
      [50, 1, 0],
    ]);
    const status = shop.status();
    expect([status.state, status.held_by]).toEqual(['finished', null]);
    expect(shop.events('Checked')).toMatchObject([{ operation: 20, result: { kind: 'skipped' } }]);
    expect(shop.ask('batches').out).toContain('finished');
  });

  it('of the job that comes with the program ends with every operation made', async () => {
    const { rows } = await makeWholeBatch('jobs/keeper-plates.yaml');
    const short = rows.filter((row) => row.good < row.ordered);
    expect(short).toEqual([]);
    expect(new Set(rows.map((row) => row.operation)).size).toBe(13);
  });
});
