/** Looking at another operation than the one in hand: where it stands and where its first point lies. Counts nothing. */
import { leftByCell } from '../../batch/expected.ts';
import { cellAt, waitingAt } from '../../batch/flow.ts';
import type { Batch } from '../../batch/state.ts';
import { placeName } from '../moments/place-names.ts';
import { durationText } from '../moments/time-words.ts';
import { lookedAt, type WorkFace, workFace } from '../moments/work-panel.ts';

/** What the panel of a batch may ask of the floors below. */
export type AsksOfBatch = {
  readonly warnings: (operation: number) => readonly string[];
  /** The line that an operation comes to, or the batch for null. */
  readonly endLine: (cell: { readonly operation: number; readonly lane: string } | null) => string;
  readonly planNote: () => string | null;
};

/** The face of the cell looked at, with its counts and times first among the facts. */
export function lookingFace(batch: Batch, at: number, ascii: boolean): WorkFace {
  const cell = cellAt(batch, at);
  const face = workFace(batch, at, 0, ascii);
  const { setup, run, check } = cell.accounts;
  const spent =
    setup + run + check === 0
      ? 'Not begun.'
      : `Setup ${durationText(setup)}, run ${durationText(run)}, checks ${durationText(check)}.`;
  return {
    ...face,
    readings: lookedAt(face.readings),
    headline: { text: `LOOKING AT ${placeName(batch.plan, cell.operation, cell.lane)}`, role: 'reverse' },
    facts: [
      `${cell.good} good, ${cell.scrap} scrap, ${waitingAt(batch, at)} waiting here, ${leftByCell(batch)[at] ?? 0} left in all. ${spent}`,
      ...face.facts,
    ],
    cautions: [],
  };
}

/** The cell `by` places before or after the one looked at; null when that is the one in hand. */
export function cellLookedAt(batch: Batch, lookAt: number | null, by: number): number | null {
  const from = lookAt ?? batch.current;
  if (from === null) return null;
  const at = Math.max(0, Math.min(batch.cells.length - 1, from + by));
  return at === batch.current ? null : at;
}
