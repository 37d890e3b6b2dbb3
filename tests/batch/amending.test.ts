import { describe, expect, it } from 'vitest';
import { planChanges } from '../../src/batch/plan-changes.ts';
import type { ResolvedPlan } from '../../src/plan/resolved.ts';
import { asMm } from '../../src/shop/quantities.ts';
import { enterAlone, type Played, play } from './playing.ts';
import { aCut, anOperation, aVariant, samplePlan, somePoints, twoVariantPlan } from './sample-plan.ts';

const amendment = (plan: ResolvedPlan) => ({ amendment: { plan, planText: 'changed', planSha256: '1'.repeat(64) } });
const amend = (batch: Played, plan: ResolvedPlan) => batch.act({ kind: 'amend' }, 1, amendment(plan));
const refusal = (batch: Played, plan: ResolvedPlan) => batch.reason({ kind: 'amend' }, amendment(plan));

const withOperations = (...operations: ResolvedPlan['operations']) =>
  samplePlan({ variants: [aVariant('plate', 4)], operations });
const holes = (z: number) => somePoints(2).map((point) => ({ ...point, z }));

describe('the list of changes', () => {
  it("names operation, cut and point in the plan's units", () => {
    const before = withOperations(anOperation(10, { cuts: [aCut(null, null, { points: holes(-6) })] }));
    const after = withOperations(anOperation(10, { cuts: [aCut(null, null, { points: holes(-6.2) })] }));
    expect(planChanges(before, after)).toEqual([
      'operation 10, cut 1, point 1, z: -6 mm becomes -6.2 mm',
      'operation 10, cut 1, point 2, z: -6 mm becomes -6.2 mm',
    ]);
    const inches = (plan: ResolvedPlan): ResolvedPlan => ({ ...plan, units: 'inch' });
    expect(planChanges(inches(before), inches(after))[0]).toBe(
      'operation 10, cut 1, point 1, z: -0.2362 in becomes -0.2441 in',
    );
  });

  it('tells an inserted operation as one change', () => {
    const before = withOperations(anOperation(10), anOperation(30));
    const after = withOperations(anOperation(10), anOperation(20), anOperation(30));
    expect(planChanges(before, after)).toEqual(['operation 20 is new']);
    expect(planChanges(after, before)).toEqual(['operation 20 is gone']);
  });

  it('tells passes of a load that a plan of before did not have, and how far an end stands out', () => {
    const pass = { name: 'R: slot', feedAxis: 'x', feedTowards: '+', from: { x: 74, y: -15 }, to: { x: 146, y: -15 } };
    const loadPasses = [{ ...pass, z: -2, last: true, places: [2] }];
    const before = withOperations(anOperation(10, { cuts: [aCut(null, null)] }));
    const after = withOperations(
      anOperation(10, { cuts: [aCut(null, null, { loadPasses } as Parameters<typeof aCut>[2])] }),
    );
    expect(planChanges(before, after)).toEqual(['operation 10, cut 1, pass of the load 1 is new']);
    const held = twoVariantPlan({ threaded: 2, clearance: 2, spares: 0 });
    const out = (by: number): ResolvedPlan => ({
      ...held,
      setups: held.setups.map((one) => ({ ...one, beyondJaws: { end: 'right' as const, by: asMm(by) } })),
    });
    expect(planChanges(out(8), out(10))[0]).toMatch(/beyond the jaws, by: 8 mm becomes 10 mm$/);
    expect(planChanges(held, out(10))[1]).toMatch(/beyond the jaws, by: nothing becomes 10 mm$/);
  });

  it('is empty when nothing differs', () => {
    expect(planChanges(samplePlan(), samplePlan())).toEqual([]);
  });
});

describe('amending', () => {
  it('keeps what was counted and goes on under the new plan', () => {
    const batch = play(withOperations(anOperation(10), anOperation(30)));
    batch.count(2);
    const [event] = amend(batch, withOperations(anOperation(10), anOperation(20), anOperation(30)));
    expect(event).toMatchObject({ kind: 'PlanAmended', changes: ['operation 20 is new'] });
    expect(batch.batch().cells.map((cell) => [cell.operation, cell.good])).toEqual([
      [10, 2],
      [20, 0],
      [30, 0],
    ]);
    batch.act({ kind: 'takeBack' });
    enterAlone(batch);
    expect(batch.batch().cells.map((cell) => cell.good)).toEqual([4, 4, 4]);
  });

  it('asks for a setup again when it changed', () => {
    const plan = twoVariantPlan({ threaded: 1, clearance: 1 });
    const batch = play(plan);
    batch.count(3);
    const setups = plan.setups.map((setup) => ({ ...setup, steps: [...setup.steps, 'Tighten twice'] }));
    amend(batch, { ...plan, setups });
    expect(batch.batch().cards.map((card) => card.kind)).toContain('setup');
  });

  it('goes where pieces wait when the operation at hand is not in the new plan', () => {
    const batch = play(withOperations(anOperation(10), anOperation(20), anOperation(30)));
    batch.count(4);
    batch.pass();
    amend(batch, withOperations(anOperation(10), anOperation(30)));
    expect(batch.batch().cells[batch.batch().current ?? 0]?.operation).toBe(30);
    enterAlone(batch);
  });

  it('is refused when an operation with counted pieces would go', () => {
    const batch = play(withOperations(anOperation(10), anOperation(20)));
    batch.count(1);
    expect(refusal(batch, withOperations(anOperation(20)))).toContain('operation 10 has counted pieces');
  });

  it('is refused when fewer pieces would be started than were counted', () => {
    const batch = play(withOperations(anOperation(10), anOperation(20)));
    batch.count(3);
    const fewer = samplePlan({ variants: [aVariant('plate', 2)], operations: [anOperation(10), anOperation(20)] });
    expect(refusal(batch, fewer)).toBe('more than 2 pieces were begun already');
  });

  it('is refused when an operation would stand between pieces that passed it and those that did not', () => {
    const batch = play(withOperations(anOperation(10), anOperation(30)));
    batch.count(2);
    batch.act({ kind: 'goTo', operation: 30, lane: '*' });
    batch.count(1);
    expect(refusal(batch, withOperations(anOperation(10), anOperation(20), anOperation(30)))).toBe(
      'operation 30 has counted more pieces than would have come to it',
    );
  });

  it('is refused when counted operations would change places, and within a load whose points change', () => {
    const pointed = (n: number) =>
      withOperations(anOperation(10, { counting: 'point', cuts: [aCut(null, null, { points: somePoints(n) })] }));
    const batch = play(pointed(2));
    batch.act({ kind: 'count', quick: false });
    expect(refusal(batch, pointed(3))).toContain('a load of operation 10 is begun');
    const two = play(withOperations(anOperation(10), anOperation(20)));
    two.count(4);
    two.pass();
    two.count(1);
    expect(refusal(two, withOperations(anOperation(20), anOperation(10)))).toContain('must keep their order');
  });

  it('is refused for another plan, other units and a plan beyond the bounds', () => {
    const batch = play(samplePlan());
    expect(refusal(batch, { ...samplePlan(), id: 'other' })).toContain('another plan');
    expect(refusal(batch, { ...samplePlan(), units: 'inch' })).toContain('units');
    expect(refusal(batch, samplePlan({ variants: [aVariant('plate', 10_001)] }))).toContain('more than 10000');
    expect(batch.reason({ kind: 'amend' })).toBe('the plan file has not changed');
  });

  it('declined is not offered twice', () => {
    const batch = play(samplePlan());
    const planSha256 = '2'.repeat(64);
    batch.act({ kind: 'declineAmendment', planSha256 });
    expect(batch.batch().declinedPlans).toEqual([planSha256]);
    expect(batch.reason({ kind: 'declineAmendment', planSha256 })).toBe('that change was declined already');
  });
});

describe('opening', () => {
  it('is refused beyond 10,000 pieces and 99 operations', () => {
    expect(() => play(samplePlan({ variants: [aVariant('plate', 9_999)], spares: 2 }))).toThrow('more than 10000');
    const operations = Array.from({ length: 100 }, (_, i) => anOperation(i + 1));
    expect(() => play(samplePlan({ operations }))).toThrow('100 operations are more than 99');
  });
});
