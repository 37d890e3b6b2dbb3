import { pointOfTool } from '../../tool-point.ts';
import { writeLength } from '../advice.ts';
import { boreBefore, type CheckAsk, once, thicknessAt, type VisitSeen } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A reamer that comes to the bottom of its hole. */
export const reamDeep: Rule = {
  code: 'ream-deep',
  severity: 'stop',
  catches: 'A reamer that goes deeper than the full diameter of the hole that was drilled for it, and bottoms.',
  example: 'operation 50: the reamer goes 16.5 mm deep; the hole is drilled 15 mm',
  find: (ask) => once(ask.visits.filter((visit) => visit.cut.kind === 'ream').flatMap((visit) => judge(ask, visit))),
};

function judge(ask: CheckAsk, visit: VisitSeen): readonly Hit[] {
  const drilled = boreBefore(ask, visit, ['drill']);
  const tool = drilled?.cut.tool;
  if (drilled === undefined || drilled.point.z === null || visit.point.z === null || tool?.diameter == null) return [];
  // Drilled from the other face the two depths are not of one side.
  if ((drilled.operation.work.setup?.lies ?? '') !== (visit.operation.work.setup?.lies ?? '')) return [];
  const full = -drilled.point.z - pointOfTool(tool);
  const deep = -visit.point.z;
  if (full >= thicknessAt(drilled.operation) - 1e-6 || deep <= full + 1e-6) return [];
  return [
    {
      operation: visit.operation.resolved.number,
      path: visit.path,
      message: `the reamer goes ${ask.show(deep)} deep; the hole is drilled ${ask.show(full)} deep at full diameter`,
      tryThis: `drill it "depth: ${writeLength(ask, deep, 'up')}" or deeper, or ream less`,
    },
  ];
}
