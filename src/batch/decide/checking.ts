/** Checks: answered, asked for out of turn, and suspects cleared. */

import type { ResolvedCheck } from '../../plan/resolved.ts';
import { asMm } from '../../shop/quantities.ts';
import { formatLength, type LengthUnit } from '../../shop/units.ts';
import type { CardAnswer, CommandOf } from '../commands.ts';
import type { BatchEvent, EventOf } from '../events.ts';
import { countedAt } from '../flow.ts';
import { firstOffsSkipped } from '../questions/skipped.ts';
import type { Batch } from '../state.ts';
import { type AtHand, atHand, type Decision, events, refused, textProblem } from './decision.ts';

type CheckResult = EventOf<'Checked'>['result'];

/** The events of a check's answer: the result, and the suspects when it is not good. Limits belong to the good side. */
export function checkAnswered(batch: Batch, hand: AtHand, id: string, answer: CardAnswer): Decision {
  const check = hand.place.operation.checks.find((candidate) => candidate.id === id);
  if (check === undefined) return refused('the plan has no such check any more');
  const result = judged(check, answer, batch.plan.units);
  if (typeof result === 'string') return refused(result);
  // What was rejected of the load in hand comes after the newest piece that is counted.
  const piece = Math.max(1, countedAt(hand.cell));
  const checked: BatchEvent = { kind: 'Checked', ...hand.named, check: id, result, piece };
  if (isGood(result)) return events(checked, ...clearedByMeasure(batch, hand, id, piece, result));
  const from = Math.min(piece, (hand.cell.checks[id]?.goodAt ?? 0) + 1);
  return events(checked, { kind: 'PiecesSuspected', ...hand.named, check: id, from, to: piece });
}

const isGood = (result: CheckResult): boolean =>
  result.kind === 'skipped' || (result.kind === 'measured' ? result.within : result.yes);

/** What the answer comes to, or why it does not fit the check. */
function judged(check: ResolvedCheck, answer: CardAnswer, units: LengthUnit): CheckResult | string {
  if (answer.kind === 'pass') return { kind: 'skipped' };
  if (check.what.kind === 'yes or no') {
    return answer.kind === 'yes or no' ? { kind: 'yes or no', yes: answer.yes } : 'this check is answered yes or no';
  }
  if (answer.kind !== 'value') return 'this check wants the measured value';
  const { lower, upper, nominal } = check.what;
  const { value } = answer;
  if (!Number.isFinite(value)) return 'the measured value is not a number';
  if (Math.abs(value - nominal) > believable(nominal)) {
    return `${formatLength(asMm(value), units)} is far from ${formatLength(nominal, units)}; look at its point`;
  }
  return { kind: 'measured', value, within: value >= lower && value <= upper };
}

/** How far in mm a reading may lie from the dimension before a slip of the decimal point is likelier than a bad piece. */
const believable = (nominal: number): number => Math.abs(nominal) / 2 + 5;

/** A suspect piece that is checked again and found good is suspect no longer. */
function clearedByMeasure(
  batch: Batch,
  hand: AtHand,
  check: string,
  piece: number,
  result: CheckResult,
): readonly BatchEvent[] {
  const { operation, lane } = hand.named;
  const suspect = batch.suspects.some(
    (s) => s.operation === operation && s.lane === lane && s.check === check && s.from <= piece && piece <= s.to,
  );
  if (!suspect || result.kind === 'skipped') return [];
  const reason = 'checked again';
  return [{ kind: 'SuspectsCleared', ...hand.named, check, from: piece, to: piece, how: 'measured', reason }];
}

/** A skipped first-off is left at that by word: a result of its own, so that the report says both. */
export function decideTakeSkip(batch: Batch, command: CommandOf<'takeSkip'>): Decision {
  return atHand(batch, (hand) => {
    const { check, reason } = command;
    const skipped = firstOffsSkipped(batch, hand.at).find((one) => one.check.id === check);
    const problem = textProblem(reason, 'the reason');
    if (problem !== null) return refused(problem);
    if (skipped === undefined) return refused('no first-off is skipped here');
    const result = { kind: 'skipped', word: reason } as const;
    return events({ kind: 'Checked', ...hand.named, check, result, piece: skipped.piece });
  });
}

/** A check out of turn: the named one, or the first of the operation. */
export function decideAskCheck(batch: Batch, command: CommandOf<'askCheck'>): Decision {
  return atHand(batch, (hand) => {
    const { checks } = hand.place.operation;
    const check = command.check === null ? checks[0] : checks.find((candidate) => candidate.id === command.check);
    if (check === undefined) return refused(checks.length === 0 ? 'this operation has no check' : 'no such check here');
    if (batch.cards.some((card) => card.kind === 'check' && card.check === check.id)) {
      return refused('that check is up already');
    }
    const id = `card ${batch.cardsRaised + 1}`;
    return events({
      kind: 'CardsRaised',
      cards: [{ kind: 'check', id, ...hand.named, check: check.id, due: 'asked' }],
    });
  });
}
