import { left, type PaperDocument, right, section, sentence, tableOf } from './document.ts';
import { formatDocumentText } from './forms/text.ts';
import type { PlanHistory, WorkEstimate } from './history.ts';
import { counted } from './row-names.ts';
import { formatClockTime, formatSpan, readableInstant } from './time-text.ts';

/** How many of the newest batches stand side by side on a terminal. */
const SIDE_BY_SIDE = 5;

/**
 * The history for a terminal: one plan's batches side by side (the newest five), then what past batches say of each kind
 * of work. Either may be missing.
 */
export const formatHistoryText = (
  plan: PlanHistory | null,
  estimates: readonly WorkEstimate[],
  options: { readonly columns?: number } = {},
): string => formatDocumentText(describeHistory(plan, estimates), options);

function describeHistory(plan: PlanHistory | null, estimates: readonly WorkEstimate[]): PaperDocument {
  return {
    title: plan === null ? 'Past batches' : `${plan.job}: past batches`,
    subtitle:
      plan === null
        ? 'All finished batches'
        : `${counted(plan.batches.length, 'batch', 'batches')} of plan ${plan.plan}`,
    blocks: [...(plan === null ? [] : planBlocks(plan)), ...estimateBlocks(estimates)],
  };
}

function planBlocks(plan: PlanHistory) {
  const shown = plan.batches.slice(-SIDE_BY_SIDE);
  const rows = shown.map((one, index) => [
    String(plan.batches.length - shown.length + index + 1),
    readableInstant(one.opened),
    String(one.good),
    String(one.scrap),
    formatClockTime(one.worked_s),
    one.per_good_s === null ? '-' : formatSpan(one.per_good_s),
  ]);
  const medians = plan.operations.map((row) => [
    row.name,
    ...row.medians_s.slice(-SIDE_BY_SIDE).map((value) => (value === null ? '-' : formatSpan(value))),
    row.trend,
  ]);
  const numbers = shown.map((_, index) => right(`No. ${plan.batches.length - shown.length + index + 1}`));
  return [
    ...section('Batch by batch', [
      sentence(trendSentence(plan)),
      ...tableOf([right('No.'), left('Opened'), ...['Good', 'Scrap', 'Work', 'For a good piece'].map(right)], rows),
    ]),
    ...section('Median of a piece', tableOf([left('Operation'), ...numbers, left('Trend')], medians)),
  ];
}

function trendSentence(plan: PlanHistory): string {
  switch (plan.per_good_trend) {
    case 'quicker':
      return 'The time for a good piece is falling.';
    case 'slower':
      return 'The time for a good piece is rising.';
    case 'steady':
      return 'The time for a good piece neither falls nor rises beyond chance.';
    case 'too few':
      return 'Too few batches to say whether the time for a good piece is falling.';
  }
}

function estimateBlocks(estimates: readonly WorkEstimate[]) {
  const rows = estimates.map((one) => [
    [one.kind, one.tools].filter((part) => part !== '').join(', '),
    one.material,
    String(one.batches),
    String(one.timed_pieces),
    formatSpan(one.piece_s),
    one.over_plan === null ? '-' : `x ${one.over_plan.toFixed(2)}`,
  ]);
  const columns = [
    left('Work'),
    left('Material'),
    right('Batches'),
    right('Pieces'),
    right('A piece'),
    right('Of plan'),
  ];
  return section('By kind of work', tableOf(columns, rows));
}
