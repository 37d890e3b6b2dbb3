import { isFirstOfSetup, once, pathOf } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A zero as it is usually found, to be put right by the user. */
const ZEROS = {
  X: 'x: { how: stop only, against: stop }',
  Y: 'y: { how: edge finder, tip: 10 mm, against: fixed jaw }',
  Z: 'z: { how: feeler, feeler: 0.05 mm }',
} as const;

/** Coordinates without a zero. */
export const noZero: Rule = {
  code: 'no-zero',
  severity: 'warn',
  catches:
    'Points or passes on the mill in a setup that does not say where X or Y is zero, or depths without a Z zero.',
  example: 'operation 60: the setup "holes" does not say how Y finds its zero',
  find: (ask) =>
    once(
      ask.operations.filter(isFirstOfSetup).flatMap((operation): readonly Hit[] => {
        const { setup, resolved, work } = operation;
        if (resolved.station !== 'mill' || setup === undefined) return [];
        const places = resolved.cuts.flatMap((cut) => [...cut.points, ...cut.passes]);
        if (places.length === 0) return [];
        const deep = places.some((place) => place.z !== null);
        const lacking = (['X', 'Y', 'Z'] as const).filter(
          (axis) => ({ X: setup.x, Y: setup.y, Z: deep && work.setup !== undefined ? setup.zZero : '' })[axis] === null,
        );
        if (lacking.length === 0) return [];
        return [
          {
            operation: resolved.number,
            path: pathOf(operation, 'setup'),
            message: `the setup "${setup.id}" does not say how ${lacking.join(' and ')} ${lacking.length === 1 ? 'finds its' : 'find their'} zero`,
            tryThis: `add to its "zero:" ${lacking.map((axis) => `"${ZEROS[axis]}"`).join(', ')}, or as you find it`,
          },
        ];
      }),
    ),
};
