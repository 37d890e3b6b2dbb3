import { describe, expect, it } from 'vitest';
import type { Command } from '../../src/batch/commands.ts';
import { waitingAt } from '../../src/batch/flow.ts';
import { placesBehind } from '../../src/batch/questions/suspects.ts';
import { type Played, play } from './playing.ts';
import { aCheck, anOperation, aVariant, samplePlan } from './sample-plan.ts';

/** Nine pieces, checked at the first and each fifth: the fifth is out of limits, so that 2 to 5 are suspect. */
function fourSuspects(parts: Parameters<typeof samplePlan>[0] = {}): Played {
  const batch = play(
    samplePlan({
      variants: [aVariant('plate', 9)],
      operations: [anOperation(10, { checks: [aCheck('size', { every: 5 })] }), anOperation(20), anOperation(30)],
      ...parts,
    }),
  );
  batch.count(1);
  batch.pass({ kind: 'value', value: 3 });
  batch.count(4);
  batch.pass({ kind: 'value', value: 3.2 });
  return batch;
}

const at = { operation: 10, lane: '*' };
const scrap = (from: number, to: number, behind = 10): Command => ({
  kind: 'scrapSuspects',
  check: 'size',
  from,
  to,
  at,
  lieBehind: { operation: behind, lane: '*' },
  reason: 'too deep',
});
const clear = (from: number, to: number): Command => ({
  kind: 'clearSuspects',
  check: 'size',
  from,
  to,
  how: 'measured',
  reason: 'measured one by one',
  at,
});
const ranges = (batch: Played) => batch.batch().suspects.map(({ from, to }) => `${from}-${to}`);

describe('suspect pieces', () => {
  it('are cleared one by one or as any part of a range, each as an event that is taken back like a count', () => {
    const batch = fourSuspects();
    expect(batch.act(clear(3, 3))[0]).toMatchObject({ kind: 'SuspectsSettled', from: 3, to: 3, how: 'measured' });
    expect(ranges(batch)).toEqual(['2-2', '4-5']);
    batch.act(clear(4, 5));
    expect(ranges(batch)).toEqual(['2-2']);
    batch.act({ kind: 'takeBack' });
    batch.act({ kind: 'takeBack' });
    expect(ranges(batch).sort()).toEqual(['2-2', '3-3', '4-5']);
    expect(batch.batch().cells[0]).toMatchObject({ good: 5, scrap: 0 });
  });

  it('are scrapped where they lie: the counts there change, and taking back gives pieces and doubt again', () => {
    const batch = fourSuspects();
    batch.act(scrap(4, 5));
    expect(batch.batch().cells[0]).toMatchObject({ good: 3, scrap: 2 });
    expect(waitingAt(batch.batch(), 1)).toBe(3);
    expect(ranges(batch)).toEqual(['2-3']);
    batch.passAll();
    batch.act({ kind: 'takeBack' });
    expect(batch.batch().cells[0]).toMatchObject({ good: 5, scrap: 0 });
    expect(ranges(batch).sort()).toEqual(['2-3', '4-5']);
  });

  it('that went on are scrapped behind a later operation, and the shortage is shown with the pieces it lacks', () => {
    const batch = fourSuspects();
    batch.act({ kind: 'goTo', operation: 20, lane: '*' });
    batch.count(3);
    expect(placesBehind(batch.batch(), at)).toMatchObject([
      { operation: 10, pieces: 2 },
      { operation: 20, pieces: 3 },
    ]);
    expect(batch.reason(scrap(2, 4))).toBe('behind operation 10 Operation 10 lie 2 pieces, not 3');
    batch.act(scrap(2, 4, 20));
    expect(batch.batch().cells.map(({ good, scrap: lost }) => [good, lost])).toEqual([
      [5, 0],
      [0, 3],
      [0, 0],
    ]);
    expect(batch.batch().cards).toMatchObject([{ kind: 'shortage', short: 3 }]);
  });

  it('that lie finished can be scrapped as well', () => {
    const batch = fourSuspects();
    for (const operation of [20, 30]) {
      batch.act({ kind: 'goTo', operation, lane: '*' });
      batch.count(5);
    }
    batch.act(scrap(5, 5, 30));
    expect(batch.batch().cells[2]).toMatchObject({ good: 4, scrap: 1 });
  });

  it('scrapped are suspect by no other check any more; measured for one check they stay suspect by the other', () => {
    const two = [
      anOperation(10, { checks: [aCheck('size', { every: 5 }), aCheck('place', { every: 5 })] }),
      anOperation(20),
    ];
    const batch = play(samplePlan({ variants: [aVariant('plate', 9)], operations: two }));
    batch.count(1);
    batch.pass({ kind: 'value', value: 3 });
    batch.pass({ kind: 'value', value: 3 });
    batch.count(4);
    batch.pass({ kind: 'value', value: 3.2 });
    batch.pass({ kind: 'value', value: 2.8 });
    batch.act(clear(2, 2));
    expect(batch.batch().suspects.map((one) => `${one.check} ${one.from}-${one.to}`)).toEqual([
      'size 3-5',
      'place 2-5',
    ]);
    batch.act(scrap(3, 5));
    expect(batch.batch().suspects.map((one) => `${one.check} ${one.from}-${one.to}`)).toEqual(['place 2-2']);
  });

  it.each([
    [clear(1, 2), 'those pieces are not suspect'],
    [clear(5, 4), '5 to 4 is no range of pieces'],
    [scrap(5, 6), 'those pieces are not suspect'],
    [scrap(2, 3, 20), 'no good piece of operation 10 lies behind operation 20'],
    [{ ...scrap(2, 3), reason: ' ' } as Command, 'the reason is empty; say it in a few words'],
  ])('cannot be %o', (command, reason) => {
    expect(fourSuspects().reason(command)).toBe(reason);
  });

  it('settled from another operation are taken back from there while nothing came after', () => {
    const batch = fourSuspects();
    batch.act({ kind: 'goTo', operation: 20, lane: '*' });
    batch.count(1);
    batch.act(clear(2, 5));
    batch.act({ kind: 'takeBack' });
    expect(ranges(batch)).toEqual(['2-5']);
    expect(batch.batch().cells[1]?.good).toBe(1);
    batch.act({ kind: 'takeBack' });
    expect(batch.batch().cells[1]?.good).toBe(0);
  });

  it('leave no more of the last load to be rejected than there is', () => {
    const batch = fourSuspects();
    batch.act(scrap(2, 5));
    batch.passAll();
    batch.act({ kind: 'reject', place: null, pieces: 1, counted: true, reason: 'dropped' });
    expect(batch.batch().cells[0]).toMatchObject({ good: 0, scrap: 5 });
    expect(batch.reason({ kind: 'reject', place: null, pieces: 1, counted: true, reason: 'dropped' })).toContain(
      'no load',
    );
  });
});

it('more pieces begun from a later operation are what is taken back next, not the count there', () => {
  const batch = play(samplePlan());
  batch.count(2);
  batch.act({ kind: 'goTo', operation: 20, lane: '*' });
  batch.count(1);
  batch.act({ kind: 'makeMore', pieces: 2, lane: '*', reason: 'for stock' });
  batch.act({ kind: 'takeBack' });
  expect(batch.batch()).toMatchObject({ more: 0, cells: [{ good: 2 }, { good: 1 }] });
});
