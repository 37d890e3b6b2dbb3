/** Which estimates of the plan to change for next time, from what was timed. */
import { median, quantile } from '../forecast/statistics.ts';
import type { EstimateChange, LoadRow, OperationRow } from './model.ts';
import { counted, percentChange } from './row-names.ts';
import { formatSpan } from './time-text.ts';

/** Fewer timed pieces say nothing; a smaller change is not worth making. Our own judgement. */
const PIECES_NEEDED = 5;
const PIECE_CHANGE = 0.1;
const SETUP_CHANGE = 0.2;
const SETUP_CHANGE_S = 60;

/**
 * Changes worth making: a piece estimate that is off by a tenth or more with five pieces timed, a set-up estimate that is
 * off by a fifth and a minute or more once the operation has counted a piece. Variants of an operation share its estimate,
 * so their loads are taken together. Suggested is the median, rounded to what people write (0.5 s below 20 s, 1 s below a
 * minute, 5 s below ten minutes, then 30 s).
 *
 * Example: planned 90 s, median 131.2 s over 20 pieces: suggested 130 s, "20 pieces timed, median 2 min 11 s, ...".
 */
export function estimateChanges(rows: readonly OperationRow[], loads: readonly LoadRow[]): EstimateChange[] {
  const numbers = [...new Set(rows.map((row) => row.operation))];
  return numbers.flatMap((operation) => {
    const mine = rows.filter((row) => row.operation === operation);
    const timed = loads.filter((load) => load.operation === operation);
    return [setupChange(operation, mine), pieceChange(operation, mine, timed)].filter((change) => change !== null);
  });
}

function pieceChange(
  operation: number,
  rows: readonly OperationRow[],
  loads: readonly LoadRow[],
): EstimateChange | null {
  const planned_s = rows[0]?.plan.piece_s ?? 0;
  const timed = loads.filter((load) => load.left_out === null && load.time_s !== null && load.pieces > 0);
  const values = timed.map((load) => (load.time_s ?? 0) / load.pieces);
  const pieces = timed.reduce((sum, load) => sum + load.pieces, 0);
  const [middle, low, high] = [median(values), quantile(values, 0.1), quantile(values, 0.9)];
  if (middle === null || low === null || high === null || pieces < PIECES_NEEDED) return null;
  const suggested_s = writtenSeconds(middle);
  if (suggested_s <= 0 || Math.abs(suggested_s - planned_s) < PIECE_CHANGE * planned_s) return null;
  const evidence = `${counted(pieces, 'piece')} timed, median ${formatSpan(middle)}, P10 ${formatSpan(low)} to P90 ${formatSpan(high)}`;
  return {
    operation,
    field: 'piece',
    planned_s,
    suggested_s,
    evidence: `${evidence}${overText(suggested_s, planned_s)}`,
  };
}

function setupChange(operation: number, rows: readonly OperationRow[]): EstimateChange | null {
  const planned_s = rows[0]?.plan.setup_s ?? 0;
  const actual_s = rows.reduce((sum, row) => sum + row.elapsed_s.setup, 0);
  if (!rows.some((row) => row.good + row.scrap > 0) || actual_s <= 0) return null;
  const off = Math.abs(actual_s - planned_s);
  if (off < SETUP_CHANGE_S || off < SETUP_CHANGE * planned_s) return null;
  const suggested_s = writtenSeconds(actual_s);
  const evidence = `one set-up of ${formatSpan(actual_s)}${overText(suggested_s, planned_s)}`;
  return { operation, field: 'setup', planned_s, suggested_s, evidence };
}

const overText = (actual: number, planned: number): string =>
  planned > 0 ? ` (${percentChange(actual, planned)})` : '';

function writtenSeconds(seconds: number): number {
  const step = seconds < 20 ? 0.5 : seconds < 60 ? 1 : seconds < 600 ? 5 : 30;
  return Math.round(seconds / step) * step;
}
