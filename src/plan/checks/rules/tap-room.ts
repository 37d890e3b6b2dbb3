import { blindThreadOf } from '../../resolve/holes.ts';
import { pointOfTool } from '../../tool-point.ts';
import { boreBefore, type CheckAsk, once, thicknessAt, type VisitSeen } from '../ask.ts';
import { opensInto } from '../bodies.ts';
import type { Hit, Rule } from '../finding.ts';

/** What may lack before it is said: less than a hand feels. */
const HAIR_MM = 0.02;

/** A tap that would bottom. */
export const tapRoom: Rule = {
  code: 'tap-room',
  severity: 'stop',
  also: ['warn'],
  catches:
    'A blind hole without room for the lead of the tap below the full thread, or a through thread in a blind hole.',
  example: 'operation 80: 12 mm of thread and a lead of 5 mm need 17 mm of full diameter; it is drilled 14 mm',
  find: (ask) => once(ask.visits.filter((visit) => visit.cut.kind === 'tap').flatMap((visit) => judge(ask, visit))),
};

function judge(ask: CheckAsk, visit: VisitSeen): readonly Hit[] {
  const drilled = boreBefore(ask, visit, ['drill']);
  const tool = drilled?.cut.tool;
  if (drilled === undefined || drilled.point.z === null || tool?.diameter == null) return [];
  const full = -drilled.point.z - pointOfTool(tool);
  if (full >= thicknessAt(drilled.operation)) return [];
  const number = visit.operation.resolved.number;
  const index = visit.cut.resolved.points.indexOf(visit.point);
  const point = visit.cut.work.points[index];
  const thread = point === undefined ? undefined : blindThreadOf(ask.plan, { cut: visit.cut.work, point });
  if (thread === undefined) {
    const message = `the thread goes through, but the hole is drilled ${ask.show(full)} deep`;
    return [
      {
        operation: number,
        path: visit.path,
        message,
        tryThis: 'write "depth: through" at the drill, or state the "full thread:" of a blind hole',
      },
    ];
  }
  const lead = thread.leadThreads * thread.pitch;
  const needed = thread.fullThread + lead;
  if (opensInto(ask, drilled, full) && opensInto(ask, drilled, needed)) return [];
  if (full >= needed + thread.clearance - HAIR_MM) return [];
  const short = full < needed - HAIR_MM;
  const message = `${ask.show(thread.fullThread)} of thread and a lead of ${ask.show(lead)} need ${ask.show(needed)} of full diameter; it is drilled ${ask.show(full)}${short ? '' : `, which leaves less than ${ask.show(thread.clearance)} below the tap`}`;
  return [
    {
      operation: number,
      path: drilled.path,
      severity: short ? 'stop' : 'warn',
      message,
      tryThis: `write "depth: for the tap" (${ask.show(needed + thread.clearance)}), or take a tap with a shorter lead`,
    },
  ];
}
