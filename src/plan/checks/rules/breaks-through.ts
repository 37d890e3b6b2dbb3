import { coneMouth, coneTravelInHole } from '../../../shop/cones.ts';
import { asDegrees, asMm } from '../../../shop/quantities.ts';
import { writeLength } from '../advice.ts';
import { allCuts, type CheckAsk, hole, once, thicknessAt, type VisitSeen } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** Thinnest floor that passes without a word where the plan states none: a choice of ours. */
const THIN_FLOOR_MM = 0.5;
const CONES: ReadonlySet<string> = new Set(['spot', 'countersink', 'chamfer']);

/** A blind hole, a cone or a floor that comes out on the other side. */
export const breaksThrough: Rule = {
  code: 'breaks-through',
  severity: 'stop',
  also: ['warn'],
  catches: 'A blind hole or a cone whose tip comes out of the far face, or a floor thinner than stated.',
  example: 'operation 60: the tip goes 8.5 mm deep in 8 mm and comes out of the far face by 0.5 mm',
  find: (ask) => once([...ask.visits.flatMap((visit) => judgeHole(ask, visit)), ...cutsWithFloors(ask)]),
};

function judgeHole(ask: CheckAsk, visit: VisitSeen): readonly Hit[] {
  const { kind, work } = visit.cut;
  const z = visit.point.z;
  const index = visit.cut.resolved.points.indexOf(visit.point);
  const stated = work.points[index]?.depth ?? work.plan.depth;
  if (z === null || stated?.kind === 'through' || visit.point.note?.startsWith('through') === true) return [];
  const thickness = thicknessAt(visit.operation);
  if (CONES.has(kind)) return judgeCone(ask, visit, thickness);
  if (kind === 'tap') return [];
  return floorHits(ask, visit, thickness + z, work.plan.floor);
}

/** Over a hole the tip of a cone hangs in the air: there the cone itself must end above the far face. */
function judgeCone(ask: CheckAsk, visit: VisitSeen, thickness: number): readonly Hit[] {
  const { before } = hole(ask, visit);
  const drilled = before.filter(({ cut }) => cut.kind === 'drill' || cut.kind === 'ream').at(-1);
  const through = drilled?.point.note?.startsWith('through') === true;
  const top = visit.cut.resolved.topDiameter;
  const diameter = drilled?.cut.tool?.diameter;
  if (!through || top === null || diameter == null) {
    return floorHits(ask, visit, thickness + (visit.point.z ?? 0), visit.cut.work.plan.floor);
  }
  const cone = { angle: visit.cut.tool?.pointAngle ?? asDegrees(90), tip: visit.cut.tool?.tipFlat ?? asMm(0) };
  const travel = coneTravelInHole(asMm(diameter), asMm(top), cone);
  if (!travel.ok || travel.value < thickness - THIN_FLOOR_MM) return [];
  const message = `the cone to ${ask.show(top)} is ${ask.show(travel.value)} deep at the hole of ${ask.show(diameter)}; the part is ${ask.show(thickness)} thick and would have a knife edge or a larger hole`;
  return [
    {
      operation: visit.operation.resolved.number,
      path: visit.path,
      message,
      tryThis: `${shallower(ask, visit, travel.value - thickness + THIN_FLOOR_MM)}, or take a thicker part`,
    },
  ];
}

function floorHits(ask: CheckAsk, visit: VisitSeen, floor: number, stated: number | undefined): readonly Hit[] {
  const base = { operation: visit.operation.resolved.number, path: visit.path };
  const thickness = thicknessAt(visit.operation);
  const deep = ask.show(-(visit.point.z ?? 0));
  if (floor <= 0) {
    const message = `the tip goes ${deep} deep in ${ask.show(thickness)} and comes out of the far face by ${ask.show(-floor)}`;
    return [
      { ...base, message, tryThis: `${shallower(ask, visit, (stated ?? THIN_FLOOR_MM) - floor)}, or "depth: through"` },
    ];
  }
  if (stated !== undefined && floor < stated - 1e-6) {
    const message = `the tip leaves a floor of ${ask.show(floor)}; ${ask.show(stated)} is wanted`;
    return [{ ...base, message, tryThis: shallower(ask, visit, stated - floor) }];
  }
  if (stated !== undefined || floor >= THIN_FLOOR_MM) return [];
  const message = `the tip goes ${deep} deep in ${ask.show(thickness)} and leaves a floor of ${ask.show(floor)}`;
  return [
    {
      ...base,
      severity: 'warn',
      message,
      tryThis: `${shallower(ask, visit, THIN_FLOOR_MM - floor)}, or state that it is enough: "floor: ${writeLength(ask, floor, 'down')}"`,
    },
  ];
}

/** What to write so that the tip ends so much higher. */
function shallower(ask: CheckAsk, visit: VisitSeen, by: number): string {
  const { cut, point } = visit;
  const own = cut.work.points[cut.resolved.points.indexOf(point)];
  const top = own?.top ?? cut.work.plan.top;
  const depth = own?.depth ?? cut.work.plan.depth;
  const narrower = coneMouth(asMm(by), { angle: cut.tool?.pointAngle ?? asDegrees(90), tip: asMm(0) });
  const smaller = top === undefined || !narrower.ok ? 0 : top - narrower.value;
  if (smaller > 0) return `write "top: ${writeLength(ask, smaller, 'down')}"`;
  const less = depth?.kind === 'length' ? depth.mm - by : 0;
  return less > 0 ? `write "depth: ${writeLength(ask, less, 'down')}"` : `make it ${ask.show(by)} shallower`;
}

/** Slots and steps: the floor below the deepest pass. */
function cutsWithFloors(ask: CheckAsk): readonly Hit[] {
  return allCuts(ask).flatMap(({ operation, cut }): readonly Hit[] => {
    if (cut.kind !== 'slot' && cut.kind !== 'step') return [];
    const deepest = Math.max(0, ...cut.resolved.passes.map((pass) => -pass.z));
    const floor = thicknessAt(operation) - deepest;
    const wanted = cut.work.plan.floor ?? THIN_FLOOR_MM;
    if (cut.work.plan.depth?.kind === 'through' || floor >= wanted - 1e-6) return [];
    const message = `the ${cut.kind} goes ${ask.show(deepest)} deep in ${ask.show(thicknessAt(operation))}; ${floor <= 0 ? 'nothing is left' : `a floor of ${ask.show(floor)} is left`}`;
    const tryThis = `make it at most "depth: ${writeLength(ask, thicknessAt(operation) - wanted, 'down')}"`;
    const severity = floor <= 0 || cut.work.plan.floor !== undefined ? 'stop' : 'warn';
    return [{ operation: operation.resolved.number, path: cut.path, message, severity, tryThis }];
  });
}
