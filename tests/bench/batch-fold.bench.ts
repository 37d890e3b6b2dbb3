/** Folding a journal: a take-back or an opening folds it again, so an event must cost 5 microseconds at most. */
import { bench, describe } from 'vitest';
import type { BatchEvent } from '../../src/batch/events.ts';
import { type BatchLine, foldJournal } from '../../src/batch/evolve.ts';
import { instantAt, openingOf } from '../batch/playing.ts';
import { anOperation, aVariant, samplePlan } from '../batch/sample-plan.ts';

/** A batch of 10,000 pieces through ten of its operations: 100,000 counts. */
function longJournal(operations: number): readonly BatchLine[] {
  const plan = samplePlan({
    variants: [aVariant('plate', 10_000)],
    operations: Array.from({ length: operations }, (_, i) => anOperation(i + 1)),
  });
  const lines: BatchLine[] = [
    { at: instantAt(0), events: [{ kind: 'BatchOpened', ...openingOf(plan) }] },
    { at: instantAt(0), events: [{ kind: 'SittingBegan', by: null, host: 'shop', afterCut: false }] },
  ];
  for (let operation = 1; operation <= 10; operation += 1) {
    lines.push({ at: instantAt(lines.length * 20), events: [{ kind: 'OperationBegun', operation, lane: '*' }] });
    const counted: BatchEvent = {
      kind: 'LoadCounted',
      operation,
      lane: '*',
      good: 1,
      scrap: [],
      ms: 20_000,
      leftOut: null,
      quick: false,
    };
    for (let piece = 0; piece < 10_000; piece += 1) {
      lines.push({ at: instantAt(lines.length * 20), events: [counted] });
    }
  }
  return lines;
}

describe('fold 100,000 counts', () => {
  const ten = longJournal(10);
  const ninetyNine = longJournal(99);
  bench('10 operations', () => void foldJournal(ten), { iterations: 5, time: 0, warmupIterations: 1, warmupTime: 0 });
  bench('99 operations', () => void foldJournal(ninetyNine), {
    iterations: 5,
    time: 0,
    warmupIterations: 1,
    warmupTime: 0,
  });
});
