/** Opening a batch, sitting down to it, leaving it, and who works. */
import type { ResolvedPlan } from '../../plan/resolved.ts';
import type { CommandOf } from '../commands.ts';
import type { BatchEvent, EventOf } from '../events.ts';
import { nextCellAt } from '../expected.ts';
import { cellAt } from '../flow.ts';
import { startQuantity } from '../lanes.ts';
import type { Batch } from '../state.ts';
import { bounds, type Decision, events, formatPieces, refused, whenOpen } from './decision.ts';

/** The facts with which a batch is opened: all of the opening event but its kind. */
export type Opening = Omit<EventOf<'BatchOpened'>, 'kind'>;

/** Longest initials, so that they fit beside the clock. */
const longestInitials = 12;

/** Opens a batch of a plan within the bounds. */
export function decideOpenBatch(opening: Opening | undefined): Decision {
  if (opening === undefined) return refused('no plan to open');
  const problem = boundsProblem(opening.plan);
  return problem === null ? events({ kind: 'BatchOpened', ...opening }) : refused(problem);
}

/** Why a plan is too large for one batch, or null. */
export function boundsProblem(plan: ResolvedPlan): string | null {
  const pieces = startQuantity(plan);
  if (pieces > bounds.pieces) return `${formatPieces(pieces)} are more than ${bounds.pieces}; make several batches`;
  if (plan.variants.length > bounds.variants) {
    return `${plan.variants.length} variants are more than ${bounds.variants}; divide the plan`;
  }
  if (plan.operations.length > bounds.operations) {
    return `${plan.operations.length} operations are more than ${bounds.operations}; divide the plan`;
  }
  const points = plan.operations.reduce(
    (sum, operation) =>
      sum + operation.cuts.reduce((n, cut) => n + cut.points.length + (cut.loadPasses ?? cut.passes).length, 0),
    0,
  );
  return points > bounds.points ? `${points} points are more than ${bounds.points}; divide the plan` : null;
}

/** Sits down to an open batch; one that was never left was cut off. The first sitting begins the first operation. */
export function decideBeginSitting(batch: Batch, command: CommandOf<'beginSitting'>): Decision {
  if (batch.kind !== 'open') return refused(`the batch is ${batch.kind}; its report stays`);
  const problem = initialsProblem(command.by);
  if (problem !== null) return refused(problem);
  const { by, host } = command;
  const began: BatchEvent = { kind: 'SittingBegan', by, host, afterCut: batch.presence !== 'left' };
  const first = batch.current === null ? nextCellAt(batch) : null;
  if (first === null) return events(began);
  const { operation, lane } = cellAt(batch, first);
  return events(began, { kind: 'OperationBegun', operation, lane });
}

/** Leaves the batch; everything stays as it is. */
export function decideEndSitting(batch: Batch, command: CommandOf<'endSitting'>): Decision {
  return whenOpen(batch, () => events({ kind: 'SittingEnded', why: command.why }));
}

/** Another person carries on, or initials are given late. */
export function decideGiveInitials(batch: Batch, command: CommandOf<'giveInitials'>): Decision {
  return whenOpen(batch, () => {
    const problem = initialsProblem(command.by);
    return problem === null ? events({ kind: 'InitialsGiven', by: command.by }) : refused(problem);
  });
}

function initialsProblem(by: string | null): string | null {
  if (by === null) return null;
  if (by.trim() === '') return 'the initials are empty; give one to twelve characters or none';
  return by.length > longestInitials ? `the initials are longer than ${longestInitials} characters` : null;
}
