/**
 * In which order to visit points so that backlash does least harm and the handles are wound least.
 *
 * On dials a point is right only when it is reached from the side from which the zero was touched. A move that goes the
 * other way must be wound past the point and brought back: a winding past, counted for each axis. An axis that does not
 * move between two points keeps its backlash taken up and needs none. Fewest windings past come first, then the shortest
 * way (X and Y are wound one after the other, so a way is |dx| + |dy|).
 */
import type { Position } from './patterns.ts';
import { asMm, type Mm } from './quantities.ts';
import { type Range, type Result, sureRow, whenSound } from './refusal.ts';
import { refuseUnlessWhole } from './whole.ts';

/** The side from which a coordinate must be reached: while it grows, while it shrinks, or no matter (readout). */
export type Approach = 'growing' | 'shrinking' | 'either';

/** The approach of both axes. */
export interface ApproachSides {
  readonly x: Approach;
  readonly y: Approach;
}

/** What a move between two points asks of each axis. */
export interface WindPasts {
  readonly x: boolean;
  readonly y: boolean;
}

/** An order of visit and what it costs. */
export interface VisitingOrder {
  /** Indexes of the given points, first visited first. */
  readonly order: readonly number[];
  /** Windings past between the first and the last point, both axes together. */
  readonly windings: number;
  /** Way wound between the first and the last point, X and Y added. */
  readonly travel: Mm;
  /** True when no order is better; false when there were too many points to try all, and this is merely a good one. */
  readonly proven: boolean;
}

/** Moves smaller than this are none: finer than any dial or readout on a manual machine shows. */
const STILL_MM = 0.0005;
/** Up to this many points every order is covered (by dynamic programming over the visited sets). */
const EXACT_POINTS = 13;
const MOST_POINTS = 2000;
/** Steps that the search for a good order of many points may spend. */
const EFFORT = 4_000_000;

const POINTS: Range = { what: 'number of points', unit: '', from: 1, upTo: MOST_POINTS, remedy: 'give the points' };

/**
 * Which axes must be wound past the second point and brought back, coming from the first.
 *
 * Example: both approached shrinking, from (1, .25) to (1, 1.25): X no (it stands still), Y yes.
 */
export function windPastsBetween(from: Position, to: Position, sides: ApproachSides): WindPasts {
  return { x: mustWindPast(to.x - from.x, sides.x), y: mustWindPast(to.y - from.y, sides.y) };
}

/** Windings past along an order as given, both axes together: six holes on a circle taken by angle need 5. */
export function countWindings(points: readonly Position[], sides: ApproachSides): number {
  return points.slice(1).reduce((sum, point, index) => {
    return sum + windingsOf(sureRow(points[index]), point, sides);
  }, 0);
}

/** The way wound along an order as given, X and Y added, from the first to the last point. */
export function travelAlong(points: readonly Position[]): Mm {
  return asMm(
    points.slice(1).reduce((sum, point, index) => {
      return sum + wayBetween(sureRow(points[index]), point);
    }, 0),
  );
}

/**
 * The order with the fewest windings past and, among those, the shortest way.
 *
 * Up to 13 points the answer is proven best. Beyond (up to 2000) a good order is built from many starts and improved by
 * moving single points; `proven` is then false.
 *
 * @param points 1 to 2000. @param sides the approach of each axis, `either` for an axis with a readout.
 *
 * Example: six holes on a circle of 1.000 in, first at 30 degrees, both axes approached shrinking in distance from the rear
 * jaw: 330, 30, 90, 270, 210, 150 degrees with 1 winding past and 3.366 in of way.
 */
export function visitingOrder(points: readonly Position[], sides: ApproachSides): Result<VisitingOrder> {
  return whenSound([refuseUnlessWhole(points.length, POINTS)], () => {
    const cost = costTable(points, sides);
    const proven = points.length <= EXACT_POINTS;
    const order = proven ? bestOrder(points.length, cost) : goodOrder(points.length, cost);
    const visited = order.map((index) => sureRow(points[index]));
    return { order, windings: countWindings(visited, sides), travel: travelAlong(visited), proven };
  });
}

function mustWindPast(move: number, approach: Approach): boolean {
  if (Math.abs(move) < STILL_MM) return false;
  switch (approach) {
    case 'growing':
      return move < 0;
    case 'shrinking':
      return move > 0;
    case 'either':
      return false;
  }
}

function windingsOf(from: Position, to: Position, sides: ApproachSides): number {
  const past = windPastsBetween(from, to, sides);
  return Number(past.x) + Number(past.y);
}

const wayBetween = (from: Position, to: Position): number => Math.abs(to.x - from.x) + Math.abs(to.y - from.y);

type Cost = (from: number, to: number) => number;

/** Windings and way in one number: a winding weighs more than any way that the moves could add up to. */
function costTable(points: readonly Position[], sides: ApproachSides): Cost {
  const xs = points.map((point) => point.x);
  const ys = points.map((point) => point.y);
  const span = Math.max(...xs) - Math.min(...xs) + Math.max(...ys) - Math.min(...ys);
  const winding = (span + 1) * points.length;
  return (from, to) => {
    const [a, b] = [sureRow(points[from]), sureRow(points[to])];
    return windingsOf(a, b, sides) * winding + wayBetween(a, b);
  };
}

/** Least cost over all orders, by dynamic programming: best[visited set][last point]. Ties keep the earlier point. */
function bestOrder(count: number, cost: Cost): readonly number[] {
  const full = 2 ** count;
  const best = new Float64Array(full * count).fill(Number.POSITIVE_INFINITY);
  const before = new Int8Array(full * count).fill(-1);
  for (let point = 0; point < count; point += 1) best[(1 << point) * count + point] = 0;
  for (let visited = 1; visited < full; visited += 1) {
    for (let last = 0; last < count; last += 1) {
      const soFar = sureRow(best[visited * count + last]);
      if (soFar !== Number.POSITIVE_INFINITY) extend(best, before, { visited, last, soFar, count }, cost);
    }
  }
  return traceBack(best, before, count);
}

interface Stage {
  readonly visited: number;
  readonly last: number;
  readonly soFar: number;
  readonly count: number;
}

function extend(best: Float64Array, before: Int8Array, stage: Stage, cost: Cost): void {
  for (let next = 0; next < stage.count; next += 1) {
    if ((stage.visited & (1 << next)) !== 0) continue;
    const at = (stage.visited | (1 << next)) * stage.count + next;
    const total = stage.soFar + cost(stage.last, next);
    if (total < sureRow(best[at]) - 1e-9) {
      best[at] = total;
      before[at] = stage.last;
    }
  }
}

function traceBack(best: Float64Array, before: Int8Array, count: number): readonly number[] {
  const full = 2 ** count - 1;
  let last = 0;
  for (let point = 1; point < count; point += 1) {
    if (sureRow(best[full * count + point]) < sureRow(best[full * count + last]) - 1e-9) last = point;
  }
  const order: number[] = [];
  for (let visited = full; visited !== 0; ) {
    order.unshift(last);
    const previous = sureRow(before[visited * count + last]);
    visited &= ~(1 << last);
    last = previous;
  }
  return order;
}

/** A good order of many points: the cheapest of several nearest-next orders, then single points moved where it pays. */
function goodOrder(count: number, cost: Cost): readonly number[] {
  const starts = Math.max(1, Math.min(count, Math.floor(EFFORT / (count * count))));
  let order: readonly number[] = [];
  let least = Number.POSITIVE_INFINITY;
  for (let start = 0; start < starts; start += 1) {
    const candidate = nearestNext(Math.floor((start * count) / starts), count, cost);
    const total = totalCost(candidate, cost);
    if (total < least - 1e-9) {
      least = total;
      order = candidate;
    }
  }
  return movePoints(order, cost);
}

const totalCost = (order: readonly number[], cost: Cost): number =>
  order.slice(1).reduce((sum, point, index) => sum + cost(sureRow(order[index]), point), 0);

function nearestNext(start: number, count: number, cost: Cost): readonly number[] {
  const left = new Set(Array.from({ length: count }, (_, index) => index));
  left.delete(start);
  const order = [start];
  let last = start;
  while (left.size > 0) {
    let nearest = -1;
    let least = Number.POSITIVE_INFINITY;
    for (const point of left) {
      const here = cost(last, point);
      if (here < least) {
        least = here;
        nearest = point;
      }
    }
    left.delete(nearest);
    order.push(nearest);
    last = nearest;
  }
  return order;
}

/** Takes single points out and puts them where they cost less, until nothing gains or the effort is spent. */
function movePoints(start: readonly number[], cost: Cost): readonly number[] {
  let order = [...start];
  let effort = EFFORT;
  for (let gained = true; gained && effort > 0; ) {
    gained = false;
    for (const point of [...order]) {
      const without = order.filter((other) => other !== point);
      const saved = totalAt(order, order.indexOf(point), cost) - gapCost(without, order.indexOf(point), cost);
      const place = cheapestPlace(without, point, cost);
      effort -= order.length;
      if (place.added < saved - 1e-9) {
        order = without.toSpliced(place.at, 0, point);
        gained = true;
      }
    }
  }
  return order;
}

/** Cost of the two moves that touch the point at a place of the order. */
function totalAt(order: readonly number[], at: number, cost: Cost): number {
  const point = order[at];
  if (point === undefined) return 0;
  const before = order[at - 1];
  const after = order[at + 1];
  return (before === undefined ? 0 : cost(before, point)) + (after === undefined ? 0 : cost(point, after));
}

/** Cost of the one move across a place: from the point before it to the point at it. */
function gapCost(order: readonly number[], at: number, cost: Cost): number {
  const before = order[at - 1];
  const after = order[at];
  return before === undefined || after === undefined ? 0 : cost(before, after);
}

function cheapestPlace(order: readonly number[], point: number, cost: Cost): { at: number; added: number } {
  let best = { at: 0, added: Number.POSITIVE_INFINITY };
  for (let at = 0; at <= order.length; at += 1) {
    const before = order[at - 1];
    const after = order[at];
    const joined = (before === undefined ? 0 : cost(before, point)) + (after === undefined ? 0 : cost(point, after));
    const added = joined - gapCost(order, at, cost);
    if (added < best.added - 1e-9) best = { at, added };
  }
  return best;
}
