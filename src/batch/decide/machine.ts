/** What happens at the machine: a bump, another tool, a zero proved, a target corrected. */

import type { ResolvedCut } from '../../plan/resolved.ts';
import type { CommandOf } from '../commands.ts';
import { inHandAt } from '../flow.ts';
import { setupOf } from '../machines.ts';
import type { Batch } from '../state.ts';
import { type AtHand, atHand, type Decision, events, refused, textProblem } from './decision.ts';

/** Most that a target may be corrected by, in mm: more is no correction but another plan. */
const mostCorrection = 10;

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
    const tool = cutInHand(batch, hand).cut?.tool ?? null;
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

/** A target is altered from now on: "reads 3.06, take 0.06 less". */
export function decideCorrect(batch: Batch, command: CommandOf<'correct'>): Decision {
  return atHand(batch, (hand) => {
    const { axis, by, reading, reason } = command;
    const { cut, at } = cutInHand(batch, hand);
    const problem = textProblem(reason, 'the reason') ?? amountProblem(by, reading) ?? axisProblem(hand, cut, axis);
    if (problem !== null) return refused(problem);
    return events({ kind: 'TargetCorrected', ...hand.named, cut: at, axis, by, reading, reason });
  });
}

function amountProblem(by: number, reading: number | null): string | null {
  if (!Number.isFinite(by) || (reading !== null && !Number.isFinite(reading))) return 'a correction is a number';
  if (by === 0) return 'a correction of nothing changes nothing';
  return Math.abs(by) > mostCorrection ? `more than ${mostCorrection} mm is no correction; amend the plan` : null;
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

function cutInHand(batch: Batch, hand: AtHand): { readonly at: number; readonly cut: ResolvedCut | undefined } {
  const { stops, stop } = inHandAt(batch, hand.at);
  const at = (stops[stop] ?? stops.at(-1))?.cut ?? 0;
  return { at, cut: hand.place.operation.cuts[at] };
}
