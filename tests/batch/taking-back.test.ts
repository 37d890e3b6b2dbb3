import { describe, expect, it } from 'vitest';
import { foldJournal } from '../../src/batch/evolve.ts';
import { inHandAt, waitingAt } from '../../src/batch/flow.ts';
import { enterAlone, play } from './playing.ts';
import { aCheck, aCut, anOperation, aVariant, samplePlan, somePoints, twoVariantPlan } from './sample-plan.ts';

const points = samplePlan({
  variants: [aVariant('plate', 2)],
  operations: [
    anOperation(10, { counting: 'point', cuts: [aCut(null, null, { points: somePoints(2) })] }),
    anOperation(20),
  ],
});

describe('taking back', () => {
  it('a point goes back to that point', () => {
    const batch = play(points);
    batch.act({ kind: 'count', quick: false });
    batch.act({ kind: 'takeBack' });
    expect(inHandAt(batch.batch(), 0).stop).toBe(0);
  });

  it('a load goes back to its last point, then point by point to the first', () => {
    const batch = play(points);
    batch.count(2);
    batch.act({ kind: 'takeBack' });
    expect([batch.batch().cells[0]?.good, inHandAt(batch.batch(), 0).stop]).toEqual([0, 1]);
    batch.act({ kind: 'takeBack' });
    expect(inHandAt(batch.batch(), 0).stop).toBe(0);
    expect(batch.reason({ kind: 'takeBack' })).toBe('nothing to take back');
  });

  it('keeps the time spent, and the piece time goes on', () => {
    const batch = play(samplePlan());
    batch.act({ kind: 'count', quick: false }, 60);
    batch.act({ kind: 'takeBack' }, 10);
    expect(batch.batch().accounts.run).toBe(70_000);
    expect(batch.act({ kind: 'count', quick: false }, 5)[0]).toMatchObject({ ms: 75_000 });
    expect(batch.batch().cells[0]?.loads?.length).toBe(1);
  });

  it('is unlimited, back to the first count', () => {
    const batch = play(
      samplePlan({ variants: [aVariant('plate', 40)], operations: [anOperation(10), anOperation(20)] }),
    );
    batch.count(40);
    batch.passAll();
    batch.count(40);
    for (let i = 0; i < 80; i += 1) batch.act({ kind: 'takeBack' });
    expect(batch.batch().cells.map((cell) => cell.good)).toEqual([0, 0]);
    expect(batch.reason({ kind: 'takeBack' })).toBe('nothing to take back');
  });

  it('survives a restart, because it follows from the events', () => {
    const batch = play(points);
    batch.count(3);
    expect(foldJournal(batch.lines())).toEqual(batch.state());
    batch.act({ kind: 'takeBack' });
    expect(foldJournal(batch.lines())).toEqual(batch.state());
  });

  it('undoes the newest of the operation at hand, and is refused while a later one has used the piece', () => {
    const batch = play(samplePlan());
    batch.count(1);
    batch.act({ kind: 'goTo', operation: 20, lane: '*' });
    batch.count(1);
    batch.pass();
    expect(batch.batch().current).toBe(0);
    expect(batch.reason({ kind: 'takeBack' })).toBe(
      'operation 20 has used those pieces already; take it back there first',
    );
  });

  it('reaches into the operation before while nothing is done in this one', () => {
    const batch = play(samplePlan());
    batch.count(3);
    batch.pass();
    expect(batch.act({ kind: 'takeBack' })[0]).toMatchObject({ kind: 'TakenBack', what: 'LoadCounted' });
    expect(batch.batch().cells[0]?.good).toBe(2);
    expect(waitingAt(batch.batch(), 1)).toBe(2);
  });

  it('removes the card that the count brought up', () => {
    const batch = play(samplePlan());
    batch.count(3);
    expect(batch.batch().cards[0]?.kind).toBe('operation ended');
    batch.act({ kind: 'takeBack' });
    expect(batch.batch().cards).toEqual([]);
  });

  it('makes a check that belonged to the count void and due again', () => {
    const batch = play(samplePlan({ operations: [anOperation(10, { checks: [aCheck('size')] })] }));
    batch.act({ kind: 'count', quick: false });
    batch.pass({ kind: 'value', value: 3.2 });
    expect(batch.batch().suspects).toHaveLength(1);
    batch.act({ kind: 'takeBack' });
    expect(batch.batch().cells[0]?.checkLog?.item.void).toBe(true);
    expect(batch.batch().suspects).toEqual([]);
    batch.act({ kind: 'count', quick: false });
    expect(batch.batch().cards).toMatchObject([{ kind: 'check', check: 'size', due: 'first-off' }]);
  });

  it('undoes scrap after the count, rework, recount, correction, making more and the sharing out', () => {
    const batch = play(twoVariantPlan({ threaded: 2, clearance: 1 }));
    batch.count(1);
    batch.act({ kind: 'reject', place: null, pieces: 1, counted: true, reason: 'short' });
    batch.act({ kind: 'takeBack' });
    batch.act({ kind: 'rework', to: 10, pieces: 1, reason: 'burr' });
    batch.act({ kind: 'takeBack' });
    batch.act({ kind: 'recount', good: 2, reason: 'tray' });
    batch.act({ kind: 'takeBack' });
    batch.act({ kind: 'correct', axis: 'stop', by: 0.2, reading: 60.8, reason: 'reads short' });
    batch.act({ kind: 'takeBack' });
    batch.act({ kind: 'makeMore', pieces: 2, lane: '*', reason: 'for stock' });
    batch.act({ kind: 'takeBack' });
    const state = batch.batch();
    expect(state.cells[0]).toMatchObject({ good: 1, scrap: 0, reworked: 0 });
    expect(state.corrections).toMatchObject([{ takenBack: true }]);
    expect(state.more).toBe(0);
  });

  it('of the sharing out brings its card up again', () => {
    const batch = play(twoVariantPlan({ threaded: 1, clearance: 1 }));
    while (batch.batch().allotted['threaded'] === undefined) {
      if (batch.batch().cards.length > 0) batch.pass();
      else batch.act({ kind: 'count', quick: false });
    }
    batch.act({ kind: 'takeBack' });
    expect(batch.batch().cards[0]?.kind).toBe('parting');
    expect(enterAlone(batch)).toBeGreaterThan(0);
  });
});
