import { judgePowerTapping, type PowerTapping } from '../../../shop/power-tapping.ts';
import { asMm, type Mm } from '../../../shop/quantities.ts';
import { formatTrimmed } from '../../../shop/units.ts';
import { blindThreadOf, threadOfCut } from '../../resolve/holes.ts';
import { type CheckAsk, hole, once, type VisitSeen } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** Tapping under power where the spindle does not stop in time. */
export const powerTapping: Rule = {
  code: 'power-tapping',
  severity: 'stop',
  catches: 'A tap driven by a spindle that never reverses, or runs on further while it stops than there is room below.',
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
  if (machine.reverse === 'never') {
    const message = `${machine.name} never reverses: ${thread.name} cannot be tapped under power`;
    return [{ ...base, message, tryThis: 'tap by hand ("by hand: yes"), guided in the spindle or at the bench' }];
  }
  const room = roomLeft(ask, visit);
  if (machine.stoppingTime === null) {
    if (machine.reverse === 'at once' || room === undefined) return [];
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
  const run = { speed, pitch: thread.pitch, reverse: machine.reverse, stoppingTime: machine.stoppingTime };
  const verdict = judgePowerTapping(room === undefined ? run : { ...run, runOutLeft: asMm(Math.max(0, room)) });
  if (!verdict.ok || verdict.value.kind !== 'runs too far') return [];
  return [{ ...base, ...wordsFor(ask, verdict.value, speed, machine.stoppingTime) }];
}

function wordsFor(ask: CheckAsk, verdict: Extract<PowerTapping, { runsOn: Mm }>, speed: number, stopping: number) {
  const highest = 'highestSpeed' in verdict ? verdict.highestSpeed : undefined;
  const message = `at ${speed} rpm the tap runs on ${ask.show(verdict.runsOn)} in the ${formatTrimmed(stopping, 1)} s while the spindle stops; ${ask.show(verdict.left ?? 0)} are left`;
  const tryThis =
    highest === undefined || highest < 1
      ? 'drill deeper, or tap by hand'
      : `turn at most ${formatTrimmed(Math.floor(highest), 0)}, drill deeper, or tap by hand`;
  return { message, tryThis };
}

/** Room below the tip of the tap at its depth; undefined in a through hole, which has air under it. */
function roomLeft(ask: CheckAsk, visit: VisitSeen): number | undefined {
  const point = visit.cut.work.points[visit.cut.resolved.points.indexOf(visit.point)];
  const thread = point === undefined ? undefined : blindThreadOf(ask.plan, { cut: visit.cut.work, point });
  const drilled = hole(ask, visit)
    .before.filter(({ cut }) => cut.kind === 'drill')
    .at(-1);
  if (thread === undefined) return undefined;
  if (drilled?.point.z == null) return thread.clearance;
  return -drilled.point.z - (thread.fullThread + thread.leadThreads * thread.pitch);
}
