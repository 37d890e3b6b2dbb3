import { describe, expect, it } from 'vitest';
import { jobberFlutes } from '../../src/shop/jobber-flutes.ts';
import { asMm } from '../../src/shop/quantities.ts';

// DIN 338, from memory.
describe('flutes of a jobber drill', () => {
  it.each([
    [1, 12],
    [3, 33],
    [3.3, 36],
    [5, 52],
    [10, 87],
    [10.2, 94],
    [20, 140],
  ])('%d mm: %d mm', (diameter, flutes) => expect(jobberFlutes(asMm(diameter))).toBe(flutes));

  it('never grow shorter with the diameter', () => {
    const all = Array.from({ length: 193 }, (_, i) => jobberFlutes(asMm(0.8 + i / 10)) ?? 0);
    for (const [at, flutes] of all.entries()) expect(flutes).toBeGreaterThanOrEqual(all[at - 1] ?? 0);
  });

  it.each([0.79, 20.1, Number.NaN])('%d mm is not known', (diameter) =>
    expect(jobberFlutes(diameter as never)).toBeUndefined(),
  );
});
