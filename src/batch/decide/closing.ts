/** The end of a batch: finished, finished short, or given up. */
import type { CommandOf } from '../commands.ts';
import type { BatchEvent } from '../events.ts';
import { finishedPieces } from '../finished-pieces.ts';
import { cellAt, unallotted, waitingAt } from '../flow.ts';
import type { Batch } from '../state.ts';
import { type Decision, events, formatCell, formatPieces, refused, textProblem, whenOpen } from './decision.ts';

/** Finishes the batch. Without `short` every piece must be through, none suspect, the order met. */
export function decideFinish(batch: Batch, command: CommandOf<'finish'>): Decision {
  return whenOpen(batch, () => {
    if (command.short) {
      const problem = textProblem(command.reason ?? '', 'the reason');
      return problem === null ? events(finishedNow(batch, command.reason)) : refused(problem);
    }
    const problem = stillWaitingProblem(batch) ?? openSuspectsProblem(batch) ?? shortProblem(batch);
    return problem === null ? events(finishedNow(batch, command.reason)) : refused(problem);
  });
}

/** The event that finishes a batch as it stands, with the pieces that each variant is short of its order. */
export function finishedNow(batch: Batch, reason: string | null): BatchEvent {
  return { kind: 'BatchFinished', short: shortByVariant(batch), reason };
}

function shortByVariant(batch: Batch): Record<string, number> {
  const short = finishedPieces(batch).map(({ variant, ordered, good }) => [variant, ordered - good] as const);
  return Object.fromEntries(short.filter(([, missing]) => missing > 0));
}

function stillWaitingProblem(batch: Batch): string | null {
  const at = batch.cells.findIndex((cell, i) => waitingAt(batch, i) > 0 || cell.out > 0);
  if (at !== -1) {
    const pieces = waitingAt(batch, at) + cellAt(batch, at).out;
    return `${formatCell(batch, at)} still has ${formatPieces(pieces)} waiting; finish short to leave them`;
  }
  const pool = unallotted(batch);
  return pool > 0 ? `the pool still holds ${formatPieces(pool)} for the variants` : null;
}

/** Why suspect pieces keep the batch from being finished, or null. */
export function openSuspectsProblem(batch: Batch): string | null {
  const suspect = batch.suspects[0];
  if (suspect === undefined) return null;
  const { from, to, operation } = suspect;
  const pieces = from === to ? `piece ${from}` : `pieces ${from} to ${to}`;
  return `still suspect: ${pieces} of operation ${operation}; measure or clear, or finish short with a reason`;
}

function shortProblem(batch: Batch): string | null {
  const short = Object.values(shortByVariant(batch)).reduce((sum, missing) => sum + missing, 0);
  return short > 0 ? `the order lacks ${formatPieces(short)}; make more, or finish short with a reason` : null;
}

/** Gives the batch up, by typing the job's name. */
export function decideGiveUp(batch: Batch, command: CommandOf<'giveUp'>): Decision {
  return whenOpen(batch, () => {
    if (command.name.trim() !== batch.plan.job.trim()) return refused(`type the name of the job: ${batch.plan.job}`);
    const problem = textProblem(command.reason, 'the reason');
    return problem === null ? events({ kind: 'BatchGivenUp', reason: command.reason }) : refused(problem);
  });
}
