/** Topics about bar stock: blanks and cut lists. */
import { type BarCut, type CutList, cutList } from '../../shop/cut-list.ts';
import { sawNames, usualKerf } from '../../shop/kerfs.ts';
import { asMm, type Mm } from '../../shop/quantities.ts';
import { andThen, answer, type Result } from '../../shop/refusal.ts';
import { barsNeeded, blankLength, blanksPerBar, type SawRules } from '../../shop/stock.ts';
import { allowance, type CountedLength, countedLengths, oneOf, positiveLength, wholeNumber } from './readers.ts';
import { type Asked, read, readIf, readOr, type Topic, type TopicAnswer, withAll } from './topic.ts';
import { sayCount, sayLength } from './words.ts';

const SAW_FLAGS = [
  { name: 'kerf', value: 'LENGTH', meaning: 'width of the cut; 0 when left out' },
  { name: 'saw', value: 'NAME', meaning: `instead of --kerf its usual wide end: ${sawNames.join(', ')}` },
  { name: 'trim', value: 'LENGTH', meaning: 'cropped off a new bar, its kerf included; 0 when left out' },
  { name: 'grip', value: 'LENGTH', meaning: 'shortest end that the saw can hold; 0 when left out' },
  { name: 'trailing-cut', value: 'YES', meaning: 'yes: the last blank is sawn off what is left too' },
];

const sawOf = (asked: Asked): Result<SawRules> =>
  withAll(
    {
      kerf: kerfOf(asked),
      endTrim: readOr(asked, 'trim', allowance, asMm(0)),
      grip: readOr(asked, 'grip', allowance, asMm(0)),
      trailing: readIf(asked, 'trailing-cut', oneOf(['yes', 'no'])),
    },
    ({ trailing, ...saw }) =>
      answer<SawRules>(trailing === undefined ? saw : { ...saw, trailingCut: trailing === 'yes' }),
  );

const kerfOf = (asked: Asked): Result<Mm> =>
  asked.given.has('saw')
    ? andThen(read(asked, 'saw', usualKerf), (row) => answer(asMm(row.highMm)))
    : readOr(asked, 'kerf', allowance, asMm(0));

/** Where the kerf of a named saw comes from; nothing when the kerf was given. */
function saySaw(asked: Asked): readonly string[] {
  const row = usualKerf(asked.given.get('saw') ?? '');
  if (!row.ok) return [];
  const range = `${sayLength(row.value.lowMm, asked.unit)} to ${sayLength(row.value.highMm, asked.unit)}`;
  return [`a ${row.value.saw} cuts ${range} wide (${row.value.source}): measure a cut of your own`];
}

const blanks: Topic = {
  name: 'blanks',
  summary: 'blanks from one bar, and bars for a number of blanks',
  flags: [
    { name: 'bar', value: 'LENGTH', meaning: 'length of a bar' },
    { name: 'blank', value: 'LENGTH', meaning: 'length of a blank as sawn' },
    { name: 'facing', value: 'LENGTH', meaning: 'then --blank is the finished length: allowance for facing each end' },
    ...SAW_FLAGS,
    { name: 'needed', value: 'NUMBER', meaning: 'blanks needed: gives the bars' },
  ],
  needs: [['bar'], ['blank']],
  apart: [['kerf', 'saw']],
  example: 'blanks --bar "1000 mm" --blank "45 mm" --kerf "1.3 mm"',
  run: (asked) =>
    withAll(
      {
        bar: read(asked, 'bar', positiveLength),
        length: read(asked, 'blank', positiveLength),
        facing: readOr(asked, 'facing', allowance, asMm(0)),
        saw: sawOf(asked),
        needed: readIf(asked, 'needed', wholeNumber),
      },
      ({ bar, length, facing, saw, needed }) =>
        andThen(blankLength(length, facing), (blank) =>
          withAll(
            {
              one: blanksPerBar(bar, blank, saw),
              all: needed === undefined ? answer(undefined) : barsNeeded(needed, bar, blank, saw),
            },
            ({ one, all }) =>
              answer({
                text: [
                  `${sayCount(one.blanks, 'blank')} a bar, ${sayLength(one.left, asked.unit)} left`,
                  ...(all === undefined
                    ? []
                    : [
                        `${sayCount(all.bars, 'bar')} for ${needed}, ${all.onLastBar} from the last, which leaves ${sayLength(all.leftOnLastBar, asked.unit)}`,
                      ]),
                ].join('; '),
                working: [
                  `${sayLength(one.usable, asked.unit)} usable; each blank ${sayLength(blank, asked.unit)} + ${sayLength(saw.kerf, asked.unit)} kerf`,
                  ...saySaw(asked),
                ],
                fields: {
                  blanks: one.blanks,
                  offcut_mm: one.left,
                  usable_mm: one.usable,
                  blank_mm: blank,
                  bar_mm: bar,
                  kerf_mm: saw.kerf,
                  ...(all === undefined
                    ? {}
                    : { bars: all.bars, on_last_bar: all.onLastBar, left_on_last_bar_mm: all.leftOnLastBar }),
                },
              }),
          ),
        ),
    ),
};

const bars: Topic = {
  name: 'bars',
  summary: 'cut list over bars of several lengths that uses up the least bar',
  flags: [
    { name: 'bars', value: 'LENGTH,…', meaning: 'lengths of bar; "2 x 1000 mm" when there are only two' },
    { name: 'blanks', value: 'N x LENGTH,…', meaning: 'blanks wanted: "3 x 480 mm, 4 x 250 mm"' },
    ...SAW_FLAGS,
    {
      name: 'keep',
      value: 'LENGTH',
      meaning: 'offcuts from this length on are kept; one more of the shortest when left out',
    },
  ],
  needs: [['bars'], ['blanks']],
  apart: [['kerf', 'saw']],
  example: 'bars --bars "1000 mm" --blanks "3 x 480 mm, 4 x 250 mm" --kerf "2 mm"',
  run: (asked) =>
    withAll(
      {
        stock: read(asked, 'bars', countedLengths),
        wishes: read(asked, 'blanks', countedLengths),
        saw: sawOf(asked),
        keep: readIf(asked, 'keep', positiveLength),
      },
      ({ stock, wishes, saw, keep }) => {
        const wanted = wishes.map((wish) => ({ length: wish.length, count: wish.count ?? 1 }));
        return andThen(cutList(stock, wanted, saw, keep === undefined ? {} : { keepFrom: keep }), (found) =>
          answer(listAnswer(asked, found, wanted)),
        );
      },
    ),
};

function listAnswer(asked: Asked, found: CutList, wishes: readonly CountedLength[]): TopicAnswer {
  const missing = wishes.flatMap((wish, index) => {
    const count = found.missing[index] ?? 0;
    return count > 0 ? [`${count} of ${sayLength(wish.length, asked.unit)}`] : [];
  });
  const sure = found.proven ? 'no list uses less bar' : 'a good list, not proven to use the least bar';
  const sayCut = (cut: BarCut): string => {
    const cuts = wishes.flatMap((wish, index) => {
      const count = cut.blanks[index] ?? 0;
      return count > 0 ? [`${count} x ${sayLength(wish.length, asked.unit)}`] : [];
    });
    return `${cut.times} x ${sayLength(cut.bar, asked.unit)}: ${cuts.join(' + ')}; left ${sayLength(cut.left, asked.unit)}${cut.worthKeeping ? ', keep it' : ''}`;
  };
  return {
    text:
      found.kind === 'enough'
        ? `${sayCount(found.bars, 'bar')}, ${sayLength(found.taken, asked.unit)} in all; waste ${sayLength(found.waste, asked.unit)}`
        : `short: ${missing.join(', ')} cannot be cut from the bars at hand`,
    working: [...found.cuts.map(sayCut), ...(found.kind === 'enough' ? [sure] : []), ...saySaw(asked)],
    fields: {
      kind: found.kind,
      bars: found.bars,
      taken_mm: found.taken,
      waste_mm: found.waste,
      proven: found.proven,
      missing: found.missing,
      cuts: found.cuts.map((cut) => ({
        bar_mm: cut.bar,
        times: cut.times,
        blanks: cut.blanks,
        left_mm: cut.left,
        worth_keeping: cut.worthKeeping,
      })),
    },
  };
}

export const stockTopics: readonly Topic[] = [blanks, bars];
