import { drillName } from '../../../shop/drill-sizes.ts';
import type { Mm } from '../../../shop/quantities.ts';
import { formatEngagement, formatLimits, judgeTapDrill } from '../../../shop/tap-drills.ts';
import { threadOfCut } from '../../resolve/holes.ts';
import { boreBefore, type CheckAsk, once, type VisitSeen } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A hole that is wrong for its thread. */
export const tapDrill: Rule = {
  code: 'tap-drill',
  severity: 'stop',
  also: ['warn'],
  catches: 'A hole before the tap that lies outside the published limits of the minor diameter of the thread.',
  example: 'operation 80: M6 in a hole of 4.8 mm: the limits are 4.917 to 5.153 mm (ISO 965-1, 6H)',
  find: (ask) =>
    once(
      ask.visits
        .filter((visit) => visit.cut.kind === 'tap')
        .flatMap((visit): readonly Hit[] => judge(ask, visit) ?? []),
    ),
};

function judge(ask: CheckAsk, visit: VisitSeen): readonly Hit[] | undefined {
  const thread = threadOfCut(visit.cut.work);
  const drilled = boreBefore(ask, visit);
  const diameter = drilled?.cut.tool?.diameter;
  if (thread === undefined || diameter === undefined || diameter === null) return undefined;
  const number = visit.operation.resolved.number;
  const path = drilled?.path ?? visit.path;
  const tryThis = `drill ${thread.tapDrill.name} for ${thread.name}: "diameter: ${thread.tapDrill.name}"`;
  const verdict = judgeTapDrill(thread, diameter as Mm);
  const limits = formatLimits(thread.limits, ask.plan.units);
  const name = drillName(diameter as Mm);
  if (!verdict.ok) {
    return [
      {
        operation: number,
        path,
        message: `${thread.name} in a hole of ${name}: the hole is as large as the thread`,
        tryThis,
      },
    ];
  }
  if (verdict.value.kind === 'within' || verdict.value.kind === 'usual') return [];
  const engaged = formatEngagement(verdict.value.engagement);
  const low = verdict.value.kind === 'below-minimum';
  const message = `${thread.name} in a hole of ${name} (${engaged}): the limits are ${limits}`;
  return [{ operation: number, path, message, tryThis, severity: low ? 'stop' : 'warn' }];
}
