import { alongJaws } from '../../drawing.ts';
import { writeLength } from '../advice.ts';
import { type CheckAsk, once, thicknessAt, type VisitSeen } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';
import { runOnOf } from '../tap-run-on.ts';

/** What a tool meets under the part when it comes through. */
export const underThePart: Rule = {
  code: 'under-the-part',
  severity: 'stop',
  also: ['warn'],
  catches: 'A tool that comes through the part and meets a parallel or the bed of the vice.',
  example:
    'operation 70: the drill comes 2.5 mm out of the far face and meets the parallel (6 mm thick along the rear jaw)',
  find: (ask) => once(ask.visits.flatMap((visit) => judge(ask, visit))),
};

function judge(ask: CheckAsk, visit: VisitSeen): readonly Hit[] {
  const { setup, resolved } = visit.operation;
  if (setup === undefined || visit.point.z === null || (setup.hold !== 'vice' && setup.hold !== 'two vices')) return [];
  const runsOn = runOnOf(visit);
  const past = -visit.point.z - thicknessAt(visit.operation) + runsOn;
  if (past <= 1e-6 || past <= runsOn) return [];
  const base = { operation: resolved.number, path: visit.path };
  const out = `the ${visit.cut.kind === 'tap' ? 'tap' : (visit.cut.tool?.kind ?? 'tool')} comes ${ask.show(past)} out of the far face${runsOn > 0 ? `, ${ask.show(runsOn)} of it while the spindle stops` : ''}`;
  const room = setup.parallels?.height ?? 0;
  if (past > room) {
    const message = `${out}; ${setup.parallels === null ? 'the part lies on the bed of the vice' : `the parallels leave ${ask.show(room)}`}`;
    return [
      {
        ...base,
        message,
        tryThis: `put parallels of more than "height: ${writeLength(ask, past, 'up')}" under the part, clear of the holes`,
      },
    ];
  }
  return meetsParallel(ask, visit, out).map((hit) => ({ ...base, ...hit }));
}

/** Parallels stand along both jaws unless the plan says that they stand elsewhere. */
function meetsParallel(ask: CheckAsk, visit: VisitSeen, out: string): readonly Omit<Hit, 'operation' | 'path'>[] {
  const { setup, machine } = visit.operation;
  const parallels = setup?.parallels;
  const jaw = machine?.vice?.fixedJaw ?? 'rear';
  if (setup === undefined || parallels == null || !alongJaws(parallels.where)) return [];
  const acrossIsY = jaw === 'rear' || jaw === 'front';
  const at = acrossIsY ? visit.point.y : visit.point.x;
  const [low, high] = acrossIsY ? [setup.outline.y0, setup.outline.y1] : [setup.outline.x0, setup.outline.x1];
  // A point outside the part is told by another rule.
  if (at < low || at > high) return [];
  const radius = (visit.cut.tool?.diameter ?? 0) / 2;
  const gap = Math.min(at - radius - (low + parallels.thickness), high - parallels.thickness - (at + radius));
  if (gap >= 0) return [];
  const message = `${out} and meets a parallel by ${ask.show(-gap)} (${ask.show(parallels.thickness)} thick, along the jaws)`;
  const severity = parallels.where === null ? 'warn' : 'stop';
  const thin = writeLength(ask, parallels.thickness + gap, 'down');
  return [
    {
      message,
      severity,
      tryThis: `take parallels of at most "thickness: ${thin}", or say "where: clear of the holes"`,
    },
  ];
}
