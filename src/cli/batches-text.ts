/** Past batches as text tables: one plan's batches side by side, and the estimates by kind of work. */

import type { PlanHistory, WorkEstimate } from '../report/history.ts';
import { plainLine } from '../report/neutral-text.ts';
import { counted } from '../report/row-names.ts';
import { formatHours, formatSpan } from '../report/time-text.ts';

const nameWidth = 30;
const cellWidth = 12;

/**
 * A plan's batches side by side, oldest on the left, as many of the newest as fit into `columns`; below the counts the work
 * for a good piece and the median of a piece by operation.
 */
export function comparisonText(history: PlanHistory, columns: number): string {
  const fitting = Math.max(1, Math.floor((columns - nameWidth - cellWidth) / cellWidth));
  const shown = history.batches.slice(-fitting);
  const line = (name: string, cells: readonly string[], end = ''): string =>
    `${shortName(plainLine(name), nameWidth - 1).padEnd(
      nameWidth,
    )}${cells.map((cell) => cell.padStart(cellWidth)).join('')}${end === '' ? '' : `  ${end}`}\n`;
  const left = history.batches.length - shown.length;
  return [
    `${plainLine(history.job)}: ${counted(history.batches.length, 'batch', 'batches')}${left === 0 ? '' : `, the newest ${shown.length} of them`}\n`,
    line(
      'opened',
      shown.map((one) => one.opened.slice(0, 10)),
    ),
    line(
      'good, scrap',
      shown.map((one) => `${one.good}, ${one.scrap}`),
    ),
    line(
      'work, h:mm',
      shown.map((one) => formatHours(one.worked_s)),
    ),
    line(
      'work for a good piece',
      shown.map((one) => spanText(one.per_good_s)),
      trendText(history.per_good_trend),
    ),
    ...history.operations.map((row) =>
      line(row.name, row.medians_s.slice(-fitting).map(spanText), trendText(row.trend)),
    ),
  ].join('');
}

const spanText = (seconds: number | null): string => (seconds === null ? '-' : formatSpan(seconds));
const trendText = (trend: PlanHistory['per_good_trend']): string => (trend === 'too few' ? '' : trend);

/** What past batches say of each kind of work, with how many batches and pieces it rests on. */
export function estimatesText(estimates: readonly WorkEstimate[], batches: number): string {
  if (estimates.length === 0) return 'No finished batch has timed work yet; estimates come from finished batches.\n';
  const rows = estimates.map((one) => {
    const what = [one.kind, one.tools, one.material].filter((part) => part !== '').join(', ');
    const over = one.over_plan === null ? '' : `, ${one.over_plan.toFixed(2)} of the plan`;
    const range = one.batches < 2 ? '' : ` (${formatSpan(one.least_s)} to ${formatSpan(one.greatest_s)})`;
    const rests = `${counted(one.batches, 'batch', 'batches')}, ${counted(one.timed_pieces, 'piece')}`;
    return `${plainLine(what)}\n    ${formatSpan(one.piece_s)} a piece${range}${over}; rests on ${rests}\n`;
  });
  return `From ${batches} finished ${batches === 1 ? 'batch' : 'batches'}; different parts take different times.\n${rows.join('')}`;
}

/**
 * A name cut to `width` columns so that the variant at its end can still be told.
 *
 * Example: `shortName('110 Deburr the far side (Threaded M6)', 24)` is `110 Deburr th (Threaded)`.
 */
export function shortName(name: string, width: number): string {
  const parts = /^(.*) \((.*)\)$/.exec(name);
  if (name.length <= width || parts === null) return name.slice(0, width);
  const variant = ` (${(parts[2] ?? '').slice(0, 8)})`;
  return `${(parts[1] ?? '').slice(0, width - variant.length)}${variant}`;
}
