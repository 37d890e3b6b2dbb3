/** What happens at the machine: a bump, another tool, a zero proved, a target corrected. */

import type { ResolvedCut } from '../../plan/resolved.ts';
import type { CommandOf } from '../commands.ts';
import { setupOf } from '../machines.ts';
import { cutInHand, judgeCorrection } from '../questions/correction-doubts.ts';
import { type SameHoles, sameHolesLater } from '../questions/same-holes.ts';
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
    const { axis, by, reading, reason, point, also } = command;
    const at = cutInHand(batch, hand.at);
    const cut = hand.place.operation.cuts[at];
    const problem =
      textProblem(reason, 'the reason') ??
      amountProblem(by, reading) ??
      axisProblem(hand, cut, axis) ??
      holesProblem(batch, command, cut, at);
    if (problem !== null) return refused(problem);
    const { refusal } = judgeCorrection(batch, axis, by, reading, { point, also });
    if (refusal !== null) return refused(refusal);
    const holes = { ...(point === undefined ? {} : { point }), ...(also === undefined ? {} : { also }) };
    return events({ kind: 'TargetCorrected', ...hand.named, cut: at, axis, by, reading, reason, ...holes });
  });
}

function amountProblem(by: number, reading: number | null): string | null {
  if (!Number.isFinite(by) || (reading !== null && !Number.isFinite(reading))) return 'a correction is a number';
  return by === 0 ? 'a correction of nothing changes nothing' : null;
}

/** One hole has its own place, not its own zero in depth; further cuts must come to the very holes that are corrected. */
function holesProblem(
  batch: Batch,
  { axis, point, also = [] }: CommandOf<'correct'>,
  cut: ResolvedCut | undefined,
  at: number,
): string | null {
  const isPlace = axis === 'x' || axis === 'y';
  if (point === undefined && also.length === 0) return null;
  if (!isPlace) return 'a depth or a stop is corrected for all holes, of this operation alone';
  if (point !== undefined && point >= (cut?.points.length ?? 0)) return 'there is no such hole here';
  const known = new Set(sameHolesLater(batch, at, point ?? null).map(holesKey));
  return also.every((one) => known.has(holesKey(one))) ? null : 'those are not the same holes by the same zero';
}

const holesKey = ({ operation, cut, point }: SameHoles): string => `${operation}/${cut}/${point ?? ''}`;

function axisProblem(hand: AtHand, cut: ResolvedCut | undefined, axis: 'x' | 'y' | 'z' | 'stop'): string | null {
  if (axis === 'stop') return hand.place.operation.stopLength === null ? 'no stop length is set here' : null;
  if (cut === undefined) return 'nothing is wound to in this operation';
  if (axis === 'z') {
    const deep = cut.z !== null || cut.passes.length > 0 || cut.points.some((point) => point.z !== null);
    return deep ? null : 'no depth is set here';
  }
  return cut.points.length + cut.passes.length > 0 ? null : `nothing is wound to in ${axis.toUpperCase()} here`;
}
