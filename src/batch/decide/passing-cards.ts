/**
 * Answering the card that is up. A bare Enter passes every card; where a value was asked it counts as skipped. A card
 * that asks for proof and stood for less than two seconds is recorded as not proved.
 */
import type { Card } from '../cards.ts';
import type { CardAnswer, CommandOf } from '../commands.ts';
import type { BatchEvent } from '../events.ts';
import { nextCellAt } from '../expected.ts';
import { cellAt, shortageOf, unallotted, waitingAt } from '../flow.ts';
import type { Instant } from '../instant.ts';
import { machineKey, operationNumbered } from '../machines.ts';
import type { Batch } from '../state.ts';
import { checkAnswered } from './checking.ts';
import { finishedNow, openSuspectsProblem } from './closing.ts';
import { type AtHand, atHand, type Decision, events, formatPieces, refused, textProblem } from './decision.ts';
import { recountProblem } from './rejecting.ts';

/** Milliseconds that a card must stand to count as read. */
const readIn_ms = 2000;

type CardOf<Kind extends Card['kind']> = Extract<Card, { kind: Kind }>;
type Passing = { readonly hand: AtHand; readonly answer: CardAnswer; readonly at: Instant; readonly shown_ms: number };

/** Answers the first card. Refused when another card is up by now, or when the answer does not fit. */
export function decidePassCard(batch: Batch, command: CommandOf<'passCard'>, at: Instant): Decision {
  return atHand(batch, (hand) => {
    const card = batch.cards[0];
    if (card === undefined) return refused('no card is up');
    if (card.id !== command.id) return refused('that card is not up any more');
    return answered(batch, card, { hand, at, answer: command.answer, shown_ms: command.shown_ms });
  });
}

function answered(batch: Batch, card: Card, passing: Passing): Decision {
  switch (card.kind) {
    case 'check':
      return answeredCheck(batch, card, passing);
    case 'recount':
      return answeredRecount(batch, card, passing);
    case 'parting':
      return answeredParting(batch, card, passing);
    case 'away':
      return answeredAway(batch, card, passing);
    case 'correction':
      return answeredCorrection(card, passing);
    default:
      if (passing.answer.kind !== 'pass') return refused('this card takes no value; Enter passes it');
      return passed(batch, card, passing);
  }
}

type Asking = 'check' | 'recount' | 'parting' | 'away' | 'correction';
type PlainCard = Exclude<Card, CardOf<Asking>>;

/** Cards that are read and passed, and what follows from that. */
function passed(batch: Batch, card: PlainCard, passing: Passing): Decision {
  switch (card.kind) {
    case 'resume':
    case 'setup':
    case 'variant':
    case 'tool':
      return events(read(card, passing));
    case 'zero': {
      const { operation, lane, axis } = card;
      const proved: BatchEvent = { kind: 'ZeroProved', operation, lane, axis };
      return wasRead(passing) ? events(read(card, passing), proved) : events(read(card, passing));
    }
    case 'z zero': {
      const { operation, lane } = card;
      const proved: BatchEvent = { kind: 'ZeroProved', operation, lane, axis: 'z' };
      return wasRead(passing) ? events(read(card, passing), proved) : events(read(card, passing));
    }
    case 'speed': {
      const machine = machineKey(batch, operationNumbered(batch, card.operation));
      return events(read(card, passing), { kind: 'SpeedSet', machine, rpm: card.to });
    }
    case 'suspects':
    case 'shortage':
      return events(known(card, passing, true));
    case 'operation ended':
      return operationEnded(batch, card, passing);
    case 'batch ended': {
      const problem = openSuspectsProblem(batch);
      return problem === null ? events(known(card, passing, true), finishedNow(batch, null)) : refused(problem);
    }
  }
}

/** The card named the next operation; work goes there, or where pieces wait by now. */
function operationEnded(batch: Batch, card: CardOf<'operation ended'>, passing: Passing): Decision {
  const next = nextCellAt(batch);
  if (next === null) return events(known(card, passing, true));
  const { operation, lane } = cellAt(batch, next);
  return events(known(card, passing, true), { kind: 'OperationBegun', operation, lane });
}

function answeredCheck(batch: Batch, card: CardOf<'check'>, passing: Passing): Decision {
  const outcome = checkAnswered(batch, passing.hand, card.check, passing.answer);
  if (outcome.kind === 'refused') return outcome;
  return events(...outcome.events, known(card, passing, passing.answer.kind !== 'pass'));
}

/** Kept by yes or a bare Enter; by no the target goes back to what it was, as a correction that can be taken back. */
function answeredCorrection(card: CardOf<'correction'>, passing: Passing): Decision {
  const { answer, hand } = passing;
  if (answer.kind !== 'pass' && answer.kind !== 'yes or no') return refused('say yes or no');
  if (answer.kind === 'pass' || answer.yes) return events(known(card, passing, answer.kind !== 'pass'));
  const { cut, axis, by, point } = card;
  const hole = point === undefined ? {} : { point };
  const back = { cut, axis, by: -by, reading: null, reason: 'zero set anew', ...hole };
  return events(known(card, passing, true), { kind: 'TargetCorrected', ...hand.named, ...back });
}

function answeredRecount(batch: Batch, card: CardOf<'recount'>, passing: Passing): Decision {
  const { answer, hand, at } = passing;
  if (answer.kind === 'pass') return events(known(card, passing, false));
  const good = countIn(answer);
  if (good === null) return refused('say how many lie in the tray');
  if (good === hand.cell.good) return events(read(card, passing));
  const problem = recountProblem(batch, hand, good, at);
  if (problem !== null) return refused(problem);
  const reason = (answer.kind === 'pieces' ? answer.reason : null) ?? 'counted in the tray';
  const unsaid = textProblem(reason, 'the reason');
  if (unsaid !== null) return refused(unsaid);
  const recounted: BatchEvent = { kind: 'Recounted', ...hand.named, good, before: hand.cell.good, reason };
  return events(read(card, passing), recounted);
}

/** The pool goes to the variants: as proposed, or as the answer says, every piece of it. */
function answeredParting(batch: Batch, card: CardOf<'parting'>, passing: Passing): Decision {
  const { answer } = passing;
  if (answer.kind !== 'pass' && answer.kind !== 'shares') return refused('say how many go to each variant');
  const shares = answer.kind === 'shares' ? answer.shares : card.proposal;
  const problem = sharesProblem(batch, shares);
  if (problem !== null) return refused(problem);
  const operation = batch.lanes.poolCell === null ? card.operation : cellAt(batch, batch.lanes.poolCell).operation;
  const decidedByHand = answer.kind === 'shares' || shortageOf(batch) === 0;
  return events(known(card, passing, decidedByHand), { kind: 'PoolAllotted', operation, shares: { ...shares } });
}

function sharesProblem(batch: Batch, shares: Readonly<Record<string, number>>): string | null {
  const stranger = Object.keys(shares).find((lane) => !batch.lanes.parted.includes(lane));
  if (stranger !== undefined) return `${stranger} is no variant of this batch`;
  const counts = Object.values(shares);
  if (counts.some((count) => !Number.isSafeInteger(count) || count < 0)) return 'shares are whole numbers, 0 or more';
  const given = counts.reduce((sum, count) => sum + count, 0);
  const pool = unallotted(batch);
  return given === pool ? null : `the shares add up to ${given}, and the pool holds ${formatPieces(pool)}`;
}

/** Pieces go out, all of them or as many as the answer says; or they come back. */
function answeredAway(batch: Batch, card: CardOf<'away'>, passing: Passing): Decision {
  if (card.moment === 'back') return cameBack(card, passing);
  const { answer, hand } = passing;
  const count = answer.kind === 'pass' ? card.pieces : countIn(answer);
  if (count === null) return refused('say how many pieces go out');
  if (!Number.isSafeInteger(count) || count < 0) return refused('a count is a whole number, 0 or more');
  if (count === 0) return refused('at least one piece goes out; go to another operation to wait');
  const waiting = waitingAt(batch, hand.at);
  if (count > waiting) return refused(`waiting here: ${formatPieces(waiting)}, not ${count}`);
  const to = hand.place.operation.away?.to ?? 'away';
  return events(known(card, passing, answer.kind !== 'pass'), { kind: 'SentAway', ...hand.named, pieces: count, to });
}

/** What came back and what is lost of it, with the reason; the others stay out. A bare Enter takes all as back. */
function cameBack(card: CardOf<'away'>, passing: Passing): Decision {
  const { answer, hand } = passing;
  const { out } = hand.cell;
  const count = answer.kind === 'pass' ? out : answer.kind === 'back' ? answer.pieces : countIn(answer);
  if (count === null) return refused('say how many pieces came back');
  const lost = answer.kind === 'back' ? answer.lost : out - count;
  if (![count, Math.max(0, lost)].every((n) => Number.isSafeInteger(n) && n >= 0)) {
    return refused('a count is a whole number, 0 or more');
  }
  if (count + Math.max(0, lost) > out) return refused(`only ${formatPieces(out)} went out`);
  if (count + lost === 0) return refused('nothing came back yet; work elsewhere until something does');
  const reason = answer.kind === 'back' || answer.kind === 'pieces' ? answer.reason : null;
  const problem = lost === 0 ? null : textProblem(reason ?? '', `what became of ${formatPieces(lost)}`);
  if (problem !== null) return refused(problem);
  const happened: BatchEvent = {
    kind: 'CameBack',
    ...hand.named,
    pieces: count,
    lost,
    reason: lost === 0 ? null : reason,
  };
  return events(known(card, passing, answer.kind !== 'pass'), happened);
}

/** The plain number in an answer, or null. */
const countIn = (answer: CardAnswer): number | null =>
  answer.kind === 'pieces' ? answer.pieces : answer.kind === 'value' ? answer.value : null;

const wasRead = (passing: Passing): boolean => passing.shown_ms >= readIn_ms;

/** Passed; proved when it stood long enough to be read. */
const read = (card: Card, passing: Passing): BatchEvent => known(card, passing, wasRead(passing));

const known = (card: Card, passing: Passing, proved: boolean): BatchEvent => ({
  kind: 'CardPassed',
  id: card.id,
  proved,
  shown_ms: passing.shown_ms,
});
