/**
 * Named points of a plan as single places of the drawing: arrangements laid out, offsets followed, mirrors applied. Names of
 * the points of an arrangement are `name 1`, `name 2`, … in its own order.
 */

import { circleOfPoints, gridOfPoints, mirrorPoints, type Position, rowOfPoints } from '../../shop/patterns.ts';
import { asDegrees, asMm } from '../../shop/quantities.ts';
import type { Result } from '../../shop/refusal.ts';
import { suggestName } from '../../shop/suggest-name.ts';
import { neutral, type PathStep } from '../read/problem.ts';
import type { PlanPlace, PlanPoints } from '../schema/places.ts';
import { MAX_POINTS } from '../schema/plan.ts';
import { addProblem, entryOf, type Resolving, take } from './context.ts';

/** One place of the drawing under its name. */
export interface NamedPoint {
  readonly name: string;
  readonly at: Position;
}

/** All places of a plan: by the name of their entry, and single points of arrangements by their own name. */
export interface DrawnPoints {
  readonly entries: ReadonlyMap<string, readonly NamedPoint[]>;
  readonly single: ReadonlyMap<string, NamedPoint>;
}

/** Lays out every entry of `points`. Entries that cannot be laid out are left out after a problem was added. */
export function drawnPoints(resolving: Resolving): DrawnPoints {
  const entries = resolving.plan.points ?? {};
  const found = new Map<string, readonly NamedPoint[]>();
  const open = new Set<string>();
  let total = 0;
  const get = (name: string, from: readonly PathStep[]): readonly NamedPoint[] | undefined => {
    const done = found.get(name);
    if (done !== undefined) return done;
    const entry = entryOf(entries, name);
    if (entry === undefined) {
      unknownName(resolving, from, name, Object.keys(entries));
      return undefined;
    }
    if (open.has(name)) {
      addProblem(resolving, from, {
        found: neutral(name),
        wanted: 'a point that does not come back to itself',
        message: `the point "${neutral(name)}" is measured from itself`,
        tryThis: 'give one of these points by its coordinates',
      });
      return undefined;
    }
    // Mirrors of mirrors multiply: beyond the bound nothing more is laid out, and one problem is enough.
    if (total > MAX_POINTS) return undefined;
    open.add(name);
    const points = layOut(resolving, name, entry, get);
    open.delete(name);
    if (points !== undefined) found.set(name, points);
    total += points?.length ?? 0;
    return points;
  };
  for (const name of Object.keys(entries)) get(name, ['points', name]);
  if (total > MAX_POINTS) {
    addProblem(resolving, ['points'], {
      found: `${total} points and more`,
      wanted: `at most ${MAX_POINTS}`,
      message: `${total} points and more are too many for one plan; wanted at most ${MAX_POINTS}`,
      tryThis: 'make several plans of it',
    });
  }
  const single = new Map([...found.values()].flat().map((point) => [point.name, point]));
  return { entries: found, single };
}

/**
 * The points meant by a name: a whole entry, or one point of it (`corners 2`). `undefined` after a problem was added.
 */
export function pointsNamed(
  resolving: Resolving,
  points: DrawnPoints,
  name: string,
  path: readonly PathStep[],
): readonly NamedPoint[] | undefined {
  const whole = points.entries.get(name);
  if (whole !== undefined) return whole;
  const single = points.single.get(name);
  if (single !== undefined) return [single];
  if (entryOf(resolving.plan.points, name) === undefined)
    unknownName(resolving, path, name, Object.keys(resolving.plan.points ?? {}));
  return undefined;
}

type Getter = (name: string, from: readonly PathStep[]) => readonly NamedPoint[] | undefined;

function layOut(resolving: Resolving, name: string, entry: PlanPoints, get: Getter): readonly NamedPoint[] | undefined {
  const path = ['points', name];
  switch (entry.kind) {
    case 'single':
      return [{ name, at: { x: entry.x, y: entry.y } }];
    case 'offset': {
      const from = singleOf(resolving, entry.from, [...path, 'from'], get);
      return from === undefined
        ? undefined
        : [{ name, at: { x: asMm(from.x + (entry.x ?? 0)), y: asMm(from.y + (entry.y ?? 0)) } }];
    }
    case 'row': {
      const start = placeOf(resolving, entry.start, [...path, 'row', 'start'], get);
      if (start === undefined) return undefined;
      const row = { start, count: entry.count, pitch: entry.pitch };
      return numbered(resolving, path, name, rowOfPoints(withAngle(row, entry.angle)));
    }
    case 'grid': {
      const start = placeOf(resolving, entry.start, [...path, 'grid', 'start'], get);
      if (start === undefined) return undefined;
      const { columns, rows } = entry;
      const grid = { start, columns, rows, columnPitch: entry['column pitch'], rowPitch: entry['row pitch'] };
      return numbered(resolving, path, name, gridOfPoints(withAngle(grid, entry.angle)));
    }
    case 'circle': {
      const centre = placeOf(resolving, entry.centre, [...path, 'circle', 'centre'], get);
      return centre === undefined ? undefined : numbered(resolving, path, name, circleAt(centre, entry));
    }
    case 'mirrored':
      return mirroredPoints(resolving, name, entry, get);
  }
}

const withAngle = <Pattern extends object, Angle>(pattern: Pattern, angle: Angle | undefined) =>
  angle === undefined ? pattern : { ...pattern, angle };

function circleAt(centre: Position, entry: Extract<PlanPoints, { kind: 'circle' }>): Result<readonly Position[]> {
  return circleOfPoints({
    centre,
    diameter: entry.diameter,
    count: entry.count,
    start: entry.first ?? asDegrees(0),
    ...(entry.arc === undefined ? {} : { arc: entry.arc }),
    direction: entry.clockwise === true ? 'clockwise' : 'anticlockwise',
  });
}

function mirroredPoints(
  resolving: Resolving,
  name: string,
  entry: Extract<PlanPoints, { kind: 'mirrored' }>,
  get: Getter,
): readonly NamedPoint[] | undefined {
  const path = ['points', name, 'mirrored'];
  const [atX, atY] = [entry['about x'], entry['about y']];
  if ((atX === undefined) === (atY === undefined)) {
    addProblem(resolving, path, {
      found: atX === undefined ? 'no line' : 'two lines',
      wanted: 'one of "about x" and "about y"',
      message: `the mirror of "${neutral(name)}" needs one line`,
      tryThis: 'keep one of "about x" and "about y"',
    });
    return undefined;
  }
  const from = entry.points.map((other, index) => get(other, [...path, 'points', index]));
  if (from.some((points) => points === undefined)) return undefined;
  const places = from.flatMap((points) => points ?? []).map((point) => point.at);
  const line = atX === undefined ? { kind: 'at-y' as const, at: atY ?? asMm(0) } : { kind: 'at-x' as const, at: atX };
  return numbered(resolving, path, name, mirrorPoints(places, line));
}

function numbered(
  resolving: Resolving,
  path: readonly PathStep[],
  name: string,
  result: Result<readonly Position[]>,
): readonly NamedPoint[] | undefined {
  const places = take(resolving, path, result);
  if (places === undefined) return undefined;
  return places.map((at, index) => ({ name: places.length === 1 ? name : `${name} ${index + 1}`, at }));
}

function placeOf(resolving: Resolving, place: PlanPlace, path: readonly PathStep[], get: Getter): Position | undefined {
  return place.kind === 'at' ? { x: place.x, y: place.y } : singleOf(resolving, place.name, path, get);
}

function singleOf(resolving: Resolving, name: string, path: readonly PathStep[], get: Getter): Position | undefined {
  const points = get(name, path);
  if (points === undefined) return undefined;
  const only = points[0];
  if (points.length === 1 && only !== undefined) return only.at;
  addProblem(resolving, path, {
    found: `${points.length} points`,
    wanted: 'a single point',
    message: `"${neutral(name)}" is an arrangement of ${points.length} points; one point is wanted`,
    tryThis: 'name a single point, or give coordinates',
  });
  return undefined;
}

function unknownName(resolving: Resolving, path: readonly PathStep[], name: string, known: readonly string[]): void {
  const near = suggestName(name, known);
  addProblem(resolving, path, {
    found: `"${neutral(name)}"`,
    wanted: known.length === 0 ? 'a point under "points"' : `one of: ${known.map((one) => neutral(one)).join(', ')}`,
    message: `there is no point "${neutral(name)}"`,
    tryThis: near === undefined ? 'add it under "points"' : `did you mean "${neutral(near)}"?`,
  });
}
