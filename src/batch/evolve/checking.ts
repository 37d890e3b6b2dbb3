/** What a check tells of its pieces, and which of them are suspect. */
import { chained } from '../chain.ts';
import type { EventOf } from '../events.ts';
import { cellAt } from '../flow.ts';
import type { Instant } from '../instant.ts';
import type { Batch, CheckFact } from '../state.ts';
import { positionOf } from './counting.ts';
import { withoutPieces } from './suspect-pieces.ts';

/** A piece was checked, or the check was skipped. One out of limits is due again after the next piece. */
export function checked(batch: Batch, event: EventOf<'Checked'>, when: Instant): Batch {
  const at = positionOf(batch, event.operation, event.lane);
  const cell = cellAt(batch, at);
  const before = cell.checks[event.check] ?? { dueAbove: null, checkedAt: 0, goodAt: 0 };
  const { check, piece, result } = event;
  const entry = { check, piece, result, void: false, by: batch.by, at: when };
  return {
    ...batch,
    cells: batch.cells.with(at, {
      ...cell,
      checks: { ...cell.checks, [check]: factAfter(before, piece, result) },
      checkLog: chained(cell.checkLog, entry),
    }),
  };
}

function factAfter(before: CheckFact, piece: number, result: EventOf<'Checked'>['result']): CheckFact {
  switch (result.kind) {
    case 'skipped':
      return { ...before, dueAbove: null, checkedAt: piece };
    case 'measured':
      return judged(before, piece, result.within);
    case 'yes or no':
      return judged(before, piece, result.yes);
  }
}

function judged(before: CheckFact, piece: number, good: boolean): CheckFact {
  return good
    ? { dueAbove: null, checkedAt: piece, goodAt: piece }
    : { dueAbove: piece, checkedAt: piece, goodAt: before.goodAt };
}

/** Pieces since the last good check are suspect; a range that is suspect already is told once. */
export function piecesSuspected(batch: Batch, event: EventOf<'PiecesSuspected'>): Batch {
  const { operation, lane, check, from, to } = event;
  const rest = withoutPieces(batch.suspects, event);
  return { ...batch, suspects: [...rest, { operation, lane, check, from, to, piece: to }] };
}

/** Pieces are suspect no longer: measured good, or taken on the owner's word. */
export function suspectsCleared(batch: Batch, event: EventOf<'SuspectsCleared'>): Batch {
  return { ...batch, suspects: withoutPieces(batch.suspects, event) };
}
