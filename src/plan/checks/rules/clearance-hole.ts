import { clearanceHoles } from '../../../shop/clearance-holes.ts';
import { drillName } from '../../../shop/drill-sizes.ts';
import { asMm } from '../../../shop/quantities.ts';
import { boreBefore, type CheckAsk, once, type VisitSeen } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';
import { parseScrew } from '../screws.ts';

/** What a hole may be under the tightest published one before it is said. */
const HAIR_MM = 0.03;

/** Close holes of older charts, such as letter F for 1/4 in, leave this much and more: common practice, and only a note. */
const CLOSE_OF_OLD = 1.025;

/** A hole that its screw does not go through. */
export const clearanceHole: Rule = {
  code: 'clearance-hole',
  severity: 'stop',
  also: ['warn', 'note'],
  catches: 'A clearance hole that does not clear its screw, or clears it less than the position of the hole needs.',
  example: 'operation 90: a hole of 6 mm does not clear M6; the fine fit is 6.4 mm (ISO 273)',
  find: (ask) => once(ask.visits.flatMap((visit) => judge(ask, visit))),
};

function judge(ask: CheckAsk, visit: VisitSeen): readonly Hit[] {
  const { plan } = visit.cut.work;
  if (plan.screw === undefined || visit.cut.kind === 'tap') return [];
  const screw = parseScrew(plan.screw);
  const base = { operation: visit.operation.resolved.number, path: [...visit.path, 'screw'] };
  if (!screw.ok) {
    const { found, allowed, remedy } = screw.problem;
    return [{ ...base, severity: 'warn', message: `the screw ${found} is not known: ${allowed}`, tryThis: remedy }];
  }
  const drilled = visit.cut.kind === 'drill' ? visit : boreBefore(ask, visit);
  const diameter = drilled?.cut.tool?.diameter;
  if (diameter == null) return [];
  const { thread } = screw.value;
  const known = clearanceHoles(thread);
  const tightest = known.ok ? known.value.holes[0] : undefined;
  const name = drillName(asMm(diameter));
  const tryThis =
    tightest === undefined ? 'drill it larger' : `drill ${tightest.name} or larger: "diameter: ${tightest.name}"`;
  const source =
    known.ok && tightest !== undefined ? `; the ${tightest.fit} fit is ${tightest.name} (${known.value.source})` : '';
  if (diameter <= thread.major)
    return [{ ...base, message: `a hole of ${name} does not clear ${thread.name}${source}`, tryThis }];
  if (tightest !== undefined && diameter < tightest.diameter - HAIR_MM) {
    const severity = diameter < thread.major * CLOSE_OF_OLD ? 'warn' : 'note';
    return [{ ...base, severity, message: `a hole of ${name} is tight for ${thread.name}${source}`, tryThis }];
  }
  const play = (diameter - thread.major) / 2;
  const position = plan.position ?? drilled?.cut.work.plan.position;
  if (position === undefined || play >= position - 1e-9) return [];
  const message = `a hole of ${name} leaves ${ask.show(play)} around ${thread.name}; the hole may stand ${ask.show(position)} off its place`;
  return [
    { ...base, severity: 'warn', message, tryThis: 'take the next larger clearance hole, or hold the position closer' },
  ];
}
