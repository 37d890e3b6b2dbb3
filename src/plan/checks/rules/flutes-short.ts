import { jobberFlutes } from '../../../shop/jobber-flutes.ts';
import { writeLength } from '../advice.ts';
import { allCuts, once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A hole deeper than the flutes of the drill that is usually at hand. */
export const flutesShort: Rule = {
  code: 'flutes-short',
  severity: 'note',
  catches: 'A hole deeper than the flutes of a common (jobber) drill of that size, where the plan states no reach.',
  example: 'operation 70: the 5 mm drill goes 62 mm deep; the flutes of a jobber drill end at about 52 mm',
  find: (ask) =>
    once(
      allCuts(ask).flatMap(({ operation, cut }): readonly Hit[] => {
        const said = cut.work.tool?.reach ?? cut.work.tool?.['stick out'];
        const diameter = cut.tool?.diameter;
        if (cut.kind !== 'drill' || cut.tool?.kind !== 'drill' || said !== undefined || diameter == null) return [];
        const flutes = jobberFlutes(diameter);
        const deep = Math.max(0, ...cut.resolved.points.map((point) => -(point.z ?? 0)));
        if (flutes === undefined || deep <= flutes) return [];
        return [
          {
            operation: operation.resolved.number,
            path: cut.path,
            message: `the ${cut.tool.name} goes ${ask.show(deep)} deep; the flutes of a jobber drill end at about ${ask.show(flutes)} (DIN 338, from memory)`,
            tryThis: `take a long one and say so ("reach: ${writeLength(ask, deep, 'up')}" or more), or come from both sides`,
          },
        ];
      }),
    ),
};
