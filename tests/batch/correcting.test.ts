import { describe, expect, it } from 'vitest';
import type { CommandOf } from '../../src/batch/commands.ts';
import { decide } from '../../src/batch/decide.ts';
import { foldJournal, foldLine } from '../../src/batch/evolve.ts';
import { planWithShift } from '../../src/batch/questions/corrected-plan.ts';
import { judgeCorrection } from '../../src/batch/questions/correction-doubts.ts';
import { correctedBy } from '../../src/batch/questions/corrections.ts';
import { sameHolesLater } from '../../src/batch/questions/same-holes.ts';
import { type Batch, noBatch } from '../../src/batch/state.ts';
import { proved, textOf } from '../plan/plan-samples.ts';
import { instantAt, openingOf } from './playing.ts';
import { aCheck, anOperation, samplePlan, twoVariantPlan } from './sample-plan.ts';

const at = instantAt(0);

/** A sound plan of a bar 10 thick on parallels of 33, 5 thick along both jaws, opened, with work at an operation. */
function atOperation(number: number, text = textOf('tests/samples/wrong-plans/breaks-through.neighbour.yaml')): Batch {
  const { resolved } = proved(text);
  return standing(decide(noBatch, { kind: 'openBatch' }, { at, opening: openingOf(resolved, text) }), number);
}

function standing(opened: ReturnType<typeof decide>, number: number): Batch {
  if (opened.kind === 'refused') throw new Error(opened.reason);
  const state = foldJournal([{ at, events: opened.events }]);
  if (state.kind === 'none') throw new Error('not opened');
  const sat = foldLine(state, { at, events: [{ kind: 'SittingBegan', by: null, host: 'shop', afterCut: false }] });
  const current = state.cells.findIndex((cell) => cell.operation === number);
  return { ...(sat as Batch), current, cards: [] };
}

const correct = (axis: 'x' | 'y' | 'z' | 'stop', by: number): CommandOf<'correct'> => ({
  kind: 'correct',
  axis,
  by,
  reading: null,
  reason: 'reads otherwise',
});
const refusal = (batch: Batch, axis: 'x' | 'y' | 'z' | 'stop', by: number): string | null => {
  const decision = decide(batch, correct(axis, by), { at });
  expect(judgeCorrection(batch, axis, by, null).refusal).toBe(decision.kind === 'refused' ? decision.reason : null);
  return decision.kind === 'refused' ? decision.reason : null;
};

// Operation 100 drills 6.6 blind, 7.5 deep to the shoulder in 10: the point of 118 degrees adds 6.6 / 2 / tan 59 = 1.98, so
// that the tip stands at 9.48 and leaves 0.52.
describe('a correction that cannot be meant is refused with its numbers', () => {
  it.each<[number, 'x' | 'y' | 'z' | 'stop', number, RegExp]>([
    [
      100,
      'z',
      -0.6,
      /^not taken: with it the tip goes 10\.083 mm deep in 10 mm and comes out of the far face by 0\.083 mm$/,
    ],
    [100, 'z', 9.6, /^not taken: 9\.6 mm up of a depth of 9\.483 mm leaves nothing to cut$/],
    [100, 'z', -9.6, /^not taken: 9\.6 mm more on a depth of 9\.483 mm is another depth; amend the plan$/],
    [100, 'z', -11, /^more than 10 mm is no correction; amend the plan$/],
    // The thread stands 15 from the end; the parallels are 5 thick along both jaws of the 25 wide bar: 9.9 toward the jaw.
    [70, 'y', 9.9, /^not taken: with it .*meets a parallel/],
    [120, 'z', -6.5, /^not taken: 6\.5 mm more on a depth of 2 mm is another depth/],
    [10, 'stop', -3, /^not taken: a stop of 99 mm saws blanks shorter than the part of 100 mm$/],
  ])('operation %i, %s by %f', (operation, axis, by, words) => {
    expect(refusal(atOperation(operation), axis, by)).toMatch(words);
  });

  it('counts what is in force already', () => {
    const batch = atOperation(100);
    const first = decide(batch, correct('z', -0.3), { at });
    if (first.kind === 'refused') throw new Error(first.reason);
    const then = { ...(foldLine(batch, { at, events: first.events }) as Batch), cards: [] };
    expect(refusal(then, 'z', -0.3)).toMatch(/comes out of the far face by 0\.083 mm$/);
    expect(refusal(then, 'z', 0.3)).toBeNull();
  });

  it('of a plan whose text is not there or not readable any more is judged by its numbers alone', () => {
    const bench = samplePlan({ operations: [anOperation(10, { stopLength: 61 })] });
    const batch = standing(decide(noBatch, { kind: 'openBatch' }, { at, opening: openingOf(bench, ': {') }), 10);
    expect(refusal(batch, 'stop', -0.2)).toBeNull();
    expect(
      refusal({ ...batch, plan: samplePlan({ operations: [anOperation(10, { stopLength: 5 })] }) }, 'stop', -6),
    ).toBeNull();
  });

  it('lets what the operator took at the opening stay as it was', () => {
    const wrong = textOf('tests/samples/wrong-plans/breaks-through.yaml');
    const batch = atOperation(100, wrong);
    expect(proved(wrong).findings.some((one) => one.code === 'breaks-through' && one.operation === 100)).toBe(true);
    expect(refusal(batch, 'z', 0.05)).toBeNull();
  });
});

describe('a correction that is large is asked for again', () => {
  it('over a fifth of the depth, with the share', () => {
    const batch = atOperation(100);
    expect(judgeCorrection(batch, 'z', 1.8, null).doubts.filter((one) => one.includes('depth'))).toEqual([]);
    expect(judgeCorrection(batch, 'z', 2, null).doubts).toContain('In all 2 mm: 21 % of the depth of 9.483 mm.');
  });

  it('over ten times the tolerance that is checked, or the usual one where nothing is', () => {
    // Mill to length is checked to 0.1; operation 100 checks nothing, class m allows 0.1 up to 6 mm (ISO 2768-1).
    expect(judgeCorrection(atOperation(40), 'x', 1, null).doubts).toEqual([]);
    expect(judgeCorrection(atOperation(40), 'x', -1.1, null).doubts).toContain(
      'In all 1.1 mm: 11 times the tolerance of 0.1 mm.',
    );
    expect(judgeCorrection(atOperation(100), 'x', 1.2, null).doubts).toContain(
      'In all 1.2 mm: 12 times a usual tolerance of 0.1 mm.',
    );
  });

  it('where the checks warn of what it would leave', () => {
    const { refusal: none, doubts } = judgeCorrection(atOperation(100), 'z', -0.1, null);
    expect(none).toBeNull();
    expect(doubts).toEqual(['the tip goes 9.583 mm deep in 10 mm and leaves a floor of 0.417 mm.']);
  });

  it('where a reading says what is true: the checks speak of the zero, and refuse nothing', () => {
    const judged = judgeCorrection(atOperation(100), 'z', -0.6, 6.9);
    expect(judged.refusal).toBeNull();
    expect(judged.doubts).toEqual([
      'unless the zero is off, the tip goes 10.083 mm deep in 10 mm and comes out of the far face by 0.083 mm.',
    ]);
  });

  it('and is usual when it is none of these', () => {
    for (const by of [0.06, -0.01])
      expect(judgeCorrection(atOperation(100), 'z', by, null)).toEqual({ refusal: null, doubts: [] });
    const checked = samplePlan({ operations: [anOperation(10, { stopLength: 61, checks: [aCheck('length')] })] });
    const batch = standing(decide(noBatch, { kind: 'openBatch' }, { at, opening: openingOf(checked) }), 10);
    expect(judgeCorrection(batch, 'stop', 0.5, null).doubts).toEqual([]);
    expect(judgeCorrection(batch, 'stop', 0.6, null).doubts.length).toBe(1);
  });
});

it('a plan moved with a correction moves the mouth of a cone: a 90 degree tool 0.5 deeper cuts 1 mm more', () => {
  const { resolved } = proved(textOf('tests/samples/wrong-plans/breaks-through.neighbour.yaml'));
  const top = (plan: typeof resolved) => plan.operations.find((one) => one.number === 60)?.cuts[0]?.topDiameter;
  const before = top(resolved) ?? 0;
  expect(top(planWithShift(resolved, { operation: 60, at: 0 }, { x: 0, y: 0, z: -0.5, stop: 0 }))).toBeCloseTo(
    before + 1,
    9,
  );
});

describe('a correction of some holes', () => {
  // Operations 20 drills and 30 taps the same two holes in one setup.
  const atDrilling = (): Batch => {
    const plan = twoVariantPlan({ threaded: 2, clearance: 2 });
    return standing(decide(noBatch, { kind: 'openBatch' }, { at, opening: openingOf(plan) }), 20);
  };
  const reason = (command: CommandOf<'correct'>): string | null => {
    const decision = decide(atDrilling(), command, { at });
    return decision.kind === 'refused' ? decision.reason : null;
  };

  it('is of one hole, in its operation and in a later one of the same zero', () => {
    const batch = atDrilling();
    const also = sameHolesLater(batch, 0, 1);
    expect(also).toEqual([{ operation: 30, cut: 0, point: 1 }]);
    const decision = decide(batch, { ...correct('x', 0.1), point: 1, also: [...also] }, { at });
    if (decision.kind === 'refused') throw new Error(decision.reason);
    const after = foldLine(batch, { at, events: decision.events }) as Batch;
    const by = (operation: number, point: number | null) => correctedBy(after, operation, 0, 'x', point);
    expect([by(20, 1), by(20, 0), by(20, null), by(30, 1), by(30, 0)]).toEqual([0.1, 0, 0, 0.1, 0]);
  });

  it('of all holes names whole cuts of later operations', () => {
    expect(sameHolesLater(atDrilling(), 0, null)).toEqual([{ operation: 30, cut: 0 }]);
  });

  it('is refused for a depth, for a hole that is not there, and for holes that are not the same', () => {
    expect(reason({ ...correct('z', 0.1), point: 0 })).toBe(
      'a depth or a stop is corrected for all holes, of this operation alone',
    );
    expect(reason({ ...correct('x', 0.1), point: 2 })).toBe('there is no such hole here');
    expect(reason({ ...correct('x', 0.1), point: 0, also: [{ operation: 30, cut: 0, point: 1 }] })).toBe(
      'those are not the same holes by the same zero',
    );
    expect(reason({ ...correct('x', 0.1), also: [{ operation: 40, cut: 0 }] })).toBe(
      'those are not the same holes by the same zero',
    );
  });

  it('moves that hole alone in the plan that is proved', () => {
    const plan = twoVariantPlan({ threaded: 2, clearance: 2 });
    const shift = { x: 0.1, y: 0, z: 0, stop: 0 };
    const moved = planWithShift(plan, { operation: 20, at: 0, point: 1 }, shift);
    expect(moved.operations[1]?.cuts[0]?.points.map((point) => point.x)).toEqual([10, 20.1]);
  });
});
