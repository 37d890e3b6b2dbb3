import type { Command } from '../../src/batch/commands.ts';
import type { BatchEvent } from '../../src/batch/events.ts';
import { batchLineForm } from '../../src/sitting/world.ts';
import { encodeLine, type LineDraft, type Position, START } from '../../src/store/journal-line.ts';
import { instantAt, openingOf } from '../batch/playing.ts';
import { anOperation, aVariant, samplePlan } from '../batch/sample-plan.ts';

// Batches far longer than an evening, made without deciding each press.

type Draft = LineDraft<Command, BatchEvent>;

/** A batch of `pieces` pieces counted through each of `operations`, then left at one more. */
export function* longBatch(pieces: number, operations: number): Generator<Draft> {
  const plan = samplePlan({
    variants: [aVariant('plate', pieces)],
    operations: Array.from({ length: operations + 1 }, (_, index) => anOperation(10 * (index + 1))),
  });
  let seconds = 0;
  const line = (command: Command, event: BatchEvent): Draft => {
    seconds += 20;
    return { by: 'AB', at: instantAt(seconds), command, events: [event] };
  };
  const count: Command = { kind: 'count', quick: false };
  yield line({ kind: 'openBatch' }, { kind: 'BatchOpened', ...openingOf(plan) });
  yield line(
    { kind: 'beginSitting', by: null, host: 'shop' },
    { kind: 'SittingBegan', by: null, host: 'shop', afterCut: false },
  );
  for (let operation = 10; operation <= 10 * operations; operation += 10) {
    yield line(count, { kind: 'OperationBegun', operation, lane: '*' });
    const counted = { operation, lane: '*', good: 1, scrap: [], ms: 20_000, leftOut: null, quick: false };
    for (let piece = 0; piece < pieces; piece += 1) yield line(count, { kind: 'LoadCounted', ...counted });
  }
  yield line(count, { kind: 'OperationBegun', operation: 10 * operations + 10, lane: '*' });
  yield line({ kind: 'endSitting', why: 'left' }, { kind: 'SittingEnded', why: 'left' });
}

/** The bytes of a journal of these lines. */
export function journalOf(id: string, drafts: Iterable<Draft>): Buffer {
  const parts: Buffer[] = [];
  let position: Position = START;
  for (const draft of drafts) {
    const line = encodeLine(batchLineForm, draft, position, id);
    parts.push(line.bytes);
    position = line.position;
  }
  return Buffer.concat(parts);
}
