import { asSeconds } from '../../../shop/quantities.ts';
import { formatDuration, formatTrimmed } from '../../../shop/units.ts';
import { estimateOf } from '../../resolve/estimates.ts';
import { once, pathOf } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** How far a stated time may be from the computed one. */
const FACTOR = 3;

/** A stated time that is far from the computed one. */
export const estimateOff: Rule = {
  code: 'estimate-off',
  severity: 'note',
  catches: 'A stated time for a piece that differs from the computed one by more than a factor of 3.',
  example: 'operation 70: 10 s a piece is stated; clamping, winding and cutting come to 45 s',
  find: (ask) =>
    once(
      ask.operations.flatMap((operation): readonly Hit[] => {
        const { work, resolved } = operation;
        const stated = work.plan.estimate?.piece;
        if (stated === undefined || stated <= 0 || resolved.cuts.every((cut) => cut.speed.set === null)) return [];
        const free = { ...work, plan: { ...work.plan, estimate: undefined } };
        const computed = estimateOf(free, resolved.cuts, resolved.loadSize, false).piece;
        if (computed <= 0 || (stated <= computed * FACTOR && computed <= stated * FACTOR)) return [];
        const message = `${formatDuration(stated)} a piece is stated; clamping, winding and cutting come to ${formatDuration(asSeconds(computed))}`;
        return [
          {
            operation: resolved.number,
            path: pathOf(operation, 'estimate', 'piece'),
            message,
            tryThis: `keep it if you have timed it; else leave it out, or write "piece: ${formatTrimmed(computed, 0)} s"`,
          },
        ];
      }),
    ),
};
