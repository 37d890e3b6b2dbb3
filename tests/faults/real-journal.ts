import type { Command } from '../../src/batch/commands.ts';
import type { BatchEvent } from '../../src/batch/events.ts';
import { batchLineForm } from '../../src/sitting/world.ts';
import { crc32 } from '../../src/store/crc32.ts';
import { encodeLine, type LineDraft, type Position, START } from '../../src/store/journal-line.ts';
import { realBatch } from './real-batch.ts';

// Journals of the program's own batch, as bytes, for damaging and for keeping as samples.

/** The lines of drafts, each with its newline, as the program writes them. */
export function linesOf(drafts: readonly LineDraft<Command, BatchEvent>[], batch: string): Buffer[] {
  const lines: Buffer[] = [];
  let position: Position = START;
  for (const draft of drafts) {
    const line = encodeLine(batchLineForm, draft, position, batch);
    lines.push(line.bytes);
    position = line.position;
  }
  return lines;
}

/** A batch of so many presses, each a line; `from` makes another evening of it. */
export function eveningOf(presses: number, from = 0): LineDraft<Command, BatchEvent>[] {
  const drafts = [realBatch.begin()];
  let state = realBatch.fold(realBatch.nothing, realBatch.begin());
  for (let number = 1; number <= presses; number += 1) {
    const draft = realBatch.press(state, from + number, number === 1);
    drafts.push(draft);
    state = realBatch.fold(state, draft);
  }
  return drafts;
}

/** The bytes of any object as a journal line with a checksum that holds. */
export function sealed(fields: object): Buffer {
  const head = JSON.stringify(fields).slice(0, -1);
  return Buffer.from(`${head},"crc":"${crcOf(head)}"}\n`);
}

/** The checksum that a line's bytes before `,"crc"` have. */
export function crcOf(head: string): string {
  return crc32(Buffer.from(head)).toString(16).padStart(8, '0');
}

/** A line written anew by `change`, with a checksum that holds: what a careful hand could make of it. */
export function rewritten(line: Buffer, change: (fields: Record<string, unknown>) => void): Buffer {
  const { crc: _, ...fields } = JSON.parse(line.toString()) as Record<string, unknown>;
  change(fields);
  return sealed(fields);
}
