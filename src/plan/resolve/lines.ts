/**
 * Line cuts as passes: where the cutter's axis goes, at which depth, in which direction. The cutter stands one radius from
 * its wall, runs out past an open end by one radius and a little air, and stops one radius short of a closed one.
 *
 * Direction: seen from above a clockwise spindle cuts conventionally when the work is on the left of the cutter's travel;
 * that is what is taken when the plan does not say. Source: geometry of the cut, common practice on machines with play.
 */

import type { Position } from '../../shop/patterns.ts';
import { asMm, type Mm } from '../../shop/quantities.ts';
import type { ResolvedPass } from '../resolved.ts';
import type { PlanLine } from '../schema/places.ts';
import { SAME_WIDTH, STEP_OVER } from './assumptions.ts';
import { type Frame, toSetup } from './frames.ts';

/** A line cut in setup coordinates. */
export interface SetupLine {
  readonly name: string;
  readonly along: 'x' | 'y';
  /** The wall, or the middle of a slot, on the other axis. */
  readonly wall: Mm;
  readonly from: { readonly at: Mm; readonly end: 'open' | 'closed' };
  readonly to: { readonly at: Mm; readonly end: 'open' | 'closed' };
  /** Side of the wall on which the cutter stands; undefined for a slot. */
  readonly side: '+' | '-' | undefined;
  /** Which way the cutter goes, where the plan says. */
  readonly feed: '+' | '-' | undefined;
}

const isPlus = (word: string): boolean => word === 'right' || word === 'rear' || word === 'away';

/** A line of the drawing in a setup. */
export function lineInSetup(name: string, line: PlanLine, frame: Frame): SetupLine {
  const place = (along: Mm): Position =>
    toSetup(line.along === 'x' ? { x: along, y: line.at } : { x: line.at, y: along }, frame);
  const [start, finish] = [place(line.from), place(line.to)];
  const wallSign = line.along === 'x' ? frame.signY : frame.signX;
  const signed = (word: string | undefined, turn: 1 | -1): '+' | '-' | undefined =>
    word === undefined ? undefined : isPlus(word) === (turn === 1) ? '+' : '-';
  return {
    name,
    along: line.along,
    wall: line.along === 'x' ? start.y : start.x,
    from: { at: line.along === 'x' ? start.x : start.y, end: line.ends?.from ?? 'open' },
    to: { at: line.along === 'x' ? finish.x : finish.y, end: line.ends?.to ?? 'open' },
    side: line.kind === 'slot' ? undefined : signed(line.side ?? 'right', wallSign),
    // A direction of feed is said of the machine, not of the part: it does not turn with it.
    feed: signed(line.feed, 1),
  };
}

/** Depths of the passes, last one to size; lengths below the top, as positive numbers. */
export function passDepths(depth: Mm, passes: PlanLine['passes'], last: Mm | undefined): readonly Mm[] {
  if (Array.isArray(passes)) return passes;
  const count = passes ?? 1;
  if (last === undefined || count < 2) return Array.from({ length: count }, (_, i) => asMm((depth * (i + 1)) / count));
  const before = Array.from({ length: count - 1 }, (_, i) => asMm(((depth - last) * (i + 1)) / (count - 1)));
  return [...before, depth];
}

/** What a cutter does along one line. */
export interface LineWork {
  readonly line: SetupLine;
  readonly kind: 'edge' | 'slot' | 'step';
  readonly width: Mm | undefined;
  readonly cutter: Mm;
  readonly runOut: Mm;
  readonly depths: readonly Mm[];
  /** How the cutter is laid beside the wall, where that is not a matter of its radius alone. */
  readonly lay?: Lay;
}

/** Where the axis runs, worked out beforehand: a chamfer, a thick end in several advances, a face in strips. */
export interface Lay {
  /** From the wall to the axis, in working order, signed along the other axis. */
  readonly offsets: readonly number[];
  /** How far before a closed end the axis stops. */
  readonly short: number;
  /** Side on which metal is left, where the offset's sign does not tell. */
  readonly work?: '+' | '-';
}

/** How many passes a line cut will have, without making them: a hair of a cutter in a wide step would make millions. */
export function passCount(line: Pick<PlanLine, 'kind' | 'width' | 'passes'>, cutter: Mm): number {
  const depths = Array.isArray(line.passes) ? line.passes.length : (line.passes ?? 1);
  const spare = (line.width ?? cutter) - cutter;
  if (line.kind === 'edge' || spare <= SAME_WIDTH) return depths;
  return depths * (advancesOf(spare, cutter) + 1);
}

/** Steps over from the free side of a wide step to its wall, or from wall to wall of a wide slot. */
const advancesOf = (spare: number, cutter: number): number => Math.ceil(spare / (cutter * STEP_OVER));

/** The passes of a line cut in working order: depth by depth, at each depth from the free side to the wall. */
export function linePasses(work: LineWork): readonly ResolvedPass[] {
  const offsets = wallOffsets(work);
  const total = work.depths.length * offsets.length;
  return work.depths.flatMap((depth, deep) =>
    offsets.map((offset, side): ResolvedPass => {
      const index = deep * offsets.length + side;
      const name = total === 1 ? work.line.name : `${work.line.name}, pass ${index + 1} of ${total}`;
      return passAt(work, offset, depth, name, index === total - 1);
    }),
  );
}

/** Distances of the cutter's axis from the wall or the middle, signed along the other axis. */
function wallOffsets(work: LineWork): readonly number[] {
  const radius = work.cutter / 2;
  const spare = (work.width ?? work.cutter) - work.cutter;
  if (work.lay !== undefined) return work.lay.offsets;
  if (work.kind === 'slot') return spare <= SAME_WIDTH ? [0] : slotOffsets(spare, advancesOf(spare, work.cutter));
  const sign = work.line.side === '-' ? -1 : 1;
  if (work.kind === 'edge' || spare <= SAME_WIDTH) return [sign * radius];
  const advances = advancesOf(spare, work.cutter);
  return Array.from({ length: advances + 1 }, (_, i) => sign * (radius + (spare * (advances - i)) / advances));
}

/**
 * Places of the axis over a wide slot, from the middle outwards, so that every pass after the first has metal on its outer
 * side alone and none is left standing between two.
 *
 * Example: 15 mm to spare in 3 advances: 2.5, -2.5, 7.5, -7.5.
 */
const slotOffsets = (spare: number, advances: number): readonly number[] =>
  Array.from({ length: advances + 1 }, (_, i) => spare / 2 - (spare * i) / advances).sort((a, b) =>
    Math.abs(Math.abs(a) - Math.abs(b)) < 1e-9 ? b - a : Math.abs(a) - Math.abs(b),
  );

/** The feed of each pass at one depth that keeps the work on the left; undefined where there is work on both sides. */
export const conventionalFeeds = (work: LineWork): readonly ('+' | '-' | undefined)[] =>
  wallOffsets(work).map((offset) => conventional(work, offset));

function passAt(work: LineWork, offset: number, depth: Mm, name: string, last: boolean): ResolvedPass {
  const { line } = work;
  const natural = line.to.at >= line.from.at ? '+' : '-';
  const feedTowards = line.feed ?? conventional(work, offset) ?? natural;
  const begin = natural === '+' ? line.from : line.to;
  const finish = natural === '+' ? line.to : line.from;
  const low = begin.at - beyond(begin.end, work);
  const high = finish.at + beyond(finish.end, work);
  const [start, stop] = feedTowards === '+' ? [low, high] : [high, low];
  const at = (along: number): { x: Mm; y: Mm } => {
    const across = asMm(line.wall + offset);
    return line.along === 'x' ? { x: asMm(along), y: across } : { x: across, y: asMm(along) };
  };
  return { name, feedAxis: line.along, feedTowards, from: at(start), to: at(stop), z: asMm(-depth), last };
}

/** How far the axis goes past an end: out at an open one, short of a closed one. */
const beyond = (end: 'open' | 'closed', work: LineWork): number =>
  end === 'open' ? work.cutter / 2 + work.runOut : -(work.lay?.short ?? work.cutter / 2);

/**
 * The direction that keeps the work on the left of the travel; undefined where the cutter has work on both sides.
 *
 * Going +X the left is +Y; going +Y the left is -X. At an edge or step the work lies beyond the wall, away from the cutter;
 * in a slot that is widened, on the side of the wall being cut.
 */
function conventional(work: LineWork, offset: number): '+' | '-' | undefined {
  if (work.kind === 'slot' && offset === 0) return undefined;
  const byOffset = work.kind === 'slot' ? offset > 0 : offset < 0;
  const workIsPlus = work.lay?.work === undefined ? byOffset : work.lay.work === '+';
  return (work.line.along === 'x') === workIsPlus ? '+' : '-';
}
