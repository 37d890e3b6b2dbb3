import { writeLength } from '../advice.ts';
import { allCuts, once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A tool that is too short. */
export const toolReach: Rule = {
  code: 'tool-reach',
  severity: 'warn',
  catches: 'A cut deeper than the stated reach of its tool: the shank rubs, or the chuck meets the part.',
  example: 'operation 70: the 5 mm drill goes 62 mm deep and reaches 52 mm',
  find: (ask) =>
    once(
      allCuts(ask).flatMap(({ operation, cut }): readonly Hit[] => {
        const reach = cut.work.tool?.reach;
        const places = [...cut.resolved.points, ...cut.resolved.passes];
        const deep = Math.max(0, -(cut.resolved.z ?? 0), ...places.map((place) => -(place.z ?? 0)));
        if (reach === undefined || deep <= reach + 1e-6) return [];
        return [
          {
            operation: operation.resolved.number,
            path: cut.path,
            message: `the ${cut.tool?.name ?? 'tool'} goes ${ask.show(deep)} deep and reaches ${ask.show(reach)}`,
            tryThis: `take a longer one ("reach: ${writeLength(ask, deep, 'up')}" or more), or come from both sides`,
          },
        ];
      }),
    ),
};
