import { type CheckAsk, lastBefore, once, type VisitSeen } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';
import { EDGE, endOf, lying } from '../touched-end.ts';

/** Tools that must meet the hole of another. */
const FITS: ReadonlySet<string> = new Set(['drill', 'ream', 'tap', 'counterbore', 'countersink']);

/** Two operations on one hole, measured from different ends. */
export const datumMoved: Rule = {
  code: 'datum-moved',
  severity: 'warn',
  catches: 'One hole worked in two setups whose zeros touch different ends of the part: its length comes between them.',
  example: 'operation 90: "holes 1" is reamed from the right end; operation 70 drilled it from the left end',
  find: (ask) => once(ask.visits.flatMap((visit) => judge(ask, visit))),
};

function judge(ask: CheckAsk, visit: VisitSeen): readonly Hit[] {
  if (!FITS.has(visit.cut.kind) || visit.operation.setup === undefined) return [];
  const before = lastBefore(ask, visit, ({ cut, operation }) => FITS.has(cut.kind) && operation.setup !== undefined);
  if (before === undefined || before.operation.resolved.setup === visit.operation.resolved.setup) return [];
  return (['x', 'y'] as const).flatMap((axis): readonly Hit[] => {
    const [now, then] = [endOf(ask, visit.operation, axis), endOf(ask, before.operation, axis)];
    if (now === undefined || then === undefined || now === then) return [];
    return [
      {
        operation: visit.operation.resolved.number,
        path: visit.path,
        message: `"${visit.point.name}" is measured from the ${now} ${EDGE[axis]} here; operation ${before.operation.resolved.number} measured it from the ${then} ${EDGE[axis]}: the size of the part comes between`,
        tryThis: `touch the ${lying(visit.operation, axis, then)} here ("end: ${lying(visit.operation, axis, then)}, side: ${lying(visit.operation, axis, then)}" in the zero of ${axis.toUpperCase()}), or find zero in the hole with an indicator`,
      },
    ];
  });
}
