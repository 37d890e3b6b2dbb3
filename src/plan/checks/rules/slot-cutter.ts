import { entryOf } from '../../resolve/context.ts';
import { writeLength } from '../advice.ts';
import { allCuts, once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** How much a cutter may cut over before it is said: less than its run-out. */
const HAIR_MM = 0.01;

/** A cutter that does not fit its slot. */
export const slotCutter: Rule = {
  code: 'slot-cutter',
  severity: 'stop',
  catches: 'A cutter wider than the slot that it is to mill, by its measured diameter where the plan gives one.',
  example: 'operation 80: the cutter measures 6.08 mm and the slot is 6 mm wide',
  find: (ask) =>
    once(
      allCuts(ask).flatMap(({ operation, cut }) =>
        (cut.work.plan.lines ?? []).flatMap((name): readonly Hit[] => {
          const line = entryOf(ask.plan.lines, name);
          const cutter = cut.tool?.diameter;
          if (line?.kind !== 'slot' || line.width === undefined || cutter == null) return [];
          if (cutter <= line.width + HAIR_MM) return [];
          return [
            {
              operation: operation.resolved.number,
              path: ['lines', name, 'width'],
              message: `the cutter measures ${ask.show(cutter)} and "${name}" is ${ask.show(line.width)} wide`,
              tryThis: `take a cutter that measures at most ${writeLength(ask, line.width, 'down')}; a wider slot is milled in the middle first, then to width on both walls`,
            },
          ];
        }),
      ),
    ),
};
