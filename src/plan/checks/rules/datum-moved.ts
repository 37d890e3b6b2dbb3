import { zeroCorner } from '../../resolve/frames.ts';
import { type CheckAsk, lastBefore, type OperationSeen, once, type VisitSeen } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

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

type End = 'left' | 'right' | 'front' | 'rear';
const OPPOSITE: Readonly<Record<End, End>> = { left: 'right', right: 'left', front: 'rear', rear: 'front' };
const EDGE = { x: 'end', y: 'edge' } as const;

/** Where an end of the drawing lies in an operation. */
function lying({ work }: OperationSeen, axis: 'x' | 'y', drawn: End): End {
  return (axis === 'x' ? work.frame.signX : work.frame.signY) === -1 ? OPPOSITE[drawn] : drawn;
}

/** The end of the part as drawn that the zero of an axis touches; undefined when it is found in the part itself. */
function endOf(ask: CheckAsk, operation: OperationSeen, axis: 'x' | 'y'): End | undefined {
  const { setup } = operation.work;
  const how = setup?.zero?.[axis]?.how;
  if (setup === undefined || how === undefined || how === 'indicator' || how === 'scribed line') return undefined;
  const jaw = operation.machine?.vice?.fixedJaw ?? 'rear';
  const corner = zeroCorner(setup, jaw, ask.plan.part.datum ?? 'left front');
  const turned = (axis === 'x' ? operation.work.frame.signX : operation.work.frame.signY) === -1;
  const end = axis === 'x' ? corner.x.end : corner.y.end;
  const other = OPPOSITE[end];
  return turned ? other : end;
}
