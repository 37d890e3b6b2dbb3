import { coneMouth } from '../../../shop/cones.ts';
import { asDegrees, asMm } from '../../../shop/quantities.ts';
import type { ResolvedLoadPass } from '../../resolved.ts';
import { type CheckAsk, type CutSeen, type OperationSeen, once, pathOf } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A cutter that reaches less far than this into the next piece only touches it. */
const HAIR_MM = 0.01;

/** A cut on one piece of a load that takes metal from another. */
export const neighbourCut: Rule = {
  code: 'neighbour-cut',
  severity: 'stop',
  catches: 'A cut on one piece of a load that runs into a piece beside it.',
  example: 'operation 10: the cut on piece 1 ("edge") goes 10 mm into piece 2',
  find: (ask) =>
    once(
      ask.operations.flatMap((operation) =>
        operation.cuts.flatMap((cut) => {
          const reach = passReach(operation, cut) ?? pointReach(operation, cut);
          return reach === undefined ? [] : [hit(ask, operation, reach)];
        }),
      ),
    ),
};

type Box = { readonly x0: number; readonly x1: number; readonly y0: number; readonly y1: number };

/** The pieces of a full load as they lie: number from 1, name of the place, extent. */
function piecesOf({ setup, resolved }: OperationSeen) {
  if (setup === undefined) return [];
  const { x0, x1, y0, y1 } = setup.outline;
  return setup.places.slice(0, resolved.loadSize).map(({ name, dx, dy }, at) => {
    const box: Box = { x0: x0 + dx, x1: x1 + dx, y0: y0 + dy, y1: y1 + dy };
    return { piece: at + 1, name, box };
  });
}

/** How a cut on one piece reaches into another. */
type Reach = { readonly on: number; readonly into: number; readonly deep: number };

function passReach(operation: OperationSeen, cut: CutSeen): Reach | undefined {
  // All faces of a load lie at one height: what the cutter reaches of the next is to go as well.
  if (cut.kind === 'face') return undefined;
  const pieces = piecesOf(operation);
  for (const pass of cut.resolved.loadPasses ?? []) {
    const swept = sweptBy(cut, pass);
    const own = pieces.filter(({ piece }) => pass.places.includes(piece));
    for (const other of pieces) {
      const deep = overlap(swept, other.box);
      if (deep > HAIR_MM && own.every(({ box }) => liesBeside(box, other.box)))
        return { on: pass.places[0] ?? 1, into: other.piece, deep };
    }
  }
  return undefined;
}

/** Not itself, and not in it: pieces that lie in one another are told by another rule. */
const liesBeside = (a: Box, b: Box): boolean => overlap(a, b) <= HAIR_MM;

/** What the cutter runs over; a cone is as wide as it is at the top face. */
function sweptBy(cut: CutSeen, { from, to, z }: ResolvedLoadPass): Box {
  const radius = cut.kind === 'chamfer' ? coneRadius(cut, -z) : (cut.tool?.diameter ?? 0) / 2;
  return {
    x0: Math.min(from.x, to.x) - radius,
    x1: Math.max(from.x, to.x) + radius,
    y0: Math.min(from.y, to.y) - radius,
    y1: Math.max(from.y, to.y) + radius,
  };
}

function coneRadius({ tool }: CutSeen, deep: number): number {
  const mouth = coneMouth(asMm(deep), { angle: tool?.pointAngle ?? asDegrees(90), tip: tool?.tipFlat ?? asMm(0) });
  return (mouth.ok ? mouth.value : (tool?.diameter ?? 0)) / 2;
}

const overlap = (a: Box, b: Box): number =>
  Math.min(Math.min(a.x1, b.x1) - Math.max(a.x0, b.x0), Math.min(a.y1, b.y1) - Math.max(a.y0, b.y0));

function pointReach(operation: OperationSeen, cut: CutSeen): Reach | undefined {
  const pieces = piecesOf(operation);
  if (pieces.length < 2) return undefined;
  const places = operation.setup?.places ?? [];
  for (const [at, point] of cut.resolved.points.entries()) {
    const radius = (cut.work.points[at]?.top ?? cut.work.plan.top ?? cut.tool?.diameter ?? 0) / 2;
    for (const { piece, box } of pieces) {
      const place = places[piece - 1];
      const [x, y] = [point.x + (place?.dx ?? 0), point.y + (place?.dy ?? 0)];
      for (const other of pieces) {
        const { x0, x1, y0, y1 } = other.box;
        const deep = radius - Math.hypot(Math.max(x0 - x, 0, x - x1), Math.max(y0 - y, 0, y - y1));
        if (deep > HAIR_MM && liesBeside(box, other.box)) return { on: piece, into: other.piece, deep };
      }
    }
  }
  return undefined;
}

function hit(ask: CheckAsk, operation: OperationSeen, { on, into, deep }: Reach): Hit {
  const { resolved, work } = operation;
  const named = (piece: number) => {
    const name = operation.setup?.places[piece - 1]?.name ?? '';
    return name === String(piece) || name === '' ? `piece ${piece}` : `piece ${piece} (${name})`;
  };
  return {
    operation: resolved.number,
    path: pathOf(operation),
    message: `the cut on ${named(on)} goes ${ask.show(deep)} into ${named(into)} beside it`,
    tryThis:
      work.setup?.places === undefined
        ? 'hold one at once ("per load: 1"), or lay the pieces so that the cut runs off the load ("row:")'
        : `set the places further apart by ${ask.show(deep)} or more, or hold one at once ("per load: 1")`,
  };
}
