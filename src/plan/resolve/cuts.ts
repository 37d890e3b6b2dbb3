/** The cuts of an operation with every number to set and to wind to. */
import { coneMouth } from '../../shop/cones.ts';
import { type FeedRange, feedPerTooth, feedPerTurn, peckAdvice, secondsToFeel } from '../../shop/feeds.ts';
import { findMaterial } from '../../shop/materials.ts';
import { tapRunOn, USUAL_STOPPING_TIME } from '../../shop/power-tapping.ts';
import { asDegrees, asMm, type Mm, type Rpm } from '../../shop/quantities.ts';
import { parseThread } from '../../shop/thread-names.ts';
import type { Thread } from '../../shop/threads.ts';
import { formatTrimmed } from '../../shop/units.ts';
import type { ResolvedCut, ResolvedLoadPass, ResolvedPass, ResolvedPoint, ResolvedTool } from '../resolved.ts';
import { inUnits, noteComputed, type Resolving, take } from './context.ts';
import { resolveCutZero } from './cut-zero.ts';
import { type PointDepth, pointDepth } from './depths.ts';
import { holeBefore, threadOfCut, type Visits, visitsTo } from './holes.ts';
import type { Place } from './load-passes.ts';
import { passesOf } from './passes.ts';
import { cutOfKind, type SpeedAsk, speedsOfClamping } from './speeds.ts';
import type { CutWork, OperationWork } from './work.ts';

/** What is known when an operation's cuts are worked out. */
export interface CutAsk {
  readonly resolving: Resolving;
  readonly operation: OperationWork;
  readonly tools: ReadonlyMap<string, ResolvedTool>;
  readonly visits: Visits;
  /** The places of a full load, at least one: a line cut is made in each of them, or over all in one go. */
  readonly places: readonly Place[];
}

/** A cut with what its time depends on. */
interface Worked {
  readonly cut: CutWork;
  readonly tool: ResolvedTool | undefined;
  readonly byHand: boolean;
  readonly depths: readonly PointDepth[];
  readonly passes: readonly ResolvedPass[];
  readonly loadPasses: readonly ResolvedLoadPass[] | undefined;
  readonly z: Mm | null;
  readonly largest: Mm | null;
}

/** All cuts of an operation. */
export function resolveCuts(ask: CutAsk): readonly ResolvedCut[] {
  const worked = ask.operation.cuts.map((cut) => workOut(ask, cut));
  const speedAsks = worked.map(
    ({ cut, largest, byHand }): SpeedAsk => ({ cut, machine: ask.operation.machine, diameter: largest, byHand }),
  );
  const speeds = speedsOfClamping(ask.resolving, speedAsks);
  return worked.map((work, at) => {
    const speed = speeds[at] ?? { set: null, computed: null, because: '', remark: null };
    noteSpeed(ask, work, speed);
    return cutWith(ask, work, speed);
  });
}

/** Is the tap turned by hand: said so, at the bench, or on a spindle that never reverses. */
export function isByHand(operation: OperationWork, cut: CutWork): boolean {
  if (cut.kind !== 'tap') return false;
  if (cut.plan['by hand'] !== undefined) return cut.plan['by hand'];
  return operation.station === 'bench' || (operation.machine?.reverse ?? 'never') === 'never';
}

function workOut(ask: CutAsk, cut: CutWork): Worked {
  const { resolving, operation, visits } = ask;
  const tool = cut.toolKey === undefined ? undefined : ask.tools.get(cut.toolKey);
  const byHand = isByHand(operation, cut);
  if (cut.kind === 'tap') checkThread(resolving, cut);
  const depths = cut.points.map((point) => pointDepth({ resolving, operation, cut, tool, visits, byHand }, point));
  const { passes, loadPasses, z } = passesOf({ resolving, operation, cut, tool, places: ask.places });
  const cone = cut.kind === 'chamfer' ? coneAtTop(tool, passes) : null;
  const largest = cone ?? largestCut(cut, tool, depths);
  return { cut, tool, byHand, depths, passes, loadPasses, z, largest };
}

/** Diameter of a cone at the top face, where its passes are deepest; null without passes. */
function coneAtTop(tool: ResolvedTool | undefined, passes: readonly ResolvedPass[]): Mm | null {
  if (passes.length === 0 || tool === undefined) return null;
  const deepest = asMm(Math.max(...passes.map((pass) => -pass.z)));
  const mouth = coneMouth(deepest, { angle: tool.pointAngle ?? asDegrees(90), tip: tool.tipFlat ?? asMm(0) });
  return mouth.ok ? mouth.value : null;
}

/** Names the thread of a tapping cut, or says that it is missing or unknown. */
function checkThread(resolving: Resolving, cut: CutWork): void {
  const name = cut.plan.thread ?? cut.tool?.thread;
  take(resolving, cut.plan.thread === undefined ? cut.path : [...cut.path, 'thread'], parseThread(name ?? ''));
}

/** Largest diameter that a tool cuts: for a cone the widest top, else its own. */
function largestCut(cut: CutWork, tool: ResolvedTool | undefined, depths: readonly PointDepth[]): Mm | null {
  const tops = depths.map((depth) => depth.top ?? 0);
  if (tops.some((top) => top > 0)) return asMm(Math.max(...tops));
  if (cut.kind === 'tap') return threadOfCut(cut)?.major ?? tool?.diameter ?? null;
  return tool?.diameter ?? null;
}

function cutWith(ask: CutAsk, work: Worked, speed: ResolvedCut['speed']): ResolvedCut {
  const { cut, depths, tool } = work;
  const points = cut.points.map((point, at): ResolvedPoint => {
    const depth = depths[at];
    const z = depth?.depth == null ? null : asMm(-depth.depth);
    const switchOff = depth?.turns == null || z === null ? undefined : switchOffAt(ask, cut, speed.set, z);
    return {
      name: point.name,
      x: point.at.x,
      y: point.at.y,
      z,
      note: noteOf(ask, depth, switchOff),
      ...(depth?.fromRim === undefined || depth.top === null ? {} : { rim: { travel: depth.fromRim, top: depth.top } }),
      ...(switchOff === undefined ? {} : { switchOff }),
    };
  });
  const deepest = Math.max(0, ...depths.map((depth) => depth.depth ?? 0));
  const feed = feedOf(ask, work);
  const tops = depths.flatMap((depth) => depth.top ?? []);
  const zZero = isWound(work) ? resolveCutZero({ ...ask, cut, tool, z: work.z }) : undefined;
  return {
    tool: cut.toolKey ?? null,
    speed,
    feedPerTurn: cut.plan.feed ?? feed?.low ?? null,
    feel: feelOf(ask, work, speed.set, feed, asMm(deepest)),
    points,
    passes: [...work.passes],
    ...(work.loadPasses === undefined ? {} : { loadPasses: [...work.loadPasses] }),
    z: work.z,
    topDiameter: tops.length === 0 ? null : asMm(Math.max(...tops)),
    thread: threadWords(ask, work),
    peck: cut.plan.peck ?? peckOf(ask, cut, tool, asMm(deepest)),
    ...(zZero === undefined ? {} : { zZero }),
  };
}

function noteOf({ resolving }: CutAsk, depth: PointDepth | undefined, switchOff: Mm | undefined): string | null {
  const note = depth?.note ?? null;
  if (note === null || switchOff === undefined || depth?.turns == null) return note;
  return `${formatTrimmed(depth.turns, 1)} turns, ${note}; switch off at Z ${inUnits(resolving, switchOff)}`;
}

/**
 * Where the spindle of a tap in a blind hole is switched off, so that running on it comes to rest at its depth; undefined
 * where it reverses at once. Never above the face: a tap that runs on further is stopped by the checks.
 */
function switchOffAt({ operation: { machine } }: CutAsk, cut: CutWork, speed: Rpm | null, z: Mm): Mm | undefined {
  const thread = threadOfCut(cut);
  if (speed === null || thread === undefined || (machine?.reverse ?? 'never') === 'at once') return undefined;
  const run = tapRunOn(speed, thread.pitch, machine?.['stopping time'] ?? USUAL_STOPPING_TIME);
  return run.ok ? asMm(Math.min(0, z + run.value)) : undefined;
}

/** Does a depth of this cut hang on its tool's zero? */
const isWound = ({ byHand, depths, passes, z }: Worked): boolean =>
  !byHand && (z !== null || passes.length > 0 || depths.some((depth) => depth.depth !== null));

function noteSpeed(ask: CutAsk, { cut }: Worked, speed: ResolvedCut['speed']): void {
  if (speed.set === null || cut.plan.speed !== undefined) return;
  noteComputed(ask.resolving, ask.operation.plan.number, 'speed', `${speed.set} rpm`, speed.because);
}

/** Feed of a turn: from the table by diameter for tools that go down, of all teeth for mills, the pitch for a tap. */
function feedOf(ask: CutAsk, { cut, tool, largest, byHand }: Worked): Pick<FeedRange, 'low' | 'high'> | undefined {
  const kind = cutOfKind(cut.kind);
  if (kind === undefined || byHand || ask.operation.machine === undefined) return undefined;
  if (cut.plan.feed !== undefined) return { low: cut.plan.feed, high: cut.plan.feed };
  if (kind === 'tap') {
    const pitch = threadOfCut(cut)?.pitch;
    return pitch === undefined ? undefined : { low: pitch, high: pitch };
  }
  if (largest === null) return undefined;
  if (kind !== 'mill') return take(ask.resolving, cut.path, feedPerTurn(largest, kind));
  const material = findMaterial(ask.resolving.plan.material);
  if (!material.ok) return undefined;
  const tooth = take(ask.resolving, cut.path, feedPerTooth(largest, material.value));
  const teeth = tool?.flutes ?? 2;
  return tooth === undefined ? undefined : { low: asMm(tooth.low * teeth), high: asMm(tooth.high * teeth) };
}

/** Seconds that the deepest hole, or the longest pass, should take at that feed. */
function feelOf(
  ask: CutAsk,
  work: Worked,
  speed: Rpm | null,
  feed: Pick<FeedRange, 'low' | 'high'> | undefined,
  deepest: Mm,
): ResolvedCut['feel'] {
  if (speed === null || feed === undefined) return null;
  const longest = Math.max(deepest, ...(work.loadPasses ?? work.passes).map(passLength));
  if (longest <= 0) return null;
  const seconds = take(ask.resolving, work.cut.path, secondsToFeel(asMm(longest), speed, feed));
  return seconds === undefined ? null : { from: seconds.quickest, to: seconds.slowest };
}

/** Length of a pass along its axis. */
const passLength = (pass: ResolvedPass): number => Math.hypot(pass.to.x - pass.from.x, pass.to.y - pass.from.y);

function peckOf(ask: CutAsk, cut: CutWork, tool: ResolvedTool | undefined, depth: Mm): Mm | null {
  if (cut.kind !== 'drill' || tool?.diameter == null || depth <= 0) return null;
  const advice = take(ask.resolving, cut.path, peckAdvice(tool.diameter, depth));
  return advice === undefined || advice.withdrawals === 0 ? null : advice.next;
}

function threadWords(ask: CutAsk, work: Worked): ResolvedCut['thread'] {
  const thread: Thread | undefined = work.cut.kind === 'tap' ? threadOfCut(work.cut) : undefined;
  if (thread === undefined) return null;
  const point = work.cut.points[0];
  const first =
    point === undefined
      ? undefined
      : visitsTo(ask.visits, { operation: ask.operation, point }).find((visit) => visit.cut === work.cut);
  const drilled = first === undefined ? undefined : holeBefore(ask.visits, first);
  if (drilled === undefined)
    noteComputed(
      ask.resolving,
      ask.operation.plan.number,
      'tap drill',
      `${thread.tapDrill.name} (${inUnits(ask.resolving, thread.tapDrill.diameter)})`,
      `${thread.name}, ${thread.tapDrill.source}`,
    );
  const turns = work.depths.map((depth) => depth.turns ?? 0);
  const full = work.cut.plan['full thread'] ?? (work.cut.plan.depth?.kind === 'length' ? work.cut.plan.depth.mm : null);
  return {
    name: thread.name,
    pitch: thread.pitch,
    tapDrill: drilled ?? thread.tapDrill.diameter,
    turns: Math.max(0, ...turns) || null,
    byHand: work.byHand,
    fullThread: full ?? null,
  };
}

/**
 * Seconds of cutting with a cut, at the middle of what the hand should feel for: the holes of one piece, and the passes of
 * one load.
 */
export function cuttingSeconds(cut: ResolvedCut): number {
  const speed = cut.speed.set;
  if (speed === null || cut.feel === null) return 0;
  const middle = (cut.feel.from + cut.feel.to) / 2;
  const whole = [...cut.points.map((point) => -(point.z ?? 0)), ...(cut.loadPasses ?? cut.passes).map(passLength)];
  const deepest = Math.max(0, ...whole);
  if (deepest <= 0) return 0;
  return whole.reduce((sum, length) => sum + (middle * length) / deepest, 0);
}
