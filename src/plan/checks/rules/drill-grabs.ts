import { type GrabRisk, grabRisks } from '../../../shop/grabbing.ts';
import { findMaterial } from '../../../shop/materials.ts';
import { asDegrees, type Mm } from '../../../shop/quantities.ts';
import { type CheckAsk, lastBefore, once, thicknessAt, type VisitSeen } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A part that is longer is held against the pillar by its own length; a smaller drill is held by a firm hand: choices of ours. */
const LONG_PART_MM = 150;
const SMALL_DRILL_MM = 6;

/** A drill that may be pulled into a part that nothing holds. */
export const drillGrabs: Rule = {
  code: 'drill-grabs',
  severity: 'stop',
  also: ['warn', 'note'],
  catches:
    'A drill that may grab (brass, thin stock, a hole opened by a little) or is larger, in a part held by hand; any drill in one so held on a milling machine; or one that may grab on a pillar drill where the plan does not say how the part is held.',
  example: 'operation 90: the 6.6 mm drill may grab as it opens a hole of 5 mm, and the part is held by hand',
  find: (ask) => once(ask.visits.filter((visit) => visit.cut.kind === 'drill').flatMap((visit) => judge(ask, visit))),
};

function judge(ask: CheckAsk, visit: VisitSeen): readonly Hit[] {
  const { operation, cut } = visit;
  const diameter = cut.tool?.diameter;
  const hold = operation.setup?.hold;
  if (diameter == null || (hold !== undefined && hold !== 'by hand') || operation.resolved.station === 'bench')
    return [];
  const hole = holeThere(ask, visit, diameter);
  const risks = risksAt(ask, visit, diameter, hole);
  const base = { operation: operation.resolved.number, path: visit.path };
  const name = cut.tool?.name ?? 'the drill';
  const clamp = 'clamp it to the table, or hold it in a vice or a jig: "hold: plate"';
  if (hold === 'by hand' && risks.length > 0) {
    const message = `the ${name} may grab ${risks.map((risk) => wordsOf(ask, visit, risk, hole)).join(' and ')}, and the part is held by hand`;
    return [{ ...base, message, tryThis: clamp }];
  }
  if (hold === 'by hand') {
    // A mill's table has nothing that a long part could lean on, and its spindle drives more than a hand holds.
    const onMill = operation.resolved.station === 'mill';
    const small = ask.plan.part.length < LONG_PART_MM && diameter > SMALL_DRILL_MM;
    const message = `the part, ${ask.show(ask.plan.part.length)} long, is held by hand under the ${name}${onMill ? ' of a milling machine' : ''}: it is spun round when the drill catches (common practice: never without a clamp or vice${onMill ? '' : ' when it is small'})`;
    return onMill || small ? [{ ...base, severity: 'warn', message, tryThis: clamp }] : [];
  }
  const unsaid = risks.filter((risk) => risk !== 'thin stock' && !(risk === 'brass' && cut.tool?.prepare != null));
  if (unsaid.length === 0 || operation.resolved.located === 'jig' || isSpoken(operation.resolved.notes)) return [];
  const message = `the ${name} may grab ${unsaid.map((risk) => wordsOf(ask, visit, risk, hole)).join(' and ')}; nothing says how the part is held`;
  return [{ ...base, severity: 'note', message, tryThis: 'clamp it and ease the feed' }];
}

const isSpoken = (notes: readonly string[]): boolean =>
  notes.some((note) => /clamp|vice|held|hold|jig|nest/iu.test(note));

/** The hole that is opened. */
function holeThere(ask: CheckAsk, visit: VisitSeen, drill: Mm): Mm | undefined {
  const before = lastBefore(ask, visit, ({ cut }) => cut.kind === 'drill' || cut.kind === 'ream');
  const hole = before?.cut.tool?.diameter;
  return hole != null && hole < drill ? hole : undefined;
}

function risksAt(ask: CheckAsk, visit: VisitSeen, diameter: Mm, hole: Mm | undefined): readonly GrabRisk[] {
  const material = findMaterial(ask.plan.material);
  const through = visit.point.note?.startsWith('through') === true;
  const risks = grabRisks({
    drill: { diameter, angle: visit.cut.tool?.pointAngle ?? asDegrees(118) },
    ...(material.ok ? { material: material.value } : {}),
    ...(through ? { thickness: thicknessAt(visit.operation) } : {}),
    ...(hole === undefined ? {} : { hole }),
  });
  return risks.ok ? risks.value : [];
}

function wordsOf(ask: CheckAsk, visit: VisitSeen, risk: GrabRisk, hole: Mm | undefined): string {
  switch (risk) {
    case 'thin stock':
      return `as it breaks through ${ask.show(thicknessAt(visit.operation))} of stock`;
    case 'brass':
      return 'in brass unless its lips are dulled';
    case 'opening a hole':
      return `as it opens a hole of ${ask.show(hole ?? 0)}`;
  }
}
