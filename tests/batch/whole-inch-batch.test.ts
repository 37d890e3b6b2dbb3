import { describe, expect, it } from 'vitest';
import { oldestFirst } from '../../src/batch/chain.ts';
import { goodOf } from '../../src/batch/finished-pieces.ts';
import { waitingAt } from '../../src/batch/flow.ts';
import { inchPlan } from './inch-plan.ts';
import { type Played, play } from './playing.ts';

/** Counts at the operation at hand until `through` pieces are through it; checks are answered good. */
function countTo(batch: Played, through: number): void {
  for (let i = 0; i < 1000; i += 1) {
    const card = batch.batch().cards[0];
    const cell = batch.batch().cells[batch.batch().current ?? 0];
    if (cell === undefined || cell.good + cell.scrap >= through) return;
    if (card === undefined) batch.act({ kind: 'count', quick: false }, 20);
    else answerWell(batch);
  }
  throw new Error('the count was not reached');
}

function answerWell(batch: Played): void {
  const card = batch.batch().cards[0];
  const operation = batch.batch().plan.operations.find((one) => one.number === card?.operation);
  const check = card?.kind === 'check' ? operation?.checks.find((one) => one.id === card.check) : undefined;
  if (check === undefined) batch.pass();
  else if (check.what.kind === 'measured') batch.pass({ kind: 'value', value: check.what.nominal });
  else batch.pass({ kind: 'yes or no', yes: true });
}

/** Goes on, counting, until an operation is at hand and its cards are answered. */
function goOnTo(batch: Played, operation: number): void {
  for (let i = 0; i < 5000; i += 1) {
    const { current, cells, cards } = batch.batch();
    if (cells[current ?? 0]?.operation === operation && cards.length === 0) return;
    if (cards.length > 0) answerWell(batch);
    else batch.act({ kind: 'count', quick: false }, 20);
  }
  throw new Error(`operation ${operation} was not reached`);
}

const cellOf = (batch: Played, operation: number) => {
  const cell = batch.batch().cells.find((one) => one.operation === operation);
  if (cell === undefined) throw new Error(`no operation ${operation}`);
  return cell;
};

describe('sixty blocks and three spares with the mishaps of a real batch', () => {
  const batch = play(inchPlan());

  it('start 63', () => {
    expect(waitingAt(batch.batch(), 0)).toBe(63);
  });

  it('a short blank before operation 30 leaves 62: 31 loads of 2', () => {
    goOnTo(batch, 20);
    batch.act({ kind: 'reject', place: null, pieces: 1, counted: false, reason: 'measures 2.515' });
    goOnTo(batch, 30);
    expect(waitingAt(batch.batch(), batch.batch().current ?? 0)).toBe(62);
    goOnTo(batch, 50);
    const loads = oldestFirst(cellOf(batch, 30).loads);
    expect([loads.length, new Set(loads.map((load) => load.good))]).toEqual([31, new Set([2])]);
  });

  it('the vice knocked at piece 20, point 4: the zero is proved and piece 20 goes on at point 4', () => {
    goOnTo(batch, 70);
    countTo(batch, 19);
    for (let i = 0; i < 3; i += 1) batch.act({ kind: 'count', quick: false }, 8);
    batch.act({ kind: 'bumped' });
    expect(batch.batch().cards.map((card) => card.kind)).toEqual(['zero', 'zero']);
    batch.passAll();
    expect(batch.act({ kind: 'count', quick: false }, 8)[0]).toMatchObject({ kind: 'PointDone', stop: 3 });
    expect(cellOf(batch, 70).good).toBe(19);
    countTo(batch, 20);
    expect(batch.batch().cards[0]).toMatchObject({ kind: 'check', due: 'first-off' });
  });

  it('drill and reamer turn at one speed: no gate between them after the tools are in', () => {
    goOnTo(batch, 100);
    countTo(batch, 2);
    batch.act({ kind: 'count', quick: false });
    expect(batch.batch().cards).toEqual([]);
  });

  it('NO GO enters at piece 25: pieces 21 to 25 are suspect, because every fifth is tried and 20 was good', () => {
    countTo(batch, 25);
    expect(batch.batch().cards[0]).toMatchObject({ kind: 'check', check: 'plug', due: 'every' });
    batch.pass({ kind: 'yes or no', yes: false });
    expect(batch.batch().suspects).toMatchObject([{ operation: 100, from: 21, to: 25 }]);
  });

  it("21 to 24 tried and good, 25 kept on the owner's word", () => {
    const clear = { kind: 'clearSuspects', check: 'plug' } as const;
    batch.act({ ...clear, from: 21, to: 24, how: 'measured', reason: 'plug tried' });
    expect(batch.batch().suspects).toMatchObject([{ from: 25, to: 25 }]);
    batch.act({ ...clear, from: 25, to: 25, how: 'owner', reason: 'fits its pin' });
    expect(batch.batch().suspects).toEqual([]);
  });

  it('a tap broken in piece 31, hole 5, leaves 61', () => {
    goOnTo(batch, 110);
    countTo(batch, 30);
    for (let i = 0; i < 4; i += 1) batch.act({ kind: 'count', quick: false }, 15);
    const [event] = batch.act({
      kind: 'reject',
      place: null,
      pieces: 1,
      counted: false,
      reason: 'tap broken in hole 5',
    });
    expect(event).toMatchObject({ kind: 'LoadCounted', good: 0, scrap: [{ reason: 'tap broken in hole 5' }] });
    countTo(batch, 62);
    expect(cellOf(batch, 110)).toMatchObject({ good: 61, scrap: 1 });
  });

  it('61 go out, 60 come back', () => {
    while (batch.batch().cards[0]?.kind !== 'away') {
      if (batch.batch().cards.length > 0) answerWell(batch);
      else batch.act({ kind: 'count', quick: false });
    }
    expect(batch.batch().cards[0]).toMatchObject({ moment: 'out', pieces: 61 });
    batch.pass();
    batch.pass({ kind: 'pieces', pieces: 60, reason: 'one lost' }, 86_400);
    expect(cellOf(batch, 130)).toMatchObject({ good: 60, scrap: 1, out: 0 });
  });

  it("ends with 60 good, one of them on the owner's word, 3 gone, 63 started", () => {
    for (let i = 0; i < 500 && batch.batch().kind === 'open'; i += 1) {
      if (batch.batch().cards.length > 0) answerWell(batch);
      else batch.act({ kind: 'count', quick: false }, 15);
    }
    const state = batch.batch();
    expect(state.kind).toBe('finished');
    expect(state.outcome).toEqual({ short: {}, reason: null });
    expect(goodOf(state)).toBe(60);
    expect(state.cells.reduce((sum, cell) => sum + cell.scrap, 0)).toBe(3);
    const words = oldestFirst(state.remarks).flatMap(({ event }) =>
      event.kind === 'SuspectsSettled' && event.how === 'owner' ? [event.to - event.from + 1] : [],
    );
    expect(words).toEqual([1]);
    const passed = (state.closed?.mono_ms ?? 0) - state.opened.mono_ms;
    expect(Object.values(state.accounts).reduce((sum, ms) => sum + ms, 0)).toBe(passed);
  });
});
