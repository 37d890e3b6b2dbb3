import { slowestSpeed } from '../../../shop/speeds.ts';
import { formatTrimmed } from '../../../shop/units.ts';
import { machineSpeeds } from '../../resolve/speeds.ts';
import { allCuts } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** The slowest speed may be this much above the computed one before it is more than a note. */
const A_LITTLE = 1.1;

/** A machine that cannot turn slowly enough. */
export const slowestTooFast: Rule = {
  code: 'slowest-too-fast',
  severity: 'warn',
  also: ['note'],
  catches: 'The slowest speed of the machine is faster than the tool should turn.',
  example: 'operation 90: the slowest speed, 450, is 2.4 times the 187 that the countersink should turn',
  find: (ask) =>
    allCuts(ask).flatMap(({ operation, cut }): readonly Hit[] => {
      const { set, computed } = cut.resolved.speed;
      const speeds = machineSpeeds(operation.work.machine);
      if (set === null || computed === null || speeds === undefined) return [];
      const slowest = slowestSpeed(speeds);
      if (slowest <= computed * (1 + 1e-9)) return [];
      return [
        {
          operation: operation.resolved.number,
          path: cut.path,
          severity: slowest > computed * A_LITTLE ? 'warn' : 'note',
          message: `the slowest speed, ${slowest}, is ${formatTrimmed(slowest / computed, 2)} times the ${formatTrimmed(computed, 0)} that the tool should turn`,
          tryThis: `take a machine that turns ${formatTrimmed(Math.floor(computed), 0)} or slower, a smaller tool, or one that stands more ("material: carbide")`,
        },
      ];
    }),
};
