import type { Mm } from '../../../shop/quantities.ts';
import { formatLength } from '../../../shop/units.ts';
import { isFirstOfSetup, once, pathOf } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** Points are approached as the zero was touched. */
export const approachSide: Rule = {
  code: 'approach-side',
  severity: 'note',
  catches: 'Dials with backlash: every point is reached from the side from which the zero was touched.',
  example:
    'operation 60: X was touched going left and Y going away; come to every point the same way (backlash .008 in and .006 in)',
  find: (ask) =>
    once(
      ask.operations.filter(isFirstOfSetup).flatMap((operation): readonly Hit[] => {
        const { machine, setup } = operation;
        const words = (['x', 'y'] as const).flatMap((axis): readonly string[] => {
          const [reading, zero] = [machine?.[axis], setup?.[axis]];
          if (reading?.kind !== 'dial' || reading.backlash <= 0 || zero?.touchedGoing == null) return [];
          const way = WAYS[`${axis}${zero.touchedGoing}`];
          return [
            `${axis.toUpperCase()} was touched going ${way} (backlash ${formatLength(reading.backlash as Mm, ask.plan.units)})`,
          ];
        });
        if (words.length === 0) return [];
        const message = `${words.join(', ')}: come to every point the same way, else every hole is out by that much`;
        return [{ operation: operation.resolved.number, path: pathOf(operation, 'setup'), message, tryThis: '' }];
      }),
    ),
};

const WAYS: Readonly<Record<string, string>> = { 'x+': 'right', 'x-': 'left', 'y+': 'away', 'y-': 'towards you' };
