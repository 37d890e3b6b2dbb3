/** Topics about limits: fits, general tolerances, stacks of tolerances. */
import { fitOf, type ZoneLimits, zoneLimits } from '../../shop/fits.ts';
import { asMm, type Mm } from '../../shop/quantities.ts';
import { andThen, answer, type Result, refuse } from '../../shop/refusal.ts';
import { chainAgainstAbsolute, type Link, type Stack, stackOf } from '../../shop/stacks.ts';
import { angularTolerance, linearTolerance, parseToleranceClass, radiusTolerance } from '../../shop/tolerances.ts';
import { allowance, oneOf, plainText, positiveLength, readEach, signedLength } from './readers.ts';
import { type Asked, read, readIf, readOr, type Topic, type TopicAnswer, withAll } from './topic.ts';
import { sayBoth, sayLength, sayNumber } from './words.ts';

const fit: Topic = {
  name: 'fit',
  summary: 'limits of a hole or shaft zone of ISO 286, or the fit of a pair',
  flags: [
    { name: 'size', value: 'LENGTH', meaning: 'nominal size, to 120 mm' },
    { name: 'zone', value: 'ZONE', meaning: 'H7, g6 and the like, or a pair H7/g6' },
  ],
  needs: [['size'], ['zone']],
  example: 'fit --size "20 mm" --zone H7',
  run: (asked) =>
    withAll({ size: read(asked, 'size', positiveLength), zone: read(asked, 'zone', plainText) }, ({ size, zone }) => {
      const [hole = '', shaft] = zone.split('/');
      return shaft === undefined ? zoneAnswer(asked, size, zone) : pairAnswer(asked, size, hole, shaft);
    }),
};

const zoneAnswer = (asked: Asked, size: Mm, zone: string): Result<TopicAnswer> =>
  andThen(zoneLimits(size, zone), (limits) =>
    answer({
      text: `${sayLength(size, asked.unit)} ${limits.zone}: ${sayZone(limits, asked)}`,
      working: ['ISO 286-1 and -2'],
      fields: {
        lower_um: limits.lowerUm,
        upper_um: limits.upperUm,
        smallest_mm: limits.smallest,
        largest_mm: limits.largest,
        zone: limits.zone,
        kind: limits.kind,
        size_mm: size,
      },
    }),
  );

const sayUm = (um: number): string => (um > 0 ? `+${um}` : String(um));
const sayZone = (limits: ZoneLimits, asked: Asked): string =>
  `${sayUm(limits.lowerUm)} to ${sayUm(limits.upperUm)} um, ${sayLength(limits.smallest, asked.unit)} to ${sayLength(limits.largest, asked.unit)}`;

const pairAnswer = (asked: Asked, size: Mm, hole: string, shaft: string): Result<TopicAnswer> =>
  andThen(fitOf(size, hole, shaft), (pair) => {
    const [least, most] = [pair.smallestClearanceUm, pair.largestClearanceUm];
    const words =
      pair.kind === 'clearance'
        ? `clearance ${least} to ${most} um`
        : pair.kind === 'interference'
          ? `interference ${-most} to ${-least} um`
          : `from ${-least} um of interference to ${most} um of clearance`;
    return answer({
      text: `${sayLength(size, asked.unit)} ${pair.hole.zone}/${pair.shaft.zone}: ${pair.kind} fit, ${words}`,
      working: [`hole ${sayZone(pair.hole, asked)}`, `shaft ${sayZone(pair.shaft, asked)} (ISO 286-1 and -2)`],
      fields: {
        kind: pair.kind,
        smallest_clearance_um: least,
        largest_clearance_um: most,
        hole_lower_um: pair.hole.lowerUm,
        hole_upper_um: pair.hole.upperUm,
        shaft_lower_um: pair.shaft.lowerUm,
        shaft_upper_um: pair.shaft.upperUm,
        size_mm: size,
      },
    });
  });

const OF_WHAT = ['length', 'radius', 'angle'] as const;

const tolerance: Topic = {
  name: 'tolerance',
  summary: 'general tolerance of a metric drawing by ISO 2768-1',
  flags: [
    { name: 'size', value: 'LENGTH', meaning: 'nominal size; of an angle its shorter leg' },
    { name: 'class', value: 'CLASS', meaning: 'fine, medium, coarse, "very coarse" (f, m, c, v)' },
    { name: 'of', value: 'WHAT', meaning: 'length (when left out), radius (radii and chamfers) or angle' },
  ],
  needs: [['size'], ['class']],
  example: 'tolerance --size "30 mm" --class medium',
  run: (asked) =>
    withAll(
      {
        size: read(asked, 'size', positiveLength),
        name: read(asked, 'class', parseToleranceClass),
        of: readOr(asked, 'of', oneOf(OF_WHAT), 'length' as const),
      },
      ({ size, name, of }): Result<TopicAnswer> => {
        if (of === 'angle') {
          return andThen(angularTolerance(size, name), (found) =>
            answer({
              text: `+-${sayNumber(found.plusMinusArcMinutes / 60, 3)} deg (${found.plusMinusArcMinutes} minutes of arc)`,
              working: [
                `ISO 2768-1 table 3, class ${name}, shorter leg ${sayLength(size, asked.unit)}${found.fromMemory ? '; this value is from memory: check the standard' : ''}`,
              ],
              fields: {
                plus_minus_arcmin: found.plusMinusArcMinutes,
                plus_minus_deg: found.plusMinusArcMinutes / 60,
                shorter_leg_mm: size,
                class: name,
                from_memory: found.fromMemory,
              },
            }),
          );
        }
        const found = of === 'radius' ? radiusTolerance(size, name) : linearTolerance(size, name);
        return andThen(found, ({ plusMinus }) =>
          answer({
            text: `+-${sayBoth(plusMinus, asked.unit)}`,
            working: [
              `ISO 2768-1 table ${of === 'radius' ? 2 : 1}, class ${name}, ${sayLength(size, asked.unit)}`,
              'an inch drawing states its own by decimal places instead',
            ],
            fields: { plus_minus_mm: plusMinus, size_mm: size, class: name, of },
          }),
        );
      },
    ),
};

const stack: Topic = {
  name: 'stack',
  summary: 'what a chain of dimensions adds up to, worst case and root-sum-square, against one absolute dimension',
  flags: [
    { name: 'links', value: 'SIZE+-TOL,…', meaning: 'dimensions with their tolerances: "20+-0.2, 20+-0.2, -5+-0.1"' },
    { name: 'absolute', value: 'LENGTH', meaning: 'tolerance of one dimension over the same distance, to compare' },
  ],
  needs: [['links']],
  example: 'stack --links "20+-0.2, 20+-0.2, 20+-0.2, 20+-0.2" --absolute "0.3 mm"',
  run: (asked) =>
    withAll(
      { links: read(asked, 'links', linkList), absolute: readIf(asked, 'absolute', allowance) },
      ({ links, absolute }) =>
        absolute === undefined
          ? andThen(stackOf(links), (found) => answer(stackAnswer(asked, found)))
          : andThen(chainAgainstAbsolute(links, { plus: absolute, minus: absolute }), (both) => {
              const chain = stackAnswer(asked, both.chain);
              return answer({
                ...chain,
                working: [
                  ...chain.working,
                  `one absolute dimension holds +-${sayLength(absolute, asked.unit)}: the chain is ${sayNumber(both.ratio)} times as loose at worst`,
                ],
                fields: { ...chain.fields, absolute_plus_minus_mm: absolute, chain_to_absolute: both.ratio },
              });
            }),
    ),
};

const stackAnswer = (asked: Asked, found: Stack): TopicAnswer => ({
  text: `${sayLength(found.nominal, asked.unit)}: worst case +-${sayLength(found.worstCase.plusMinus, asked.unit)}, root-sum-square +-${sayLength(found.rootSumSquare.plusMinus, asked.unit)}`,
  working: [
    `worst case ${sayLength(found.worstCase.lowest, asked.unit)} to ${sayLength(found.worstCase.highest, asked.unit)}`,
    'root-sum-square holds for independent links only, not for a batch whose links share one cause',
  ],
  fields: {
    nominal_mm: found.nominal,
    worst_case_plus_minus_mm: found.worstCase.plusMinus,
    worst_case_low_mm: found.worstCase.lowest,
    worst_case_high_mm: found.worstCase.highest,
    root_sum_square_plus_minus_mm: found.rootSumSquare.plusMinus,
    root_sum_square_low_mm: found.rootSumSquare.lowest,
    root_sum_square_high_mm: found.rootSumSquare.highest,
  },
});

const linkList = (text: string, unit: Asked['unit']): Result<readonly Link[]> =>
  readEach(text.split(','), (part) => {
    const [size = '', by, ...more] = part.split(/\+-|\+\/-|±/u);
    if (by === undefined || more.length > 0) {
      return refuse({
        what: 'links',
        found: `"${part.trim()}"`,
        allowed: 'SIZE+-TOLERANCE such as 20+-0.2',
        remedy: 'write every link with +- and its tolerance',
      });
    }
    return withAll({ nominal: signedLength(size, unit), plus: allowance(by, unit) }, ({ nominal, plus }) =>
      answer<Link>({ nominal: asMm(nominal), plus, minus: plus }),
    );
  });

export const limitTopics: readonly Topic[] = [fit, tolerance, stack];
