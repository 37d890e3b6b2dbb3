/** What a check tells of its pieces, and which of them are suspect. */
import { chained } from '../chain.ts';
import type { EventOf } from '../events.ts';
import { cellAt } from '../flow.ts';
import type { Instant } from '../instant.ts';
import type { Batch, CheckFact } from '../state.ts';
import { positionOf, withEntry } from './counting.ts';
import { amongPieces, withoutPieces } from './suspect-pieces.ts';

/** A piece was checked, or the check was skipped. One out of limits is due again after the next piece. */
export function checked(batch: Batch, event: EventOf<'Checked'>, when: Instant): Batch {
  const at = positionOf(batch, event.operation, event.lane);
  const cell = cellAt(batch, at);
  const before = cell.checks[event.check] ?? neverChecked;
  const { check, piece, result } = event;
  const entry = { check, piece, result, void: false, by: batch.by, at: when };
  return {
    ...batch,
    cells: batch.cells.with(at, {
      ...cell,
      checks: { ...cell.checks, [check]: factAfter(before, { piece, good: cell.good }, result) },
      checkLog: chained(cell.checkLog, entry),
    }),
  };
}

const neverChecked: CheckFact = { dueAbove: null, since: 0, checkedAt: 0, goodThen: 0, goodAt: 0 };

/** The piece that was checked, by its ordinal, and how many good ones there were. */
type At = { readonly piece: number; readonly good: number };

function factAfter(before: CheckFact, at: At, result: EventOf<'Checked'>['result']): CheckFact {
  switch (result.kind) {
    case 'skipped':
      // A word on what was skipped before alters nothing of when it is due.
      if (result.word !== undefined) return before;
      return { ...before, dueAbove: null, checkedAt: at.piece, goodThen: at.good };
    case 'measured':
      return judged(before, at, result.within);
    case 'yes or no':
      return judged(before, at, result.yes);
  }
}

function judged(before: CheckFact, { piece, good }: At, isGood: boolean): CheckFact {
  return isGood
    ? { ...before, dueAbove: null, checkedAt: piece, goodThen: good, goodAt: piece }
    : { ...before, dueAbove: good, since: good, checkedAt: piece, goodThen: good };
}

/** Pieces since the last good check are suspect; a range that is suspect already is told once. */
export function piecesSuspected(batch: Batch, event: EventOf<'PiecesSuspected'>): Batch {
  const { operation, lane, check, from, to } = event;
  const rest = withoutPieces(batch.suspects, event);
  return { ...batch, suspects: [...rest, { operation, lane, check, from, to, piece: to }] };
}

/** Pieces are suspect no longer: found good at their check, or cleared before clearing could be taken back. */
export function suspectsCleared(batch: Batch, event: EventOf<'SuspectsCleared'>): Batch {
  const suspects = withoutPieces(batch.suspects, event);
  const isOpen = suspects.some((one) => one.operation === event.operation && one.lane === event.lane);
  // Nothing is left to be asked of them.
  const cards = isOpen ? batch.cards : batch.cards.filter((card) => card.kind !== 'suspects');
  return { ...batch, suspects, cards };
}

/**
 * Suspect pieces are settled by word: measured good or taken as they are for one check, or scrapped, which leaves nothing of
 * them suspect. It can be taken back like a count.
 */
export function suspectsSettled(batch: Batch, event: EventOf<'SuspectsSettled'>): Batch {
  const { operation, lane, check, from, to, scrapAt } = event;
  const cut = scrapAt === null ? { operation, lane, check, from, to } : { operation, lane, from, to };
  const at = positionOf(batch, scrapAt?.operation ?? operation, scrapAt?.lane ?? lane);
  const pieces = scrapAt === null ? 0 : to - from + 1;
  const { lastGood, good } = cellAt(batch, at);
  const beyond = { kind: 'suspects', settled: amongPieces(batch.suspects, cut) } as const;
  const change = pieces === 0 ? { beyond } : { good: -pieces, scrap: pieces, beyond };
  // Which load they lay in is not known: no more of the last one can be rejected than is left in all.
  const news = pieces === 0 ? {} : { lastGood: Math.max(0, Math.min(lastGood, good - pieces)) };
  const next = withEntry(batch, at, event.kind, change, news);
  return { ...next, suspects: withoutPieces(batch.suspects, cut) };
}
