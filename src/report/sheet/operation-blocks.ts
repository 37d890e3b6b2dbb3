/** One operation on paper: cautions, tools with points and depths, checks with blank boxes, notes. */
import { cautionById } from '../../plan/cautions.ts';
import { estimateGrounds } from '../../plan/resolve/estimates.ts';
import type { ResolvedCheck, ResolvedOperation, ResolvedPlan } from '../../plan/resolved.ts';
import type { Mm } from '../../shop/quantities.ts';
import { formatLength } from '../../shop/units.ts';
import { type Block, left, tableOf } from '../document.ts';
import { formatSpan } from '../time-text.ts';
import { cutBlocks } from './cut-tables.ts';

/** Boxes to write measured values into, for each check. */
const BLANKS = 6;

/** The blocks of an operation. A caution whose key is not in the table is the plan's own sentence and is shown as it is. */
export function operationBlocks(plan: ResolvedPlan, operation: ResolvedOperation): Block[] {
  const setup = plan.setups.find((one) => one.id === operation.setup) ?? null;
  const machine = plan.machines.find((one) => one.id === operation.machine) ?? null;
  const place = { plan, setup, machine, loadSize: operation.loadSize };
  const cautions = operation.cautions.map((key) => cautionById(key)?.text ?? key);
  return [
    { kind: 'subheading', text: `${operation.number} ${operation.title}${variantText(plan, operation)}` },
    ...cautions.map((text): Block => ({ kind: 'caution', text })),
    { kind: 'facts', rows: operationFacts(plan, operation) },
    ...operation.cuts.flatMap((cut) => cutBlocks(cut, place)),
    ...checkTable(plan, operation.checks),
    ...(operation.notes.length === 0 ? [] : [{ kind: 'list' as const, items: operation.notes, boxes: false }]),
  ];
}

/** ` (threaded)` where the operation is not done to every variant. */
export function variantText(plan: ResolvedPlan, operation: ResolvedOperation): string {
  if (operation.variants.length === plan.variants.length) return '';
  const titles = operation.variants.map((id) => plan.variants.find((one) => one.id === id)?.title ?? id);
  return ` (${titles.join(', ')})`;
}

function operationFacts(plan: ResolvedPlan, operation: ResolvedOperation): (readonly [string, string])[] {
  const { estimate, away } = operation;
  const facts: (readonly [string, string | null])[] = [
    ['In a load', operation.loadSize === 1 ? null : `${operation.loadSize} pieces`],
    ['Stop length', operation.stopLength === null ? null : formatLength(operation.stopLength, plan.units)],
    ['Located by', operation.located],
    ['Goes to', away === null ? null : [away.to, ...backIn(away.days), ...away.changes].join('; ')],
    [
      'Estimate',
      `set-up ${formatSpan(estimate.setup)}, a piece ${formatSpan(estimate.piece)} (${estimateGrounds(estimate.from, estimate.past?.batches ?? null)})`,
    ],
  ];
  return facts.flatMap(([name, value]) => (value === null ? [] : [[name, value] as const]));
}

const backIn = (days: number | undefined): readonly string[] =>
  days === undefined ? [] : [`back after ${days === 1 ? '1 day' : `${days} days`}`];

function checkTable(plan: ResolvedPlan, checks: readonly ResolvedCheck[]): Block[] {
  const length = (mm: Mm) => formatLength(mm, plan.units);
  const blanks = Array.from({ length: BLANKS }, () => '____');
  return tableOf(
    [left('Check'), left('Wanted'), left('With'), left('When'), ...blanks.map((_, index) => left(`${index + 1}`))],
    checks.map((check) => [
      check.title,
      check.what.kind === 'yes or no'
        ? check.what.question
        : `${length(check.what.lower)} to ${length(check.what.upper)}`,
      check.gauge ?? '-',
      whenText(check),
      ...blanks,
    ]),
  );
}

/** `first-off, every 5, last`. */
const whenText = (check: ResolvedCheck): string =>
  [
    check.firstOff ? 'first-off' : null,
    check.every === null ? null : `every ${check.every}`,
    check.last ? 'last' : null,
  ]
    .filter((part) => part !== null)
    .join(', ');
