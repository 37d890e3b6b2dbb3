/** Suspect pieces as the screen names them: which, of which operation, by what value and how far over its limit. */
import { newestFirst } from '../../batch/chain.ts';
import { cellAt } from '../../batch/flow.ts';
import { cellKey } from '../../batch/lanes.ts';
import { firstOffsSkipped } from '../../batch/questions/skipped.ts';
import { suspectsAround } from '../../batch/questions/suspects.ts';
import type { Batch, Suspects } from '../../batch/state.ts';
import { asMm } from '../../shop/quantities.ts';
import { lengthWithUnit } from './axis-text.ts';
import { operationOf } from './place-names.ts';

/** "piece 4", "pieces 1 to 6". */
export const suspectPieces = ({ from, to }: Pick<Suspects, 'from' | 'to'>): string =>
  from === to ? `piece ${from}` : `pieces ${from} to ${to}`;

/** "60.15 mm, 0.05 mm over"; "answered no" where nothing is measured; '' when the check is not known any more. */
export function failedWords(batch: Batch, range: Suspects): string {
  const { units } = batch.plan;
  const at = batch.lanes.positions.get(cellKey(range.operation, range.lane));
  const entry = at === undefined ? undefined : failedEntry(batch, at, range);
  const what = operationOf(batch.plan, range.operation)?.checks.find((check) => check.id === range.check)?.what;
  if (entry === undefined || what === undefined) return '';
  const { result } = entry;
  if (result.kind !== 'measured' || what.kind !== 'measured') return result.kind === 'skipped' ? '' : 'answered no';
  const over = result.value - what.upper;
  const by = over > 0 ? over : what.lower - result.value;
  return `${lengthWithUnit(asMm(result.value), units)}, ${lengthWithUnit(asMm(by), units)} ${over > 0 ? 'over' : 'under'}`;
}

function failedEntry(batch: Batch, at: number, { check, piece }: Suspects) {
  return newestFirst(cellAt(batch, at).checkLog).find((one) => {
    const { result } = one;
    const isBad = (result.kind === 'measured' && !result.within) || (result.kind === 'yes or no' && !result.yes);
    return one.check === check && one.piece === piece && !one.void && isBad;
  });
}

/** A first-off that was passed over, until it is made or left at that by word. */
export function skippedFacts(batch: Batch, at: number): readonly string[] {
  return firstOffsSkipped(batch, at).map(
    ({ check, piece }) =>
      `FIRST-OFF SKIPPED at piece ${piece}: ${check.title}. m or keypad 1 makes it; / 1 7 leaves it at that.`,
  );
}

/** One line for every range that can lie among the pieces at cell `at`, of whatever operation. */
export function suspectFacts(batch: Batch, at: number): readonly string[] {
  const { operation } = cellAt(batch, at);
  return suspectsAround(batch, at).map((range) => {
    const there = range.operation === operation ? '' : `Of op ${range.operation}: `;
    const pieces = suspectPieces(range);
    const named = there === '' ? pieces.charAt(0).toUpperCase() + pieces.slice(1) : pieces;
    const failed = failedWords(batch, range);
    return `${there}${named} SUSPECT${failed === '' ? '' : ` (${failed})`}: kept apart; / 1 6 settles them.`;
  });
}
