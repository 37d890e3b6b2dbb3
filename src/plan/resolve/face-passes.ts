/** Cuts that take off more than one cutter can: a face in strips, an end that is far too long in several advances. */
import { asMm, type Mm } from '../../shop/quantities.ts';
import type { ResolvedTool } from '../resolved.ts';
import { MAX_POINTS } from '../schema/plan.ts';
import { FACE_STEP, STEP_OVER } from './assumptions.ts';
import { addProblem, inUnits, noteComputed, type Resolving } from './context.ts';
import { outlineOf, zeroCorner } from './frames.ts';
import { shareVariant } from './holes.ts';
import { runOut } from './line-ask.ts';
import type { Lay, LineWork } from './lines.ts';
import type { Place } from './load-passes.ts';
import type { CutWork, OperationWork } from './work.ts';

/** What these are worked out from. */
interface WideAsk {
  readonly resolving: Resolving;
  readonly operation: OperationWork;
  readonly cut: CutWork;
  readonly tool: ResolvedTool | undefined;
}

/**
 * Length of the part as it comes to an operation: that of the blank, or what the milling to length before it left.
 *
 * Example: part 60, facing allowance 1 at each end: 62; after "mill to length: 61" 61.
 */
function lengthBefore({ resolving, operation }: WideAsk): Mm {
  const { part, stock, operations } = resolving.plan;
  const start = stock?.blank ?? asMm(part.length + 2 * (stock?.facing ?? 0));
  const before = operations
    .slice(0, operation.index)
    .findLast(
      (plan) => plan.kind === 'mill to length' && plan.length !== undefined && shareVariant({ plan }, operation),
    );
  return before?.length ?? start;
}

/**
 * How an end is milled away that is longer than one pass takes: from the free end to the size, in equal advances of at most
 * 0.7 of the cutter, so that nothing is cut loose beside it. Nothing where one pass does.
 *
 * Example: 22 mm to come off with a cutter of 16: two advances of 11.
 */
export function endLay(ask: WideAsk, size: Mm, cutter: Mm, outward: 1 | -1): { readonly lay?: Lay } {
  const { resolving, operation } = ask;
  const off = lengthBefore(ask) - size;
  const advances = Math.ceil(off / (cutter * STEP_OVER) - 1e-9);
  if (advances < 2 || refusesMany(ask, advances)) return {};
  const offsets = Array.from({ length: advances }, (_, i) => cutter / 2 + (off * (advances - 1 - i)) / advances);
  const show = (length: number) => inUnits(resolving, asMm(length));
  noteComputed(
    resolving,
    operation.plan.number,
    'passes',
    `${advances} of ${inUnits(resolving, asMm(Math.round((off / advances) * 1000) / 1000))}`,
    `${show(off)} to come off the end, at most ${STEP_OVER} of the cutter's ${show(cutter)} at once`,
  );
  return { lay: { offsets: offsets.map((offset) => outward * offset), short: cutter / 2 } };
}

/** How far the pieces of a load reach beyond the first: to the left and right, to the front and rear. */
interface Spread {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
}

const ONE_PIECE: Spread = { x: [0, 0], y: [0, 0] };

/** Pieces further apart than this are faced one by one: clamps may stand between. */
const SIDE_BY_SIDE_MM = 1;

/**
 * The pieces of a load as one face, where they lie side by side; `undefined` where they stand apart.
 *
 * Example: four of 25 mm front to back from a rear jaw reach 75 mm further to the front: y -75 to 0.
 */
export function faceOfLoad({ operation }: WideAsk, places: readonly Place[]): Spread | undefined {
  const spread = (axis: 'dx' | 'dy', size: number): readonly [number, number] | undefined => {
    const sorted = places.map((place) => place[axis] as number).sort((a, b) => a - b);
    const apart = sorted.some((at, i) => at - (sorted[i - 1] ?? at) > size + SIDE_BY_SIDE_MM);
    return apart ? undefined : [Math.min(0, ...sorted), Math.max(0, ...sorted)];
  };
  const [x, y] = [spread('dx', operation.size.x), spread('dy', operation.size.y)];
  return x === undefined || y === undefined ? undefined : { x, y };
}

/**
 * A face in strips along X, from the front to the rear, each at most 0.8 of the cutter wide: the metal that is left lies on
 * the far side, on the left of a cutter that goes to the right. The last strip runs over the edge by the run-out.
 *
 * Example: cutter 20 on a face 30 wide, run-out 1: two strips of 15; the axis at 6 and 21 from the front.
 */
export function faceLine(ask: WideAsk, cutter: Mm | undefined, over: Spread = ONE_PIECE): LineWork | undefined {
  const { resolving, operation, cut } = ask;
  const depth = cut.plan.depth;
  if (depth?.kind !== 'length') {
    addProblem(resolving, cut.path, {
      found: depth === undefined ? 'no depth' : `"depth: ${depth.kind}"`,
      wanted: '"depth": what comes off the face',
      message: `operation ${operation.plan.number} (face) does not say how much it takes off`,
      tryThis: 'add "depth:" with what comes off the face',
    });
    return undefined;
  }
  if (cutter === undefined || operation.setup === undefined) return undefined;
  const jaw = operation.machine?.vice?.['fixed jaw'] ?? 'rear';
  const corner = zeroCorner(operation.setup, jaw, resolving.plan.part.datum ?? 'left front');
  const long = operation.size.x === resolving.plan.part.length ? lengthBefore(ask) : operation.size.x;
  const one = outlineOf({ x: long, y: operation.size.y }, corner);
  const [x0, x1] = [asMm(one.x0 + over.x[0]), asMm(one.x1 + over.x[1])];
  const [y0, y1] = [asMm(one.y0 + over.y[0]), asMm(one.y1 + over.y[1])];
  const strips = Math.max(1, Math.ceil((y1 - y0) / (cutter * FACE_STEP) - 1e-9));
  if (refusesMany(ask, strips)) return undefined;
  const air = runOut(resolving);
  const offsets = Array.from({ length: strips }, (_, i) => ((y1 - y0) * (i + 1)) / strips + air - cutter / 2);
  return {
    line: {
      name: 'face',
      along: 'x',
      wall: y0,
      from: { at: x0, end: 'open' },
      to: { at: x1, end: 'open' },
      side: undefined,
      feed: undefined,
    },
    kind: 'edge',
    width: undefined,
    cutter,
    runOut: air,
    depths: [depth.mm],
    lay: { offsets, short: cutter / 2, work: '+' },
  };
}

/** More passes than anyone winds: a hair of a cutter. */
function refusesMany({ resolving, operation, cut }: WideAsk, passes: number): boolean {
  if (passes <= MAX_POINTS) return false;
  addProblem(resolving, cut.path, {
    found: `${passes} passes`,
    wanted: `at most ${MAX_POINTS}`,
    message: `operation ${operation.plan.number} (${cut.kind}) would take ${passes} passes`,
    tryThis: 'look at the diameter of the cutter',
  });
  return true;
}
