import { describe, expect, it } from 'vitest';
import { lanesOf } from '../../src/batch/lanes.ts';
import { stopFrom, stopsOf } from '../../src/batch/stops.ts';
import { aCut, anOperation, aVariant, samplePlan, somePoints, twoVariantPlan } from './sample-plan.ts';

const keys = (plan: Parameters<typeof lanesOf>[0]) => [...lanesOf(plan).positions.keys()];

describe('lanes', () => {
  it('are common until the first operation that names fewer variants, then each variant has its own to the end', () => {
    const plan = twoVariantPlan({ threaded: 3, clearance: 2 });
    expect(keys(plan)).toEqual(['10/*', '20/*', '30/threaded', '40/clearance', '50/threaded', '50/clearance']);
    expect(lanesOf(plan).poolCell).toBe(1);
  });

  it('are one common lane throughout when the plan has one variant', () => {
    expect(keys(samplePlan())).toEqual(['10/*', '20/*']);
  });

  it('stay common when every operation is done to all variants', () => {
    const plan = samplePlan({ variants: [aVariant('left', 2), aVariant('right', 1)] });
    expect(keys(plan)).toEqual(['10/*', '20/*']);
    expect(lanesOf(plan).parted).toEqual([]);
  });

  it('part at the start when the first operation is for some only', () => {
    const variants = [aVariant('left', 2), aVariant('right', 1)];
    const plan = samplePlan({ variants, operations: [anOperation(10, { variants: ['left'] }), anOperation(20)] });
    expect(keys(plan)).toEqual(['10/left', '20/left', '20/right']);
    expect(lanesOf(plan).poolCell).toBeNull();
  });
});

describe('stops', () => {
  const group = anOperation(10, {
    loadSize: 2,
    cuts: [aCut('drill', 800, { points: somePoints(2) }), aCut('ream', 200, { points: somePoints(1) })],
  });

  it('go tool after tool, place after place, point after point', () => {
    const stops = stopsOf(group, 'point', 2).map((stop) => `${stop.cut}:${stop.place}:${stop.index}`);
    expect(stops).toEqual(['0:1:0', '0:1:1', '0:2:0', '0:2:1', '1:1:0', '1:2:0']);
  });

  it('are one for each tool when counted by load, so that no change of tool is passed over', () => {
    expect(stopsOf(group, 'load', 2)).toHaveLength(2);
  });

  it('are one where nothing is wound to', () => {
    expect(stopsOf(anOperation(10), 'piece', 1)).toHaveLength(1);
    expect(stopsOf(anOperation(10, { cuts: [aCut('end mill', 800)] }), 'point', 3)).toHaveLength(1);
  });

  it('pass over the place whose piece was rejected', () => {
    const stops = stopsOf(group, 'point', 2);
    expect(stopFrom(stops, 0, [1])).toBe(2);
    expect(stopFrom(stops, 5, [2])).toBe(6);
  });
});
