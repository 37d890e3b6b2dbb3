/**
 * From command to events. Every command is answered in every state: with the events to be made durable, or with a reason
 * in plain words why not now. Pure: the moment, an opened plan and a changed plan arrive as arguments. Behind the events
 * of a command come the cards that they make due (decide/gates.ts).
 */
import { booked } from './accounts.ts';
import type { Command } from './commands.ts';
import { type Amendment, decideAmend, decideDeclineAmendment } from './decide/amending.ts';
import { decideNote, decideNoteClockStep, decideNoteSuspend, decidePause, decideResume } from './decide/breaks.ts';
import { decideAskCheck, decideTakeSkip } from './decide/checking.ts';
import { decideFinish, decideGiveUp } from './decide/closing.ts';
import { decideChangeCounting, decideCount, decideTrial } from './decide/counting.ts';
import { type Decision, refused } from './decide/decision.ts';
import { cardsToRaise } from './decide/gates.ts';
import { decideChangeHours } from './decide/hours.ts';
import { decideBumped, decideCorrect, decideToolChanged, decideZeroProved } from './decide/machine.ts';
import {
  decideBeginSitting,
  decideEndSitting,
  decideGiveInitials,
  decideOpenBatch,
  type Opening,
} from './decide/opening.ts';
import { decidePassCard } from './decide/passing-cards.ts';
import { decideRecount, decideReject, decideRework } from './decide/rejecting.ts';
import { decideGoTo, decideMakeMore } from './decide/routing.ts';
import { decideClearSuspects, decideScrapSuspects } from './decide/suspects.ts';
import { decideTakeBack } from './decide/taking-back.ts';
import { foldLine } from './evolve.ts';
import type { Instant } from './instant.ts';
import type { Batch, BatchState } from './state.ts';

/** What a decision needs beside state and command: the moment, and the plans that two of the commands bring. */
export type DecideContext = {
  readonly at: Instant;
  /** For `openBatch`. */
  readonly opening?: Opening;
  /** For `amend`. */
  readonly amendment?: Amendment;
};

/**
 * Decides a command.
 *
 * Example: `count` on a batch whose card is up: `{ kind: 'refused', reason: 'a card is up; answer it first' }`.
 */
export function decide(state: BatchState, command: Command, context: DecideContext): Decision {
  const decision = decided(state, command, context);
  if (decision.kind === 'refused') return decision;
  const after = foldLine(state, { at: context.at, events: decision.events });
  const cards = after.kind === 'none' ? [] : cardsToRaise(after);
  if (cards.length === 0) return decision;
  return { kind: 'events', events: [...decision.events, { kind: 'CardsRaised', cards: [...cards] }] };
}

function decided(state: BatchState, command: Command, context: DecideContext): Decision {
  if (command.kind === 'openBatch') {
    return state.kind === 'none' ? decideOpenBatch(context.opening) : refused('the batch is open already');
  }
  if (state.kind === 'none') return refused('no batch is open yet');
  const { at } = context;
  // The open time up to now is booked first, so that a count sees its whole piece time.
  return decidedInBatch(state.kind === 'open' ? booked(state, at) : state, command, context);
}

function decidedInBatch(
  batch: Batch,
  command: Exclude<Command, { kind: 'openBatch' }>,
  { at, amendment }: DecideContext,
): Decision {
  switch (command.kind) {
    case 'beginSitting':
      return decideBeginSitting(batch, command);
    case 'endSitting':
      return decideEndSitting(batch, command);
    case 'passCard':
      return decidePassCard(batch, command, at);
    case 'count':
      return decideCount(batch, command);
    case 'takeBack':
      return decideTakeBack(batch, at);
    case 'reject':
      return decideReject(batch, command, at);
    case 'rework':
      return decideRework(batch, command, at);
    case 'recount':
      return decideRecount(batch, command, at);
    case 'correct':
      return decideCorrect(batch, command);
    case 'trial':
      return decideTrial(batch, command);
    case 'note':
      return decideNote(batch, command);
    case 'bumped':
      return decideBumped(batch);
    case 'toolChanged':
      return decideToolChanged(batch, command);
    case 'zeroProved':
      return decideZeroProved(batch);
    case 'askCheck':
      return decideAskCheck(batch, command);
    case 'takeSkip':
      return decideTakeSkip(batch, command);
    case 'clearSuspects':
      return decideClearSuspects(batch, command);
    case 'scrapSuspects':
      return decideScrapSuspects(batch, command, at);
    case 'pause':
      return decidePause(batch, command);
    case 'resume':
      return decideResume(batch);
    case 'noteSuspend':
      return decideNoteSuspend(batch, command);
    case 'noteClockStep':
      return decideNoteClockStep(batch, command);
    case 'goTo':
      return decideGoTo(batch, command);
    case 'makeMore':
      return decideMakeMore(batch, command, at);
    case 'changeCounting':
      return decideChangeCounting(batch, command);
    case 'giveInitials':
      return decideGiveInitials(batch, command);
    case 'amend':
      return decideAmend(batch, amendment);
    case 'declineAmendment':
      return decideDeclineAmendment(batch, command);
    case 'changeHours':
      return decideChangeHours(batch, command);
    case 'finish':
      return decideFinish(batch, command);
    case 'giveUp':
      return decideGiveUp(batch, command);
  }
}
