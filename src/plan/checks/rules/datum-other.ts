import { type CheckAsk, isFirstOfSetup, type OperationSeen, once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';
import { sizeWords } from '../size-words.ts';
import { EDGE, endOf, lying } from '../touched-end.ts';

/** A setup that measures from another end than the drawing. */
export const datumOther: Rule = {
  code: 'datum-other',
  severity: 'note',
  catches:
    'Points wound to from another end or edge than the drawing measures from: each takes in the size of the part, and its tolerance.',
  example:
    'operation 60: Y is zero at the rear edge, the drawing measures from the front edge: every Y takes in the width, 30 mm +-0.2 mm',
  find: (ask) =>
    once(
      ask.operations
        .filter(isFirstOfSetup)
        .flatMap((operation) => [...judge(ask, operation, 'x'), ...judge(ask, operation, 'y')]),
    ),
};

function judge(ask: CheckAsk, operation: OperationSeen, axis: 'x' | 'y'): readonly Hit[] {
  const setup = operation.work.setup;
  const upright = setup?.lies === 'on edge' || setup?.lies === 'on end';
  const isPlaced = ask.operations.some(
    (one) =>
      one.resolved.setup === operation.resolved.setup &&
      one.work.cuts.some((cut) => cut.points.length > 0 || cut.plan.lines !== undefined),
  );
  const touched = endOf(ask, operation, axis);
  const [side, depth] = (ask.plan.part.datum ?? 'left front').split(' ') as ['left' | 'right', 'front' | 'rear'];
  const drawn = axis === 'x' ? side : depth;
  if (touched === undefined || upright || !isPlaced || touched === drawn) return [];
  const end = lying(operation, axis, drawn);
  const name = axis.toUpperCase();
  return [
    {
      operation: operation.resolved.number,
      path: ['setups', operation.resolved.setup ?? '', 'zero', axis],
      message: `${name} is zero at the ${touched} ${EDGE[axis]}, the drawing measures from the ${drawn} ${EDGE[axis]}: every ${name} takes in the ${sizeWords(ask, axis)}`,
      tryThis: `where that is too much, touch the other ${EDGE[axis]} ("end: ${end}, side: ${end}" in the zero of ${name}), or measure the part and correct`,
    },
  ];
}
