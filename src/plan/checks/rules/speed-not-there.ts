import { asRpm } from '../../../shop/quantities.ts';
import { chooseSpeed } from '../../../shop/speeds.ts';
import { machineSpeeds } from '../../resolve/speeds.ts';
import { allCuts } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** How near a stated speed must be to one that the machine has. */
const SAME_RPM = 0.5;

/** A stated speed that cannot be set. */
export const speedNotThere: Rule = {
  code: 'speed-not-there',
  severity: 'stop',
  catches: 'A spindle speed that the machine does not have.',
  example: 'operation 30: 900 rpm is not a speed of Bench mill (80, 130, 210, 340, 540, 860, 1380, 2200)',
  find: (ask) =>
    allCuts(ask).flatMap(({ operation, cut }): readonly Hit[] => {
      const stated = cut.work.plan.speed;
      const speeds = machineSpeeds(operation.work.machine);
      if (stated === undefined || speeds === undefined || operation.machine === undefined) return [];
      const there =
        speeds.kind === 'steps'
          ? speeds.steps.some((step) => Math.abs(step - stated) <= SAME_RPM)
          : stated >= speeds.slowest - SAME_RPM && stated <= speeds.fastest + SAME_RPM;
      if (there) return [];
      const list = speeds.kind === 'steps' ? speeds.steps.join(', ') : `${speeds.slowest} to ${speeds.fastest}`;
      const choice = chooseSpeed(asRpm(stated), speeds);
      const near = !choice.ok ? null : choice.value.kind === 'chosen' ? choice.value.rpm : choice.value.slowest;
      return [
        {
          operation: operation.resolved.number,
          path: [...cut.path, 'speed'],
          message: `${stated} rpm is not a speed of ${operation.machine.name} (${list})`,
          tryThis:
            near === null
              ? 'state a speed that it has'
              : `write "speed: ${near}", or leave the speed out to have it worked out`,
        },
      ];
    }),
};
