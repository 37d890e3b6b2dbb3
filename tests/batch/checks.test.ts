import { describe, expect, it } from 'vitest';
import { checkDrift, driftOf } from '../../src/batch/questions/drift.ts';
import { play } from './playing.ts';
import { aCheck, anOperation, aVariant, samplePlan } from './sample-plan.ts';

const checked = (parts: Parameters<typeof aCheck>[1], quantity = 12) =>
  play(
    samplePlan({
      variants: [aVariant('plate', quantity)],
      operations: [anOperation(10, { checks: [aCheck('size', parts)] })],
    }),
  );
const due = (batch: ReturnType<typeof play>) =>
  batch.batch().cards.map((card) => (card.kind === 'check' ? card.due : card.kind));

describe('checks', () => {
  it('come first-off after the first load, at every fifth piece, and last', () => {
    const batch = checked({ every: 5, last: true });
    const seen: string[] = [];
    for (let piece = 1; piece <= 12; piece += 1) {
      batch.act({ kind: 'count', quick: false });
      if (batch.batch().cards[0]?.kind === 'check') {
        seen.push(`${piece} ${due(batch)[0]}`);
        batch.pass({ kind: 'value', value: 3 });
      }
    }
    expect(seen).toEqual(['1 first-off', '5 every', '10 every', '12 last']);
  });

  it('skipped by an empty Enter is recorded as skipped and not proved', () => {
    const batch = checked({});
    batch.act({ kind: 'count', quick: false });
    expect(batch.pass()).toMatchObject([
      { kind: 'Checked', result: { kind: 'skipped' } },
      { kind: 'CardPassed', proved: false },
    ]);
  });

  it('take the limits themselves as good', () => {
    const batch = checked({});
    batch.act({ kind: 'count', quick: false });
    expect(batch.pass({ kind: 'value', value: 3.05 })[0]).toMatchObject({ result: { within: true } });
  });

  it('out of limits mark the pieces since the last good check as suspect and come closer', () => {
    const batch = checked({ every: 5 });
    batch.count(1);
    batch.pass({ kind: 'value', value: 3 });
    batch.count(4);
    batch.pass({ kind: 'value', value: 3.06 });
    expect(batch.batch().suspects).toMatchObject([{ operation: 10, check: 'size', from: 2, to: 5 }]);
    batch.count(1);
    expect(due(batch)).toEqual(['first-off']);
  });

  it("clear suspects piece by piece, measured or on the owner's word", () => {
    const batch = checked({ every: 5 });
    batch.count(1);
    batch.pass({ kind: 'value', value: 3 });
    batch.count(4);
    batch.pass({ kind: 'value', value: 3.06 });
    const clear = { kind: 'clearSuspects', check: 'size', how: 'measured', reason: 'measured' } as const;
    batch.act({ ...clear, from: 3, to: 4 });
    expect(batch.batch().suspects.map(({ from, to }) => [from, to])).toEqual([
      [2, 2],
      [5, 5],
    ]);
    expect(batch.reason({ ...clear, from: 4, to: 5 })).toBe('those pieces are not suspect');
  });

  it('keep the batch from being finished while pieces are suspect, unless it is finished short', () => {
    const batch = checked({}, 1);
    batch.act({ kind: 'count', quick: false });
    batch.pass({ kind: 'value', value: 2.9 });
    // The suspects are kept apart, then the end of the operation is passed.
    batch.pass();
    batch.pass();
    const id = batch.batch().cards[0]?.id ?? '';
    const pass = { kind: 'passCard', id, shown_ms: 3000, answer: { kind: 'pass' } } as const;
    expect(batch.reason(pass)).toContain('still suspect: piece 1 of operation 10');
    batch.act({ kind: 'finish', short: true, reason: 'taken as it is' });
    expect(batch.batch().kind).toBe('finished');
  });

  it('leave nothing suspect of a load that is scrapped, and tell it again when that is taken back', () => {
    const batch = checked({ every: 5 });
    batch.count(1);
    batch.pass({ kind: 'value', value: 3 });
    batch.count(4);
    batch.pass({ kind: 'value', value: 3.06 });
    batch.act({ kind: 'reject', place: null, pieces: 1, counted: true, reason: 'too large' });
    expect(batch.batch().suspects).toMatchObject([{ from: 2, to: 4 }]);
    batch.pass();
    batch.act({ kind: 'takeBack' });
    expect(batch.batch().suspects.map(({ from, to }) => [from, to])).toEqual([
      [2, 4],
      [5, 5],
    ]);
  });

  it('refuse a value that is no number, or far from the dimension', () => {
    const batch = checked({});
    batch.act({ kind: 'count', quick: false });
    const id = batch.batch().cards[0]?.id ?? '';
    const enter = (value: number) =>
      batch.reason({ kind: 'passCard', id, shown_ms: 3000, answer: { kind: 'value', value } });
    expect(enter(Number.NaN)).toContain('not a number');
    expect(enter(306)).toContain('look at its point');
  });

  it('come out of turn when asked for, and stay asked over an interruption', () => {
    const batch = checked({ firstOff: false });
    batch.count(2);
    batch.act({ kind: 'askCheck', check: null });
    expect(due(batch)).toEqual(['asked']);
    batch.act({ kind: 'endSitting', why: 'left' });
    batch.act({ kind: 'beginSitting', by: null, host: 'shop' });
    expect(due(batch)).toEqual(['asked']);
    expect(batch.pass({ kind: 'value', value: 3 })[0]).toMatchObject({ kind: 'Checked', piece: 2 });
    expect(due(batch)).toEqual([]);
  });

  it('are first-off again after a correction', () => {
    const batch = play(
      samplePlan({
        variants: [aVariant('plate', 5)],
        operations: [anOperation(10, { stopLength: 61, checks: [aCheck('size')] })],
      }),
    );
    batch.count(1);
    batch.pass({ kind: 'value', value: 3.04 });
    batch.act({ kind: 'correct', axis: 'stop', by: -0.04, reading: 3.04, reason: 'reads 3.04' });
    expect(due(batch)).toEqual([]);
    batch.count(1);
    expect(due(batch)).toEqual(['first-off']);
  });
});

describe('a drift', () => {
  const values = (...list: number[]) => list.map((value, i) => ({ piece: 1 + 5 * i, value }));

  it('is a steady walk that reaches the limit soon', () => {
    expect(driftOf(values(3, 3.02, 3.04), 2.95, 3.05)).toEqual({ toward: 'upper', reachedAtPiece: 14 });
    expect(driftOf(values(3, 2.98, 2.96), 2.95, 3.05)).toEqual({ toward: 'lower', reachedAtPiece: 14 });
  });

  it('is none with too few values, a step back, or a walk that is slow', () => {
    expect(driftOf(values(3, 3.04), 2.95, 3.05)).toBeNull();
    expect(driftOf(values(3, 3.04, 3.03), 2.95, 3.05)).toBeNull();
    expect(driftOf(values(3, 3.001, 3.002), 2.95, 3.05)).toBeNull();
  });

  it('is read from the values since the last correction', () => {
    const batch = play(
      samplePlan({
        variants: [aVariant('plate', 30)],
        operations: [anOperation(10, { stopLength: 61, checks: [aCheck('size', { every: 5 })] })],
      }),
    );
    for (const value of [3, 3.02, 3.04]) {
      while (batch.batch().cards.length === 0) batch.count(1);
      batch.pass({ kind: 'value', value });
    }
    expect(checkDrift(batch.batch(), 0, 'size')).toMatchObject({ toward: 'upper' });
    batch.act({ kind: 'correct', axis: 'stop', by: -0.04, reading: 3.04, reason: 'drifts' });
    expect(checkDrift(batch.batch(), 0, 'size')).toBeNull();
  });
});
