import { writeLength } from '../advice.ts';
import { hole, once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** What a spot may be wider than all that follows it: more is no broken edge but a countersink. A choice of ours. */
const WIDER_MM = 1;
const WIDER_SHARE = 0.25;

/** A spot that leaves a countersink round its hole. */
export const spotWide: Rule = {
  code: 'spot-wide',
  severity: 'note',
  catches:
    'A spot much wider than the hole, thread or cone that follows: it leaves a countersink round a hole that is drawn sharp.',
  example:
    'operation 60: the spot of 9 mm is wider than all that follows at "holes 1", 5 mm: a countersink stays round it',
  find: (ask) =>
    once(
      ask.visits
        .filter(({ cut }) => cut.kind === 'spot')
        .flatMap((visit): readonly Hit[] => {
          const index = visit.cut.resolved.points.indexOf(visit.point);
          const top = visit.cut.work.points[index]?.top ?? visit.cut.resolved.topDiameter;
          const { after } = hole(ask, visit);
          const widest = Math.max(0, ...after.map(({ cut }) => cut.resolved.topDiameter ?? cut.tool?.diameter ?? 0));
          const most = widest + Math.max(WIDER_MM, widest * WIDER_SHARE);
          if (top === null || widest === 0 || top <= most) return [];
          return [
            {
              operation: visit.operation.resolved.number,
              path: visit.path,
              message: `the spot of ${ask.show(top)} is wider than all that follows at "${visit.point.name}", ${ask.show(widest)}: a countersink stays round it`,
              tryThis: `if the hole is drawn sharp, spot at most "top: ${writeLength(ask, widest, 'down')}"`,
            },
          ];
        }),
    ),
};
