/**
 * Where a pattern of points stands: rows, grids, circles, and what becomes of points that are mirrored or turned.
 *
 * Coordinates are absolute from the zero of the setup: +X to the right, +Y away from the user; angles in degrees,
 * anticlockwise from +X seen from above. Nothing here rounds: only a readout or a dial does, and each point by itself, so
 * that no error adds up along a pattern. All formulas are plane trigonometry (x = R cos a, y = R sin a).
 */

import { asDegrees, asMm, type Degrees, type Mm } from './quantities.ts';
import { ANGLE, LENGTH, POSITIVE_LENGTH } from './ranges.ts';
import { type Range, type Refusal, type Result, refuseOutside, whenSound } from './refusal.ts';
import { refuseUnlessWhole } from './whole.ts';

/** A place over the part, absolute from the zero of the setup. */
export interface Position {
  readonly x: Mm;
  readonly y: Mm;
}

/** Points in a straight line at equal distances. */
export interface RowPattern {
  readonly start: Position;
  readonly count: number;
  readonly pitch: Mm;
  /** Direction of the row; +X when left out. */
  readonly angle?: Degrees;
}

/** Points in columns (along X) and rows (along Y), given row by row from `start`, each row in the same direction. */
export interface GridPattern {
  readonly start: Position;
  readonly columns: number;
  readonly rows: number;
  /** Signed: a negative pitch goes to the left. */
  readonly columnPitch: Mm;
  /** Signed: a negative pitch comes towards the user, as below a rear fixed jaw. */
  readonly rowPitch: Mm;
  /** The whole grid turned about `start`; 0 when left out. */
  readonly angle?: Degrees;
}

/** Points at equal angles on a circle or a part of it. */
export interface CirclePattern {
  readonly centre: Position;
  /** Diameter of the circle through the points. */
  readonly diameter: Mm;
  readonly count: number;
  /** Angle of the first point. */
  readonly start: Degrees;
  /** Angle from the first to the last point of a part circle, above 0 and below 360; left out for the full circle. */
  readonly arc?: Degrees;
  /** Which way the points are numbered, seen from above; anticlockwise when left out. */
  readonly direction?: 'anticlockwise' | 'clockwise';
}

/** The most points a pattern may have. */
const MOST_POINTS = 2000;

const POINT_COUNT: Range = {
  what: 'number of points',
  unit: '',
  from: 1,
  upTo: MOST_POINTS,
  remedy: 'give the whole number of points',
};
const SIGNED_PITCH: Range = { ...LENGTH, what: 'pitch' };
const RADIUS: Range = { ...LENGTH, what: 'radius', from: 0 };

/**
 * The points of a row, first to last.
 *
 * @param pattern count 1 to 2000; pitch above 0 mm, at most 20 m; angle within one turn; start within 20 m.
 * @returns the points unrounded, or a refusal that names the value outside its range.
 *
 * Example: start (10, 5), count 3, pitch 20 gives (10, 5), (30, 5), (50, 5).
 */
export function rowOfPoints(pattern: RowPattern): Result<readonly Position[]> {
  const angle = pattern.angle ?? asDegrees(0);
  const checks = [
    refuseUnlessWhole(pattern.count, POINT_COUNT),
    refuseOutside(pattern.pitch, { ...POSITIVE_LENGTH, what: 'pitch' }),
    refuseOutside(angle, ANGLE),
    ...refusePosition(pattern.start, 'start'),
  ];
  return whenSound(checks, () =>
    Array.from({ length: pattern.count }, (_, index) => onRay(pattern.start, pattern.pitch * index, angle)),
  );
}

/**
 * The points of a grid, row by row from its start.
 *
 * @param pattern columns and rows 1 or more, at most 2000 points together; pitches not 0 where there is more than one.
 * @returns the points unrounded, or a refusal.
 *
 * Example: start (10, -10), 2 columns at 30, 2 rows at -20: (10, -10), (40, -10), (10, -30), (40, -30).
 */
export function gridOfPoints(pattern: GridPattern): Result<readonly Position[]> {
  const angle = pattern.angle ?? asDegrees(0);
  const checks = [
    refuseUnlessWhole(pattern.columns, { ...POINT_COUNT, what: 'number of columns' }),
    refuseUnlessWhole(pattern.rows, { ...POINT_COUNT, what: 'number of rows' }),
    refuseOutside(pattern.columns * pattern.rows, POINT_COUNT),
    refuseGridPitch(pattern.columns, pattern.columnPitch, 'column pitch'),
    refuseGridPitch(pattern.rows, pattern.rowPitch, 'row pitch'),
    refuseOutside(angle, ANGLE),
    ...refusePosition(pattern.start, 'start'),
  ];
  return whenSound(checks, () =>
    Array.from({ length: pattern.columns * pattern.rows }, (_, index) => {
      const along = {
        x: asMm(pattern.start.x + (index % pattern.columns) * pattern.columnPitch),
        y: asMm(pattern.start.y + Math.floor(index / pattern.columns) * pattern.rowPitch),
      };
      return turnAbout(along, pattern.start, angle);
    }),
  );
}

/**
 * The points of a circle of holes, in the order of their numbers.
 *
 * On a full circle the step is 360 / count; on a part circle the first and last point stand at its ends and the step is
 * arc / (count - 1).
 *
 * @param pattern diameter above 0 mm, at most 20 m; count 1 to 2000 (2 or more on a part circle); start within one turn.
 * @returns the points unrounded, or a refusal.
 *
 * Example: five points on 50 mm, first at 90 degrees: (0, 25), (-23.776, 7.725), (-14.695, -20.225), (14.695, -20.225),
 * (23.776, 7.725).
 */
export function circleOfPoints(pattern: CirclePattern): Result<readonly Position[]> {
  const checks = [
    refuseUnlessWhole(pattern.count, { ...POINT_COUNT, from: pattern.arc === undefined ? 1 : 2 }),
    refuseOutside(pattern.diameter, { ...POSITIVE_LENGTH, what: 'circle diameter' }),
    refuseOutside(pattern.start, { ...ANGLE, what: 'start angle' }),
    pattern.arc === undefined ? undefined : refuseOutside(pattern.arc, ARC),
    ...refusePosition(pattern.centre, 'centre'),
  ];
  return whenSound(checks, () => {
    const step = pattern.arc === undefined ? 360 / pattern.count : pattern.arc / (pattern.count - 1);
    const signed = pattern.direction === 'clockwise' ? -step : step;
    return Array.from({ length: pattern.count }, (_, index) =>
      onRay(pattern.centre, pattern.diameter / 2, asDegrees(pattern.start + signed * index)),
    );
  });
}

const ARC: Range = {
  what: 'arc of the part circle',
  unit: 'deg',
  above: 0,
  below: 360,
  remedy: 'give the angle from the first to the last point, or leave it out for the full circle',
};

/**
 * The straight distance between neighbours on a full circle, to check with a rule: chord = D sin(180 / count).
 *
 * @param count 2 to 2000. @param diameter of the circle through the points, above 0 mm.
 *
 * Example: five on 50 mm stand 29.389 mm apart.
 */
export function chordOnCircle(diameter: Mm, count: number): Result<Mm> {
  const checks = [
    refuseUnlessWhole(count, { ...POINT_COUNT, from: 2 }),
    refuseOutside(diameter, { ...POSITIVE_LENGTH, what: 'circle diameter' }),
  ];
  return whenSound(checks, () => asMm(diameter * Math.sin(Math.PI / count)));
}

/**
 * The point at a radius and an angle from a centre.
 *
 * @param radius 0 to 20 m. @param angle within one turn.
 *
 * Example: centre (10, 0), radius 20, 90 degrees is (10, 20).
 */
export function polarPoint(centre: Position, radius: Mm, angle: Degrees): Result<Position> {
  const checks = [refuseOutside(radius, RADIUS), refuseOutside(angle, ANGLE), ...refusePosition(centre, 'centre')];
  return whenSound(checks, () => onRay(centre, radius, angle));
}

/** A point as seen from a centre: how far and in which direction, the angle from 0 up to but not 360 degrees. */
export interface Bearing {
  readonly radius: Mm;
  readonly angle: Degrees;
}

/**
 * Where a point lies seen from a centre; the reverse of `polarPoint`. A point on the centre has angle 0.
 *
 * Example: from (10, 0) the point (10, 20) lies at radius 20, 90 degrees.
 */
export function bearingOf(centre: Position, point: Position): Result<Bearing> {
  return whenSound([...refusePosition(centre, 'centre'), ...refusePosition(point, 'point')], () => {
    const angle = (Math.atan2(point.y - centre.y, point.x - centre.x) * 180) / Math.PI;
    const inTurn = angle < 0 ? angle + 360 : angle;
    return {
      radius: asMm(Math.hypot(point.x - centre.x, point.y - centre.y)),
      angle: asDegrees(inTurn >= 360 ? 0 : inTurn),
    };
  });
}

/** The line about which points change sides: one that runs front to back at an X, or one that runs left to right at a Y. */
export type MirrorLine = { readonly kind: 'at-x'; readonly at: Mm } | { readonly kind: 'at-y'; readonly at: Mm };

/**
 * The points on the other side of a line, in the same order. Mirroring twice gives the first points back.
 *
 * Turning a part over end for end is the same sum seen from above, but mirroring without turning makes the part of the
 * other hand; which of the two is meant is for the plan to say.
 *
 * Example: (10, 5) mirrored about x = 30 is (50, 5).
 */
export function mirrorPoints(points: readonly Position[], line: MirrorLine): Result<readonly Position[]> {
  const checks = [refuseOutside(line.at, { ...LENGTH, what: 'mirror line' }), ...refusePositions(points)];
  return whenSound(checks, () =>
    points.map((point) =>
      line.kind === 'at-x'
        ? { x: asMm(2 * line.at - point.x), y: point.y }
        : { x: point.x, y: asMm(2 * line.at - point.y) },
    ),
  );
}

/**
 * The points turned about a centre, in the same order.
 *
 * @param angle anticlockwise seen from above, within one turn.
 *
 * Example: (10, 0) turned by 90 degrees about (0, 0) is (0, 10).
 */
export function rotatePoints(
  points: readonly Position[],
  centre: Position,
  angle: Degrees,
): Result<readonly Position[]> {
  const checks = [refuseOutside(angle, ANGLE), ...refusePosition(centre, 'centre'), ...refusePositions(points)];
  return whenSound(checks, () => points.map((point) => turnAbout(point, centre, angle)));
}

function refusePosition(position: Position, what: string): readonly (Refusal | undefined)[] {
  return [
    refuseOutside(position.x, { ...LENGTH, what: `X of the ${what}` }),
    refuseOutside(position.y, { ...LENGTH, what: `Y of the ${what}` }),
  ];
}

const refusePositions = (points: readonly Position[]): readonly (Refusal | undefined)[] =>
  points.flatMap((point, index) => refusePosition(point, `point ${index + 1}`));

function refuseGridPitch(count: number, pitch: Mm, what: string): Refusal | undefined {
  const range = { ...SIGNED_PITCH, what };
  const needed = count > 1 && pitch === 0;
  return needed
    ? { what, found: '0 mm', allowed: 'a length other than 0 mm', remedy: 'give the distance between neighbours' }
    : refuseOutside(pitch, range);
}

function onRay(from: Position, distance: number, angle: Degrees): Position {
  const { cosine, sine } = directionOf(angle);
  return { x: asMm(from.x + distance * cosine), y: asMm(from.y + distance * sine) };
}

function turnAbout(point: Position, centre: Position, angle: Degrees): Position {
  const { cosine, sine } = directionOf(angle);
  const dx = point.x - centre.x;
  const dy = point.y - centre.y;
  return { x: asMm(centre.x + dx * cosine - dy * sine), y: asMm(centre.y + dx * sine + dy * cosine) };
}

/** Cosine and sine, exact at the quarters, so that a point straight above the centre has the very X of the centre. */
function directionOf(angle: Degrees): { readonly cosine: number; readonly sine: number } {
  const inTurn = ((angle % 360) + 360) % 360;
  const quarter = EXACT_QUARTERS.get(inTurn);
  const radians = (inTurn * Math.PI) / 180;
  return quarter ?? { cosine: Math.cos(radians), sine: Math.sin(radians) };
}

const EXACT_QUARTERS: ReadonlyMap<number, { readonly cosine: number; readonly sine: number }> = new Map([
  [0, { cosine: 1, sine: 0 }],
  [90, { cosine: 0, sine: 1 }],
  [180, { cosine: -1, sine: 0 }],
  [270, { cosine: 0, sine: -1 }],
]);
