import { writeLength } from '../advice.ts';
import { type CheckAsk, isFirstOfSetup, type OperationSeen, once, thicknessAt } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';
import { radiusAbove } from '../jaws.ts';

/** A stop that does not touch the part, or that is cut. */
export const stopHeight: Rule = {
  code: 'stop-height',
  severity: 'stop',
  catches: 'A stop too low to touch the part on its parallels, or so high that a cut runs into it.',
  example: 'operation 60: the stop is 20 mm high and the part lies on parallels of 35 mm: it does not touch the part',
  find: (ask) => once(ask.operations.flatMap((operation) => judge(ask, operation))),
};

function judge(ask: CheckAsk, operation: OperationSeen): readonly Hit[] {
  const { setup, resolved } = operation;
  const height = setup?.stop?.height;
  if (setup === undefined || setup.stop === null || height === null || height === undefined) return [];
  const base = setup.parallels?.height ?? 0;
  const path = ['setups', setup.id, 'stop', 'height'];
  const number = resolved.number;
  if (height <= base) {
    // It is the same stop in every operation of the setup, and said once.
    if (!ask.operations.filter(isFirstOfSetup).includes(operation)) return [];
    const message = `the stop is ${ask.show(height)} high and the part lies on parallels of ${ask.show(base)}: it does not touch the part`;
    return [
      {
        operation: number,
        path,
        message,
        tryThis: `make it higher than the parallels, from the bed of the vice: "height: ${writeLength(ask, base + thicknessAt(operation) / 2, 'down')}"`,
      },
    ];
  }
  const top = base + thicknessAt(operation);
  const left = setup.stop.side === 'left';
  const met = operation.cuts.flatMap((cut): readonly number[] => {
    // Over the stop a cone is only as wide as it is there.
    const reaches = (x: number, z: number) => {
      const radius = radiusAbove(cut, height - top - z);
      return left ? x - radius < setup.outline.x0 - 1e-6 : x + radius > setup.outline.x1 + 1e-6;
    };
    return [
      ...cut.resolved.points.flatMap((point) => (point.z !== null && reaches(point.x, point.z) ? [top + point.z] : [])),
      ...cut.resolved.passes.flatMap((pass) =>
        reaches(pass.from.x, pass.z) || reaches(pass.to.x, pass.z) ? [top + pass.z] : [],
      ),
    ];
  });
  const lowest = Math.min(...met);
  if (lowest >= height - 1e-6) return [];
  const message = `a cut runs over the stop on the ${setup.stop.side}, which stands ${ask.show(height)} high; the part reaches to ${ask.show(top)}`;
  return [
    {
      operation: number,
      path,
      message,
      tryThis: `take a lower stop ("height: ${writeLength(ask, lowest, 'down')}"), or put it at the other end`,
    },
  ];
}
