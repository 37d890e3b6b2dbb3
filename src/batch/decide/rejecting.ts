/** Pieces that are not good: rejected before or after the count, sent to be made right, or counted anew by hand. */
import type { CommandOf } from '../commands.ts';
import type { BatchEvent } from '../events.ts';
import { evolve } from '../evolve.ts';
import { inHandAt, placeAt, unallotted, unsoundCell, waitingAt } from '../flow.ts';
import type { Instant } from '../instant.ts';
import { commonLane } from '../lanes.ts';
import type { Batch } from '../state.ts';
import { loadCounted } from './counting.ts';
import {
  type AtHand,
  atHand,
  type Decision,
  events,
  formatCell,
  formatPieces,
  refused,
  textProblem,
} from './decision.ts';

/** Scrap: the piece in hand, a place of the load in hand, or some of the last load after its count. */
export function decideReject(batch: Batch, command: CommandOf<'reject'>, at: Instant): Decision {
  return atHand(batch, (hand) => {
    const problem = textProblem(command.reason, 'the reason');
    if (problem !== null) return refused(problem);
    if (hand.place.operation.kind === 'away') return refused('say how many came back when they do; the rest is scrap');
    return command.counted ? rejectCounted(batch, hand, command, at) : rejectInHand(batch, hand, command, at);
  });
}

function rejectCounted(batch: Batch, hand: AtHand, command: CommandOf<'reject'>, at: Instant): Decision {
  const { pieces, reason } = command;
  const { lastGood } = hand.cell;
  if (lastGood === 0) return refused('no load was counted here that could still be rejected');
  if (pieces > lastGood) return refused(`the last load has ${formatPieces(lastGood)} to reject, not ${pieces}`);
  return ifSound(batch, at, { kind: 'CountedScrapped', ...hand.named, pieces, reason });
}

function rejectInHand(batch: Batch, hand: AtHand, command: CommandOf<'reject'>, at: Instant): Decision {
  const { pieces, place, reason } = command;
  const inHand = inHandAt(batch, hand.at);
  if (inHand.pieces <= 0) return refused(`no pieces wait at ${formatCell(batch, hand.at)}`);
  if (pieces > inHand.pieces) return refused(`the load in hand has ${formatPieces(inHand.pieces)}, not ${pieces}`);
  const held = Array.from({ length: inHand.size }, (_, i) => i + 1).filter((p) => !inHand.rejected.includes(p));
  if (place !== null && pieces > 1) return refused('name one place at a time');
  if (place !== null && !held.includes(place)) return refused(`no piece lies in place ${place} of this load`);
  const first = place ?? inHand.stops[inHand.stop]?.place ?? held.at(-1) ?? null;
  const places = [first, ...held.filter((p) => p !== first).reverse()].slice(0, pieces);
  const emptied = pieces === inHand.pieces;
  const before = (emptied ? places.slice(0, -1) : places).map(
    (p): BatchEvent => ({ kind: 'PieceRejected', ...hand.named, place: p, reason }),
  );
  if (!emptied) return ifSound(batch, at, ...before);
  const scrap = [{ place: inHand.size === 1 ? null : (places.at(-1) ?? null), reason }];
  return ifSound(batch, at, ...before, loadCounted(hand, { good: 0, scrap, quick: false }));
}

/** Pieces go through this operation or an earlier one again. */
export function decideRework(batch: Batch, command: CommandOf<'rework'>, at: Instant): Decision {
  return atHand(batch, (hand) => {
    const { to, pieces, reason } = command;
    const problem = textProblem(reason, 'the reason') ?? reworkProblem(batch, hand, to, pieces);
    if (problem !== null) return refused(problem);
    return ifSound(batch, at, { kind: 'SentToRework', ...hand.named, to, pieces, reason });
  });
}

function reworkProblem(batch: Batch, hand: AtHand, to: number, pieces: number): string | null {
  const { operation, lane } = hand.named;
  const onRoute = batch.lanes.places.some(
    (place) => place.operation.number === to && (place.lane === lane || place.lane === commonLane),
  );
  if (!onRoute) return `operation ${to} is not on the way of these pieces`;
  if (to > operation) return `rework goes back, and operation ${to} comes after ${operation}`;
  if (to === operation) {
    return pieces > hand.cell.good ? `counted good here: ${formatPieces(hand.cell.good)}, not ${pieces}` : null;
  }
  const waiting = waitingAt(batch, hand.at);
  if (pieces > waiting)
    return `waiting here: ${formatPieces(Math.max(0, waiting))}, not ${pieces}; take a count back first`;
  const held = hand.cell.load.size > 0 ? inHandAt(batch, hand.at).pieces : 0;
  return pieces > waiting - held ? 'the load in hand is begun; take its points back first' : null;
}

/** The count is set by hand, with a reason; it must lie between what later operations used and what came here. */
export function decideRecount(batch: Batch, command: CommandOf<'recount'>, at: Instant): Decision {
  return atHand(batch, (hand) => {
    const problem = textProblem(command.reason, 'the reason') ?? recountProblem(batch, hand, command.good, at);
    if (problem !== null) return refused(problem);
    const { good, reason } = command;
    return events({ kind: 'Recounted', ...hand.named, good, before: hand.cell.good, reason });
  });
}

/** Why a number cannot be the count of the operation at hand, or null. */
export function recountProblem(batch: Batch, hand: AtHand, good: number, at: Instant): string | null {
  if (!Number.isSafeInteger(good) || good < 0) return 'a count is a whole number, 0 or more';
  const most = hand.cell.good + waitingAt(batch, hand.at);
  if (good > most) return `${good} cannot be: only ${formatPieces(most)} came to ${formatCell(batch, hand.at)}`;
  const event: BatchEvent = { kind: 'Recounted', ...hand.named, good, before: hand.cell.good, reason: '-' };
  return unsoundReason(batch, at, [event]);
}

/** Lets events pass when every count stays possible after them, else says which operation stands in the way. */
export function ifSound(batch: Batch, at: Instant, ...happened: readonly BatchEvent[]): Decision {
  const reason = unsoundReason(batch, at, happened);
  return reason === null ? events(...happened) : refused(reason);
}

function unsoundReason(batch: Batch, at: Instant, happened: readonly BatchEvent[]): string | null {
  let after: Batch = batch;
  for (const event of happened) {
    const next = evolve(after, event, at);
    if (next.kind === 'none') return null;
    after = next;
  }
  const bad = unsoundCell(after);
  if (bad === null) return null;
  if (unallotted(after) < 0) return 'those pieces were given to the variants already; take that back first';
  if (bad === batch.current) return 'the load in hand is begun; take its points back first';
  return `operation ${placeAt(batch, bad).operation.number} has used those pieces already; take it back there first`;
}
