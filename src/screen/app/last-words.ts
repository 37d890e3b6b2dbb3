/** What is left on the normal screen when the program is gone. */
import { cellAt } from '../../batch/flow.ts';
import type { BatchState } from '../../batch/state.ts';
import { placeName } from '../moments/place-names.ts';

/** One line for the normal screen when the program is left: where the batch stands, and why its end could not be saved. */
export function lastWordsOf(state: BatchState, id: string, unsaved: string | null): string {
  if (state.kind === 'none') return '';
  if (state.kind === 'finished')
    return `millside: ${state.plan.job} is finished; millside report ${id} shows its times.`;
  if (state.kind === 'given up') return `millside: ${state.plan.job} was given up; everything is kept.`;
  const at = state.current;
  if (at === null) return `millside: ${state.plan.job} (${id}) is open; nothing is counted yet.`;
  const cell = cellAt(state, at);
  const where = placeName(state.plan, cell.operation, cell.lane).replace(/ +/g, ' ');
  const saved = unsaved === null ? 'all is saved' : `the end of this sitting is not saved (${unsaved})`;
  return `millside: ${state.plan.job} (${id}) stands at ${where}, ${cell.good} good; ${saved}.`;
}
