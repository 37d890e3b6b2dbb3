/** Topics about where: patterns of points, mirroring and turning them. */
import {
  bearingOf,
  chordOnCircle,
  circleOfPoints,
  gridOfPoints,
  mirrorPoints,
  type Position,
  polarPoint,
  rotatePoints,
  rowOfPoints,
} from '../../shop/patterns.ts';
import { asDegrees, asMm } from '../../shop/quantities.ts';
import { andThen, answer, type Result } from '../../shop/refusal.ts';
import { distance, order } from './distance-topics.ts';
import { angle, oneOf, POINTS_FLAG, point, points, positiveLength, signedLength, wholeNumber } from './readers.ts';
import { type Asked, type Field, read, readIf, readOr, type Topic, type TopicAnswer, withAll } from './topic.ts';
import { sayCount, sayLength, sayNumber } from './words.ts';

const origin: Position = { x: asMm(0), y: asMm(0) };
const CENTRE = { name: 'centre', value: 'X,Y', meaning: 'centre; 0,0 when left out' };

const sayPoint = ({ x, y }: Position, asked: Asked): string =>
  `X ${sayLength(x, asked.unit)}  Y ${sayLength(y, asked.unit)}`;
const sayPoints = (found: readonly Position[], asked: Asked): readonly string[] =>
  found.map((one, index) => `${String(index + 1).padStart(3)}  ${sayPoint(one, asked)}`);
const pointFields = (found: readonly Position[]): Field => found.map(({ x, y }) => ({ x_mm: x, y_mm: y }));

const listed = (
  found: readonly Position[],
  asked: Asked,
  text: string,
  fields: { readonly [name: string]: Field } = {},
): Result<TopicAnswer> =>
  answer({ text, working: sayPoints(found, asked), fields: { points: pointFields(found), ...fields } });

const DIRECTIONS = ['anticlockwise', 'clockwise'] as const;

const circle: Topic = {
  name: 'circle',
  summary: 'points on a circle of holes or a part of it',
  flags: [
    { name: 'holes', value: 'NUMBER', meaning: 'number of points' },
    { name: 'diameter', value: 'LENGTH', meaning: 'diameter of the circle through the points' },
    { name: 'start', value: 'ANGLE', meaning: 'angle of the first from +X, anticlockwise from above; 0 when left out' },
    { name: 'arc', value: 'ANGLE', meaning: 'part circle: angle from the first to the last point' },
    { name: 'direction', value: 'WAY', meaning: 'anticlockwise (when left out) or clockwise' },
    CENTRE,
  ],
  needs: [['holes'], ['diameter']],
  example: 'circle --holes 6 --diameter "40 mm" --start 0',
  run: (asked) =>
    withAll(
      {
        count: read(asked, 'holes', wholeNumber),
        across: read(asked, 'diameter', positiveLength),
        start: readOr(asked, 'start', angle, asDegrees(0)),
        arc: readIf(asked, 'arc', angle),
        direction: readOr(asked, 'direction', oneOf(DIRECTIONS), 'anticlockwise' as const),
        centre: readOr(asked, 'centre', point, origin),
      },
      ({ count, across, start, arc, direction, centre }) => {
        const part = arc === undefined ? {} : { arc };
        return withAll(
          {
            found: circleOfPoints({ centre, diameter: across, count, start, direction, ...part }),
            chord: count < 2 || arc !== undefined ? answer(undefined) : chordOnCircle(across, count),
          },
          ({ found, chord }) =>
            listed(
              found,
              asked,
              `${sayCount(count, 'point')} on ${sayLength(across, asked.unit)}${chord === undefined ? '' : `; neighbours ${sayLength(chord, asked.unit)} apart`}`,
              { diameter_mm: across, start_deg: start, ...(chord === undefined ? {} : { chord_mm: chord }) },
            ),
        );
      },
    ),
};

const row: Topic = {
  name: 'row',
  summary: 'points in a straight line at equal distances, absolute from zero',
  flags: [
    { name: 'count', value: 'NUMBER', meaning: 'number of points' },
    { name: 'pitch', value: 'LENGTH', meaning: 'distance between neighbours' },
    { name: 'start', value: 'X,Y', meaning: 'the first point; 0,0 when left out' },
    { name: 'angle', value: 'ANGLE', meaning: 'direction from +X, anticlockwise; 0 when left out' },
  ],
  needs: [['count'], ['pitch']],
  example: 'row --count 5 --pitch "20 mm" --start "10,-8"',
  run: (asked) =>
    withAll(
      {
        count: read(asked, 'count', wholeNumber),
        pitch: read(asked, 'pitch', positiveLength),
        start: readOr(asked, 'start', point, origin),
        direction: readOr(asked, 'angle', angle, asDegrees(0)),
      },
      ({ count, pitch, start, direction }) =>
        andThen(rowOfPoints({ start, count, pitch, angle: direction }), (found) =>
          listed(found, asked, `${sayCount(count, 'point')} at ${sayLength(pitch, asked.unit)}`, { pitch_mm: pitch }),
        ),
    ),
};

const grid: Topic = {
  name: 'grid',
  summary: 'points in columns and rows, absolute from zero',
  flags: [
    { name: 'columns', value: 'NUMBER', meaning: 'points along X' },
    { name: 'rows', value: 'NUMBER', meaning: 'points along Y' },
    { name: 'column-pitch', value: 'LENGTH', meaning: 'signed distance between columns' },
    { name: 'row-pitch', value: 'LENGTH', meaning: 'signed distance between rows; negative comes towards you' },
    { name: 'start', value: 'X,Y', meaning: 'the first point; 0,0 when left out' },
    { name: 'angle', value: 'ANGLE', meaning: 'whole grid turned about its start; 0 when left out' },
  ],
  needs: [['columns'], ['rows'], ['column-pitch'], ['row-pitch']],
  example: 'grid --columns 3 --rows 2 --column-pitch "30 mm" --row-pitch "-20 mm" --start "10,-10"',
  run: (asked) =>
    withAll(
      {
        columns: read(asked, 'columns', wholeNumber),
        rows: read(asked, 'rows', wholeNumber),
        columnPitch: read(asked, 'column-pitch', signedLength),
        rowPitch: read(asked, 'row-pitch', signedLength),
        start: readOr(asked, 'start', point, origin),
        turned: readOr(asked, 'angle', angle, asDegrees(0)),
      },
      ({ turned, ...pattern }) =>
        andThen(gridOfPoints({ ...pattern, angle: turned }), (found) =>
          listed(found, asked, `${sayCount(found.length, 'point')}, row by row`),
        ),
    ),
};

const mirror: Topic = {
  name: 'mirror',
  summary: 'points on the other side of a line',
  flags: [
    POINTS_FLAG,
    { name: 'x', value: 'LENGTH', meaning: 'mirror about the line at this X' },
    { name: 'y', value: 'LENGTH', meaning: 'or about the line at this Y' },
  ],
  needs: [['points'], ['x', 'y']],
  apart: [['x', 'y']],
  example: 'mirror --points "10,5; 20,5" --x "30 mm"',
  run: (asked) =>
    withAll(
      {
        given: read(asked, 'points', points),
        x: readIf(asked, 'x', signedLength),
        y: readOr(asked, 'y', signedLength, asMm(0)),
      },
      ({ given, x, y }) =>
        andThen(mirrorPoints(given, x === undefined ? { kind: 'at-y', at: y } : { kind: 'at-x', at: x }), (found) =>
          listed(
            found,
            asked,
            `mirrored about ${x === undefined ? 'Y' : 'X'} ${sayLength(x ?? y, asked.unit)}: a part made so is of the other hand, unless it was turned over`,
          ),
        ),
    ),
};

const turn: Topic = {
  name: 'turn',
  summary: 'points turned about a centre',
  flags: [POINTS_FLAG, { name: 'angle', value: 'ANGLE', meaning: 'anticlockwise from above' }, CENTRE],
  needs: [['points'], ['angle']],
  example: 'turn --points "10,0" --angle 90',
  run: (asked) =>
    withAll(
      {
        given: read(asked, 'points', points),
        by: read(asked, 'angle', angle),
        centre: readOr(asked, 'centre', point, origin),
      },
      ({ given, by, centre }) =>
        andThen(rotatePoints(given, centre, by), (found) =>
          listed(found, asked, `turned by ${sayNumber(by)} deg about ${sayPoint(centre, asked)}`, { angle_deg: by }),
        ),
    ),
};

const polar: Topic = {
  name: 'polar',
  summary: 'a point from radius and angle, or radius and angle of a point',
  flags: [
    { name: 'radius', value: 'LENGTH', meaning: 'distance from the centre, with --angle' },
    { name: 'angle', value: 'ANGLE', meaning: 'from +X, anticlockwise' },
    { name: 'point', value: 'X,Y', meaning: 'instead: a point whose radius and angle are wanted' },
    CENTRE,
  ],
  needs: [
    ['radius', 'point'],
    ['angle', 'point'],
  ],
  apart: [
    ['point', 'radius'],
    ['point', 'angle'],
  ],
  example: 'polar --radius "20 mm" --angle 30',
  run: (asked) =>
    andThen(readOr(asked, 'centre', point, origin), (centre) =>
      asked.given.has('point') ? bearingAnswer(asked, centre) : polarAnswer(asked, centre),
    ),
};

const bearingAnswer = (asked: Asked, centre: Position): Result<TopicAnswer> =>
  andThen(read(asked, 'point', point), (place) =>
    andThen(bearingOf(centre, place), ({ radius, angle: direction }) =>
      answer({
        text: `radius ${sayLength(radius, asked.unit)} at ${sayNumber(direction, 4)} deg`,
        working: [`from ${sayPoint(centre, asked)} to ${sayPoint(place, asked)}`],
        fields: { radius_mm: radius, angle_deg: direction },
      }),
    ),
  );

const polarAnswer = (asked: Asked, centre: Position): Result<TopicAnswer> =>
  withAll(
    { radius: read(asked, 'radius', positiveLength), direction: read(asked, 'angle', angle) },
    ({ radius, direction }) =>
      andThen(polarPoint(centre, radius, direction), (place) =>
        answer({
          text: sayPoint(place, asked),
          working: ['centre + radius x cos, sin of the angle'],
          fields: { x_mm: place.x, y_mm: place.y, radius_mm: radius, angle_deg: direction },
        }),
      ),
  );

export const placeTopics: readonly Topic[] = [circle, row, grid, mirror, turn, polar, distance, order];
