import { isUpright, once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A point that is not on the part. */
export const outsidePart: Rule = {
  code: 'outside-part',
  severity: 'stop',
  catches: 'A point that does not lie over the part: a sign, a slipped digit, or a part turned the other way.',
  example: 'operation 70: "holes 3" at X 70, Y -15 lies outside the part, which reaches from X 0 to 60 and Y -30 to 0',
  find: (ask) =>
    once(
      ask.visits.flatMap((visit): readonly Hit[] => {
        const setup = visit.operation.setup;
        if (setup === undefined && isUpright(ask, visit)) return [];
        const box = setup === undefined ? drawnBox(ask.plan.part) : setup.outline;
        const at = setup === undefined ? visit.drawn : visit.point;
        const inside = at.x > box.x0 && at.x < box.x1 && at.y > box.y0 && at.y < box.y1;
        if (inside) return [];
        const where = `X ${ask.show(box.x0)} to ${ask.show(box.x1)} and Y ${ask.show(box.y0)} to ${ask.show(box.y1)}`;
        return [
          {
            operation: visit.operation.resolved.number,
            path: visit.path,
            message: `"${visit.point.name}" at X ${ask.show(at.x)}, Y ${ask.show(at.y)} lies outside the part, which reaches from ${where}`,
            tryThis:
              'look at the sign: below a datum at the rear every Y is negative; left of one at the right every X',
          },
        ];
      }),
    ),
};

/** The part as drawn, from its datum corner. */
function drawnBox(part: { length: number; width: number; datum?: string | undefined }) {
  const datum = part.datum ?? 'left front';
  const x0 = datum.startsWith('left') ? 0 : -part.length;
  const y0 = datum.endsWith('front') ? 0 : -part.width;
  return { x0, x1: x0 + part.length, y0, y1: y0 + part.width };
}
