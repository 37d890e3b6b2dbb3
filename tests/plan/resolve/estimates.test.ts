import { describe, expect, it } from 'vitest';
import { readPlan } from '../../../src/plan/read/read-plan.ts';
import { resolvePlan } from '../../../src/plan/resolve/resolve-plan.ts';
import { operationOf, textOf } from '../plan-samples.ts';

const reading = readPlan(textOf('jobs/hinge-straps.yaml'));
if (!reading.ok) throw new Error('not read');

describe('times of an operation', () => {
  it('come from the plan, else from past batches, else are computed, and which is said', () => {
    const asked: unknown[] = [];
    const resolution = resolvePlan(reading.plan, {
      estimates: (work) => {
        asked.push(work);
        return work.operation === 40 ? { piece_s: 61.26, batches: 3 } : null;
      },
    });
    if (!resolution.ok) throw new Error('not resolved');
    const from = (number: number) => operationOf(resolution.plan, number).estimate;
    expect(from(40)).toMatchObject({ piece: 61.3, from: 'past batches' });
    expect(from(30).from).toBe('computed');
    // Operation 80 states 40 s: what past batches say of it is not asked.
    expect(from(80)).toMatchObject({ piece: 40, from: 'plan' });
    expect(asked).not.toContainEqual(expect.objectContaining({ operation: 80 }));
    expect(asked).toContainEqual(
      expect.objectContaining({ operation: 40, kind: 'drill', tool: '8.5 mm drill', material: 'mild steel' }),
    );
    const note = resolution.computed.find((one) => one.operation === 40 && one.what === 'estimate');
    expect(note?.because).toContain('3 past batches');
  });

  it('a past that says nothing sensible is not taken', () => {
    for (const piece_s of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      const resolution = resolvePlan(reading.plan, { estimates: () => ({ piece_s, batches: 1 }) });
      expect(resolution.ok && operationOf(resolution.plan, 40).estimate.from).toBe('computed');
    }
  });
});
