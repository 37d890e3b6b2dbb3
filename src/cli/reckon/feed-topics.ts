/** Topics about feeds and the time of a cut. */
import { STARTING_VALUE } from '../../shop/cutting-speeds.ts';
import {
  cuttingTime,
  type FeedRange,
  feedPerTooth,
  feedPerTurn,
  feedRate,
  type PeckAdvice,
  peckAdvice,
  type SecondsToFeel,
  secondsToFeel,
} from '../../shop/feeds.ts';
import { findMaterial } from '../../shop/materials.ts';
import { asMm, asRpm, asSeconds, type Mm, type Rpm } from '../../shop/quantities.ts';
import { andThen, answer, type Result } from '../../shop/refusal.ts';
import { formatDuration, MM_PER_INCH } from '../../shop/units.ts';
import {
  allowance,
  diameter,
  oneOf,
  positiveLength,
  spindleSpeedText,
  toothFeed,
  turnFeed,
  wholeNumber,
} from './readers.ts';
import { type Asked, read, readIf, readOr, type Topic, type TopicAnswer, withAll } from './topic.ts';
import { sayCount, sayLength, sayNumber, saySource } from './words.ts';

const DRILL_CUTS = ['drill', 'spot', 'ream', 'countersink', 'chamfer', 'counterbore'] as const;

export const feed: Topic = {
  name: 'feed',
  summary: 'feed of a turn or a tooth by size, its rate, seconds to feel for, and when to clear chips',
  flags: [
    { name: 'diameter', value: 'LENGTH', meaning: 'diameter of the tool' },
    { name: 'cut', value: 'KIND', meaning: `${DRILL_CUTS.join(', ')} or mill; drill when left out` },
    { name: 'material', value: 'NAME', meaning: 'for a mill: what is cut; mild steel when left out' },
    { name: 'tool', value: 'KIND', meaning: 'for a mill: HSS or carbide; HSS when left out' },
    { name: 'teeth', value: 'NUMBER', meaning: 'for a mill: its teeth; 2 when left out' },
    { name: 'speed', value: 'RPM', meaning: 'spindle speed: gives the rate' },
    {
      name: 'travel',
      value: 'LENGTH',
      meaning: 'with --speed: gives the seconds; for a drill also when to clear chips',
    },
  ],
  needs: [['diameter']],
  example: 'feed --diameter "no. 29" --speed 2700 --travel ".603 in"',
  run: (asked) =>
    withAll(
      {
        tool: read(asked, 'diameter', diameter),
        cut: readOr(asked, 'cut', oneOf([...DRILL_CUTS, 'mill'] as const), 'drill' as const),
        rpm: readIf(asked, 'speed', spindleSpeedText),
        travel: readIf(asked, 'travel', positiveLength),
        teeth: readOr(asked, 'teeth', wholeNumber, 2),
        material: readOr(asked, 'material', findMaterial, 'mild steel' as const),
        kind: readOr(asked, 'tool', oneOf(['HSS', 'carbide'] as const), 'HSS' as const),
      },
      ({ tool, cut, rpm, travel, teeth, material, kind }) => {
        const range = cut === 'mill' ? feedPerTooth(tool, material, kind) : feedPerTurn(tool, cut);
        const about = cut === 'mill' ? [`${kind} mill of ${sayCount(teeth, 'tooth', 'teeth')} in ${material}`] : [];
        const each = cut === 'mill' ? teeth : 1;
        return withAll(
          {
            range,
            low: rateOf(range, rpm, each, 'low'),
            high: rateOf(range, rpm, each, 'high'),
            feel: feelOf(range, rpm, travel, each),
            peck: travel === undefined || cut !== 'drill' ? answer(undefined) : peckAdvice(tool, travel),
          },
          ({ low, high, ...found }) => {
            const rate = low === undefined || high === undefined ? undefined : { low, high };
            return answer(feedAnswer(asked, cut === 'mill' ? 'tooth' : 'turn', { ...found, rate, about }));
          },
        );
      },
    ),
};

interface FeedParts {
  readonly range: FeedRange;
  readonly rate: { readonly low: number; readonly high: number } | undefined;
  readonly feel: SecondsToFeel | undefined;
  readonly peck: PeckAdvice | undefined;
  /** What a mill's feed was taken for. */
  readonly about: readonly string[];
}

function feedAnswer(asked: Asked, per: 'turn' | 'tooth', { range, rate, feel, peck, about }: FeedParts): TopicAnswer {
  const words = [
    `${sayLength(range.low, asked.unit)} to ${sayLength(range.high, asked.unit)} a ${per}`,
    ...(rate === undefined ? [] : [sayRate(rate, asked)]),
    ...(feel === undefined
      ? []
      : [`${formatDuration(feel.quickest)} to ${formatDuration(feel.slowest)} for the travel`]),
  ];
  const source = `${saySource(range.source, range.confirmed)}; ${STARTING_VALUE}`;
  return {
    text: words.join('; '),
    working: [...about, source, ...sayPeck(peck, asked)],
    fields: {
      [`feed_per_${per}_low_mm`]: range.low,
      [`feed_per_${per}_high_mm`]: range.high,
      ...(rate === undefined ? {} : { feed_low_mm_per_min: rate.low, feed_high_mm_per_min: rate.high }),
      ...(feel === undefined ? {} : { quickest_s: feel.quickest, slowest_s: feel.slowest }),
      ...(peck === undefined
        ? {}
        : {
            chip_clearings: peck.withdrawals,
            first_feed_mm: peck.first,
            next_feed_mm: peck.next,
            depth_in_diameters: peck.depthInDiameters,
            deep_hole_speed_percent: peck.speedShare * 100,
            deep_hole_feed_percent: peck.feedShare * 100,
          }),
      starting_value: true,
      confirmed: range.confirmed,
    },
  };
}

type FeedResult = ReturnType<typeof feedPerTurn>;

const rateOf = (
  range: FeedResult,
  rpm: Rpm | undefined,
  teeth: number,
  end: 'low' | 'high',
): Result<number | undefined> =>
  andThen(range, (found) => (rpm === undefined ? answer(undefined) : feedRate(rpm, found[end], teeth)));

const feelOf = (range: FeedResult, rpm: Rpm | undefined, travel: Mm | undefined, teeth: number) =>
  andThen(range, (found) =>
    rpm === undefined || travel === undefined
      ? answer(undefined)
      : secondsToFeel(travel, rpm, { low: asMm(found.low * teeth), high: asMm(found.high * teeth) }),
  );

/** A feed rate in the reader's unit: `38.1 to 76.2 mm/min`, `5.4 to 10.8 in/min`. */
function sayRate({ low, high }: { readonly low: number; readonly high: number }, asked: Asked): string {
  const per = asked.unit === 'mm' ? 1 : MM_PER_INCH;
  return `${sayNumber(low / per, 1)} to ${sayNumber(high / per, 1)} ${asked.unit === 'mm' ? 'mm' : 'in'}/min`;
}

function sayPeck(peck: PeckAdvice | undefined, asked: Asked): readonly string[] {
  if (peck === undefined || peck.withdrawals === 0) return [];
  const depth = `${sayNumber(peck.depthInDiameters, 1)} diameters deep`;
  return [
    `${depth}: ${sayNumber(peck.speedShare * 100, 0)} % of the speed and ${sayNumber(peck.feedShare * 100, 0)} % of the feed (drilling reference guide); the times above are without that`,
    `clear the chips ${sayCount(peck.withdrawals, 'time')}: ${sayLength(peck.first, asked.unit)} first, then ${sayLength(peck.next, asked.unit)} at a time (common practice)`,
  ];
}

export const time: Topic = {
  name: 'time',
  summary: 'how long a cut takes, with approach and overrun',
  flags: [
    { name: 'length', value: 'LENGTH', meaning: 'length of the cut' },
    { name: 'speed', value: 'RPM', meaning: 'spindle speed' },
    { name: 'feed', value: 'FEED', meaning: 'feed of a turn: 0.1 mm/rev' },
    { name: 'tooth-feed', value: 'FEED', meaning: 'instead: feed of a tooth, 0.02 mm/tooth, with --teeth' },
    { name: 'teeth', value: 'NUMBER', meaning: 'teeth of the cutter; 2 when left out', with: ['tooth-feed'] },
    { name: 'approach', value: 'LENGTH', meaning: 'way at feed before the cut; 0 when left out' },
    { name: 'overrun', value: 'LENGTH', meaning: 'way at feed past its end; 0 when left out' },
    { name: 'passes', value: 'NUMBER', meaning: 'passes; 1 when left out' },
  ],
  needs: [['length'], ['speed'], ['feed', 'tooth-feed']],
  apart: [['feed', 'tooth-feed']],
  example: 'time --length "25 mm" --speed 800 --feed "0.1 mm/rev" --approach "2 mm"',
  run: (asked) =>
    withAll(
      {
        length: read(asked, 'length', positiveLength),
        rpm: read(asked, 'speed', spindleSpeedText),
        teeth: readOr(asked, 'teeth', wholeNumber, 2),
        perTurn: readIf(asked, 'feed', turnFeed),
        perTooth: readIf(asked, 'tooth-feed', toothFeed),
        approach: readOr(asked, 'approach', allowance, asMm(0)),
        overrun: readOr(asked, 'overrun', allowance, asMm(0)),
        passes: readOr(asked, 'passes', wholeNumber, 1),
      },
      ({ length, rpm, teeth, perTurn, perTooth, approach, overrun, passes }) => {
        const ofTurn = perTurn ?? asMm((perTooth ?? 0) * teeth);
        return andThen(cuttingTime({ length, approach, overrun, passes }, asRpm(rpm), ofTurn), (seconds) =>
          answer({
            text: `${formatDuration(asSeconds(seconds))}`,
            working: [
              `(${sayLength(length, asked.unit)} + ${sayLength(approach, asked.unit)} + ${sayLength(overrun, asked.unit)}) x ${passes} / (${rpm} rpm x ${sayLength(ofTurn, asked.unit)} a turn)`,
            ],
            fields: {
              time_s: seconds,
              length_mm: length,
              approach_mm: approach,
              overrun_mm: overrun,
              passes,
              spindle_speed_rpm: rpm,
              feed_per_turn_mm: ofTurn,
            },
          }),
        );
      },
    ),
};
