/** The count key, trial pieces, and how an operation is counted. */
import type { CommandOf } from '../commands.ts';
import type { BatchEvent } from '../events.ts';
import { countingOf, inHandAt, waitingAt } from '../flow.ts';
import type { Batch, Cell } from '../state.ts';
import { stopFrom } from '../stops.ts';
import { type AtHand, atHand, type Decision, events, formatCell, refused, textProblem } from './decision.ts';

/** The next point, piece or load is done. Refused while a card is up, while nothing waits, and for pieces that are out. */
export function decideCount(batch: Batch, command: CommandOf<'count'>): Decision {
  return atHand(batch, (hand) => {
    if (batch.cards.length > 0) return refused('a card is up; answer it first');
    if (hand.place.operation.kind === 'away')
      return refused('the pieces are out of the house; count them when they are back');
    if (waitingAt(batch, hand.at) <= 0) return refused(`no pieces wait at ${formatCell(batch, hand.at)}`);
    return counted(batch, hand, command.quick);
  });
}

function counted(batch: Batch, hand: AtHand, quick: boolean): Decision {
  const { stops, stop, rejected, pieces } = inHandAt(batch, hand.at);
  const next = stopFrom(stops, stop + 1, rejected);
  if (next < stops.length) return events({ kind: 'PointDone', ...hand.named, stop, next });
  return events(loadCounted(hand, { good: pieces, scrap: [], quick }));
}

/** The event that counts a load, with its time and why that is no timing. */
export function loadCounted(
  hand: AtHand,
  load: { readonly good: number; readonly scrap: { place: number | null; reason: string }[]; readonly quick: boolean },
): BatchEvent {
  const { good, scrap, quick } = load;
  const ms = hand.cell.loadRun_ms > 0 ? hand.cell.loadRun_ms : null;
  return { kind: 'LoadCounted', ...hand.named, good, scrap, ms, leftOut: leftOut(hand.cell, quick), quick };
}

const leftOut = (cell: Cell, quick: boolean): Cell['spoiled'] => (quick ? 'quick' : cell.spoiled);

/** A trial piece, counted apart from the batch. */
export function decideTrial(batch: Batch, command: CommandOf<'trial'>): Decision {
  return atHand(batch, (hand) => {
    const { note } = command;
    const problem = note === null ? null : textProblem(note, 'the note');
    if (problem !== null) return refused(problem);
    const ms = hand.cell.loadRun_ms > 0 && hand.cell.load.size === 0 ? hand.cell.loadRun_ms : null;
    return events({ kind: 'TrialMade', ...hand.named, note, ms });
  });
}

/** Counts by point, piece or load from here on; not within a load. */
export function decideChangeCounting(batch: Batch, command: CommandOf<'changeCounting'>): Decision {
  return atHand(batch, (hand) => {
    const { counting } = command;
    if (countingOf(batch, hand.at) === counting) return refused(`this operation is counted by ${counting} already`);
    if (hand.cell.load.size > 0) return refused('finish the load in hand first, or take its points back');
    if (counting === 'point' && !hand.place.operation.cuts.some((cut) => cut.points.length + cut.passes.length > 0)) {
      return refused('this operation has no points to count');
    }
    return events({ kind: 'CountingChanged', ...hand.named, counting });
  });
}
