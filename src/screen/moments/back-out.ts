/** How a tap comes out again on this machine, known before it goes in. */
import type { ResolvedCut, ResolvedMachine, ResolvedPlan } from '../../plan/resolved.ts';
import { tapRunOn, USUAL_STOPPING_TIME } from '../../shop/power-tapping.ts';
import { lengthWithUnit } from './axis-text.ts';

/**
 * One sentence on backing out; '' where no tap is driven by a spindle.
 *
 * Example: M6 at 80 rpm, reverses after stopping in 2 s: "To back out: stop, let the spindle come to rest, then reverse;
 * it runs on by up to 2.67 mm."
 */
export function backOutWords(plan: ResolvedPlan, machine: ResolvedMachine | undefined, cut: ResolvedCut): string {
  const { thread, speed } = cut;
  if (thread === null) return '';
  if (thread.byHand || machine === undefined || speed.set === null)
    return 'To back out: turn the wrench back; a quarter back at every half turn in keeps the chip short.';
  const run = tapRunOn(speed.set, thread.pitch, machine.stoppingTime ?? USUAL_STOPPING_TIME);
  const on = run.ok ? `; it runs on by up to ${lengthWithUnit(run.value, plan.units)}` : '';
  switch (machine.reverse) {
    case 'at once':
      return 'To back out: reverse at the depth.';
    case 'after stopping':
      return `To back out: stop, let the spindle come to rest, then reverse${on}.`;
    case 'never':
      return `This spindle never reverses: stop short${on}, then turn it back by hand.`;
    default:
      return machine.reverse satisfies never;
  }
}

/** The same in the fewest words, for a screen that has no row for more; '' where no tap is driven by a spindle. */
export function backOutBrief(machine: ResolvedMachine | undefined, cut: ResolvedCut | null): string {
  if (cut?.thread == null || cut.thread.byHand || machine === undefined) return '';
  switch (machine.reverse) {
    case 'at once':
      return 'TAP: reverse at the depth';
    case 'after stopping':
      return 'TAP: stop first, then reverse';
    case 'never':
      return 'TAP: stop short, it never reverses';
    default:
      return machine.reverse satisfies never;
  }
}
