/** What happens at the machine: a bump, another tool, a zero proved, a target corrected. */

import type { ResolvedCut } from '../../plan/resolved.ts';
import type { CommandOf } from '../commands.ts';
import { setupOf } from '../machines.ts';
import { cutInHand, judgeCorrection } from '../questions/correction-doubts.ts';
import type { Batch } from '../state.ts';
import { type AtHand, atHand, type Decision, events, refused, textProblem } from './decision.ts';

/** The work, the vice or the stop was knocked. Refused where nothing has a zero. */
export function decideBumped(batch: Batch): Decision {
  return atHand(batch, (hand) => {
    const setup = setupOf(batch, hand.place.operation);
    if (setup === null || (setup.x === null && setup.y === null))
      return refused('nothing has a zero in this operation');
    return events({ kind: 'Bumped', ...hand.named });
  });
}

/** The tool in hand was changed for another of its kind, or sharpened. */
export function decideToolChanged(batch: Batch, command: CommandOf<'toolChanged'>): Decision {
  return atHand(batch, (hand) => {
    const tool = hand.place.operation.cuts[cutInHand(batch, hand.at)]?.tool ?? null;
    if (tool === null) return refused('this operation has no tool in the plan');
    return events({ kind: 'ToolChanged', ...hand.named, tool, sharpened: command.sharpened });
  });
}

/** The zero was proved without being asked for. */
export function decideZeroProved(batch: Batch): Decision {
  return atHand(batch, (hand) => {
    const setup = setupOf(batch, hand.place.operation);
    if (setup === null || (setup.x === null && setup.y === null))
      return refused('nothing has a zero in this operation');
    if (batch.cards.some((card) => card.kind === 'setup')) return refused('the setup comes first');
    return events({ kind: 'ZeroProved', ...hand.named, axis: 'both' });
  });
}

/** A target is altered from now on: "reads 3.06, take 0.06 less". Refused where it cannot be meant, with the numbers. */
export function decideCorrect(batch: Batch, command: CommandOf<'correct'>): Decision {
  return atHand(batch, (hand) => {
    const { axis, by, reading, reason } = command;
    const at = cutInHand(batch, hand.at);
    const cut = hand.place.operation.cuts[at];
    const problem = textProblem(reason, 'the reason') ?? amountProblem(by, reading) ?? axisProblem(hand, cut, axis);
    if (problem !== null) return refused(problem);
    const { refusal } = judgeCorrection(batch, axis, by, reading);
    if (refusal !== null) return refused(refusal);
    return events({ kind: 'TargetCorrected', ...hand.named, cut: at, axis, by, reading, reason });
  });
}

function amountProblem(by: number, reading: number | null): string | null {
  if (!Number.isFinite(by) || (reading !== null && !Number.isFinite(reading))) return 'a correction is a number';
  return by === 0 ? 'a correction of nothing changes nothing' : null;
}

function axisProblem(hand: AtHand, cut: ResolvedCut | undefined, axis: 'x' | 'y' | 'z' | 'stop'): string | null {
  if (axis === 'stop') return hand.place.operation.stopLength === null ? 'no stop length is set here' : null;
  if (cut === undefined) return 'nothing is wound to in this operation';
  if (axis === 'z') {
    const deep = cut.z !== null || cut.passes.length > 0 || cut.points.some((point) => point.z !== null);
    return deep ? null : 'no depth is set here';
  }
  return cut.points.length + cut.passes.length > 0 ? null : `nothing is wound to in ${axis.toUpperCase()} here`;
}
