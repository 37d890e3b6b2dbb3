import { type CheckAsk, isFirstOfSetup, type OperationSeen } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** Parts that overlap by less than this lie against each other. */
const HAIR_MM = 0.01;

/** Two places of a load in which the parts would lie in one another. */
export const placesOverlap: Rule = {
  code: 'places-overlap',
  severity: 'stop',
  catches: 'Places of a load or fixture that are nearer to each other than the part is long or wide.',
  example: 'operation 10: places "left" and "right" are 40 mm apart along X, and the part is 60 mm long there',
  find: (ask) => ask.operations.filter(isFirstOfSetup).flatMap((operation) => judge(ask, operation)),
};

function judge(ask: CheckAsk, operation: OperationSeen): readonly Hit[] {
  const { setup, work } = operation;
  if (setup === undefined || work.setup?.places === undefined) return [];
  const { x0, x1, y0, y1 } = setup.outline;
  const [wide, deep] = [x1 - x0, y1 - y0];
  const places = setup.places;
  for (const [at, one] of places.entries()) {
    const other = places.slice(0, at).find((before) => {
      const [byX, byY] = [wide - Math.abs(one.dx - before.dx), deep - Math.abs(one.dy - before.dy)];
      return byX > HAIR_MM && byY > HAIR_MM;
    });
    if (other === undefined) continue;
    const [apartX, apartY] = [Math.abs(one.dx - other.dx), Math.abs(one.dy - other.dy)];
    const alongX = wide - apartX <= deep - apartY;
    const [apart, size, axis] = alongX ? [apartX, wide, 'X'] : [apartY, deep, 'Y'];
    return [
      {
        operation: operation.resolved.number,
        path: ['setups', setup.id, 'places', at],
        message: `places "${other.name}" and "${one.name}" are ${ask.show(apart)} apart along ${axis}, and the part is ${ask.show(size)} there: the parts lie in one another`,
        tryThis: `look at "x:" and "y:" of the places; apart they must be ${ask.show(size)} or more along ${axis}`,
      },
    ];
  }
  return [];
}
