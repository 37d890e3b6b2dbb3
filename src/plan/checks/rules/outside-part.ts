import { writeLength } from '../advice.ts';
import { allCuts, type CheckAsk, isUpright, once, type VisitSeen } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A point that is not on the part. */
export const outsidePart: Rule = {
  code: 'outside-part',
  severity: 'stop',
  catches:
    'A point or line cut that does not lie over the part: a sign, a slipped digit, or a part turned the other way.',
  example: 'operation 70: "holes 3" at X 70, Y -15 lies outside the part, which reaches from X 0 to 60 and Y -30 to 0',
  find: (ask) =>
    once([
      ...passesInAir(ask),
      ...ask.visits.flatMap((visit): readonly Hit[] => {
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
            tryThis: signAdvice(ask, visit.drawn),
          },
        ];
      }),
    ]),
};

/** Line cuts that come nowhere near the part, or its load. */
function passesInAir(ask: CheckAsk): readonly Hit[] {
  return allCuts(ask).flatMap(({ operation, cut }) => {
    const { setup } = operation;
    if (setup === undefined || cut.work.plan.lines === undefined) return [];
    const radius = (cut.tool?.diameter ?? 0) / 2 + 1e-6;
    const [dx, dy] = [setup.places.map((place) => place.dx), setup.places.map((place) => place.dy)];
    const { x0, x1, y0, y1 } = setup.outline;
    const beyond = (from: number, to: number, low: number, high: number) =>
      Math.max(from, to) < low - radius || Math.min(from, to) > high + radius;
    return cut.resolved.passes.flatMap((pass): readonly Hit[] => {
      const besideX = beyond(pass.from.x, pass.to.x, x0 + Math.min(...dx), x1 + Math.max(...dx));
      const besideY = beyond(pass.from.y, pass.to.y, y0 + Math.min(...dy), y1 + Math.max(...dy));
      if (!besideX && !besideY) return [];
      const axis = besideX ? 'X' : 'Y';
      const [low, high] = besideX ? [x0, x1] : [y0, y1];
      const at = besideX ? pass.from.x : pass.from.y;
      return [
        {
          operation: operation.resolved.number,
          path: cut.path,
          message: `"${pass.name}" at ${axis} ${ask.show(at)} cuts air; the part reaches from ${axis} ${ask.show(low)} to ${ask.show(high)}`,
          tryThis: 'look at the sign of "at:", "from:" and "to:" of the line, and at the datum of the part',
        },
      ];
    });
  });
}

/** The signs with which it would lie on the part, when there are such. */
function signAdvice(ask: CheckAsk, { x, y }: VisitSeen['drawn']): string {
  const box = drawnBox(ask.plan.part);
  const signs = [
    { x, y: -y },
    { x: -x, y },
    { x: -x, y: -y },
  ];
  const hit = signs.find((at) => at.x > box.x0 && at.x < box.x1 && at.y > box.y0 && at.y < box.y1);
  if (hit === undefined) return 'look at its coordinates, and at the datum of the part and the end that is zero';
  return `look at the sign: with "x: ${writeLength(ask, hit.x)}, y: ${writeLength(ask, hit.y)}" it lies on the part`;
}

/** The part as drawn, from its datum corner. */
function drawnBox(part: { length: number; width: number; datum?: string | undefined }) {
  const datum = part.datum ?? 'left front';
  const x0 = datum.startsWith('left') ? 0 : -part.length;
  const y0 = datum.endsWith('front') ? 0 : -part.width;
  return { x0, x1: x0 + part.length, y0, y1: y0 + part.width };
}
