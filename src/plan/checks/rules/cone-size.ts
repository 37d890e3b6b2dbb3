import { writeLength } from '../advice.ts';
import { once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A cone wider than its tool. */
export const coneSize: Rule = {
  code: 'cone-size',
  severity: 'stop',
  catches: 'A top diameter larger than the tool, or smaller than the hole that is already there.',
  example: 'operation 60: a top of 9 mm is wanted; the spotting drill is 8 mm across',
  find: (ask) =>
    once(
      ask.visits.flatMap((visit): readonly Hit[] => {
        const index = visit.cut.resolved.points.indexOf(visit.point);
        const top = visit.cut.work.points[index]?.top ?? visit.cut.work.plan.top;
        const diameter = visit.cut.tool?.diameter;
        if (top === undefined || diameter == null || top <= diameter + 1e-6) return [];
        return [
          {
            operation: visit.operation.resolved.number,
            path: [...visit.path, 'top'],
            message: `a top of ${ask.show(top)} is wanted; ${visit.cut.tool?.name ?? 'the tool'} is ${ask.show(diameter)} across`,
            tryThis: `take a tool of at least that ("diameter: ${writeLength(ask, top, 'up')}"), or write "top: ${writeLength(ask, diameter, 'down')}"`,
          },
        ];
      }),
    ),
};
