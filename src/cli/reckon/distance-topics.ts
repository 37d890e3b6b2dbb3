/** Topics about points together: distances and the order of visit. */
import { distanceBetween, overPins, wallBetween } from '../../shop/distances.ts';
import type { Position } from '../../shop/patterns.ts';
import { andThen, answer, type Result } from '../../shop/refusal.ts';
import { countWindings, visitingOrder } from '../../shop/visiting-order.ts';
import { diameter, oneOf, POINTS_FLAG, points } from './readers.ts';
import { type Asked, read, readIf, readOr, type Topic, type TopicAnswer, withAll } from './topic.ts';
import { sayCount, sayLength } from './words.ts';

export const distance: Topic = {
  name: 'distance',
  summary: 'centre to centre, the wall between two holes and the reading over pins in them',
  flags: [POINTS_FLAG, { name: 'diameters', value: 'LENGTH', meaning: 'diameter of both holes (or pins)' }],
  needs: [['points']],
  example: 'distance --points "0,0; 30,40" --diameters "8 mm"',
  run: (asked) =>
    withAll(
      { given: read(asked, 'points', twoPoints), hole: readIf(asked, 'diameters', diameter) },
      ({ given: [a, b], hole }) => {
        const between = distanceBetween(a, b);
        const fields = { distance_mm: between, x_distance_mm: b.x - a.x, y_distance_mm: b.y - a.y };
        const text = `${sayLength(between, asked.unit)} centre to centre`;
        const working = [`X ${sayLength(b.x - a.x, asked.unit)}, Y ${sayLength(b.y - a.y, asked.unit)}`];
        if (hole === undefined) return answer<TopicAnswer>({ text, working, fields });
        const [wall, over] = [wallBetween(a, hole, b, hole), overPins(a, hole, b, hole)];
        return answer<TopicAnswer>({
          text: `${text}; wall ${sayLength(wall, asked.unit)}; over pins ${sayLength(over, asked.unit)}`,
          working,
          fields: { ...fields, wall_mm: wall, over_pins_mm: over, diameter_mm: hole },
        });
      },
    ),
};

const twoPoints = (text: string, unit: Asked['unit']): Result<readonly [Position, Position]> =>
  andThen(points(text, unit), ([a, b, ...more]) =>
    a === undefined || b === undefined || more.length > 0
      ? {
          ok: false,
          problem: { what: 'points', found: text, allowed: 'two points', remedy: 'write X,Y; X,Y' },
        }
      : answer([a, b] as const),
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
