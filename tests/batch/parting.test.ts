import { describe, expect, it } from 'vitest';
import { leftByCell, nextCellAt } from '../../src/batch/expected.ts';
import { finishedPieces } from '../../src/batch/finished-pieces.ts';
import { shortageOf, unallotted, waitingAt } from '../../src/batch/flow.ts';
import { proposeShares } from '../../src/batch/parting.ts';
import { enterAlone, type Played, play } from './playing.ts';
import { anOperation, aVariant, samplePlan } from './sample-plan.ts';

const plan = (left: number, right: number, spares = 0) =>
  samplePlan({
    variants: [aVariant('left', left), aVariant('right', right)],
    spares,
    operations: [anOperation(10), anOperation(20, { variants: ['left'] }), anOperation(30)],
  });

/** Counts `good` pieces and rejects the rest at the first operation, up to the parting card. */
function toParting(batch: Played, good: number, scrap = 0): Played {
  for (let i = 0; i < scrap; i += 1) {
    batch.act({ kind: 'reject', place: null, pieces: 1, counted: false, reason: 'short' });
    batch.passAll(1);
  }
  batch.count(good);
  while (batch.batch().cards[0]?.kind === 'shortage') batch.pass();
  return batch;
}

describe('the parting', () => {
  it('gives every order its pieces and the spare to the larger risk', () => {
    const batch = toParting(play(plan(4, 2, 1)), 7);
    expect(batch.batch().cards).toMatchObject([{ kind: 'parting', proposal: { left: 5, right: 2 } }]);
    batch.pass();
    expect(batch.batch().allotted).toEqual({ left: 5, right: 2 });
    expect(unallotted(batch.batch())).toBe(0);
  });

  it('shares a shortage in proportion to the orders', () => {
    // 20 and 10 ordered, 27 there: 27 x 20/30 = 18 and 27 x 10/30 = 9.
    const batch = toParting(play(plan(20, 10)), 27, 3);
    expect(batch.batch().cards[0]).toMatchObject({ kind: 'parting', proposal: { left: 18, right: 9 } });
  });

  it('accepts the proposal on Enter; in a shortage that is recorded as not decided by hand', () => {
    const enough = toParting(play(plan(2, 1)), 3);
    expect(enough.pass()[0]).toMatchObject({ kind: 'CardPassed', proved: true });
    const short = toParting(play(plan(2, 1)), 2, 1);
    expect(short.pass()[0]).toMatchObject({ kind: 'CardPassed', proved: false });
  });

  it('takes other shares that use the pool up, and no others', () => {
    const batch = toParting(play(plan(2, 2)), 3, 1);
    const id = batch.batch().cards[0]?.id ?? '';
    const answer = (shares: Record<string, number>) =>
      ({ kind: 'passCard', id, shown_ms: 3000, answer: { kind: 'shares', shares } }) as const;
    expect(batch.reason(answer({ left: 1, right: 1 }))).toBe('the shares add up to 2, and the pool holds 3 pieces');
    expect(batch.reason(answer({ left: 3, middle: 0 }))).toBe('middle is no variant of this batch');
    batch.act(answer({ left: 2, right: 1 }));
    expect(batch.batch().allotted).toEqual({ left: 2, right: 1 });
  });

  it('shares out pieces that arrive later, to who lacks them', () => {
    const batch = play(plan(2, 1));
    batch.count(2);
    batch.act({ kind: 'goTo', operation: 20, lane: 'left' });
    expect(batch.batch().cards).toMatchObject([{ kind: 'parting' }]);
    batch.pass({ kind: 'shares', shares: { left: 2, right: 0 } });
    batch.act({ kind: 'goTo', operation: 10, lane: '*' });
    batch.count(1);
    expect(batch.batch().cards[0]).toMatchObject({ kind: 'parting', proposal: { left: 0, right: 1 } });
  });

  it('comes first of all when the variants differ from the first operation on', () => {
    const variants = [aVariant('left', 2), aVariant('right', 1)];
    const operations = [anOperation(10, { variants: ['left'] }), anOperation(20)];
    const batch = play(samplePlan({ variants, operations, spares: 1 }));
    expect(batch.batch().cards[0]).toMatchObject({ kind: 'parting', proposal: { left: 3, right: 1 } });
    enterAlone(batch);
    expect(finishedPieces(batch.batch()).map(({ good }) => good)).toEqual([3, 1]);
  });

  it('lets the shares add up to the pool whatever its size', () => {
    const batch = play(plan(7, 5, 3)).batch();
    for (let pieces = 0; pieces <= 20; pieces += 1) {
      const shares = Object.values(proposeShares(batch, pieces));
      expect(shares.reduce((sum, share) => sum + share, 0)).toBe(pieces);
      expect(Math.min(...shares)).toBeGreaterThanOrEqual(0);
    }
  });
});

describe('shortage', () => {
  it('counts spares first, then the pieces the order lacks', () => {
    const batch = toParting(play(plan(2, 1, 1)), 0, 1);
    expect(shortageOf(batch.batch())).toBe(0);
    batch.act({ kind: 'reject', place: null, pieces: 1, counted: false, reason: 'short' });
    expect(shortageOf(batch.batch())).toBe(1);
  });

  it('in one lane is not made up by spares that went to the other', () => {
    const batch = toParting(play(plan(1, 1, 1)), 3);
    batch.pass({ kind: 'shares', shares: { left: 1, right: 2 } });
    batch.pass();
    batch.passAll();
    batch.act({ kind: 'reject', place: null, pieces: 1, counted: false, reason: 'scored' });
    expect(batch.batch().cards[0]).toMatchObject({ kind: 'shortage', short: 1, lane: 'left' });
  });

  it('is finished short with what each variant lacks', () => {
    const batch = toParting(play(plan(2, 1)), 2, 1);
    enterAlone(batch);
    expect(batch.batch().outcome?.short).toEqual({ left: 1 });
  });
});

describe('what is left and where work goes on', () => {
  it('follows scrap down the lanes before the pieces arrive', () => {
    const batch = toParting(play(plan(4, 2)), 3, 1).batch();
    expect(leftByCell(batch)).toEqual([2, 3, 3, 2]);
  });

  it('is the earliest operation with pieces waiting', () => {
    const batch = play(plan(2, 1));
    batch.count(2);
    expect(nextCellAt(batch.batch())).toBe(0);
    expect(waitingAt(batch.batch(), 0)).toBe(1);
  });

  it('is refused to the finish while pieces wait', () => {
    const batch = play(plan(2, 1));
    expect(batch.reason({ kind: 'finish', short: false, reason: null })).toBe(
      'operation 10 Operation 10 still has 3 pieces waiting; finish short to leave them',
    );
  });

  it('is given up only by the name of the job', () => {
    const batch = play(plan(2, 1));
    expect(batch.reason({ kind: 'giveUp', name: 'plates', reason: 'no stock' })).toBe(
      'type the name of the job: Keeper plates',
    );
    batch.act({ kind: 'giveUp', name: 'Keeper plates', reason: 'no stock' });
    expect(batch.batch().kind).toBe('given up');
  });
});
