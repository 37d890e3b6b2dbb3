import { tapRunOn, USUAL_STOPPING_TIME } from '../../shop/power-tapping.ts';
import { asMm, type Mm } from '../../shop/quantities.ts';
import { threadOfCut } from '../resolve/holes.ts';
import type { VisitSeen } from './ask.ts';

/**
 * How far a tap under power still goes in at most after the switch, 0 for every other tool, for a tap by hand, and on a
 * spindle that reverses at once.
 *
 * Example: M6 at 80 rpm on a spindle that stops in 2 s: 2.67 mm.
 */
export function runOnOf({ operation, cut }: VisitSeen): Mm {
  const none = asMm(0);
  const { machine } = operation;
  const speed = cut.resolved.speed.set;
  const thread = threadOfCut(cut.work);
  if (cut.kind !== 'tap' || thread === undefined || speed === null || cut.resolved.thread?.byHand === true) return none;
  if (machine === undefined || machine.reverse === 'at once') return none;
  const run = tapRunOn(speed, thread.pitch, machine.stoppingTime ?? USUAL_STOPPING_TIME);
  return run.ok ? run.value : none;
}
