import { judgePowerTapping, type PowerTapping, USUAL_STOPPING_TIME } from '../../../shop/power-tapping.ts';
import { asMm, type Mm } from '../../../shop/quantities.ts';
import { formatTrimmed } from '../../../shop/units.ts';
import { blindThreadOf, threadOfCut } from '../../resolve/holes.ts';
import { pointOfTool } from '../../tool-point.ts';
import { boreBefore, type CheckAsk, once, type VisitSeen } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** What the room is to be larger than the run-on by, in a proposal. */
const A_LITTLE_MM = 0.5;

/** Tapping under power where the spindle does not stop in time. */
export const powerTapping: Rule = {
  code: 'power-tapping',
  severity: 'stop',
  also: ['warn'],
  catches:
    'A tap that runs on further than there is room below while the spindle stops, or is driven fast by a spindle that never reverses.',
  example: 'operation 80: at 210 rpm the tap runs on 7 mm in 2 s while the spindle stops; 3 mm are left',
  find: (ask) => once(ask.visits.filter((visit) => visit.cut.kind === 'tap').flatMap((visit) => judge(ask, visit))),
};

function judge(ask: CheckAsk, visit: VisitSeen): readonly Hit[] {
  const { cut, operation } = visit;
  const machine = operation.machine;
  const speed = cut.resolved.speed.set;
  const thread = threadOfCut(cut.work);
  const base = { operation: operation.resolved.number, path: visit.path };
  if (machine === undefined || speed === null || thread === undefined || cut.resolved.thread?.byHand === true)
    return [];
  const room = roomLeft(ask, visit);
  if (machine.stoppingTime === null && machine.reverse === 'after stopping') {
    if (room === undefined) return [];
    const message = `${machine.name} reverses only after stopping, and its stopping time is not known`;
    return [
      {
        ...base,
        severity: 'warn',
        message,
        tryThis: 'time it at the tapping speed and add "stopping time:" to the machine',
      },
    ];
  }
  const stoppingTime = machine.stoppingTime ?? USUAL_STOPPING_TIME;
  const run = { speed, pitch: thread.pitch, reverse: machine.reverse, stoppingTime };
  const verdict = judgePowerTapping(room === undefined ? run : { ...run, runOutLeft: asMm(Math.max(0, room)) });
  if (!verdict.ok) return [];
  if (verdict.value.kind === 'by hand') {
    const message = `${machine.name} never reverses, and at ${speed} rpm it is not stopped in time: ${thread.name} cannot be tapped under power`;
    return [{ ...base, message, tryThis: 'tap by hand ("by hand: yes"), guided in the spindle or at the bench' }];
  }
  return verdict.value.kind === 'runs too far'
    ? [{ ...base, ...wordsFor(ask, verdict.value, speed, stoppingTime) }]
    : [];
}

function wordsFor(ask: CheckAsk, verdict: Extract<PowerTapping, { runsOn: Mm }>, speed: number, stopping: number) {
  const highest = 'highestSpeed' in verdict ? verdict.highestSpeed : undefined;
  const message = `at ${speed} rpm the tap runs on ${ask.show(verdict.runsOn)} in the ${formatTrimmed(stopping, 1)} s while the spindle stops; ${ask.show(verdict.left ?? 0)} are left`;
  const slower = highest === undefined || highest < 1 ? '' : `turn at most ${formatTrimmed(Math.floor(highest), 0)}, `;
  const more = ask.show(verdict.runsOn - (verdict.left ?? 0) + A_LITTLE_MM);
  const tryThis = `${slower}drill ${more} deeper, or tap by hand ("by hand: yes")`;
  return { message, tryThis };
}

/** Room below the tip of the tap at its depth, down to where the hole has its full diameter; undefined in a through hole, which has air under it. */
function roomLeft(ask: CheckAsk, visit: VisitSeen): number | undefined {
  const point = visit.cut.work.points[visit.cut.resolved.points.indexOf(visit.point)];
  const thread = point === undefined ? undefined : blindThreadOf(ask.plan, { cut: visit.cut.work, point });
  const drilled = boreBefore(ask, visit, ['drill']);
  if (thread === undefined) return undefined;
  if (drilled?.point.z == null) return thread.clearance;
  // A tap does not go into the cone that the drill leaves: it stands on its rim.
  const cone = drilled.cut.tool === undefined ? 0 : pointOfTool(drilled.cut.tool);
  return -drilled.point.z - cone - (thread.fullThread + thread.leadThreads * thread.pitch);
}
