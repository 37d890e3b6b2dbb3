import { describe, expect, it } from 'vitest';
import { inHandAt, waitingAt } from '../../src/batch/flow.ts';
import { cellKey } from '../../src/batch/lanes.ts';
import type { Batch } from '../../src/batch/state.ts';
import { play } from './playing.ts';
import { aCut, anOperation, aVariant, samplePlan, somePoints, twoVariantPlan } from './sample-plan.ts';

const at = (batch: Batch, operation: number, lane = '*') => batch.lanes.positions.get(cellKey(operation, lane)) ?? -1;
const cell = (batch: Batch, operation: number, lane = '*') => batch.cells[at(batch, operation, lane)];

const loads = samplePlan({
  variants: [aVariant('plate', 8)],
  operations: [anOperation(10, { loadSize: 3, counting: 'load' }), anOperation(20)],
});
const points = samplePlan({
  variants: [aVariant('plate', 4)],
  operations: [
    anOperation(10, { loadSize: 2, counting: 'point', cuts: [aCut(null, null, { points: somePoints(2) })] }),
    anOperation(20),
  ],
});

describe('counting', () => {
  it('counts full loads and a smaller last one', () => {
    const batch = play(loads);
    const sizes = [1, 2, 3].map(() => batch.act({ kind: 'count', quick: false }, 60)[0]);
    expect(sizes.map((event) => event?.kind === 'LoadCounted' && event.good)).toEqual([3, 3, 2]);
  });

  it('moves point by point, and the last point counts the load', () => {
    const batch = play(points);
    const kinds = [1, 2, 3, 4].map(() => batch.act({ kind: 'count', quick: false }, 10)[0]?.kind);
    expect(kinds).toEqual(['PointDone', 'PointDone', 'PointDone', 'LoadCounted']);
    expect(cell(batch.batch(), 10)?.good).toBe(2);
  });

  it('counts only pieces that passed the operation before', () => {
    const batch = play(samplePlan());
    batch.count(1);
    batch.act({ kind: 'goTo', operation: 20, lane: '*' });
    batch.count(1);
    batch.act({ kind: 'goTo', operation: 10, lane: '*' });
    expect(batch.reason({ kind: 'goTo', operation: 20, lane: '*' })).toBe(
      'no pieces wait at operation 20 Operation 20',
    );
  });

  it('waits for ordered pieces and spares before the first operation', () => {
    const batch = play(samplePlan({ spares: 2 })).batch();
    expect(waitingAt(batch, 0)).toBe(5);
  });

  it('scrap shortens the next operation', () => {
    const batch = play(samplePlan());
    batch.act({ kind: 'reject', place: null, pieces: 1, counted: false, reason: 'too short' });
    batch.passAll(1);
    batch.count(2);
    batch.passAll();
    expect(waitingAt(batch.batch(), at(batch.batch(), 20))).toBe(2);
  });

  it('is refused while a card is up', () => {
    const batch = play(twoVariantPlan({ threaded: 1, clearance: 1 }));
    batch.count(2);
    expect(batch.batch().cards[0]?.kind).toBe('operation ended');
    expect(batch.reason({ kind: 'count', quick: false })).toBe('a card is up; answer it first');
  });

  it('keeps a trial piece apart from count and timing', () => {
    const batch = play(samplePlan());
    const [trial] = batch.act({ kind: 'trial', note: 'on scrap bar' }, 200);
    const [counted] = batch.act({ kind: 'count', quick: false }, 45);
    expect(trial).toMatchObject({ kind: 'TrialMade', ms: 200_000 });
    expect(counted).toMatchObject({ kind: 'LoadCounted', ms: 45_000, leftOut: null });
    expect(cell(batch.batch(), 10)).toMatchObject({ good: 1, trials: 1 });
  });
});

describe('piece times', () => {
  it('run from count to count less pauses', () => {
    const batch = play(samplePlan());
    batch.wait(20);
    batch.act({ kind: 'pause', reason: 'coffee' }, 0);
    batch.act({ kind: 'resume' }, 600);
    expect(batch.act({ kind: 'count', quick: false }, 25)[0]).toMatchObject({ ms: 45_000, leftOut: null });
  });

  it('do not hold the time of cards', () => {
    const batch = play(twoVariantPlan({ threaded: 1, clearance: 1 }));
    batch.count(2);
    batch.passAll();
    const counted = [1, 2, 3, 4].flatMap(() => batch.act({ kind: 'count', quick: false }, 30));
    expect(counted.find((event) => event.kind === 'LoadCounted')).toMatchObject({ ms: 120_000 });
  });

  it.each([
    ['quick', { kind: 'count', quick: true } as const, null],
    ['suspended', { kind: 'count', quick: false } as const, { kind: 'noteSuspend', ms: 60_000 } as const],
    ['recount', { kind: 'count', quick: false } as const, { kind: 'recount', good: 0, reason: 'tray' } as const],
    [
      'made by hand count',
      { kind: 'count', quick: false } as const,
      { kind: 'recount', good: 2, reason: 'tray' } as const,
    ],
  ])('are left out as %s', (why, count, before) => {
    const batch = play(samplePlan({ variants: [aVariant('plate', 9)] }));
    batch.count(1);
    batch.wait(5);
    if (before !== null) batch.act(before);
    expect(batch.act(count, 30)[0]).toMatchObject({ kind: 'LoadCounted', leftOut: why });
    batch.act({ kind: 'count', quick: false }, 30);
    expect(cell(batch.batch(), 10)?.loads?.item.leftOut).toBeNull();
  });

  it('are left out when work went elsewhere in the middle of a piece', () => {
    const batch = play(samplePlan());
    batch.count(1);
    batch.wait(10);
    batch.act({ kind: 'goTo', operation: 20, lane: '*' });
    batch.count(1);
    batch.passAll();
    expect(batch.act({ kind: 'count', quick: false }, 30)[0]).toMatchObject({ operation: 10, leftOut: 'switched' });
  });

  it('are left out after a cut in the middle of a piece', () => {
    const batch = play(samplePlan());
    batch.act({ kind: 'count', quick: false }, 30);
    batch.act({ kind: 'note', text: 'still here' }, 20);
    batch.act({ kind: 'beginSitting', by: null, host: 'shop' }, 600);
    batch.passAll();
    expect(batch.act({ kind: 'count', quick: false }, 30)[0]).toMatchObject({ leftOut: 'cut', ms: 50_000 });
  });
});

describe('rejecting', () => {
  it('one place of the load in hand shrinks the load and passes over its points', () => {
    const batch = play(points);
    batch.act({ kind: 'count', quick: false });
    batch.act({ kind: 'reject', place: 2, pieces: 1, counted: false, reason: 'slipped' });
    batch.passAll();
    const [counted] = batch.act({ kind: 'count', quick: false });
    expect(counted).toMatchObject({ kind: 'LoadCounted', good: 1, scrap: [] });
    expect(cell(batch.batch(), 10)).toMatchObject({ good: 1, scrap: 1 });
  });

  it('the only piece of a load counts the load with its scrap and its time', () => {
    const batch = play(samplePlan());
    const [event] = batch.act({ kind: 'reject', place: null, pieces: 1, counted: false, reason: 'blank short' }, 12);
    expect(event).toMatchObject({
      kind: 'LoadCounted',
      good: 0,
      scrap: [{ place: null, reason: 'blank short' }],
      ms: 12_000,
    });
  });

  it('after the count takes no more than the last load has', () => {
    const batch = play(loads);
    batch.count(2);
    batch.act({ kind: 'reject', place: null, pieces: 2, counted: true, reason: 'scored' });
    expect(cell(batch.batch(), 10)).toMatchObject({ good: 4, scrap: 2 });
    expect(batch.reason({ kind: 'reject', place: null, pieces: 2, counted: true, reason: 'scored' })).toBe(
      'the last load has 1 piece to reject, not 2',
    );
  });

  it('needs a reason and a place that holds a piece', () => {
    const batch = play(points);
    expect(batch.reason({ kind: 'reject', place: 1, pieces: 1, counted: false, reason: '  ' })).toContain('empty');
    expect(batch.reason({ kind: 'reject', place: 3, pieces: 1, counted: false, reason: 'x' })).toBe(
      'no piece lies in place 3 of this load',
    );
  });

  it('a counted piece that a later operation used is refused with that operation named', () => {
    const batch = play(samplePlan());
    batch.count(1);
    batch.act({ kind: 'goTo', operation: 20, lane: '*' });
    batch.count(1);
    batch.pass();
    expect(batch.reason({ kind: 'reject', place: null, pieces: 1, counted: true, reason: 'scored' })).toBe(
      'operation 20 has used those pieces already; take it back there first',
    );
  });

  it('tells the shortage with the count that made it', () => {
    const batch = play(samplePlan());
    batch.act({ kind: 'reject', place: null, pieces: 1, counted: false, reason: 'short' });
    expect(batch.batch().cards).toMatchObject([{ kind: 'shortage', short: 1 }]);
    batch.pass();
    expect(batch.batch().cards).toEqual([]);
    batch.act({ kind: 'makeMore', pieces: 1, lane: '*', reason: 'one short' });
    expect(waitingAt(batch.batch(), 0)).toBe(3);
  });
});

describe('rework', () => {
  it('moves a waiting piece to an earlier operation, which counts it once more', () => {
    const batch = play(samplePlan());
    batch.count(3);
    batch.passAll();
    batch.act({ kind: 'rework', to: 10, pieces: 1, reason: 'burr' });
    expect(cell(batch.batch(), 10)?.good).toBe(2);
    expect(waitingAt(batch.batch(), at(batch.batch(), 10))).toBe(1);
    expect(waitingAt(batch.batch(), at(batch.batch(), 20))).toBe(2);
    expect(cell(batch.batch(), 20)?.reworked).toBe(1);
  });

  it('through the same operation uncounts the piece', () => {
    const batch = play(samplePlan());
    batch.count(2);
    batch.act({ kind: 'rework', to: 10, pieces: 1, reason: 'not cleaned up' });
    expect(cell(batch.batch(), 10)).toMatchObject({ good: 1, reworked: 1 });
  });

  it('over the parting goes back through the pool and is shared out again', () => {
    const batch = play(twoVariantPlan({ threaded: 2, clearance: 1 }));
    while (batch.batch().cells[at(batch.batch(), 30, 'threaded')]?.begun !== true) batch.count(1);
    batch.passAll();
    batch.act({ kind: 'rework', to: 20, pieces: 1, reason: 'hole missing' });
    expect(batch.batch().allotted).toEqual({ threaded: 1, clearance: 1 });
    expect(waitingAt(batch.batch(), at(batch.batch(), 20))).toBe(1);
  });

  it('is refused forward, off the way, and for pieces that are not here', () => {
    const batch = play(samplePlan());
    batch.count(1);
    expect(batch.reason({ kind: 'rework', to: 20, pieces: 1, reason: 'x' })).toContain('comes after');
    expect(batch.reason({ kind: 'rework', to: 70, pieces: 1, reason: 'x' })).toContain('not on the way');
    expect(batch.reason({ kind: 'rework', to: 10, pieces: 2, reason: 'x' })).toBe('counted good here: 1 piece, not 2');
  });
});

describe('a recount', () => {
  it('sets the count between what later operations used and what came here', () => {
    const batch = play(samplePlan());
    batch.count(2);
    batch.act({ kind: 'goTo', operation: 20, lane: '*' });
    batch.count(1);
    batch.act({ kind: 'goTo', operation: 10, lane: '*' });
    expect(batch.reason({ kind: 'recount', good: 0, reason: 'tray' })).toContain('operation 20 has used');
    expect(batch.reason({ kind: 'recount', good: 4, reason: 'tray' })).toContain('only 3 pieces came');
    batch.act({ kind: 'recount', good: 1, reason: 'tray' });
    expect(cell(batch.batch(), 10)?.good).toBe(1);
  });
});

describe('changing how to count', () => {
  it('is refused within a load and takes effect with the next', () => {
    const batch = play(points);
    batch.act({ kind: 'count', quick: false });
    expect(batch.reason({ kind: 'changeCounting', counting: 'load' })).toContain('finish the load in hand');
    batch.act({ kind: 'takeBack' });
    batch.act({ kind: 'changeCounting', counting: 'load' });
    expect(inHandAt(batch.batch(), 0).stops).toHaveLength(1);
    expect(batch.act({ kind: 'count', quick: false })[0]).toMatchObject({ kind: 'LoadCounted', good: 2 });
  });
});
