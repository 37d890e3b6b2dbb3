/** Pauses, the computer's sleep, a clock that was set, and notes. */
import type { CommandOf } from '../commands.ts';
import type { Batch } from '../state.ts';
import { type Decision, events, refused, textProblem, whenHere, whenOpen } from './decision.ts';

/** Work stops for a while; the clock of the piece stands. */
export function decidePause(batch: Batch, command: CommandOf<'pause'>): Decision {
  return whenHere(batch, () => {
    const problem = command.reason === null ? null : textProblem(command.reason, 'the reason');
    return problem === null ? events({ kind: 'Paused', reason: command.reason }) : refused(problem);
  });
}

/** Work goes on after a pause. */
export function decideResume(batch: Batch): Decision {
  return whenOpen(batch, () =>
    batch.presence === 'paused' ? events({ kind: 'Resumed' }) : refused('the batch is not paused'),
  );
}

/** The computer slept: the time is booked as pause. */
export function decideNoteSuspend(batch: Batch, command: CommandOf<'noteSuspend'>): Decision {
  return whenOpen(batch, () =>
    Number.isSafeInteger(command.ms) && command.ms > 0
      ? events({ kind: 'SuspendNoticed', ms: command.ms })
      : refused('a sleep lasts whole milliseconds, more than none'),
  );
}

/** The wall clock was set: a label only. */
export function decideNoteClockStep(batch: Batch, command: CommandOf<'noteClockStep'>): Decision {
  return whenOpen(batch, () =>
    Number.isFinite(command.ms) ? events({ kind: 'ClockStepped', ms: command.ms }) : refused('a step is a number'),
  );
}

/** Words kept with the operation at hand. */
export function decideNote(batch: Batch, command: CommandOf<'note'>): Decision {
  return whenOpen(batch, () => {
    const problem = textProblem(command.text, 'the note');
    if (problem !== null) return refused(problem);
    const cell = batch.current === null ? batch.cells[0] : batch.cells[batch.current];
    if (cell === undefined) return refused('the plan has no operation');
    return events({ kind: 'NoteMade', operation: cell.operation, lane: cell.lane, text: command.text });
  });
}
