import type { Range } from './refusal.ts';

/**
 * What is absurd at a small manual machine. These are limits of sense, set by us and wide on purpose: they catch a slipped
 * decimal point, a unit read as another and a value left out, not an unusual job.
 */

/** Diameter of a drill, cutter, reamer, tap or countersink. */
export const TOOL_DIAMETER: Range = {
  what: 'tool diameter',
  unit: 'mm',
  above: 0,
  upTo: 250,
  remedy: 'check the diameter and its unit',
};

/** Diameter of a hole or of the mouth of a hole. */
export const HOLE_DIAMETER: Range = { ...TOOL_DIAMETER, what: 'hole diameter' };

/** Included angle of a drill point or countersink. */
export const POINT_ANGLE: Range = {
  what: 'point angle',
  unit: 'deg',
  above: 0,
  below: 180,
  remedy: 'give the included angle of the point, such as 118 deg or 90 deg',
};

/** A coordinate or a signed length. */
export const LENGTH: Range = {
  what: 'length',
  unit: 'mm',
  from: -20_000,
  upTo: 20_000,
  remedy: 'check the length and its unit',
};

/** A depth, thickness or travel that must be there. */
export const POSITIVE_LENGTH: Range = {
  what: 'length',
  unit: 'mm',
  above: 0,
  upTo: 20_000,
  remedy: 'check the length and its unit',
};

/** A depth, allowance or clearance that may be nothing. */
export const ALLOWANCE: Range = {
  what: 'allowance',
  unit: 'mm',
  from: 0,
  upTo: 1000,
  remedy: 'give zero or a small positive length',
};

/** An angle on a drawing. */
export const ANGLE: Range = {
  what: 'angle',
  unit: 'deg',
  from: -360,
  upTo: 360,
  remedy: 'give an angle within one turn',
};

/** Spindle speed. */
export const SPINDLE_SPEED: Range = {
  what: 'spindle speed',
  unit: 'rpm',
  above: 0,
  upTo: 100_000,
  remedy: 'give turns a minute, such as 950 rpm',
};

/** Cutting speed. */
export const CUTTING_SPEED: Range = {
  what: 'cutting speed',
  unit: 'm/min',
  above: 0,
  upTo: 2000,
  remedy: 'give it with its unit, such as 30 m/min or 100 ft/min',
};

/** Feed in a turn of the spindle or of one tooth. */
export const FEED: Range = {
  what: 'feed',
  unit: 'mm',
  above: 0,
  upTo: 10,
  remedy: 'give the feed of one turn or one tooth, such as 0.1 mm/rev',
};

/** Distance from one thread to the next. */
export const PITCH: Range = {
  what: 'thread pitch',
  unit: 'mm',
  above: 0.05,
  upTo: 10,
  remedy: 'check the thread: metric pitch in mm, inch threads by threads an inch',
};

/** Any duration that is asked for. */
export const DURATION: Range = {
  what: 'time',
  unit: 's',
  from: 0,
  upTo: 3_600_000,
  remedy: 'give a time such as 45 s, 20 min or 1 h 20 min',
};

/** A number of whole things. */
export const COUNT: Range = {
  what: 'number',
  unit: '',
  from: 0,
  upTo: 100_000,
  remedy: 'give a whole number',
};

/** A share in percent. */
export const PERCENT: Range = {
  what: 'percentage',
  unit: '%',
  from: 0,
  upTo: 100,
  remedy: 'give a percentage such as 75 %',
};
