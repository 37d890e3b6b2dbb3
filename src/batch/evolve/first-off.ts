/**
 * When the first-off is due. It proves a setup before the next piece is cut, so it asks for a piece that can prove
 * something: the first good one. A piece of the first load that is rejected proves nothing and puts the check off to the next
 * good piece; a piece that was checked and is rejected afterwards takes its proof with it. The same holds after a bump, another
 * tool, a correction, and a check out of limits.
 */
import { cellAt, placeAt } from '../flow.ts';
import type { Batch, Cell, CheckFact } from '../state.ts';

/** First-off checks of a cell come due again with the next good piece. */
export function withFirstOffs(batch: Batch, at: number): Batch {
  const cell = cellAt(batch, at);
  const { good } = cell;
  const facts = firstOffs(batch, at).flatMap((id) => {
    const fact = cell.checks[id];
    return fact === undefined ? [] : [[id, { ...fact, dueAbove: good, since: good }] as const];
  });
  return {
    ...batch,
    cells: batch.cells.with(at, { ...cell, checks: { ...cell.checks, ...Object.fromEntries(facts) } }),
  };
}

/**
 * The checks of a cell after good pieces went: none waits for more good pieces than there will be, and a first-off whose
 * pieces are all gone is due again.
 *
 * Example: the only piece, checked as first-off, is rejected: good falls from 1 to 0, and the next good piece is checked.
 */
export function checksLowered(batch: Batch, at: number, good: number): Cell['checks'] {
  const { checks } = cellAt(batch, at);
  const first = firstOffs(batch, at);
  const facts = Object.entries(checks).map(([id, fact]) => [id, lowered(fact, first.includes(id), good)] as const);
  return facts.every(([id, fact]) => fact === checks[id]) ? checks : Object.fromEntries(facts);
}

function lowered(fact: CheckFact, isFirstOff: boolean, good: number): CheckFact {
  const isGone = isFirstOff && fact.dueAbove === null && good <= fact.since;
  const most = Math.max(fact.dueAbove ?? 0, fact.since, fact.goodThen);
  if (!isGone && most <= good) return fact;
  const least = (number: number): number => Math.min(number, good);
  const dueAbove = isGone ? good : fact.dueAbove === null ? null : least(fact.dueAbove);
  return { ...fact, dueAbove, since: least(fact.since), goodThen: least(fact.goodThen) };
}

const firstOffs = (batch: Batch, at: number): readonly string[] =>
  placeAt(batch, at).operation.checks.flatMap((check) => (check.firstOff ? [check.id] : []));
