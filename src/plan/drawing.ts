/**
 * One drawing model of a setup seen from above, to scale: the part as it lies, its holes and passes, the zero, and the
 * jaws, stop and parallels that hold it. Screen, sheet and report draw from it (drawing-text.ts, drawing-svg.ts), so their
 * dimensions agree with the points of the plan. Positions are millimetres from the setup's zero, +X right, +Y away.
 *
 * It promises places and sizes, not looks; jaws and stops of which the plan gives no position are drawn touching the part.
 */
import { asMm, type Mm } from '../shop/quantities.ts';
import type { ResolvedOperation, ResolvedPass, ResolvedPlan, ResolvedSetup } from './resolved.ts';

export type Rectangle = { readonly x0: Mm; readonly x1: Mm; readonly y0: Mm; readonly y1: Mm };

export type Shape =
  | ({ readonly kind: 'part'; readonly place: string } & Rectangle)
  | ({ readonly kind: 'jaw'; readonly fixed: boolean } & Rectangle)
  | ({ readonly kind: 'stop' } & Rectangle)
  | ({ readonly kind: 'parallel' } & Rectangle)
  | {
      readonly kind: 'hole';
      /** Index of the cut and of the point in it, so that a screen can mark the one to cut. */
      readonly cut: number;
      readonly point: number;
      readonly place: number;
      readonly name: string;
      readonly x: Mm;
      readonly y: Mm;
      readonly diameter: Mm;
    }
  | {
      readonly kind: 'pass';
      readonly cut: number;
      readonly pass: number;
      readonly place: number;
      readonly name: string;
      readonly from: { readonly x: Mm; readonly y: Mm };
      readonly to: { readonly x: Mm; readonly y: Mm };
      readonly width: Mm;
    }
  | { readonly kind: 'zero'; readonly x: Mm; readonly y: Mm };

export type Drawing = { readonly extent: Rectangle; readonly shapes: readonly Shape[] };

/**
 * The drawing of a setup with the cuts of one operation, or of every operation in that setup when `operation` is null.
 * Returns null for a setup that the plan does not have.
 */
export function drawSetup(plan: ResolvedPlan, setupId: string, operation: number | null): Drawing | null {
  const setup = plan.setups.find((one) => one.id === setupId);
  if (setup === undefined) return null;
  const cutting = plan.operations.filter(
    (one) => one.setup === setupId && (operation === null || one.number === operation),
  );
  const parts = setup.places.map(
    (place): Shape => ({ kind: 'part', place: place.name, ...shifted(setup.outline, place.dx, place.dy) }),
  );
  const all = reachOf(setup, setup.places);
  const shapes = [
    ...holding(plan, setup, all),
    ...parts,
    ...cutting.flatMap((one) => cutShapes(plan, setup, one)),
    { kind: 'zero' as const, x: asMm(0), y: asMm(0) },
  ];
  return { extent: boundsOf(shapes), shapes };
}

function cutShapes(plan: ResolvedPlan, setup: ResolvedSetup, operation: ResolvedOperation): Shape[] {
  return operation.cuts.flatMap((cut, cutIndex) => {
    const tool = plan.tools.find((one) => one.id === cut.tool);
    const width = asMm(cut.topDiameter ?? tool?.diameter ?? 0);
    const held = setup.places.slice(0, operation.loadSize);
    const holes = held.flatMap((place, placeIndex) =>
      cut.points.map(
        (point, index): Shape => ({
          kind: 'hole',
          cut: cutIndex,
          point: index,
          place: placeIndex,
          name: point.name,
          x: asMm(point.x + place.dx),
          y: asMm(point.y + place.dy),
          diameter: width,
        }),
      ),
    );
    return [...holes, ...passesDrawn(operation, cut, held).map((pass) => ({ ...pass, cut: cutIndex, width }))];
  });
}

type PassDrawn = Extract<Shape, { kind: 'pass' }>;

/** The passes of a load; of a plan that has those of the first piece alone, moved to every place. */
function passesDrawn(
  operation: ResolvedOperation,
  cut: ResolvedOperation['cuts'][number],
  held: ResolvedSetup['places'],
): readonly Omit<PassDrawn, 'cut' | 'width'>[] {
  const drawn = (pass: ResolvedPass, index: number, place: number, dx: number, dy: number) => ({
    kind: 'pass' as const,
    pass: index,
    place,
    name: pass.name,
    from: { x: asMm(pass.from.x + dx), y: asMm(pass.from.y + dy) },
    to: { x: asMm(pass.to.x + dx), y: asMm(pass.to.y + dy) },
  });
  if (cut.loadPasses !== undefined)
    return cut.loadPasses.map((pass, index) => drawn(pass, index, (pass.places[0] ?? 1) - 1, 0, 0));
  return held.flatMap(({ dx, dy }, place) =>
    place > 0 && ranOverLoad(operation) ? [] : cut.passes.map((pass, index) => drawn(pass, index, place, dx, dy)),
  );
}

/** In such a plan an end or edge milled to size was cut in one pass over all pieces of a load. */
const ranOverLoad = (operation: ResolvedOperation): boolean =>
  operation.kind === 'mill to length' || operation.kind === 'mill edge';

/** Do parallels stand across, from jaw to jaw, by the words of the plan? */
export const acrossJaws = (where: string | null): boolean => where !== null && /\bacross\b/iu.test(where);

/** Do parallels stand along both jaws: said so, or nothing said? */
export const alongJaws = (where: string | null): boolean =>
  where === null || (!acrossJaws(where) && /\b(both|each|along)\b.*\bjaws?\b/iu.test(where));

/** Jaws, stop and parallels, drawn against the part: how deep a jaw or stop is drawn is a quarter of the part. */
function holding(plan: ResolvedPlan, setup: ResolvedSetup, all: Rectangle): Shape[] {
  const vice = plan.machines.find((one) => one.id === setup.machine)?.vice ?? null;
  const jaws = vice !== null && (setup.hold === 'vice' || setup.hold === 'two vices');
  return [
    ...(jaws ? viceJaws(vice.fixedJaw, jawSpan(setup, vice, all), all) : []),
    ...(setup.stop === null ? [] : [stopBlock(setup, setup.stop.side, all)]),
    ...(jaws ? parallelsUnder(setup, vice, all).map((one): Shape => ({ kind: 'parallel', ...one })) : []),
  ];
}

type Vice = NonNullable<ResolvedPlan['machines'][number]['vice']>;

/** Where the jaws begin and end: about the middle of the load, or so that its end stands out as far as the plan says. */
function jawSpan(setup: ResolvedSetup, { fixedJaw, jawWidth }: Vice, all: Rectangle): readonly [Mm, Mm] {
  const along = fixedJaw === 'rear' || fixedJaw === 'front';
  if (setup.beyondJaws !== undefined && along) {
    const { end, by } = setup.beyondJaws;
    const jawEnd = end === 'right' ? all.x1 - by : all.x0 + by;
    return end === 'right' ? [asMm(jawEnd - jawWidth), asMm(jawEnd)] : [asMm(jawEnd), asMm(jawEnd + jawWidth)];
  }
  const middle = along ? (all.x0 + all.x1) / 2 : (all.y0 + all.y1) / 2;
  return [asMm(middle - jawWidth / 2), asMm(middle + jawWidth / 2)];
}

function viceJaws(fixedJaw: Vice['fixedJaw'], [from, to]: readonly [Mm, Mm], all: Rectangle): Shape[] {
  const along = fixedJaw === 'rear' || fixedJaw === 'front';
  const depth = Math.max((along ? all.y1 - all.y0 : all.x1 - all.x0) / 4, 2);
  const rear = { x0: from, x1: to, y0: all.y1, y1: asMm(all.y1 + depth) };
  const front = { x0: from, x1: to, y0: asMm(all.y0 - depth), y1: all.y0 };
  const left = { x0: asMm(all.x0 - depth), x1: all.x0, y0: from, y1: to };
  const right = { x0: all.x1, x1: asMm(all.x1 + depth), y0: from, y1: to };
  const sides = along ? { rear, front } : { left, right };
  return Object.entries(sides).map(([side, place]) => ({ kind: 'jaw', fixed: side === fixedJaw, ...place }));
}

/** A stop that every piece of a column is pushed against: from the middle third of the first to that of the last. */
function stopBlock({ outline }: ResolvedSetup, side: 'left' | 'right', all: Rectangle): Shape {
  const depth = Math.max((all.x1 - all.x0) / 20, 2);
  const third = (outline.y1 - outline.y0) / 3;
  const rows = { y0: asMm(all.y0 + third), y1: asMm(all.y1 - third) };
  return side === 'left'
    ? { kind: 'stop', x0: asMm(all.x0 - depth), x1: all.x0, ...rows }
    : { kind: 'stop', x0: all.x1, x1: asMm(all.x1 + depth), ...rows };
}

/**
 * Where the parallels of a vice stand under a load that reaches over `all`: along both jaws at its outer edges, or across
 * under both its ends, inside the jaws where an end stands out. None where the plan's words leave their place open.
 */
export function parallelsUnder(setup: ResolvedSetup, vice: Vice, all: Rectangle): readonly Rectangle[] {
  if (setup.parallels === null) return [];
  const { thickness, where } = setup.parallels;
  if (!alongJaws(where) && !acrossJaws(where)) return [];
  const jawsAlongX = vice.fixedJaw === 'rear' || vice.fixedJaw === 'front';
  if (jawsAlongX === alongJaws(where)) {
    return [
      { x0: all.x0, x1: all.x1, y0: asMm(all.y1 - thickness), y1: all.y1 },
      { x0: all.x0, x1: all.x1, y0: all.y0, y1: asMm(all.y0 + thickness) },
    ];
  }
  const [from, to] = jawsAlongX ? jawSpan(setup, vice, all) : [all.x0, all.x1];
  const [x0, x1] = [asMm(Math.max(all.x0, from)), asMm(Math.min(all.x1, to))];
  return [
    { x0, x1: asMm(x0 + thickness), y0: all.y0, y1: all.y1 },
    { x0: asMm(x1 - thickness), x1, y0: all.y0, y1: all.y1 },
  ];
}

/** Over what the pieces of a load reach. */
export const reachOf = (setup: ResolvedSetup, places: ResolvedSetup['places']): Rectangle =>
  boundsOf(places.map(({ name, dx, dy }) => ({ kind: 'part', place: name, ...shifted(setup.outline, dx, dy) })));

function shifted(outline: Rectangle, dx: number, dy: number): Rectangle {
  return {
    x0: asMm(outline.x0 + dx),
    x1: asMm(outline.x1 + dx),
    y0: asMm(outline.y0 + dy),
    y1: asMm(outline.y1 + dy),
  };
}

function boundsOf(shapes: readonly Shape[]): Rectangle {
  const rectangles = shapes.map(boundsOfShape);
  return {
    x0: asMm(Math.min(...rectangles.map((one) => one.x0))),
    x1: asMm(Math.max(...rectangles.map((one) => one.x1))),
    y0: asMm(Math.min(...rectangles.map((one) => one.y0))),
    y1: asMm(Math.max(...rectangles.map((one) => one.y1))),
  };
}

function boundsOfShape(shape: Shape): Rectangle {
  switch (shape.kind) {
    case 'part':
    case 'jaw':
    case 'stop':
    case 'parallel':
      return shape;
    case 'hole':
    case 'zero':
      return { x0: shape.x, x1: shape.x, y0: shape.y, y1: shape.y };
    case 'pass':
      return {
        x0: asMm(Math.min(shape.from.x, shape.to.x)),
        x1: asMm(Math.max(shape.from.x, shape.to.x)),
        y0: asMm(Math.min(shape.from.y, shape.to.y)),
        y1: asMm(Math.max(shape.from.y, shape.to.y)),
      };
    default:
      return shape satisfies never;
  }
}
