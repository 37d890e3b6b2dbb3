/**
 * Named points and line cuts. Both are written as on the drawing: from the datum of the part, +X to the right, +Y away from
 * the user, the part as it is drawn. Each setup turns them into its own coordinates (resolve/frames.ts).
 */
import * as z from 'zod';
import { angle, count, type Fields, flag, listOf, oneOf, oneOrMore, section, words } from './fields.ts';

/** A place by its coordinates, or the name of a single point. */
const placeField = (f: Fields, meaning: string) =>
  z
    .union([
      words('Name of a single point.').transform((name) => ({ kind: 'named' as const, name })),
      section('Coordinates from the datum.', { x: f.length('X.'), y: f.length('Y.') }).transform(({ x, y }) => ({
        kind: 'at' as const,
        x,
        y,
      })),
    ])
    .meta({ meaning, unit: '{ x: …, y: … } or the name of a point' });

const singlePoint = (f: Fields) =>
  section('One point from the datum.', {
    x: f.length('X from the datum.'),
    y: f.length('Y from the datum.'),
  }).transform((at) => ({ kind: 'single' as const, ...at }));

const offsetPoint = (f: Fields) =>
  section('One point measured from another.', {
    from: words('Name of the point measured from.'),
    x: f.length('To the right of it.', { default: '0' }).optional(),
    y: f.length('Away from it.', { default: '0' }).optional(),
  }).transform((offset) => ({ kind: 'offset' as const, ...offset }));

const row = (f: Fields) =>
  section('Points in line at one distance.', {
    row: section('A row.', {
      start: placeField(f, 'First point.'),
      count: count('Number of points.', 1, 2000),
      pitch: f.size('From one point to the next.'),
      angle: angle('Direction, anticlockwise from +X.', '0 deg').optional(),
    }),
  }).transform(({ row: inner }) => ({ kind: 'row' as const, ...inner }));

const grid = (f: Fields) =>
  section('Points in rows and columns.', {
    grid: section('A grid.', {
      start: placeField(f, 'First point.'),
      columns: count('Points along X.', 1, 2000),
      rows: count('Points along Y.', 1, 2000),
      'column pitch': f.length('From column to column, signed.'),
      'row pitch': f.length('From row to row, signed.'),
      angle: angle('The whole grid turned about its first point.', '0 deg').optional(),
    }),
  }).transform(({ grid: inner }) => ({ kind: 'grid' as const, ...inner }));

const circle = (f: Fields) =>
  section('Points on a circle.', {
    circle: section('A circle of points.', {
      centre: placeField(f, 'Centre of the circle.'),
      diameter: f.size('Diameter of the circle through the points.'),
      count: count('Number of points.', 1, 2000),
      first: angle('Angle of the first point, anticlockwise from +X.', '0 deg').optional(),
      arc: angle('Angle from the first to the last point of a part circle.', 'full circle').optional(),
      clockwise: flag('Counted clockwise seen from above?', 'no').optional(),
    }),
  }).transform(({ circle: inner }) => ({ kind: 'circle' as const, ...inner }));

const mirrored = (f: Fields) =>
  section('Other points on the other side of a line (this makes the other hand, it turns nothing over).', {
    mirrored: section('A mirror.', {
      points: oneOrMore('Names of the points to mirror.', words('A name.'), 200),
      'about x': f.length('X of a line that runs front to back.').optional(),
      'about y': f.length('Y of a line that runs left to right.').optional(),
    }),
  }).transform(({ mirrored: inner }) => ({ kind: 'mirrored' as const, ...inner }));

/** Entries of `points`: one point or an arrangement of several. */
export const pointsEntry = (f: Fields) =>
  z.union([singlePoint(f), offsetPoint(f), row(f), grid(f), circle(f), mirrored(f)]).meta({
    meaning: 'A point or an arrangement of points; the points of an arrangement are called name 1, name 2, …',
  });
export type PlanPoints = z.output<ReturnType<typeof pointsEntry>>;
export type PlanPlace = z.output<ReturnType<typeof placeField>>;

const ends = ['open', 'closed'] as const;
const sides = ['left', 'right', 'front', 'rear'] as const;
const ways = ['right', 'left', 'away', 'towards'] as const;

/** Entries of `lines`: a cut along one axis. */
export const lineEntry = (f: Fields) =>
  section('A cut along one axis.', {
    kind: oneOf('What is cut: an outer edge, a slot on both walls at once, a step beside a wall.', [
      'edge',
      'slot',
      'step',
    ]),
    along: oneOf('Axis that is fed.', ['x', 'y']),
    at: f.length('Where the wall stands (edge, step) or the middle of the slot, on the other axis.'),
    from: f.length('Where the cut begins along the fed axis.'),
    to: f.length('Where the cut ends along the fed axis.'),
    ends: section('Ends of the cut: the cutter runs out past an open end and stops one radius short of a closed one.', {
      from: oneOf('The end where it begins.', ends, 'open').optional(),
      to: oneOf('The end where it ends.', ends, 'open').optional(),
    }).optional(),
    side: oneOf('Edge or step, needed there: the side of the wall on which the cutter stands.', sides).optional(),
    width: f
      .size('Slot: its width. Step: how far it reaches from the wall.', 'slot: one cutter wide; step: to the edge')
      .optional(),
    depth: f.size('Depth of the floor below the top.', 'the depth of the operation').optional(),
    passes: z
      .union([
        listOf('Depth of every pass.', f.size('Depth of one pass.'), 100),
        count('Number of equal passes.', 1, 100).transform((number) => number),
      ])
      .meta({ meaning: 'Depths of the passes, or their number.', unit: 'whole number or list of depths', default: '1' })
      .optional(),
    'last pass': f.size('What is left for the last pass to size.', 'equal passes').optional(),
    feed: oneOf(
      'Which way the cutter goes over the part.',
      ways,
      'conventional; from the beginning to the end where a slot is cut full',
    ).optional(),
  });
export type PlanLine = z.output<ReturnType<typeof lineEntry>>;
