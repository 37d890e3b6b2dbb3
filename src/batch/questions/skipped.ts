/** First-offs that were passed over: nothing has proved the setup, and the work goes on. */
import type { ResolvedCheck } from '../../plan/resolved.ts';
import { newestFirst } from '../chain.ts';
import { cellAt, placeAt } from '../flow.ts';
import type { Batch } from '../state.ts';

/** A check and the piece at which it was skipped. */
type Skipped = { readonly check: ResolvedCheck; readonly piece: number };

/**
 * The first-offs of a cell whose newest result is a skip that nobody has taken on their word; none while the check is due.
 *
 * Example: skipped at piece 1, and nothing measured since: that one; measured at piece 10: none.
 */
export function firstOffsSkipped(batch: Batch, at: number): readonly Skipped[] {
  const cell = cellAt(batch, at);
  return placeAt(batch, at).operation.checks.flatMap((check) => {
    const fact = cell.checks[check.id];
    if (!check.firstOff || fact === undefined || fact.dueAbove !== null) return [];
    const newest = newestFirst(cell.checkLog).find((one) => one.check === check.id && !one.void);
    if (newest?.result.kind !== 'skipped' || newest.result.word !== undefined) return [];
    return [{ check, piece: newest.piece }];
  });
}
