import { describe, expect, it } from 'vitest';
import { entryToTakeBack } from '../../src/batch/decide/taking-back.ts';
import { correctedBy, correctionsInForce } from '../../src/batch/questions/corrections.ts';
import { goToChoices } from '../../src/batch/questions/go-to.ts';
import { toolUse } from '../../src/batch/questions/tool-use.ts';
import { play } from './playing.ts';
import { aCut, anOperation, aTool, aVariant, samplePlan, somePoints } from './sample-plan.ts';

const plan = samplePlan({
  variants: [aVariant('left', 3), aVariant('right', 3)],
  tools: [aTool('drill', { sharpenAfter: 4 })],
  operations: [
    anOperation(10, { cuts: [aCut('drill', null, { points: somePoints(2) })] }),
    anOperation(20, { variants: ['left'] }),
    anOperation(30, { cuts: [aCut(null, null, { points: somePoints(1) })] }),
  ],
});

describe('the use of a tool', () => {
  it('counts its holes since it was sharpened and says when it is due', () => {
    const batch = play(plan);
    batch.count(1);
    expect(toolUse(batch.batch(), 'drill')).toEqual({ holes: 2, sharpenAfter: 4, isDue: false });
    batch.count(1);
    expect(toolUse(batch.batch(), 'drill').isDue).toBe(true);
    batch.act({ kind: 'toolChanged', sharpened: true });
    expect(toolUse(batch.batch(), 'drill').holes).toBe(0);
  });
});

describe('a correction', () => {
  it('adds up, holds in every lane of its operation, and ends when it is taken back', () => {
    const batch = play(plan);
    const correct = { kind: 'correct', axis: 'z', reading: 3.06, reason: 'reads 3.06' } as const;
    batch.act({ ...correct, by: -0.06 });
    batch.act({ ...correct, by: -0.02 });
    expect(correctedBy(batch.batch(), 10, 0, 'z')).toBeCloseTo(-0.08, 12);
    expect(correctedBy(batch.batch(), 10, 0, 'x')).toBe(0);
    batch.act({ kind: 'takeBack' });
    expect(correctionsInForce(batch.batch(), 10, 0).map(({ by }) => by)).toEqual([-0.06]);
  });
});

describe('where work can go', () => {
  it('is told for every operation and lane, with the reason where it cannot', () => {
    const batch = play(plan);
    batch.count(1);
    expect(
      goToChoices(batch.batch()).map(({ operation, lane, waiting, problem }) => [operation, lane, waiting, problem]),
    ).toEqual([
      [10, '*', 5, 'work is at that operation already'],
      [20, 'left', 0, null],
      [30, 'left', 0, 'no pieces wait at operation 30 Operation 30, left'],
      [30, 'right', 0, null],
    ]);
  });
});

describe('what the next take-back would undo', () => {
  it('is the newest of the operation at hand', () => {
    const batch = play(plan);
    expect(entryToTakeBack(batch.batch())).toBeNull();
    batch.count(2);
    expect(entryToTakeBack(batch.batch())).toMatchObject({ what: 'LoadCounted', good: 1, entry: 1 });
  });
});
