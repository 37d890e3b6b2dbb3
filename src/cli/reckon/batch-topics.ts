/** Topics about quantities: spares, loads, facing a load. */
import { facingOf } from '../../shop/facing.ts';
import { balancedLoads, fullLoads, piecesInJaws } from '../../shop/loads.ts';
import { asMm } from '../../shop/quantities.ts';
import { andThen, answer, type Result } from '../../shop/refusal.ts';
import { startsFor } from '../../shop/spares.ts';
import { allowance, lengthList, oneOf, percent, positiveLength, wholeNumber } from './readers.ts';
import { type Asked, type Field, read, readIf, readOr, type Topic, type TopicAnswer, withAll } from './topic.ts';
import { sayCount, sayLength, sayNumber } from './words.ts';

const spares: Topic = {
  name: 'spares',
  summary: 'how many to start so that enough good pieces come out',
  flags: [
    { name: 'good', value: 'NUMBER', meaning: 'good pieces wanted' },
    { name: 'scrap', value: 'PERCENT', meaning: 'share of pieces that fail' },
    { name: 'sure', value: 'PERCENT', meaning: 'how sure to be; 90 % when left out' },
  ],
  needs: [['good'], ['scrap']],
  example: 'spares --good 40 --scrap 5% --sure 90%',
  run: (asked) =>
    withAll(
      {
        good: read(asked, 'good', wholeNumber),
        scrap: read(asked, 'scrap', percent),
        sure: readOr(asked, 'sure', percent, 90),
      },
      ({ good, scrap, sure }) =>
        andThen(startsFor(good, scrap / 100, sure / 100), (found) =>
          answer({
            text: `start ${found.start} (${sayCount(found.spares, 'spare')}): ${sayNumber(found.chance * 100, 1)} % sure of ${good} good`,
            working: [
              `one fewer would give ${sayNumber(found.chanceOneFewer * 100, 1)} %; pieces failing one by one at ${sayNumber(scrap)} % (negative binomial)`,
            ],
            fields: {
              start: found.start,
              spares: found.spares,
              chance_percent: found.chance * 100,
              chance_one_fewer_percent: found.chanceOneFewer * 100,
              good,
              scrap_percent: scrap,
              sure_percent: sure,
            },
          }),
        ),
    ),
};

const loads: Topic = {
  name: 'loads',
  summary: 'how many pieces the jaws hold, and how a batch is shared out over loads',
  flags: [
    { name: 'pieces', value: 'NUMBER', meaning: 'pieces of the batch' },
    { name: 'a-load', value: 'NUMBER', meaning: 'pieces that one load holds, or reckon it from the jaws:' },
    { name: 'opening', value: 'LENGTH', meaning: 'how far the jaws open' },
    { name: 'jaws', value: 'LENGTH', meaning: 'width of the jaws' },
    { name: 'across', value: 'LENGTH', meaning: 'size of a piece from jaw to jaw' },
    { name: 'along', value: 'LENGTH', meaning: 'size of a piece along the jaws' },
    { name: 'gap', value: 'LENGTH', meaning: 'between neighbours along the jaws; 0 when left out' },
  ],
  apart: [
    ['a-load', 'opening'],
    ['a-load', 'jaws'],
    ['a-load', 'across'],
    ['a-load', 'along'],
    ['a-load', 'gap'],
  ],
  needs: [['pieces'], ['a-load', 'opening'], ['a-load', 'jaws'], ['a-load', 'across'], ['a-load', 'along']],
  example: 'loads --pieces 63 --opening "3.5 in" --jaws "4 in" --across "1.5 in" --along "2.5 in"',
  run: (asked) =>
    withAll({ pieces: read(asked, 'pieces', wholeNumber), fit: capacityOf(asked) }, ({ pieces, fit }) => {
      if (fit.capacity === 0) {
        return answer<TopicAnswer>({
          text: 'not one piece fits the jaws',
          working: fit.words,
          fields: { pieces_a_load: 0, ...fit.fields },
        });
      }
      return withAll(
        { balanced: balancedLoads(pieces, fit.capacity), full: fullLoads(pieces, fit.capacity) },
        ({ balanced, full }) => {
          const say = (plan: typeof balanced): string =>
            plan.groups.map((group) => `${group.loads} of ${group.pieces}`).join(' and ');
          return answer<TopicAnswer>({
            text: `${sayCount(balanced.loads, 'load')}: ${say(balanced)}`,
            working: [...fit.words, `full loads first would be ${say(full)}`],
            fields: {
              loads: balanced.loads,
              pieces_a_load: fit.capacity,
              last_load: balanced.lastLoad,
              groups: balanced.groups.map((group) => ({ loads: group.loads, pieces: group.pieces })),
              ...fit.fields,
            },
          });
        },
      );
    }),
};

interface Capacity {
  readonly capacity: number;
  readonly words: readonly string[];
  readonly fields: { readonly [name: string]: Field };
}

function capacityOf(asked: Asked): Result<Capacity> {
  if (asked.given.has('a-load')) {
    return andThen(read(asked, 'a-load', wholeNumber), (capacity) => answer({ capacity, words: [], fields: {} }));
  }
  return withAll(
    {
      opening: read(asked, 'opening', positiveLength),
      jawWidth: read(asked, 'jaws', positiveLength),
      pieceAcross: read(asked, 'across', positiveLength),
      pieceAlong: read(asked, 'along', positiveLength),
      gap: readOr(asked, 'gap', allowance, asMm(0)),
    },
    (space) =>
      andThen(piecesInJaws(space), (fit) =>
        answer({
          capacity: fit.pieces,
          words: [`the jaws hold ${fit.across} from jaw to jaw x ${fit.along} along them`],
          fields: { in_a_row_across: fit.across, in_a_row_along: fit.along },
        }),
      ),
  );
}

const facing: Topic = {
  name: 'facing',
  summary: 'height at which a measured load cleans up, and pieces that never will',
  flags: [
    { name: 'measured', value: 'LENGTH,…', meaning: 'height of each piece' },
    { name: 'finished', value: 'LENGTH', meaning: 'finished height' },
    { name: 'least-cut', value: 'LENGTH', meaning: 'least that must come off a face; 0 when left out' },
    { name: 'faces', value: '1 OR 2', meaning: 'faces still to be cut; 2 when left out' },
    { name: 'cut-at', value: 'LENGTH', meaning: 'height of a cut to judge' },
  ],
  needs: [['measured'], ['finished']],
  example: 'facing --measured "40.9, 41.2, 40.3" --finished 40 --least-cut 0.2',
  run: (asked) =>
    withAll(
      {
        measured: read(asked, 'measured', lengthList),
        finished: read(asked, 'finished', positiveLength),
        leastCut: readOr(asked, 'least-cut', allowance, asMm(0)),
        faces: readOr(asked, 'faces', oneOf(['1', '2']), '2' as const),
        cutAt: readIf(asked, 'cut-at', positiveLength),
      },
      ({ measured, finished, leastCut, faces, cutAt }) =>
        andThen(
          facingOf({
            measured,
            finished,
            leastCut,
            faces: faces === '1' ? 1 : 2,
            ...(cutAt === undefined ? {} : { cutAt }),
          }),
          ({ heights, never, uncleanAtCut }) => {
            const name = (indexes: readonly number[]): string =>
              indexes.map((index) => `${index + 1} (${sayLength(measured[index] ?? 0, asked.unit)})`).join(', ');
            const height =
              heights === undefined
                ? 'no piece cleans up at any height'
                : `face at ${sayLength(heights.lowest, asked.unit)} to ${sayLength(heights.highest, asked.unit)}`;
            return answer({
              text: height,
              working: [
                never.length === 0 ? 'all can clean up' : `never: piece ${name(never)}`,
                ...(cutAt === undefined
                  ? []
                  : [
                      `at ${sayLength(cutAt, asked.unit)} ${uncleanAtCut.length === 0 ? 'all clean up' : `piece ${name(uncleanAtCut)} does not clean up`}`,
                    ]),
              ],
              fields: {
                lowest_mm: heights?.lowest ?? null,
                highest_mm: heights?.highest ?? null,
                never: never.map((index) => index + 1),
                unclean_at_cut: uncleanAtCut.map((index) => index + 1),
                finished_mm: finished,
              },
            });
          },
        ),
    ),
};

export const batchTopics: readonly Topic[] = [spares, loads, facing];
