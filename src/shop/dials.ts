/**
 * Handles with dials: what the dial reads at a point, counted from zero in whole turns and divisions, which way to turn the
 * handle, and how far to wind past so that every point is reached from the side from which the zero was touched.
 *
 * A dial counts its own way, which may be against the coordinate: `DialAxis` says how. Only absolute readings are rounded
 * (to the nearest half division), never the moves between them, so nothing drifts over a row of holes.
 */
import { asMm, type Mm } from './quantities.ts';
import { ALLOWANCE, LENGTH } from './ranges.ts';
import { type Range, type Refusal, type Result, refuseOutside, whenSound } from './refusal.ts';
import { roundToResolution } from './units.ts';
import type { Approach, ApproachSides } from './visiting-order.ts';
import { refuseUnlessWhole } from './whole.ts';
import type { Side } from './zero.ts';

/** The scale on a handle. */
export interface Dial {
  /** Travel of one turn. */
  readonly perTurn: Mm;
  /** Lines on the scale for one turn. */
  readonly divisions: number;
}

/** How an axis answers to its handle. */
export interface DialAxis {
  readonly dial: Dial;
  /** Which way the tool goes over the part (+X right, +Y away from the user) when the handle turns clockwise. */
  readonly clockwiseMoves: Side;
  /** Which way the dial counts when the handle turns clockwise. */
  readonly clockwiseCounts: 'up' | 'down';
  /** Lost motion on turning back; 0 where it is not known. */
  readonly backlash: Mm;
}

/** A stand of the dial, counted from its zero. */
export interface DialReading {
  /** Where it lies as the dial counts: at its zero, above it or below it (past zero). */
  readonly side: 'at zero' | 'above' | 'below';
  /** Whole turns from zero. */
  readonly turns: number;
  /** Divisions beyond the whole turns, in halves, less than one turn. */
  readonly divisions: number;
  /** What the scale itself shows: the same as `divisions` above zero, counted back from a full turn below it. */
  readonly face: number;
  /** The signed distance from zero, as the dial counts, that the rounded reading stands for. */
  readonly stands: Mm;
}

/** The way a handle is turned, as one looks at it. */
export type Turning = 'clockwise' | 'anticlockwise';

/** How to wind one axis from one stand to the next. */
export type WindMove =
  | { readonly kind: 'still'; readonly reading: DialReading }
  | { readonly kind: 'direct'; readonly turn: Turning; readonly reading: DialReading; readonly by: DialReading }
  | {
      readonly kind: 'past';
      /** First this way by so much, to the stand `past`, ... */
      readonly turn: Turning;
      readonly by: DialReading;
      readonly past: DialReading;
      /** ... which is so many divisions beyond the point, ... */
      readonly beyondDivisions: number;
      /** ... then this way back to the point. */
      readonly back: Turning;
      readonly reading: DialReading;
    };

/** The side from which points are reached, as the dial counts. */
export type CountingApproach = 'up' | 'down' | 'either';

const PER_TURN: Range = {
  what: 'travel of one turn',
  unit: 'mm',
  above: 0,
  upTo: 100,
  remedy: 'give the travel of one turn of the handle, such as 2.5 mm or .100 in',
};
const DIVISIONS: Range = {
  what: 'divisions of the dial',
  unit: '',
  from: 2,
  upTo: 1000,
  remedy: 'count the lines of one turn',
};
const BACKLASH: Range = { ...ALLOWANCE, what: 'backlash', upTo: 10 };
const HALF_DIVISION = 0.5;
/** A stand nearer than this to the next counts as the same: half of the finest half division in use (.0005 in). */
const STILL_DIVISIONS = 0.25;

/**
 * What the dial reads at a distance from its zero.
 *
 * @param count signed distance from zero as the dial counts, within 20 m. @param dial travel of one turn above 0 and at most
 * 100 mm, 2 to 1000 divisions.
 * @returns turns and divisions, rounded to the nearest half division (halves of that away from zero), or a refusal.
 *
 * Example: 12.34 mm at 2.5 mm a turn and 125 divisions is 4 turns + 117; -.300 in at .200 in a turn and 200 divisions is
 * 1 turn + 100 below zero, the scale showing 100.
 */
export function dialReading(count: Mm, dial: Dial): Result<DialReading> {
  return whenSound([refuseOutside(count, { ...LENGTH, what: 'distance from zero' }), ...refuseDial(dial)], () =>
    readingAt(count, dial),
  );
}

/**
 * The coordinate of a tool as its dial counts it from zero: the same length, with the sign of the dial.
 *
 * Example: an axis whose dial counts up as the tool comes towards the user reads 12.7 mm at Y -12.7 mm.
 */
export function dialCount(position: Mm, axis: DialAxis): Mm {
  const count = countsWithCoordinate(axis) ? position : -position;
  return asMm(count === 0 ? 0 : count);
}

/** Which way the dial counted when the zero was touched with the tool moving to the given side. */
export function countingAtTouch(touchMoves: Side | 'none', axis: DialAxis): CountingApproach {
  if (touchMoves === 'none') return 'either';
  return (touchMoves === 'plus') === countsWithCoordinate(axis) ? 'up' : 'down';
}

/**
 * The approach of both axes for the order of visit, from the way in which the tool moved as each zero was touched.
 *
 * Example: touched moving left and away from the user (`minus`, `plus`): X shrinking, Y growing.
 */
export function approachFromTouch(x: Side | 'none', y: Side | 'none'): ApproachSides {
  return { x: approachOf(x), y: approachOf(y) };
}

const approachOf = (touchMoves: Side | 'none'): Approach =>
  touchMoves === 'none' ? 'either' : touchMoves === 'plus' ? 'growing' : 'shrinking';

/**
 * How far to wind past a point before coming back to it: a quarter turn or twice the backlash, whichever is more, up to
 * the next five divisions. Common practice; the backlash must be taken up with some to spare.
 *
 * @returns divisions. Example: 200 divisions of .001 in with .008 in backlash: 50.
 */
export function windPastDivisions(dial: Dial, backlash: Mm): Result<number> {
  return whenSound([...refuseDial(dial), refuseOutside(backlash, BACKLASH)], () => windPast(dial, backlash));
}

/**
 * How to wind an axis from one coordinate to the next, both absolute from zero.
 *
 * A move against the side of approach goes past the point and comes back; a move with it goes straight there; an axis that
 * stands already (within a quarter division) is left alone.
 *
 * Example: Y dial counting up towards the user, .200 in a turn, 200 divisions, approached counting down: from .250 to
 * 1.250 in from the jaw wind clockwise to 6 + 100 (50 past), then anticlockwise to 6 + 50.
 */
export function windMove(from: Mm, to: Mm, axis: DialAxis, approach: CountingApproach): Result<WindMove> {
  const checks = [
    refuseOutside(from, { ...LENGTH, what: 'place to wind from' }),
    refuseOutside(to, { ...LENGTH, what: 'place to wind to' }),
    ...refuseDial(axis.dial),
    refuseOutside(axis.backlash, BACKLASH),
  ];
  return whenSound(checks, () => moveBetween(dialCount(from, axis), dialCount(to, axis), axis, approach));
}

function moveBetween(from: Mm, to: Mm, axis: DialAxis, approach: CountingApproach): WindMove {
  const division = axis.dial.perTurn / axis.dial.divisions;
  const reading = readingAt(to, axis.dial);
  if (Math.abs(to - from) < STILL_DIVISIONS * division) return { kind: 'still', reading };
  const counting = to > from ? 'up' : 'down';
  // What is turned is told from reading to reading, so that it agrees with the two that are seen.
  const { stands } = readingAt(from, axis.dial);
  const turn = turningFor(counting, axis);
  if (approach === 'either' || approach === counting) {
    return { kind: 'direct', turn, reading, by: readingAt(asMm(reading.stands - stands), axis.dial) };
  }
  const beyondDivisions = windPast(axis.dial, axis.backlash);
  const beyond = beyondDivisions * division;
  const past = readingAt(asMm(reading.stands + (counting === 'up' ? beyond : -beyond)), axis.dial);
  const by = readingAt(asMm(past.stands - stands), axis.dial);
  return { kind: 'past', turn, by, past, beyondDivisions, back: turningFor(approach, axis), reading };
}

const turningFor = (counting: 'up' | 'down', axis: DialAxis): Turning =>
  counting === axis.clockwiseCounts ? 'clockwise' : 'anticlockwise';

const countsWithCoordinate = (axis: DialAxis): boolean =>
  (axis.clockwiseMoves === 'plus') === (axis.clockwiseCounts === 'up');

function windPast(dial: Dial, backlash: Mm): number {
  const division = dial.perTurn / dial.divisions;
  return Math.ceil(Math.max(dial.divisions / 4, (2 * backlash) / division) / 5 - 1e-9) * 5;
}

function readingAt(count: Mm, dial: Dial): DialReading {
  const division = dial.perTurn / dial.divisions;
  const signed = roundToResolution(count / division, HALF_DIVISION);
  const total = Math.abs(signed);
  const turns = Math.floor(total / dial.divisions);
  const divisions = total - turns * dial.divisions;
  const side = total === 0 ? 'at zero' : signed > 0 ? 'above' : 'below';
  const face = side === 'below' && divisions > 0 ? dial.divisions - divisions : divisions;
  return { side, turns, divisions, face, stands: asMm(signed * division) };
}

function refuseDial(dial: Dial): readonly (Refusal | undefined)[] {
  return [refuseOutside(dial.perTurn, PER_TURN), refuseUnlessWhole(dial.divisions, DIVISIONS)];
}

/**
 * A reading as it is written beside a handle.
 *
 * Example: `7 + 33`; past zero `1 + 100 below zero (scale 100)`.
 */
export function formatDialReading(reading: DialReading): string {
  const text = `${reading.turns} + ${reading.divisions}`;
  return reading.side === 'below' ? `${text} below zero (scale ${reading.face})` : text;
}
