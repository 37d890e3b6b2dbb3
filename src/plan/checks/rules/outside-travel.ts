import type { CheckAsk, OperationSeen } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A setup that asks for more travel than there is. */
export const outsideTravel: Rule = {
  code: 'outside-travel',
  severity: 'stop',
  catches:
    'Points or passes further apart than the table travels, or a depth beyond the travel of the spindle or knee.',
  example: 'operation 30: the passes span 480 mm along X; Bench mill travels 400 mm',
  find: (ask) =>
    ask.operations.flatMap((operation): readonly Hit[] => {
      const travel = operation.machine?.travel;
      if (travel == null || operation.setup === undefined) return [];
      const depth = tooDeep(ask, operation, travel.z);
      const spread = operation.setup.places.slice(0, operation.resolved.loadSize);
      const places = operation.resolved.cuts.flatMap((cut) => [
        ...cut.points.flatMap((point) => spread.map(({ dx, dy }) => ({ x: point.x + dx, y: point.y + dy }))),
        ...(cut.loadPasses ?? cut.passes).flatMap((pass) => [pass.from, pass.to]),
      ]);
      const across = (['x', 'y'] as const).flatMap((axis): readonly Hit[] => {
        const all = places.map((place) => place[axis]);
        if (all.length === 0) return [];
        const span = Math.max(...all) - Math.min(...all);
        if (span <= travel[axis]) return [];
        return [
          {
            operation: operation.resolved.number,
            path: ['operations', operation.index],
            message: `the cuts span ${ask.show(span)} along ${axis.toUpperCase()}; ${operation.machine?.name ?? 'the machine'} travels ${ask.show(travel[axis])}`,
            tryThis: `divide it over two setups, turn the part on the table, or take a machine that travels ${ask.show(span)}`,
          },
        ];
      });
      return [...across, ...depth];
    }),
};

/** How far a tool goes down, the room to draw it out not counted: that depends on where knee or head stand. */
function tooDeep(ask: CheckAsk, operation: OperationSeen, travel: number): readonly Hit[] {
  const places = operation.resolved.cuts.flatMap((cut) => [...cut.points, ...cut.passes]);
  const deep = Math.max(0, ...places.map((place) => -(place.z ?? 0)));
  if (deep <= travel) return [];
  const message = `a tool goes ${ask.show(deep)} down; ${operation.machine?.name ?? 'the machine'} travels ${ask.show(travel)}`;
  const tryThis = 'come from both sides, or move the table up between';
  return [{ operation: operation.resolved.number, path: ['operations', operation.index], message, tryThis }];
}
