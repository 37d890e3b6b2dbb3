/** Where work goes on, and more pieces than planned. */
import type { CommandOf } from '../commands.ts';
import { cellAt, unallotted, waitingAt } from '../flow.ts';
import type { Instant } from '../instant.ts';
import { cellKey, commonLane, startQuantity } from '../lanes.ts';
import type { Batch } from '../state.ts';
import { bounds, type Decision, events, formatCell, formatPieces, refused, textProblem, whenHere } from './decision.ts';
import { ifSound } from './rejecting.ts';

/** Work goes to another operation where pieces wait. */
export function decideGoTo(batch: Batch, command: CommandOf<'goTo'>): Decision {
  return whenHere(batch, () => {
    const { operation, lane } = command;
    const at = batch.lanes.positions.get(cellKey(operation, lane));
    if (at === undefined) return refused(`operation ${operation} has no pieces of that kind`);
    const problem = goToProblem(batch, at);
    return problem === null ? events({ kind: 'OperationBegun', operation, lane }) : refused(problem);
  });
}

/** Why work cannot go to a cell, or null when it can: pieces wait there, are out, or lie in the pool before it. */
export function goToProblem(batch: Batch, at: number): string | null {
  if (at === batch.current) return 'work is at that operation already';
  const fromPool = batch.lanes.places[at]?.inlet.kind === 'pool' && unallotted(batch) > 0;
  if (waitingAt(batch, at) > 0 || cellAt(batch, at).out > 0 || fromPool) return null;
  return `no pieces wait at ${formatCell(batch, at)}`;
}

/** More pieces are begun at the first operation, for all variants or for one. */
export function decideMakeMore(batch: Batch, command: CommandOf<'makeMore'>, at: Instant): Decision {
  return whenHere(batch, () => {
    const { pieces, lane, reason } = command;
    const problem = textProblem(reason, 'the reason');
    if (problem !== null) return refused(problem);
    if (lane !== commonLane && !batch.plan.variants.some((variant) => variant.id === lane)) {
      return refused(`${lane} is no variant of this batch`);
    }
    if (!Number.isSafeInteger(pieces) || pieces < 1) return refused('more is one piece or above');
    if (startQuantity(batch.plan) + batch.more + pieces > bounds.pieces) {
      return refused(`a batch holds at most ${formatPieces(bounds.pieces)}`);
    }
    const operation = batch.plan.operations[0]?.number ?? 0;
    return ifSound(batch, at, { kind: 'MoreStarted', operation, lane, pieces, reason });
  });
}
