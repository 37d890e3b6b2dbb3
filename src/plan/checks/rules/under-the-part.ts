import type { Position } from '../../../shop/patterns.ts';
import { asMm } from '../../../shop/quantities.ts';
import { alongJaws, parallelsUnder, type Rectangle, reachOf } from '../../drawing.ts';
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

/** Parallels stand along both jaws, or across under both ends of the load, unless the plan says that they stand elsewhere. */
function meetsParallel(ask: CheckAsk, visit: VisitSeen, out: string): readonly Omit<Hit, 'operation' | 'path'>[] {
  const { setup, machine, resolved } = visit.operation;
  const { x, y } = visit.point;
  if (setup == null || setup.parallels === null || machine?.vice == null) return [];
  const { x0, x1, y0, y1 } = setup.outline;
  // A point outside the part is told by another rule.
  if (x < x0 || x > x1 || y < y0 || y > y1) return [];
  const { thickness, where } = setup.parallels;
  const places = setup.places.slice(0, resolved.loadSize);
  const reach = reachOf(setup, places);
  const bands = parallelsUnder(setup, machine.vice, reach);
  const radius = (visit.cut.tool?.diameter ?? 0) / 2;
  const met = Math.max(
    0,
    ...places.flatMap(({ dx, dy }) =>
      bands.map((band) => overlapWith(band, reach, { x: asMm(x + dx), y: asMm(y + dy) }, radius)),
    ),
  );
  if (met <= 1e-6) return [];
  const lie = alongJaws(where) ? 'along the jaws' : 'across under the ends';
  const message = `${out} and meets a parallel by ${ask.show(met)} (${ask.show(thickness)} thick, ${lie})`;
  const thin = thickness - met;
  const thinner = thin > 0 ? `take parallels of at most "thickness: ${writeLength(ask, thin, 'down')}", or ` : '';
  return [
    { message, severity: where === null ? 'warn' : 'stop', tryThis: `${thinner}say "where: clear of the holes"` },
  ];
}

/** How far a parallel reaches under a hole from its outer edge inwards: by so much it would have to be thinner. */
function overlapWith(band: Rectangle, reach: Rectangle, { x, y }: Position, radius: number): number {
  const alongX = Math.min(x + radius, band.x1) - Math.max(x - radius, band.x0);
  const alongY = Math.min(y + radius, band.y1) - Math.max(y - radius, band.y0);
  if (alongX <= 0 || alongY <= 0) return 0;
  const isThinInY = band.y1 - band.y0 <= band.x1 - band.x0;
  const [at, low, high] = isThinInY ? [y, band.y0, band.y1] : [x, band.x0, band.x1];
  const middle = isThinInY ? (reach.y0 + reach.y1) / 2 : (reach.x0 + reach.x1) / 2;
  return low + high > 2 * middle ? at + radius - low : high - (at - radius);
}
