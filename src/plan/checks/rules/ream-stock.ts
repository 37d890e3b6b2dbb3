import { drillName } from '../../../shop/drill-sizes.ts';
import { asMm } from '../../../shop/quantities.ts';
import { inchReamingStock, judgeReamingStock, metricReamingStock, type ReamingStock } from '../../../shop/reaming.ts';
import { inchesToMm } from '../../../shop/units.ts';
import { boreBefore, type CheckAsk, once, type VisitSeen } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** The drill 1/64 in under the reamer is in every set: usual from a reamer of 1/4 in up (common practice), below it noted. */
const A_SIXTY_FOURTH_MM = inchesToMm(1 / 64) + 0.001;
const USUAL_FROM_MM = inchesToMm(1 / 4) - 0.001;

/** A drill that leaves a reamer too much or too little. */
export const reamStock: Rule = {
  code: 'ream-stock',
  severity: 'warn',
  also: ['stop', 'note'],
  catches: 'A drill before a reamer that leaves too little to cut, too much, or nothing.',
  example: 'operation 70: 9.95 mm leaves 0.05 mm for the 10 mm reamer; 0.2 mm to 0.3 mm are usual',
  find: (ask) => once(ask.visits.filter((visit) => visit.cut.kind === 'ream').flatMap((visit) => judge(ask, visit))),
};

function judge(ask: CheckAsk, visit: VisitSeen): readonly Hit[] {
  const reamer = visit.cut.tool?.diameter;
  const drilled = boreBefore(ask, visit, ['drill']);
  const drill = drilled?.cut.tool?.diameter;
  if (reamer == null || drill == null || drilled === undefined) return [];
  const base = { operation: visit.operation.resolved.number, path: drilled.path };
  const name = drillName(asMm(drill));
  if (drill >= reamer) {
    const message = `a hole of ${name} leaves nothing for the reamer of ${ask.show(reamer)}`;
    return [{ ...base, severity: 'stop', message, tryThis: drillFor(reamer, usualStock(ask, reamer)) }];
  }
  const verdict = judgeReamingStock(asMm(reamer), asMm(drill));
  if (!verdict.ok || verdict.value.kind === 'sound') return [];
  const { stock, kind } = verdict.value;
  const aSixtyFourth = kind === 'too much' && stock <= A_SIXTY_FOURTH_MM;
  if (aSixtyFourth && reamer >= USUAL_FROM_MM) return [];
  const wanted = usualStock(ask, reamer) ?? verdict.value.wanted;
  const severity = aSixtyFourth ? 'note' : 'warn';
  const message = `${name} leaves ${ask.show(stock)} for the reamer of ${ask.show(reamer)}, ${kind}; ${ask.show(wanted.least)} to ${ask.show(wanted.most)} are usual (${wanted.source})`;
  return [{ ...base, severity, message, tryThis: drillFor(reamer, wanted) }];
}

/** What is left for a reamer in the plan's own practice. */
function usualStock(ask: CheckAsk, reamer: number): ReamingStock | undefined {
  const usual = ask.plan.units === 'inch' ? inchReamingStock(asMm(reamer)) : metricReamingStock(asMm(reamer));
  return usual.ok ? usual.value : undefined;
}

function drillFor(reamer: number, stock: ReamingStock | undefined): string {
  if (stock === undefined) return 'take a smaller drill';
  const [least, most] = [drillName(asMm(reamer - stock.most)), drillName(asMm(reamer - stock.least))];
  return `take a drill of ${least} to ${most}: "diameter: ${most}"`;
}
