/**
 * From event to state. Pure: the moment arrives with the event, so a journal always folds to the same state. An event
 * that cannot follow on the state is a bug of whoever wrote the journal and throws; nothing is ever passed over.
 */
import { booked, bookedMs } from './accounts.ts';
import { chained } from './chain.ts';
import type { BatchEvent } from './events.ts';
import { planAmended } from './evolve/amending.ts';
import { cardPassed, cardsRaised, withSpeed, zeroProved } from './evolve/cards.ts';
import { checked, piecesSuspected, suspectsCleared, suspectsSettled } from './evolve/checking.ts';
import {
  cameBack,
  countedScrapped,
  loadCounted,
  moreStarted,
  pieceRejected,
  pointDone,
  poolAllotted,
  recounted,
  sentAway,
  sentToRework,
  trialMade,
} from './evolve/counting.ts';
import {
  afterBreak,
  ended,
  initialsGiven,
  opened,
  resumed,
  sittingBegan,
  sittingEnded,
  withTimingSpoiled,
} from './evolve/opening.ts';
import { takenBack } from './evolve/taking-back.ts';
import { bumped, countingChanged, operationBegun, remarked, targetCorrected, toolChanged } from './evolve/working.ts';
import type { Instant } from './instant.ts';
import { type Batch, type BatchState, noBatch } from './state.ts';

/** One line of a journal as far as the state goes: the outcome of one command at one moment. */
export type BatchLine = { readonly at: Instant; readonly events: readonly BatchEvent[] };

/**
 * The state after an event.
 *
 * @param at - when it happened; the time since the event before is booked to the account that ran until now
 * @throws a bug (`Error`) for an event before opening, a second opening, anything after the end, a card, entry or
 *   operation that is not there
 */
export function evolve(state: BatchState, event: BatchEvent, at: Instant): BatchState {
  if (event.kind === 'BatchOpened') {
    if (state.kind !== 'none') throw new Error('a batch is opened once');
    return opened(event, at);
  }
  if (state.kind !== 'open') throw new Error(`${event.kind} cannot follow on a batch that is ${state.kind}`);
  const afterCut = event.kind === 'SittingBegan' && event.afterCut;
  const batch = afterCut ? booked(state, at, 'unknown') : booked(state, at);
  const next = evolved(batch, event, at, state.last);
  const hasScrap = event.kind === 'LoadCounted' && event.scrap.length > 0;
  if (!remarked.has(event.kind) && !hasScrap) return next;
  return { ...next, remarks: chained(next.remarks, { at, by: batch.by, event, entry: batch.nextEntry }) };
}

/** Everything that follows on an open batch; time is booked already, `before` is the moment of the newest line before. */
function evolved(
  batch: Batch,
  event: Exclude<BatchEvent, { kind: 'BatchOpened' }>,
  at: Instant,
  before: Instant,
): Batch {
  switch (event.kind) {
    case 'SittingBegan':
      return sittingBegan(batch, event, at, before);
    case 'SittingEnded':
      return sittingEnded(batch, event, at);
    case 'OperationBegun':
      return operationBegun(batch, event);
    case 'CardsRaised':
      return cardsRaised(batch, event);
    case 'CardPassed':
      return cardPassed(batch, event, at);
    case 'SpeedSet':
      return withSpeed(batch, event.machine, event.rpm);
    case 'PointDone':
      return pointDone(batch, event);
    case 'LoadCounted':
      return loadCounted(batch, event, at);
    case 'PieceRejected':
      return pieceRejected(batch, event);
    case 'CountedScrapped':
      return countedScrapped(batch, event);
    case 'SentToRework':
      return sentToRework(batch, event);
    case 'Recounted':
      return recounted(batch, event);
    case 'TrialMade':
      return trialMade(batch, event);
    case 'TakenBack':
      return takenBack(batch, event.entry);
    case 'TargetCorrected':
      return targetCorrected(batch, event, at);
    case 'Checked':
      return checked(batch, event, at);
    case 'PiecesSuspected':
      return piecesSuspected(batch, event);
    case 'SuspectsCleared':
      return suspectsCleared(batch, event);
    case 'SuspectsSettled':
      return suspectsSettled(batch, event);
    case 'Bumped':
      return bumped(batch, event);
    case 'ToolChanged':
      return toolChanged(batch, event);
    case 'ZeroProved':
      return zeroProved(batch, event);
    case 'NoteMade':
    case 'ClockStepped':
      return batch;
    case 'Paused':
      return { ...batch, presence: 'paused', pause: { reason: event.reason, since: at } };
    case 'Resumed':
      return resumed(batch, at);
    case 'SuspendNoticed':
      return afterBreak(withTimingSpoiled(bookedMs(batch, event.ms, 'pause', at), 'suspended'), event.ms);
    case 'SentAway':
      return sentAway(batch, event, at);
    case 'CameBack':
      return cameBack(batch, event);
    case 'MoreStarted':
      return moreStarted(batch, event);
    case 'PoolAllotted':
      return poolAllotted(batch, event);
    case 'CountingChanged':
      return countingChanged(batch, event);
    case 'InitialsGiven':
      return initialsGiven(batch, event);
    case 'HoursChanged':
      return { ...batch, hours: event.hours };
    case 'PlanAmended':
      return planAmended(batch, event);
    case 'PlanChangeDeclined':
      return { ...batch, declinedPlans: [...batch.declinedPlans, event.planSha256] };
    case 'BatchFinished':
    case 'BatchGivenUp':
      return ended(batch, event, at);
  }
}

/** The state after a line: all its events at its moment. */
export function foldLine(state: BatchState, line: BatchLine): BatchState {
  return line.events.reduce<BatchState>((folded, event) => evolve(folded, event, line.at), state);
}

/** The state after a whole journal, or after more lines on top of a state. */
export function foldJournal(lines: Iterable<BatchLine>, from: BatchState = noBatch): BatchState {
  let state = from;
  for (const line of lines) state = foldLine(state, line);
  return state;
}
