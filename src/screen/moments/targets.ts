/** Where the tool goes at a stop of a load: the plan's target, the place's offset and the corrections in force. */
import { placeAt } from '../../batch/flow.ts';
import { correctedBy, correctionsInForce } from '../../batch/questions/corrections.ts';
import type { Batch } from '../../batch/state.ts';
import type { Stop } from '../../batch/stops.ts';
import type {
  ResolvedCut,
  ResolvedLoadPass,
  ResolvedOperation,
  ResolvedPass,
  ResolvedPoint,
  ResolvedSetup,
} from '../../plan/resolved.ts';
import { asMm, type Mm } from '../../shop/quantities.ts';
import { lengthWithUnit } from './axis-text.ts';
import { placeCalled } from './place-names.ts';

/** One pass of a line cut with corrections: the axis fed, where it runs to, and where the other one stands. */
export type PassTarget = {
  readonly pass: ResolvedPass;
  readonly feed: 'x' | 'y';
  readonly from: Mm;
  readonly to: Mm;
  readonly stands: Mm;
  readonly z: Mm;
  /** The feed runs out of the work, so that where the other axis stands is what makes the size. */
  readonly runsOut: boolean;
};

export type Target = {
  readonly stop: Stop;
  readonly cut: ResolvedCut | null;
  readonly point: ResolvedPoint | null;
  /** The pass in hand; every pass of the cut where a load or piece is counted at once. */
  readonly passes: readonly PassTarget[];
  readonly x: Mm | null;
  readonly y: Mm | null;
  readonly z: Mm | null;
  /** Length that the saw's or drill's stop is set to. */
  readonly length: Mm | null;
  /** Said beside the number when it is not the plan's own: "Z corrected by +0.06 mm: reads deep". */
  readonly corrected: readonly string[];
};

/** The target of one stop at cell `at`. */
export function targetAt(batch: Batch, at: number, stop: Stop): Target {
  const { operation } = placeAt(batch, at);
  const setup = batch.plan.setups.find((one) => one.id === operation.setup);
  const cut = operation.cuts[stop.cut] ?? null;
  const point = stop.kind === 'point' ? (cut?.points[stop.index] ?? null) : onlyPoint(cut, stop, operation);
  const hole = cut === null || point === null ? null : cut.points.indexOf(point);
  const by = (axis: 'x' | 'y' | 'z' | 'stop'): number => correctedBy(batch, operation.number, stop.cut, axis, hole);
  const place = setup?.places[(stop.place ?? 1) - 1] ?? { dx: 0, dy: 0 };
  const z = point?.z ?? commonDepth(cut, stop) ?? cut?.z ?? null;
  return {
    stop,
    cut,
    point,
    passes: passesAt(cut, stop).map((pass) =>
      passTarget(pass, setup, operation, 'places' in pass ? { dx: 0, dy: 0, by } : { ...place, by }),
    ),
    x: point === null ? null : asMm(point.x + place.dx + by('x')),
    y: point === null ? null : asMm(point.y + place.dy + by('y')),
    z: z === null ? null : asMm(z + by('z')),
    length: operation.stopLength === null ? null : asMm(operation.stopLength + by('stop')),
    corrected: correctionWords(batch, operation, stop.cut, hole),
  };
}

/** The holes of a cut in every place of a load that is counted at once, with the corrections in force. */
export function placeTargets(batch: Batch, at: number, cutIndex: number) {
  const { operation } = placeAt(batch, at);
  const setup = batch.plan.setups.find((one) => one.id === operation.setup);
  const points = operation.cuts[cutIndex]?.points ?? [];
  if (setup === undefined || points.length === 0) return [];
  return setup.places.slice(0, operation.loadSize).map((_, index) => ({
    place: placeCalled(setup, index + 1),
    points: points.map((point, of) => {
      const { x, y } = targetAt(batch, at, { kind: 'point', cut: cutIndex, place: index + 1, index: of });
      return { name: point.name, x: x ?? point.x, y: y ?? point.y };
    }),
  }));
}

/** Counted by piece, an operation of one hole still has its point; where several are held it lies in every place. */
function onlyPoint(cut: ResolvedCut | null, stop: Stop, { loadSize }: ResolvedOperation): ResolvedPoint | null {
  return stop.kind === 'whole' && cut?.points.length === 1 && loadSize === 1 ? (cut.points[0] ?? null) : null;
}

/** The depth of every hole of a piece counted at once, where it is the same for all. */
function commonDepth(cut: ResolvedCut | null, stop: Stop): Mm | null {
  if (cut === null || stop.kind !== 'whole') return null;
  const [first, ...rest] = cut.points.map((point) => point.z);
  return first != null && rest.every((z) => z === first) ? first : null;
}

function passesAt(cut: ResolvedCut | null, stop: Stop): readonly (ResolvedPass | ResolvedLoadPass)[] {
  if (cut === null || stop.kind === 'point') return [];
  const passes = cut.loadPasses ?? cut.passes;
  return stop.kind === 'whole' ? passes : passes.slice(stop.index, stop.index + 1);
}

type Shift = { readonly dx: number; readonly dy: number; readonly by: (axis: 'x' | 'y' | 'z') => number };

function passTarget(
  pass: ResolvedPass | ResolvedLoadPass,
  setup: ResolvedSetup | undefined,
  operation: ResolvedOperation,
  shift: Shift,
): PassTarget {
  const feed = pass.feedAxis;
  const other = feed === 'x' ? 'y' : 'x';
  const moved = (axis: 'x' | 'y', value: number): Mm =>
    asMm(value + (axis === 'x' ? shift.dx : shift.dy) + shift.by(axis));
  const to = moved(feed, pass.to[feed]);
  return {
    pass,
    feed,
    from: moved(feed, pass.from[feed]),
    to,
    stands: moved(other, pass.from[other]),
    z: asMm(pass.z + shift.by('z')),
    runsOut: isBeyondWork(to, pass, setup, operation),
  };
}

/** Beyond the last part that the pass goes over, on the axis that is fed; of a full load where it does not say which. */
function isBeyondWork(
  to: Mm,
  pass: ResolvedPass | ResolvedLoadPass,
  setup: ResolvedSetup | undefined,
  operation: ResolvedOperation,
): boolean {
  if (setup === undefined) return false;
  const feed = pass.feedAxis;
  const over = 'places' in pass ? pass.places.flatMap((at) => setup.places[at - 1] ?? []) : null;
  const offsets = (over ?? setup.places.slice(0, operation.loadSize)).map((place) =>
    feed === 'x' ? place.dx : place.dy,
  );
  const { x0, x1, y0, y1 } = setup.outline;
  const [low, high] = feed === 'x' ? [x0, x1] : [y0, y1];
  if (over !== null)
    return pass.feedTowards === '+' ? to > high + Math.max(...offsets) : to < low + Math.min(...offsets);
  return pass.feedTowards === '+' ? to > high + Math.max(0, ...offsets) : to < low + Math.min(0, ...offsets);
}

function correctionWords(
  batch: Batch,
  operation: ResolvedOperation,
  cut: number,
  hole: number | null,
): readonly string[] {
  const name = hole === null ? undefined : operation.cuts[cut]?.points[hole]?.name;
  return correctionsInForce(batch, operation.number, cut, hole).map((one) => {
    const only = one.point === undefined || name === undefined ? '' : ` at ${name} alone`;
    const sign = one.by > 0 ? '+' : '';
    const axis = one.axis === 'stop' ? 'Stop' : one.axis.toUpperCase();
    return `${axis} corrected by ${sign}${lengthWithUnit(asMm(one.by), batch.plan.units)}${only}: ${one.reason}.`;
  });
}

/** Holes that one cut of an operation takes to one depth. */
export type DepthGroup = { readonly cut: ResolvedCut; readonly z: Mm; readonly points: readonly ResolvedPoint[] };

/** The depths of an operation with corrections, each with its cut and holes, in the order in which they come. */
export function depthGroups(batch: Batch, operation: ResolvedOperation): readonly DepthGroup[] {
  return operation.cuts.flatMap((cut, at) => {
    const by = correctedBy(batch, operation.number, at, 'z');
    const groups = new Map<number, ResolvedPoint[]>();
    for (const point of cut.points) {
      const z = point.z ?? cut.z;
      if (z !== null) groups.set(z + by, [...(groups.get(z + by) ?? []), point]);
    }
    return [...groups].map(([z, points]) => ({ cut, z: asMm(z), points }));
  });
}
