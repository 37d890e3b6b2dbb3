/** What the rows, losses and checks of a report are called, the same in every table. */
import type { OperationRow, ReportModel } from './model.ts';

/** `40 Drill (threaded)`; without the variant in the common pool. */
export const rowName = (row: Pick<OperationRow, 'operation' | 'title' | 'variant'>): string =>
  row.variant === null ? `${row.operation} ${row.title}` : `${row.operation} ${row.title} (${row.variant})`;

/** The name of an operation and lane that some other part of the report points to: `40 Drill (threaded)`. */
export function cellName(model: ReportModel, cell: { readonly operation: number; readonly lane: string }): string {
  const row = model.operations.find((one) => one.operation === cell.operation && one.lane === cell.lane);
  if (row !== undefined) return rowName(row);
  return cell.lane === '*' ? String(cell.operation) : `${cell.operation} (${cell.lane})`;
}

/** A count with its noun: `1 piece`, `2 pieces`. */
export const counted = (count: number, noun: string, nouns = `${noun}s`): string =>
  `${count} ${count === 1 ? noun : nouns}`;

/** A change in per cent with its sign, whole: `+12 %`, `-3 %`, `0 %`; a dash when there is nothing to compare with. */
export function percentChange(actual: number, planned: number): string {
  if (planned <= 0) return '-';
  const change = Math.round((actual / planned - 1) * 100);
  return `${change > 0 ? '+' : ''}${change === 0 ? 0 : change} %`;
}
