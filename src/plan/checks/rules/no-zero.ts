import { once, pathOf } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** Coordinates without a zero. */
export const noZero: Rule = {
  code: 'no-zero',
  severity: 'warn',
  catches:
    'Points or passes on the mill in a setup that does not say where X or Y is zero, or depths without a Z zero.',
  example: 'operation 60: the setup "holes" does not say how Y finds its zero',
  find: (ask) =>
    once(
      ask.operations.flatMap((operation): readonly Hit[] => {
        const { setup, resolved, work } = operation;
        if (resolved.station !== 'mill' || setup === undefined) return [];
        const places = resolved.cuts.flatMap((cut) => [...cut.points, ...cut.passes]);
        if (places.length === 0) return [];
        const deep = places.some((place) => place.z !== null);
        const lacking = [
          setup.x === null ? 'X' : null,
          setup.y === null ? 'Y' : null,
          deep && setup.zZero === null && work.setup !== undefined ? 'Z' : null,
        ].filter((axis) => axis !== null);
        if (lacking.length === 0) return [];
        return [
          {
            operation: resolved.number,
            path: pathOf(operation, 'setup'),
            message: `the setup "${setup.id}" does not say how ${lacking.join(' and ')} ${lacking.length === 1 ? 'finds its' : 'find their'} zero`,
            tryThis: `add "zero:" with ${lacking.map((axis) => axis.toLowerCase()).join(', ')} to the setup`,
          },
        ];
      }),
    ),
};
