/** The one line that matters when an operation or a batch ends. */
import type { OperationRow, ReportModel } from './model.ts';
import { counted } from './row-names.ts';
import { formatSpan } from './time-text.ts';

/**
 * What an operation comes to: the median of a piece, against last time when that is known, else against the plan.
 *
 * @param lastTime_s median of the same operation in the plan's newest finished batch, or `null`
 *
 * Example: `2 min 10 s a piece; 18.0 s quicker than last time`. Without a timed piece: `20 pieces, none of them timed`.
 */
export function operationEndLine(row: OperationRow, lastTime_s: number | null): string {
  if (row.piece === null) return `${counted(row.good, 'piece')}, none of them timed`;
  const now_s = row.piece.median_s;
  const each = `${formatSpan(now_s)} a piece`;
  if (lastTime_s !== null) return `${each}; ${against(now_s, lastTime_s, 'last time')}`;
  return row.plan.piece_s > 0 ? `${each}; ${against(now_s, row.plan.piece_s, 'the plan')}` : each;
}

/**
 * What a batch comes to: good pieces, hours, and work for a good piece against last time.
 *
 * @param lastTime_s work for a good piece in the plan's newest finished batch, or `null`
 *
 * Example: `40 good of 40 in 6 h 23 min; 7 min 50 s of work a piece, 25.0 s slower than last time`.
 */
export function batchEndLine(model: ReportModel, lastTime_s: number | null): string {
  const { setup, run, check, delay } = model.elapsed_s;
  const counts = `${model.good} good of ${model.ordered} in ${formatSpan(model.total_s)}`;
  if (model.good === 0) return counts;
  const each_s = (setup + run + check + delay) / model.good;
  const compared = lastTime_s === null ? '' : `, ${against(each_s, lastTime_s, 'last time')}`;
  return `${counts}; ${formatSpan(each_s)} of work a piece${compared}`;
}

function against(now_s: number, then_s: number, what: string): string {
  const change = now_s - then_s;
  if (Math.abs(change) < 0.05) return `the same as ${what}`;
  return `${formatSpan(Math.abs(change))} ${change < 0 ? 'quicker' : 'slower'} than ${what}`;
}
