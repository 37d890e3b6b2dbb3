/** The topic of cones: spot, chamfer, countersink, screw heads. */
import { coneDepth, coneMouth, coneTravelInHole } from '../../shop/cones.ts';
import { countersunkHead, mouthForHead, parseHeadStandard } from '../../shop/countersunk-heads.ts';
import { asDegrees, asMm, type Degrees, type Mm } from '../../shop/quantities.ts';
import { andThen, answer, type Result } from '../../shop/refusal.ts';
import { allowance, diameter, plainText, pointAngle, positiveLength } from './readers.ts';
import { type Asked, type Field, read, readIf, readOr, type Topic, type TopicAnswer, withAll } from './topic.ts';
import { sayLength, sayNumber } from './words.ts';

export const countersink: Topic = {
  name: 'countersink',
  summary: 'depth for a wanted top diameter (spot, chamfer, countersink) and the reverse; screw heads',
  flags: [
    { name: 'top', value: 'LENGTH', meaning: 'wanted diameter at the face' },
    { name: 'depth', value: 'LENGTH', meaning: 'the other way round: the top diameter at this depth' },
    { name: 'angle', value: 'ANGLE', meaning: 'included angle of the tool; 90 deg when left out' },
    { name: 'tip', value: 'LENGTH', meaning: 'flat at the tip; 0 (sharp) when left out' },
    { name: 'hole', value: 'LENGTH', meaning: 'diameter of a hole already there: travel from first touch' },
    { name: 'head', value: 'STANDARD', meaning: 'screw head instead of --top: "ISO 10642", "ISO 7046", "DIN 963"' },
    { name: 'screw', value: 'SIZE', meaning: 'with --head: M5', with: ['head'] },
    {
      name: 'below',
      value: 'LENGTH',
      meaning: 'with --head: how far below the face; 0 (flush) when left out',
      with: ['head'],
    },
  ],
  needs: [['top', 'depth', 'head']],
  apart: [
    ['top', 'depth', 'head'],
    ['depth', 'hole'],
  ],
  example: 'countersink --top "8 mm" --angle 90 --tip "1 mm"',
  run: (asked) =>
    withAll(
      {
        angle: readOr(asked, 'angle', pointAngle, asDegrees(90)),
        tip: readOr(asked, 'tip', allowance, asMm(0)),
        hole: readIf(asked, 'hole', diameter),
        depth: readIf(asked, 'depth', positiveLength),
        wanted: wantedMouth(asked),
      },
      ({ angle, tip, hole, depth, wanted }): Result<TopicAnswer> => {
        const cone = { angle, tip };
        const mouth = wanted && { ...wanted, words: [...wanted.words, ...otherAngle(wanted, angle)] };
        if (mouth === undefined) {
          return andThen(coneMouth(depth ?? asMm(0), cone), (top) =>
            answer({
              text: `top ${sayLength(top, asked.unit)} across`,
              working: [`tip + 2 x depth x tan(${sayNumber(angle)}/2 deg)`],
              fields: { top_mm: top, depth_mm: depth ?? 0, angle_deg: angle, tip_mm: tip },
            }),
          );
        }
        const fields = { top_mm: mouth.top, angle_deg: angle, tip_mm: tip, ...mouth.fields };
        if (hole !== undefined) {
          return andThen(coneTravelInHole(hole, mouth.top, cone), (travel) =>
            answer({
              text: `${sayLength(travel, asked.unit)} from first touching the hole's rim`,
              working: [
                `(${sayLength(mouth.top, asked.unit)} - ${sayLength(hole, asked.unit)}) / 2 / tan(${sayNumber(angle)}/2 deg)`,
                ...mouth.words,
              ],
              fields: { travel_mm: travel, hole_mm: hole, ...fields },
            }),
          );
        }
        return andThen(coneDepth(mouth.top, cone), (found) =>
          answer({
            text: `${sayLength(found, asked.unit)} deep from touching the face`,
            working: [
              `(${sayLength(mouth.top, asked.unit)} - ${sayLength(tip, asked.unit)}) / 2 / tan(${sayNumber(angle)}/2 deg)`,
              ...mouth.words,
            ],
            fields: { depth_mm: found, ...fields },
          }),
        );
      },
    ),
};

/** A cone of another angle than the head's touches it only at the rim or under it. */
const otherAngle = ({ headAngle }: Mouth, angle: Degrees): readonly string[] =>
  headAngle === undefined || headAngle === angle
    ? []
    : [`the head has ${sayNumber(headAngle)} deg, this tool ${sayNumber(angle)}: take a tool of the head's angle`];

interface Mouth {
  readonly top: Mm;
  /** Of a screw head. */
  readonly headAngle?: Degrees;
  readonly words: readonly string[];
  readonly fields: { readonly [name: string]: Field };
}

function wantedMouth(asked: Asked): Result<Mouth | undefined> {
  if (asked.given.has('top')) {
    return andThen(read(asked, 'top', diameter), (top) => answer({ top, words: [], fields: {} }));
  }
  if (!asked.given.has('head')) return answer(undefined);
  return withAll(
    {
      standard: read(asked, 'head', parseHeadStandard),
      size: readOr(asked, 'screw', plainText, ''),
      below: readOr(asked, 'below', allowance, asMm(0)),
    },
    ({ standard, size, below }) =>
      andThen(countersunkHead(standard, size), (head) =>
        andThen(mouthForHead(head, below), (top) =>
          answer({
            top,
            headAngle: head.angle,
            words: [
              `${head.standard} ${head.size}: sharp head ${sayLength(head.sharp, asked.unit)}, ${below === 0 ? 'flush' : `${sayLength(below, asked.unit)} below the face`}; top ${sayLength(top, asked.unit)}`,
              ...(head.withdrawn
                ? [`${head.standard} is withdrawn: heads of the ISO standards differ, measure one`]
                : []),
            ],
            fields: { head: head.standard, screw: head.size, head_sharp_mm: head.sharp, below_mm: below },
          }),
        ),
      ),
  );
}
