import { describe, expect, it } from 'vitest';
import { workFace } from '../../../src/screen/moments/work-panel.ts';
import { play } from '../../batch/playing.ts';
import { aCut, aMachine, anOperation, aSetup, aTool, samplePlan, somePoints } from '../../batch/sample-plan.ts';

const twoTools = samplePlan({
  machines: [aMachine('mill')],
  setups: [aSetup('V1', 'mill')],
  tools: [aTool('drill 5.8', { diameter: 5.8 }), aTool('reamer 6', { kind: 'reamer', diameter: 6 })],
  operations: [
    anOperation(10, {
      kind: 'drill',
      station: 'mill',
      machine: 'mill',
      setup: 'V1',
      counting: 'point',
      cuts: [aCut('drill 5.8', 800, { points: somePoints(2) }), aCut('reamer 6', 400, { points: somePoints(2) })],
    }),
  ],
});

/** Marks of the holes as drawn, from left to right. */
function marks(at: { readonly counts: number }): string[] {
  const played = play(twoTools);
  played.count(at.counts, 20);
  played.passAll();
  const { picture } = workFace(played.batch(), 0, 0, false);
  const cells = picture?.(40, 20).flat() ?? [];
  return cells.flatMap((cell) => (['now', 'todo', 'done'].includes(cell.mark) ? [cell.mark] : []));
}

describe('holes that two tools come to', () => {
  it('show the one in hand whichever tool is in, and are done when both have been there', () => {
    expect(marks({ counts: 0 })).toEqual(['now', 'todo']);
    expect(marks({ counts: 1 })).toEqual(['todo', 'now']);
    expect(marks({ counts: 2 })).toEqual(['now', 'todo']);
    expect(marks({ counts: 3 })).toEqual(['done', 'now']);
  });
});
