import { describe, expect, it } from 'vitest';
import { controlSign, RUN_LENGTH, TREND_LENGTH } from '../../src/shop/control-rule.ts';

/** All orders of 1 to n. */
function orders(n: number): number[][] {
  if (n === 1) return [[1]];
  return orders(n - 1).flatMap((order) =>
    Array.from({ length: n }, (_, at) => [...order.slice(0, at), n, ...order.slice(at)]),
  );
}

describe('the control rule', () => {
  it('seven on one side of the middle are a run, once in 64 by chance (every side of seven fair coins, counted)', () => {
    const sides = Array.from({ length: 2 ** RUN_LENGTH }, (_, bits) =>
      Array.from({ length: RUN_LENGTH }, (__, at) => ((bits >> at) & 1 ? 1 : -1)),
    );
    const runs = sides.filter((values) => controlSign(values, 0)?.kind === 'run');
    expect(runs.length / sides.length).toBe(1 / 64);
    expect(controlSign([1, 2, 1, 2, 1, 2, 1], 0)).toEqual({ kind: 'run', side: 'above', values: 7, onceIn: 64 });
  });

  it('five going one way are a trend, once in 60 by chance (all 120 orders, counted)', () => {
    const all = orders(TREND_LENGTH);
    const trends = all.filter((values) => controlSign(values, 3)?.kind === 'trend');
    expect(all.length / trends.length).toBe(60);
    expect(controlSign([9, 60.01, 60.02, 60.03, 60.05, 60.06], 60)?.kind).toBe('trend');
  });

  it('says nothing of fewer, of a value on the middle, of two equal values', () => {
    expect(controlSign([], 0)).toBeNull();
    expect(controlSign([1, 2, 1, 2, 1, 2], 0)).toBeNull();
    expect(controlSign([1, 2, 1, 0, 1, 2, 1], 0)).toBeNull();
    expect(controlSign([1, 2, 3, 3, 4], 9)).toBeNull();
  });

  it('of two signs the rarer one is given', () => {
    expect(controlSign([1, 2, 3, 4, 5, 6, 7], 0)).toMatchObject({ kind: 'trend', way: 'up', values: 7, onceIn: 2520 });
  });
});
