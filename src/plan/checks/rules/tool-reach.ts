import { writeLength } from '../advice.ts';
import { allCuts, once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A tool that is too short. */
export const toolReach: Rule = {
  code: 'tool-reach',
  severity: 'warn',
  catches:
    'A cut deeper than the stated reach of its tool, or than it stands out of its holder: the shank rubs, or the chuck meets the part.',
  example: 'operation 70: the 5 mm drill goes 62 mm deep and reaches 52 mm',
  find: (ask) =>
    once(
      allCuts(ask).flatMap(({ operation, cut }): readonly Hit[] => {
        const { reach: said, 'stick out': out } = cut.work.tool ?? {};
        const short = out !== undefined && out < (said ?? Number.POSITIVE_INFINITY);
        const reach = short ? out : said;
        const places = [...cut.resolved.points, ...cut.resolved.passes];
        const deep = Math.max(0, -(cut.resolved.z ?? 0), ...places.map((place) => -(place.z ?? 0)));
        if (reach === undefined || deep <= reach + 1e-6) return [];
        return [
          {
            operation: operation.resolved.number,
            path: cut.path,
            message: `the ${cut.tool?.name ?? 'tool'} goes ${ask.show(deep)} deep and ${short ? `stands ${ask.show(reach)} out of its holder` : `reaches ${ask.show(reach)}`}`,
            tryThis: `take a longer one ("${short ? 'stick out' : 'reach'}: ${writeLength(ask, deep, 'up')}" or more), or come from both sides`,
          },
        ];
      }),
    ),
};
