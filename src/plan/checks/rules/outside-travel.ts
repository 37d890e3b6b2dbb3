import type { Hit, Rule } from '../finding.ts';

/** A setup that asks for more travel than there is. */
export const outsideTravel: Rule = {
  code: 'outside-travel',
  severity: 'stop',
  catches: 'Points or passes further apart than the table travels.',
  example: 'operation 30: the passes span 480 mm along X; Bench mill travels 400 mm',
  find: (ask) =>
    ask.operations.flatMap((operation): readonly Hit[] => {
      const travel = operation.machine?.travel;
      if (travel == null || operation.setup === undefined) return [];
      const places = operation.resolved.cuts.flatMap((cut) => [
        ...cut.points,
        ...cut.passes.flatMap((pass) => [pass.from, pass.to]),
      ]);
      const spread = operation.setup.places;
      return (['x', 'y'] as const).flatMap((axis): readonly Hit[] => {
        const offsets = spread.map((place) => (axis === 'x' ? place.dx : place.dy));
        const all = places.flatMap((place) =>
          offsets.map(
            (offset) => place[axis] + (operation.resolved.cuts.some((cut) => cut.passes.length > 0) ? 0 : offset),
          ),
        );
        if (all.length === 0) return [];
        const span = Math.max(...all) - Math.min(...all);
        if (span <= travel[axis]) return [];
        return [
          {
            operation: operation.resolved.number,
            path: ['operations', operation.index],
            message: `the cuts span ${ask.show(span)} along ${axis.toUpperCase()}; ${operation.machine?.name ?? 'the machine'} travels ${ask.show(travel[axis])}`,
            tryThis: 'divide it over two setups, or turn the part on the table',
          },
        ];
      });
    }),
};
