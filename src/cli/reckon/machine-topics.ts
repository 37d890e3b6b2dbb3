/** Topics about the machine's handles and zero: dial readings, zero finding, sine bar. */
import { wayWords } from '../../plan/sign-proof.ts';
import { dialReading, formatDialReading, windPastDivisions } from '../../shop/dials.ts';
import { asMm, type Mm } from '../../shop/quantities.ts';
import { andThen, answer, type Result } from '../../shop/refusal.ts';
import { sineBarAngle, sineBarStack } from '../../shop/sine-bar.ts';
import { type Side, type ZeroMethod, zeroSetting } from '../../shop/zero.ts';
import { allowance, angle, diameter, oneOf, positiveLength, signedLength, wholeNumber } from './readers.ts';
import { type Asked, read, readIf, readOr, type Topic, type TopicAnswer, withAll } from './topic.ts';
import { sayLength, sayNumber, saySigned } from './words.ts';

const dial: Topic = {
  name: 'dial',
  summary: 'turns and divisions from zero, and how far to wind past on the way back',
  flags: [
    { name: 'move', value: 'LENGTH', meaning: 'distance from zero as the dial counts; negative is below zero' },
    { name: 'per-turn', value: 'LENGTH', meaning: 'travel of one turn of the handle' },
    { name: 'divisions', value: 'NUMBER', meaning: 'lines of the dial in one turn' },
    { name: 'backlash', value: 'LENGTH', meaning: 'lost motion; 0 when left out' },
  ],
  needs: [['move'], ['per-turn'], ['divisions']],
  example: 'dial --move "12.34 mm" --per-turn "2.5 mm" --divisions 125',
  run: (asked) =>
    withAll(
      {
        move: read(asked, 'move', signedLength),
        perTurn: read(asked, 'per-turn', positiveLength),
        divisions: read(asked, 'divisions', wholeNumber),
        backlash: readOr(asked, 'backlash', allowance, asMm(0)),
      },
      ({ move, perTurn, divisions, backlash }) => {
        const scale = { perTurn, divisions };
        return withAll(
          { reading: dialReading(move, scale), past: windPastDivisions(scale, backlash) },
          ({ reading, past }) =>
            answer({
              text: `${formatDialReading(reading)} (turns + divisions)`,
              working: [
                `one division is ${asked.unit === 'mm' ? `${sayNumber(perTurn / divisions, 5)} mm` : sayLength(perTurn / divisions, 'inch')}; the reading stands for ${sayLength(reading.stands, asked.unit)}`,
                ...(reading.side === 'at zero'
                  ? []
                  : [`from zero turn so that the dial counts ${reading.side === 'above' ? 'up' : 'down'}`]),
                `reach it from the side from which zero was touched: coming the other way, wind ${past} divisions past and come back`,
              ],
              fields: {
                turns: reading.turns,
                divisions: reading.divisions,
                side: reading.side,
                scale_shows: reading.face,
                stands_for_mm: reading.stands,
                remainder_mm: Math.abs(move) - reading.turns * perTurn,
                move_mm: move,
                per_turn_mm: perTurn,
                divisions_per_turn: divisions,
                wind_past_divisions: past,
              },
            }),
        );
      },
    ),
};

const SIDES = ['left', 'right', 'front', 'rear'] as const;
type NamedSide = (typeof SIDES)[number];
const sideOf = (side: NamedSide): Side => (side === 'right' || side === 'rear' ? 'plus' : 'minus');

const zero: Topic = {
  name: 'zero',
  summary: 'value to set on the readout when a finder, pin or block touches, with its sign',
  flags: [
    { name: 'tip', value: 'LENGTH', meaning: 'diameter of the tip of the finder, or of a pin' },
    {
      name: 'side',
      value: 'SIDE',
      meaning: 'where the finder stands: left or right (X), front or rear (Y) of the face',
    },
    { name: 'edge', value: 'LENGTH', meaning: 'coordinate of the face; 0 when left out' },
    { name: 'block', value: 'LENGTH', meaning: 'block or feeler between the face and the pin; 0 when left out' },
  ],
  needs: [['tip'], ['side']],
  example: 'zero --tip "10 mm" --side left',
  run: (asked) =>
    withAll(
      {
        tip: read(asked, 'tip', diameter),
        side: read(asked, 'side', oneOf(SIDES)),
        edge: readOr(asked, 'edge', signedLength, asMm(0)),
        block: readIf(asked, 'block', allowance),
      },
      ({ tip, side, edge, block }) =>
        andThen(zeroSetting(methodOf(tip, sideOf(side), edge, block)), (found) => {
          const axis = side === 'left' || side === 'right' ? 'X' : 'Y';
          const offWay = sideOf(side) === 'plus' ? '+' : '-';
          const sum = found.terms.map((term) => `${term.what} ${saySigned(term.amount, asked.unit)}`).join(', ');
          return answer({
            text: `set ${axis} to ${saySigned(found.set, asked.unit)} at touch`,
            working: [
              sum,
              `prove the sign: tool raised clear, wind it ${wayWords(axis === 'X' ? 'x' : 'y', offWay)}, off the face: ${axis} must ${offWay === '+' ? 'grow' : 'fall'}; on dials reach every point moving ${found.touchMoves === 'plus' ? '+' : '-'}${axis}, as you touched`,
            ],
            fields: {
              set_mm: found.set,
              axis,
              terms: found.terms.map((term) => ({ what: term.what, amount_mm: term.amount })),
              touch_moves: found.touchMoves,
            },
          });
        }),
    ),
};

const methodOf = (tip: Mm, side: Side, edgeAt: Mm, block: Mm | undefined): ZeroMethod =>
  block === undefined ? { kind: 'edge-finder', edgeAt, tip, side } : { kind: 'block', edgeAt, block, pin: tip, side };

const sine: Topic = {
  name: 'sine',
  summary: 'gauge blocks under a sine bar for an angle, and the reverse',
  flags: [
    { name: 'centres', value: 'LENGTH', meaning: 'distance between the rollers' },
    { name: 'angle', value: 'ANGLE', meaning: 'wanted angle' },
    { name: 'stack', value: 'LENGTH', meaning: 'instead: the angle that this stack gives' },
  ],
  needs: [['centres'], ['angle', 'stack']],
  apart: [['angle', 'stack']],
  example: 'sine --centres "100 mm" --angle 12.5',
  run: (asked) =>
    andThen(read(asked, 'centres', positiveLength), (centres) =>
      asked.given.has('stack') ? sineAngle(asked, centres) : sineStack(asked, centres),
    ),
};

const sineAngle = (asked: Asked, centres: Mm): Result<TopicAnswer> =>
  andThen(read(asked, 'stack', positiveLength), (stack) =>
    andThen(sineBarAngle(centres, stack), (found) =>
      answer({
        text: `${sayNumber(found, 4)} deg`,
        working: ['arcsin(stack / centres)'],
        fields: { angle_deg: found, stack_mm: stack, centres_mm: centres },
      }),
    ),
  );

const sineStack = (asked: Asked, centres: Mm): Result<TopicAnswer> =>
  andThen(read(asked, 'angle', angle), (wanted) =>
    andThen(sineBarStack(centres, wanted), (stack) =>
      answer({
        text: `stack ${sayLength(stack, asked.unit)}`,
        working: ['centres x sin(angle)'],
        fields: { stack_mm: stack, angle_deg: wanted, centres_mm: centres },
      }),
    ),
  );

export const machineTopics: readonly Topic[] = [dial, zero, sine];
