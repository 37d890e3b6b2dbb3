import { allCuts, once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A thread tapped by hand because the spindle does not reverse. */
export const handTap: Rule = {
  code: 'hand-tap',
  severity: 'note',
  catches: 'A thread that is tapped by hand because the machine cannot reverse.',
  example: 'operation 110: no machine of this plan reverses; the thread is tapped by hand',
  find: (ask) =>
    once(
      allCuts(ask).flatMap(({ operation, cut }): readonly Hit[] => {
        const mills = ask.resolved.machines.filter(
          (machine) => machine.station === 'mill' || machine.station === 'pillar drill',
        );
        const reverses = mills.some((machine) => machine.reverse !== 'never');
        if (cut.resolved.thread?.byHand !== true || mills.length === 0 || reverses) return [];
        const message = `no spindle of this plan reverses; ${cut.resolved.thread.name} is tapped by hand`;
        return [{ operation: operation.resolved.number, path: cut.path, message, tryThis: '' }];
      }),
    ),
};
