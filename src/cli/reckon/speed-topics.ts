/** Topics about how fast: spindle speed, feed, time of a cut. */
import { type Cut, cuttingSpeedAdvice, STARTING_VALUE, type ToolMaterial } from '../../shop/cutting-speeds.ts';
import { cuttingTime, feedPerTooth, feedPerTurn, feedRate, peckAdvice, secondsToFeel } from '../../shop/feeds.ts';
import { findMaterial } from '../../shop/materials.ts';
import { parseCuttingSpeed } from '../../shop/parse-quantity.ts';
import { asMm, asRpm, asSeconds, type MetresPerMinute, type Mm, type Rpm } from '../../shop/quantities.ts';
import { andThen, answer, type Result } from '../../shop/refusal.ts';
import { chooseSpeed, cuttingSpeedAt, type SpeedChoice, type SpindleSpeeds, spindleSpeed } from '../../shop/speeds.ts';
import { asFeetPerMinute, formatCuttingSpeed, formatDuration } from '../../shop/units.ts';
import {
  allowance,
  diameter,
  oneOf,
  positiveLength,
  spindleSpeeds,
  spindleSpeedText,
  toothFeed,
  turnFeed,
  wholeNumber,
} from './readers.ts';
import { type Asked, type Field, read, readIf, readOr, type Topic, type TopicAnswer, withAll } from './topic.ts';
import { sayLength, sayNumber } from './words.ts';

const CUTS: readonly Cut[] = ['drill', 'spot', 'ream', 'countersink', 'chamfer', 'counterbore', 'mill', 'tap'];
const TOOLS: readonly ToolMaterial[] = ['HSS', 'carbide', 'carbon steel'];

const speed: Topic = {
  name: 'speed',
  summary: 'spindle speed from cutting speed or material and diameter, and the machine speed to set',
  flags: [
    { name: 'diameter', value: 'LENGTH', meaning: 'diameter of the tool; of a cone the largest that it cuts' },
    { name: 'cutting-speed', value: 'SPEED', meaning: 'm/min or ft/min, unit required' },
    { name: 'material', value: 'NAME', meaning: 'instead of a cutting speed: a starting value for this material' },
    { name: 'cut', value: 'KIND', meaning: `with --material: ${CUTS.join(', ')}; drill when left out` },
    { name: 'tool', value: 'KIND', meaning: `with --material: ${TOOLS.join(', ')}; HSS when left out` },
    { name: 'speeds', value: 'RPM,…', meaning: 'speeds that the machine has: 90,150,240 or "100 to 2000"' },
    { name: 'rpm', value: 'RPM', meaning: 'the other way round: the cutting speed at this spindle speed' },
  ],
  needs: [['diameter'], ['cutting-speed', 'material', 'rpm']],
  example: 'speed --cutting-speed "30 m/min" --diameter "10 mm" --speeds 90,150,240,400,680,1100',
  run: (asked) => {
    if (asked.given.has('rpm')) return cuttingSpeedAnswer(asked);
    return withAll(
      {
        tool: read(asked, 'diameter', diameter),
        wanted: wantedCuttingSpeed(asked),
        speeds: readIf(asked, 'speeds', spindleSpeeds),
      },
      ({ tool, wanted, speeds }) =>
        andThen(spindleSpeed(wanted.speed, tool), (rpm) => speedAnswer(asked, { tool, wanted, rpm, speeds })),
    );
  },
};

interface WantedSpeed {
  readonly speed: MetresPerMinute;
  readonly words: readonly string[];
  readonly fields: { readonly [name: string]: Field };
}

function wantedCuttingSpeed(asked: Asked): Result<WantedSpeed> {
  if (asked.given.has('cutting-speed')) {
    return andThen(read(asked, 'cutting-speed', parseCuttingSpeed), (given) =>
      answer({ speed: given, words: [], fields: {} }),
    );
  }
  return withAll(
    {
      material: read(asked, 'material', findMaterial),
      cut: readOr(asked, 'cut', oneOf(CUTS), 'drill' as const),
      tool: readOr(asked, 'tool', oneOf(TOOLS), 'HSS' as const),
    },
    ({ material, cut, tool }) =>
      andThen(cuttingSpeedAdvice(material, cut, tool), (advice) =>
        answer({
          speed: advice.start,
          words: [
            `${cut}, ${material}, ${tool}: ${formatCuttingSpeed(advice.low, asked.unit)} to ${formatCuttingSpeed(advice.high, asked.unit)}, ${STARTING_VALUE}`,
            `${advice.confirmed ? 'source' : 'common practice'}: ${advice.basis}`,
          ],
          fields: {
            material,
            cut,
            tool,
            cutting_speed_low_m_per_min: advice.low,
            cutting_speed_high_m_per_min: advice.high,
            starting_value: true,
            basis: advice.basis,
            confirmed: advice.confirmed,
          },
        }),
      ),
  );
}

interface SpeedParts {
  readonly tool: Mm;
  readonly wanted: WantedSpeed;
  readonly rpm: Rpm;
  readonly speeds: SpindleSpeeds | undefined;
}

function speedAnswer(asked: Asked, { tool, wanted, rpm, speeds }: SpeedParts): Result<TopicAnswer> {
  const fields = {
    spindle_speed_rpm: rpm,
    cutting_speed_m_per_min: wanted.speed,
    diameter_mm: tool,
    ...wanted.fields,
  };
  const sum = `${formatCuttingSpeed(wanted.speed, asked.unit)} at ${sayLength(tool, asked.unit)}: 1000 v / (pi d) = ${sayNumber(rpm)} rpm`;
  const working = [sum, ...wanted.words];
  if (speeds === undefined) return answer({ text: `${sayNumber(rpm, 0)} rpm`, working, fields });
  return andThen(chooseSpeed(rpm, speeds), (choice) =>
    answer({ text: sayChoice(choice), working, fields: { ...fields, ...choiceFields(choice) } }),
  );
}

function sayChoice(choice: SpeedChoice): string {
  const wanted = sayNumber(choice.wanted, 0);
  switch (choice.kind) {
    case 'chosen':
      return choice.fastestTooSlow
        ? `set ${choice.rpm} rpm, the fastest there is; the tool would take ${wanted}`
        : `set ${choice.rpm} rpm, the fastest at or below ${wanted}`;
    case 'slowest-too-fast':
      return `no speed is slow enough: the slowest, ${choice.slowest} rpm, is ${sayNumber(choice.times)} times the ${wanted} wanted`;
  }
}

const choiceFields = (choice: SpeedChoice): { readonly [name: string]: Field } =>
  choice.kind === 'chosen'
    ? { chosen_speed_rpm: choice.rpm, fastest_too_slow: choice.fastestTooSlow }
    : { chosen_speed_rpm: null, slowest_rpm: choice.slowest, slowest_is_times_wanted: choice.times };

const cuttingSpeedAnswer = (asked: Asked): Result<TopicAnswer> =>
  withAll({ tool: read(asked, 'diameter', diameter), rpm: read(asked, 'rpm', spindleSpeedText) }, ({ tool, rpm }) =>
    andThen(cuttingSpeedAt(rpm, tool), (found) =>
      answer({
        text: `${sayNumber(found)} m/min (${sayNumber(asFeetPerMinute(found), 1)} ft/min)`,
        working: [`pi d n / 1000 at ${sayLength(tool, asked.unit)} and ${rpm} rpm`],
        fields: {
          cutting_speed_m_per_min: found,
          cutting_speed_ft_per_min: asFeetPerMinute(found),
          diameter_mm: tool,
          spindle_speed_rpm: rpm,
        },
      }),
    ),
  );

const DRILL_CUTS = ['drill', 'spot', 'ream', 'countersink', 'chamfer', 'counterbore'] as const;

const feed: Topic = {
  name: 'feed',
  summary: 'feed of a turn or a tooth by size, its rate, seconds to feel for, and when to clear chips',
  flags: [
    { name: 'diameter', value: 'LENGTH', meaning: 'diameter of the tool' },
    { name: 'cut', value: 'KIND', meaning: `${DRILL_CUTS.join(', ')} or mill; drill when left out` },
    { name: 'material', value: 'NAME', meaning: 'for a mill: what is cut' },
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
      },
      ({ tool, cut, rpm, travel, teeth, material }) => {
        const range = cut === 'mill' ? feedPerTooth(tool, material) : feedPerTurn(tool, cut);
        const each = cut === 'mill' ? teeth : 1;
        return withAll(
          {
            range,
            low: rateOf(range, rpm, each, 'low'),
            high: rateOf(range, rpm, each, 'high'),
            feel: feelOf(range, rpm, travel, each),
            peck: travel === undefined || cut !== 'drill' ? answer(undefined) : peckAdvice(tool, travel),
          },
          (found) => {
            const per = cut === 'mill' ? 'tooth' : 'turn';
            const name = cut === 'mill' ? 'feed_per_tooth' : 'feed_per_turn';
            const rate =
              found.low === undefined || found.high === undefined
                ? []
                : [`${sayNumber(found.low, 1)} to ${sayNumber(found.high, 1)} mm/min`];
            const feel =
              found.feel === undefined
                ? []
                : [`${formatDuration(found.feel.quickest)} to ${formatDuration(found.feel.slowest)} for the travel`];
            return answer({
              text: [
                `${sayLength(found.range.low, asked.unit)} to ${sayLength(found.range.high, asked.unit)} a ${per}`,
                ...rate,
                ...feel,
              ].join('; '),
              working: [
                `${found.range.confirmed ? 'source' : 'common practice'}: ${found.range.source}; ${STARTING_VALUE}`,
                ...sayPeck(found.peck, asked),
              ],
              fields: {
                [`${name}_low_mm`]: found.range.low,
                [`${name}_high_mm`]: found.range.high,
                ...(found.low === undefined || found.high === undefined
                  ? {}
                  : { feed_low_mm_per_min: found.low, feed_high_mm_per_min: found.high }),
                ...(found.feel === undefined ? {} : { quickest_s: found.feel.quickest, slowest_s: found.feel.slowest }),
                ...(found.peck === undefined ? {} : { chip_clearings: found.peck.withdrawals }),
                starting_value: true,
                confirmed: found.range.confirmed,
              },
            });
          },
        );
      },
    ),
};

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

function sayPeck(
  peck: { readonly withdrawals: number; readonly first: Mm; readonly next: Mm } | undefined,
  asked: Asked,
) {
  if (peck === undefined || peck.withdrawals === 0) return [];
  return [
    `clear the chips ${peck.withdrawals} times: ${sayLength(peck.first, asked.unit)} first, then ${sayLength(peck.next, asked.unit)} at a time (common practice)`,
  ];
}

const time: Topic = {
  name: 'time',
  summary: 'how long a cut takes, with approach and overrun',
  flags: [
    { name: 'length', value: 'LENGTH', meaning: 'length of the cut' },
    { name: 'speed', value: 'RPM', meaning: 'spindle speed' },
    { name: 'feed', value: 'FEED', meaning: 'feed of a turn: 0.1 mm/rev' },
    { name: 'tooth-feed', value: 'FEED', meaning: 'instead: feed of a tooth, 0.02 mm/tooth, with --teeth' },
    { name: 'teeth', value: 'NUMBER', meaning: 'teeth of the cutter; 2 when left out' },
    { name: 'approach', value: 'LENGTH', meaning: 'way at feed before the cut; 0 when left out' },
    { name: 'overrun', value: 'LENGTH', meaning: 'way at feed past its end; 0 when left out' },
    { name: 'passes', value: 'NUMBER', meaning: 'passes; 1 when left out' },
  ],
  needs: [['length'], ['speed'], ['feed', 'tooth-feed']],
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

export const speedTopics: readonly Topic[] = [speed, feed, time];
