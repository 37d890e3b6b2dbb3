import { describe, expect, it } from 'vitest';
import { type Played, play } from './playing.ts';
import { aCheck, aCut, anOperation, aTool, aVariant, samplePlan, somePoints } from './sample-plan.ts';

// Our own rule, told in src/batch/evolve/first-off.ts: the first-off asks for a piece that can prove the setup.

const made = (
  operation: Parameters<typeof anOperation>[1],
  check: Parameters<typeof aCheck>[1] = {},
  quantity = 12,
): Played =>
  play(
    samplePlan({
      variants: [aVariant('plate', quantity)],
      // What is rejected must not be short of the order: its card would stand before the next count.
      spares: quantity === 12 ? 9 : 0,
      tools: [aTool('drill')],
      operations: [anOperation(10, { ...operation, checks: [aCheck('size', check)] })],
    }),
  );
const due = (batch: Played) =>
  batch.batch().cards.flatMap((card) => (card.kind === 'check' ? [`${card.check} ${card.due}`] : []));
const count = (batch: Played, times = 1) => {
  for (let i = 0; i < times; i += 1) batch.act({ kind: 'count', quick: false });
};
const reject = (batch: Played, place: number | null = null, pieces = 1) =>
  batch.act({ kind: 'reject', place, pieces, counted: false, reason: 'scored' });
const scrapCounted = (batch: Played, pieces = 1) =>
  batch.act({ kind: 'reject', place: null, pieces, counted: true, reason: 'size out' });
const good = { kind: 'value', value: 3 } as const;
const bad = { kind: 'value', value: 3.2 } as const;

describe('the first-off, piece by piece', () => {
  it('waits for the first good piece: rejected ones before it prove nothing', () => {
    const batch = made({});
    reject(batch);
    expect(batch.batch().cells[0]).toMatchObject({ good: 0, scrap: 1 });
    expect(due(batch)).toEqual([]);
    reject(batch);
    expect(due(batch)).toEqual([]);
    count(batch);
    expect(due(batch)).toEqual(['size first-off']);
  });

  it('goes with a piece that is rejected before it was answered, and comes with the next good one', () => {
    const batch = made({});
    count(batch);
    scrapCounted(batch);
    expect(due(batch)).toEqual([]);
    count(batch);
    expect(due(batch)).toEqual(['size first-off']);
    expect(batch.pass(good)[0]).toMatchObject({ kind: 'Checked', piece: 2 });
  });

  it('is due again when the piece that passed it is rejected afterwards, until that is taken back', () => {
    const batch = made({});
    count(batch);
    batch.pass(good);
    scrapCounted(batch);
    expect(due(batch)).toEqual([]);
    count(batch);
    expect(due(batch)).toEqual(['size first-off']);
    batch.act({ kind: 'takeBack' });
    batch.act({ kind: 'takeBack' });
    expect(due(batch)).toEqual([]);
    count(batch);
    expect(due(batch)).toEqual([]);
  });

  it('out of limits is due again with the next good piece, whether the bad one is scrapped or kept', () => {
    for (const scrapped of [true, false]) {
      const batch = made({});
      count(batch);
      batch.pass(bad);
      if (scrapped) scrapCounted(batch);
      expect(due(batch)).toEqual([]);
      count(batch);
      expect(due(batch)).toEqual(['size first-off']);
    }
  });

  it('after a correction waits for a good piece as well', () => {
    const batch = made({ stopLength: 61 });
    count(batch);
    batch.pass(good);
    batch.act({ kind: 'correct', axis: 'stop', by: -0.04, reading: 3.04, reason: 'reads 3.04' });
    reject(batch);
    expect(due(batch)).toEqual([]);
    count(batch);
    expect(due(batch)).toEqual(['size first-off']);
  });

  it('asked for by another tool stays asked when a rejection before that is taken back', () => {
    const batch = made({ cuts: [aCut('drill', null)] });
    batch.passAll();
    count(batch);
    batch.pass(good);
    scrapCounted(batch);
    batch.act({ kind: 'toolChanged', sharpened: true });
    batch.act({ kind: 'takeBack' });
    expect(batch.batch().cells[0]).toMatchObject({ good: 1, scrap: 0 });
    expect(due(batch)).toEqual(['size first-off']);
  });

  it('is due for a piece that goes through again', () => {
    const batch = made({});
    count(batch);
    batch.pass(good);
    batch.act({ kind: 'rework', to: 10, pieces: 1, reason: 'burr' });
    expect(due(batch)).toEqual([]);
    count(batch);
    expect(due(batch)).toEqual(['size first-off']);
  });

  it('stands once good pieces are left that it proved', () => {
    const batch = made({});
    count(batch);
    batch.pass(good);
    count(batch, 2);
    scrapCounted(batch);
    count(batch);
    expect(due(batch)).toEqual([]);
  });
});

describe('the first-off, load by load', () => {
  const load = { loadSize: 3, counting: 'load' } as const;

  it('does not come within the load when a place is rejected, but with its good pieces', () => {
    const batch = made(load);
    reject(batch, 2);
    expect(batch.batch().cells[0]).toMatchObject({ good: 0, scrap: 1 });
    expect(due(batch)).toEqual([]);
    count(batch);
    expect(batch.batch().cells[0]).toMatchObject({ good: 2, scrap: 1 });
    expect(due(batch)).toEqual(['size first-off']);
  });

  it('of a load that is rejected whole waits for the next load', () => {
    const batch = made(load);
    reject(batch, null, 3);
    expect(batch.batch().cells[0]).toMatchObject({ good: 0, scrap: 3 });
    expect(due(batch)).toEqual([]);
    count(batch);
    expect(due(batch)).toEqual(['size first-off']);
  });

  it('stays up when a place of the next load is rejected before it is answered', () => {
    const batch = made(load);
    count(batch);
    reject(batch, 1);
    expect(due(batch)).toEqual(['size first-off']);
    // The newest piece that can be measured is the third of the load before.
    expect(batch.pass(good)[0]).toMatchObject({ kind: 'Checked', piece: 3 });
  });

  it('is due again when the whole load that passed it is rejected, not when part of it is', () => {
    const part = made(load);
    count(part);
    part.pass(good);
    scrapCounted(part, 2);
    count(part);
    expect(due(part)).toEqual([]);
    const whole = made(load);
    count(whole);
    whole.pass(good);
    scrapCounted(whole, 3);
    count(whole);
    expect(due(whole)).toEqual(['size first-off']);
  });
});

describe('the first-off, point by point', () => {
  const points = {
    loadSize: 2,
    counting: 'point',
    cuts: [aCut('drill', null, { points: somePoints(2) })],
  } as const;

  it('comes with the last point of the load, also when its first piece was rejected on the way', () => {
    const batch = made(points);
    batch.passAll();
    count(batch);
    reject(batch, 1);
    expect(due(batch)).toEqual([]);
    count(batch);
    expect(due(batch)).toEqual([]);
    count(batch);
    expect(batch.batch().cells[0]).toMatchObject({ good: 1, scrap: 1 });
    expect(due(batch)).toEqual(['size first-off']);
  });

  it('waits for the next load when every piece was rejected on the way', () => {
    const batch = made(points);
    batch.passAll();
    count(batch);
    reject(batch, 1);
    reject(batch, 2);
    expect(due(batch)).toEqual([]);
    count(batch, 4);
    expect(due(batch)).toEqual(['size first-off']);
  });
});

describe('every Nth', () => {
  it('is put off to the next good piece when the Nth itself is rejected, before or after the count', () => {
    const before = made({}, { firstOff: false, every: 3 });
    count(before, 2);
    reject(before);
    expect(due(before)).toEqual([]);
    count(before);
    expect(due(before)).toEqual(['size every']);
    const after = made({}, { firstOff: false, every: 3 });
    count(after, 3);
    scrapCounted(after);
    expect(due(after)).toEqual([]);
    count(after);
    expect(due(after)).toEqual(['size every']);
  });

  it('does not come within a load that is not counted yet', () => {
    const batch = made({ loadSize: 2, counting: 'load' }, { firstOff: false, every: 3 });
    count(batch);
    reject(batch, 1);
    expect(due(batch)).toEqual([]);
    count(batch);
    expect(due(batch)).toEqual(['size every']);
  });
});

describe('the last check', () => {
  it('is of the last good piece when the last one is rejected', () => {
    const batch = made({}, { firstOff: false, last: true }, 3);
    count(batch, 2);
    reject(batch);
    expect(due(batch)).toEqual(['size last']);
  });

  it('does not come again when nothing good was made since the check before', () => {
    const batch = made({}, { firstOff: true, last: true }, 2);
    count(batch);
    batch.pass(good);
    reject(batch);
    expect(due(batch)).toEqual([]);
  });
});
