/** Which end or edge of the part, as drawn, the zero of a setup touches. */
import { zeroCorner } from '../resolve/frames.ts';
import type { CheckAsk, OperationSeen } from './ask.ts';

type End = 'left' | 'right' | 'front' | 'rear';
const OPPOSITE: Readonly<Record<End, End>> = { left: 'right', right: 'left', front: 'rear', rear: 'front' };
/** What the ends of an axis are called. */
export const EDGE = { x: 'end', y: 'edge' } as const;

/** Where an end of the drawing lies in an operation. */
export function lying({ work }: OperationSeen, axis: 'x' | 'y', drawn: End): End {
  return (axis === 'x' ? work.frame.signX : work.frame.signY) === -1 ? OPPOSITE[drawn] : drawn;
}

/** The end of the part as drawn that the zero of an axis touches; undefined when it is found in the part itself. */
export function endOf(ask: CheckAsk, operation: OperationSeen, axis: 'x' | 'y'): End | undefined {
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
