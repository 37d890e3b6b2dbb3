/** Topics about points together: distances and the order of visit. */
import {
  distanceBetween,
  distancesToEdges,
  type EdgeDistances,
  type Outline,
  overPins,
  wallBetween,
} from '../../shop/distances.ts';
import type { Position } from '../../shop/patterns.ts';
import { asMm, type Mm } from '../../shop/quantities.ts';
import { andThen, answer, type Result, refuse } from '../../shop/refusal.ts';
import { countWindings, visitingOrder } from '../../shop/visiting-order.ts';
import { diameter, oneOf, POINTS_FLAG, points, readEach, signedLength } from './readers.ts';
import { type Asked, read, readIf, readOr, type Topic, type TopicAnswer, withAll } from './topic.ts';
import { sayCount, sayLength } from './words.ts';

export const distance: Topic = {
  name: 'distance',
  summary: 'centre to centre, the wall between two holes, the reading over pins in them, and distances to the sides',
  flags: [
    POINTS_FLAG,
    { name: 'diameters', value: 'LENGTH', meaning: 'diameter of both holes (or pins)' },
    { name: 'sides', value: 'L,R,F,B', meaning: 'of the part: X of its left and right, Y of its front and rear side' },
  ],
  needs: [['points']],
  example: 'distance --points "0,0; 30,40" --diameters "8 mm"',
  run: (asked) =>
    withAll(
      {
        given: read(asked, 'points', oneOrTwoPoints),
        hole: readIf(asked, 'diameters', diameter),
        sides: readIf(asked, 'sides', outline),
      },
      ({ given: [a, b], hole, sides }) => {
        if (b === undefined && sides === undefined) return refuse({ ...TWO_POINTS, found: 'one point' });
        const between = b === undefined ? undefined : betweenAnswer(asked, [a, b], hole);
        const edges = sides === undefined ? undefined : edgesAnswer(asked, b === undefined ? [a] : [a, b], sides, hole);
        const parts = [between, edges].filter((part) => part !== undefined);
        return answer<TopicAnswer>({
          text: parts.map((part) => part.text).join('; '),
          working: parts.flatMap((part) => part.working),
          fields: Object.assign({}, ...parts.map((part) => part.fields)),
        });
      },
    ),
};

function betweenAnswer(asked: Asked, [a, b]: readonly [Position, Position], hole: Mm | undefined): TopicAnswer {
  const between = distanceBetween(a, b);
  const fields = { distance_mm: between, x_distance_mm: b.x - a.x, y_distance_mm: b.y - a.y };
  const text = `${sayLength(between, asked.unit)} centre to centre`;
  const working = [`X ${sayLength(b.x - a.x, asked.unit)}, Y ${sayLength(b.y - a.y, asked.unit)}`];
  if (hole === undefined) return { text, working, fields };
  const [wall, over] = [wallBetween(a, hole, b, hole), overPins(a, hole, b, hole)];
  const left =
    wall > 0
      ? `wall ${sayLength(wall, asked.unit)}`
      : `the holes run into each other by ${sayLength(-wall, asked.unit)}`;
  return {
    text: `${text}; ${left}; over pins ${sayLength(over, asked.unit)}`,
    working,
    fields: { ...fields, wall_mm: wall, over_pins_mm: over, diameter_mm: hole },
  };
}

/** How far each point stands from the sides of the part, and the wall that its hole leaves there. */
function edgesAnswer(asked: Asked, given: readonly Position[], sides: Outline, hole: Mm | undefined): TopicAnswer {
  const found = given.map((one) => distancesToEdges(one, sides));
  const say = (edge: EdgeDistances, index: number): string =>
    `point ${index + 1}: left ${sayLength(edge.left, asked.unit)}, right ${sayLength(edge.right, asked.unit)}, front ${sayLength(edge.front, asked.unit)}, rear ${sayLength(edge.rear, asked.unit)}`;
  const nearest = asMm(Math.min(...found.map((edge) => edge.nearest)) - (hole ?? 0) / 2);
  return {
    text: `${hole === undefined ? 'nearest side' : 'least wall to a side'} ${sayLength(nearest, asked.unit)}`,
    working: found.map(say),
    fields: {
      to_sides: found.map((edge) => ({
        left_mm: edge.left,
        right_mm: edge.right,
        front_mm: edge.front,
        rear_mm: edge.rear,
      })),
      least_to_side_mm: nearest,
    },
  };
}

const TWO_POINTS = { what: '--points', allowed: 'two points, or one with --sides', remedy: 'write X,Y; X,Y' };

const oneOrTwoPoints = (text: string, unit: Asked['unit']): Result<readonly [Position, Position | undefined]> =>
  andThen(points(text, unit), ([a, b, ...more]) =>
    a === undefined || more.length > 0 ? refuse({ ...TWO_POINTS, found: `"${text.trim()}"` }) : answer([a, b] as const),
  );

const outline = (text: string, unit: Asked['unit']): Result<Outline> =>
  andThen(
    readEach(text.split(','), (part) => signedLength(part, unit)),
    ([left, right, front, rear, ...more]) => {
      const isWhole = left !== undefined && right !== undefined && front !== undefined && rear !== undefined;
      if (isWhole && more.length === 0 && left < right && front < rear) return answer({ left, right, front, rear });
      return refuse({
        what: 'sides',
        found: `"${text.trim()}"`,
        allowed: 'left, right, front, rear such as 0,100,-40,0',
        remedy: 'write X of the left and right, then Y of the front and rear side, the smaller first',
      });
    },
  );

const APPROACHES = ['growing', 'shrinking', 'either'] as const;

export const order: Topic = {
  name: 'order',
  summary: 'order of visit with the fewest windings past on dials, then the shortest way',
  flags: [
    POINTS_FLAG,
    { name: 'x', value: 'HOW', meaning: 'X is reached growing, shrinking or either (readout, when left out)' },
    { name: 'y', value: 'HOW', meaning: 'the same for Y' },
  ],
  needs: [['points']],
  example: 'order --points "0,0; 10,10; 0,10; 10,0" --x growing --y growing',
  run: (asked) =>
    withAll(
      {
        given: read(asked, 'points', points),
        x: readOr(asked, 'x', oneOf(APPROACHES), 'either' as const),
        y: readOr(asked, 'y', oneOf(APPROACHES), 'either' as const),
      },
      ({ given, x, y }) =>
        andThen(visitingOrder(given, { x, y }), (found) => {
          const numbers = found.order.map((index) => index + 1);
          return answer({
            text: `${numbers.join(', ')}: ${sayCount(found.windings, 'winding', 'windings')} past, ${sayLength(found.travel, asked.unit)} of winding`,
            working: [
              `as given: ${countWindings(given, { x, y })} past; ${found.proven ? 'no order is better' : 'a good order, not proven best'}`,
            ],
            fields: {
              order: numbers,
              windings_past: found.windings,
              windings_past_as_given: countWindings(given, { x, y }),
              travel_mm: found.travel,
              proven: found.proven,
            },
          });
        }),
    ),
};
