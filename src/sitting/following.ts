/** From lines that were read to the state, with a reason instead of a bug where a line makes no sense. Part of P2 and P8. */
import type { Command } from '../batch/commands.ts';
import type { BatchEvent } from '../batch/events.ts';
import { foldLine } from '../batch/evolve.ts';
import type { BatchState } from '../batch/state.ts';
import type { JournalLine } from '../store/journal-line.ts';
import { CannotFollow } from '../store/journal-reader.ts';

/**
 * The state after a line of a journal. A line that is whole and well formed but cannot be (a second opening, a card that was
 * never raised, a count in an operation that is not there) throws `CannotFollow`: the reader stops before it and names it.
 * For a line that this program has just decided, fold it directly: there it would be a bug.
 */
export function followLine(state: BatchState, line: JournalLine<Command, BatchEvent>): BatchState {
  const next = foldOrReason(state, line);
  if (next.kind === 'none') throw new CannotFollow('its first line opens no batch');
  return next;
}

function foldOrReason(state: BatchState, line: JournalLine<Command, BatchEvent>): BatchState {
  try {
    return foldLine(state, line);
  } catch (error) {
    if (!(error instanceof Error)) throw error;
    throw new CannotFollow(`line ${line.seq} cannot follow on the ones before it: ${error.message}`);
  }
}
