import { pointOfTool } from '../../tool-point.ts';
import { once, thicknessAt } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A point longer than the stock is thick. */
export const thinStock: Rule = {
  code: 'thin-stock',
  severity: 'note',
  catches: 'A drill whose point is longer than the stock is thick: it breaks through before it is guided and grabs.',
  example: 'operation 70: the point of the 20 mm drill is longer than the 3 mm of stock',
  find: (ask) =>
    once(
      ask.visits.flatMap((visit): readonly Hit[] => {
        const tool = visit.cut.tool;
        if (visit.cut.kind !== 'drill' || tool?.diameter == null) return [];
        const thickness = thicknessAt(visit.operation);
        if (pointOfTool(tool) <= thickness) return [];
        return [
          {
            operation: visit.operation.resolved.number,
            path: visit.path,
            message: `the point of ${tool.name} is longer than the ${ask.show(thickness)} of stock: it breaks through before it is guided`,
            tryThis: 'clamp it down on a backing of scrap and ease the feed',
          },
        ];
      }),
    ),
};
