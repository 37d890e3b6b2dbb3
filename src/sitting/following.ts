/** From lines that were read to the state, with a reason instead of a bug where a line makes no sense. Part of P2 and P8. */
import type { Command } from '../batch/commands.ts';
import type { BatchEvent } from '../batch/events.ts';
import { foldLine } from '../batch/evolve.ts';
import { cellAt, unsoundCell } from '../batch/flow.ts';
import type { Batch, BatchState } from '../batch/state.ts';
import type { JournalLine } from '../store/journal-line.ts';
import { CannotFollow } from '../store/journal-reader.ts';
import { heldProblem } from './bounds.ts';

/** Wall times within this many milliseconds of 1970 can be written as a date of four digits. */
const LAST_MS = 2.5e14;

/**
 * The state after a line of a journal. A line that is whole and well formed but cannot be (a second opening, a card that was
 * never raised, a count in an operation that is not there) throws `CannotFollow`: the reader stops before it and names it.
 * For a line that this program has just decided, fold it directly: there it would be a bug.
 */
export function followLine(state: BatchState, line: JournalLine<Command, BatchEvent>): BatchState {
  if (!(Math.abs(line.at.wall_ms) < LAST_MS))
    throw new CannotFollow(`line ${line.seq} is of a year beyond any calendar`);
  const next = foldOrReason(state, line);
  if (next.kind === 'none') throw new CannotFollow('its first line opens no batch');
  const problem = heldProblem(state, next);
  if (problem !== null) throw new CannotFollow(`line ${line.seq} cannot be followed: ${problem}`);
  if (state.kind === 'none' || next.cells !== state.cells || next.allotted !== state.allotted)
    requireSound(state, next, line.seq);
  return next;
}

/** Pieces can neither appear nor vanish: a line that counts more than came to an operation makes no sense. */
function requireSound(before: BatchState, batch: Batch, seq: number): void {
  const at = unsoundCell(batch, before.kind === 'none' ? null : before);
  if (at === null) return;
  throw new CannotFollow(`line ${seq} counts pieces that never came to operation ${cellAt(batch, at).operation}`);
}

function foldOrReason(state: BatchState, line: JournalLine<Command, BatchEvent>): BatchState {
  try {
    return foldLine(state, line);
  } catch (error) {
    if (!(error instanceof Error)) throw error;
    throw new CannotFollow(`line ${line.seq} cannot follow on the ones before it: ${error.message}`);
  }
}
