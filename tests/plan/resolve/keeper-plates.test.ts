import { describe, expect, it } from 'vitest';
import { resolvedPlanSchema } from '../../../src/plan/resolved.ts';
import { operationOf, proved, textOf } from '../plan-samples.ts';

const { resolved, findings, computed } = proved(textOf('jobs/keeper-plates.yaml'));
const speedOf = (number: number) => operationOf(resolved, number).cuts[0]?.speed.set;

describe('the bundled job', () => {
  it('is a whole resolved plan that survives a journal', () => {
    expect(resolvedPlanSchema.parse(JSON.parse(JSON.stringify(resolved)))).toEqual(resolved);
  });

  it('starts 42 of two kinds that part at operation 80', () => {
    expect(resolved.variants.map((variant) => variant.quantity)).toEqual([20, 20]);
    expect(resolved.spares).toBe(2);
    const parted = resolved.operations.filter((operation) => operation.variants.length === 1);
    expect(parted.map((operation) => operation.number)).toEqual([80, 90, 100]);
  });

  it('mills the ends in 14 loads of 3', () => {
    expect(computed.filter((note) => note.what === 'loads').map((note) => note.value)).toEqual([
      '14 loads: 14 of 3',
      '14 loads: 14 of 3',
    ]);
  });

  // 24.4 m/min drilling (US Navy course 14345) gives 1553 at 5 mm, 1233 at 6.3, 1177 at 6.6; 27.4 milling gives 546 at 16.
  it.each([
    [30, 540],
    [60, 860],
    [70, 1380],
    [80, 80],
    [90, 1000],
    [100, 280],
  ])('operation %i turns %i, never above what was computed', (number, speed) => {
    expect(speedOf(number)).toBe(speed);
    expect(speed).toBeLessThanOrEqual(operationOf(resolved, number).cuts[0]?.speed.computed ?? 0);
  });

  it('puts the holes below the fixed jaw and goes through with the point and 1 mm', () => {
    const points = operationOf(resolved, 70).cuts[0]?.points ?? [];
    expect(points.map((point) => [point.x, point.y])).toEqual([
      [10, -15],
      [50, -15],
    ]);
    // Point of a 5 mm drill at 118 degrees: 0.3004 x 5 (published factor) = 1.502.
    expect(points[0]?.z).toBeCloseTo(-(8 + 1.502 + 1), 3);
  });

  it('mills to length with the cutter half its diameter beyond the wall', () => {
    expect(operationOf(resolved, 30).cuts[0]?.passes[0]?.from.x).toBe(61 + 8);
    expect(operationOf(resolved, 40).cuts[0]?.passes[0]?.from.x).toBe(60 + 8);
  });

  it('trips no stop and no warning', () => {
    expect(findings.filter((finding) => finding.severity !== 'note')).toEqual([]);
  });
});
