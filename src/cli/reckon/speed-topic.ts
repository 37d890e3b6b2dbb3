/** The topic of spindle speeds. */
import { type Cut, cuttingSpeedAdvice, STARTING_VALUE, type ToolMaterial } from '../../shop/cutting-speeds.ts';
import { findMaterial } from '../../shop/materials.ts';
import { parseCuttingSpeed } from '../../shop/parse-quantity.ts';
import { tappingSpeed } from '../../shop/power-tapping.ts';
import type { MetresPerMinute, Mm, Rpm } from '../../shop/quantities.ts';
import { andThen, answer, type Result } from '../../shop/refusal.ts';
import { chooseSpeed, cuttingSpeedAt, type SpeedChoice, type SpindleSpeeds, spindleSpeed } from '../../shop/speeds.ts';
import { asFeetPerMinute, formatCuttingSpeed } from '../../shop/units.ts';
import { diameter, oneOf, REVERSES, spindleSpeeds, spindleSpeedText } from './readers.ts';
import { type Asked, type Field, read, readIf, readOr, type Topic, type TopicAnswer, withAll } from './topic.ts';
import { sayLength, sayNumber, saySource } from './words.ts';

const CUTS: readonly Cut[] = ['drill', 'spot', 'ream', 'countersink', 'chamfer', 'counterbore', 'mill', 'tap'];
const TOOLS: readonly ToolMaterial[] = ['HSS', 'carbide', 'carbon steel'];

export const speed: Topic = {
  name: 'speed',
  summary: 'spindle speed from cutting speed or material and diameter, and the machine speed to set',
  flags: [
    { name: 'diameter', value: 'LENGTH', meaning: 'diameter of the tool; of a cone the largest that it cuts' },
    { name: 'cutting-speed', value: 'SPEED', meaning: 'm/min or ft/min, unit required' },
    { name: 'material', value: 'NAME', meaning: 'its starting value; with a cutting speed: judges that' },
    { name: 'cut', value: 'KIND', meaning: `${CUTS.join(', ')}; drill when left out` },
    {
      name: 'tool',
      value: 'KIND',
      meaning: `with --material: ${TOOLS.join(', ')}; HSS when left out`,
      with: ['material'],
    },
    { name: 'speeds', value: 'RPM,…', meaning: 'speeds that the machine has: 90,150,240 or "100 to 2000"' },
    {
      name: 'reverses',
      value: 'HOW',
      meaning: `with --cut tap and --speeds: ${REVERSES.join(', ')}; after stopping when left out`,
      with: ['speeds'],
    },
    { name: 'rpm', value: 'RPM', meaning: 'the other way round: the cutting speed at this spindle speed' },
  ],
  needs: [['diameter'], ['cutting-speed', 'material', 'rpm']],
  apart: [
    ['rpm', 'cutting-speed'],
    ['rpm', 'material'],
    ['rpm', 'speeds'],
  ],
  example: 'speed --cutting-speed "30 m/min" --diameter "10 mm" --speeds 90,150,240,400,680,1100',
  run: (asked) => {
    if (asked.given.has('rpm')) return cuttingSpeedAnswer(asked);
    return withAll(
      {
        tool: read(asked, 'diameter', diameter),
        wanted: wantedCuttingSpeed(asked),
        speeds: readIf(asked, 'speeds', spindleSpeeds),
        cut: readOr(asked, 'cut', oneOf(CUTS), 'drill' as const),
        reverse: readOr(asked, 'reverses', oneOf(REVERSES), 'after stopping' as const),
      },
      ({ tool, wanted, speeds, cut, reverse }) =>
        andThen(spindleSpeed(wanted.speed, tool), (rpm) =>
          speedAnswer(asked, { tool, wanted, rpm, speeds, slow: cut === 'tap' && reverse !== 'at once' }),
        ),
    );
  },
};

interface WantedSpeed {
  readonly speed: MetresPerMinute;
  readonly words: readonly string[];
  readonly fields: { readonly [name: string]: Field };
}

function wantedCuttingSpeed(asked: Asked): Result<WantedSpeed> {
  if (!asked.given.has('cutting-speed')) return startingSpeed(asked);
  return andThen(read(asked, 'cutting-speed', parseCuttingSpeed), (given) => {
    if (!asked.given.has('material')) return answer<WantedSpeed>({ speed: given, words: [], fields: {} });
    return andThen(startingSpeed(asked), (start) => {
      const times = given / start.high;
      const mixedUp =
        times > MIXED_UP_FROM ? [`${sayNumber(times, 1)} times the high end: is it ft/min, written as m/min?`] : [];
      return answer({ ...start, speed: given, words: [...mixedUp, ...start.words] });
    });
  });
}

/** From so many times the high end of the range on, a stated speed looks like ft/min read as m/min (3.28 times). */
const MIXED_UP_FROM = 1.5;

function startingSpeed(asked: Asked): Result<WantedSpeed & { readonly high: MetresPerMinute }> {
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
          high: advice.high,
          words: [
            `${cut}, ${material}, ${tool}: ${sayRange(advice.low, advice.high, asked)}, ${STARTING_VALUE}`,
            saySource(advice.basis, advice.confirmed),
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

const sayRange = (low: MetresPerMinute, high: MetresPerMinute, asked: Asked): string =>
  low === high
    ? formatCuttingSpeed(low, asked.unit)
    : `${formatCuttingSpeed(low, asked.unit)} to ${formatCuttingSpeed(high, asked.unit)}`;

interface SpeedParts {
  readonly tool: Mm;
  readonly wanted: WantedSpeed;
  readonly rpm: Rpm;
  readonly speeds: SpindleSpeeds | undefined;
  /** Tapping on a spindle that does not reverse at once: the slowest speed is the default. */
  readonly slow: boolean;
}

function speedAnswer(asked: Asked, { tool, wanted, rpm, speeds, slow }: SpeedParts): Result<TopicAnswer> {
  const fields = {
    spindle_speed_rpm: rpm,
    cutting_speed_m_per_min: wanted.speed,
    diameter_mm: tool,
    ...wanted.fields,
  };
  const sum = `${formatCuttingSpeed(wanted.speed, asked.unit)} at ${sayLength(tool, asked.unit)}: 1000 v / (pi d) = ${sayNumber(rpm)} rpm`;
  const working = [sum, ...wanted.words];
  if (speeds === undefined) return answer({ text: `${sayNumber(rpm, 0)} rpm`, working, fields });
  const chosen = slow ? tappingSpeed(rpm, speeds, 'after stopping') : chooseSpeed(rpm, speeds);
  return andThen(chosen, (choice) =>
    answer({ text: sayChoice(choice, slow), working, fields: { ...fields, ...choiceFields(choice) } }),
  );
}

function sayChoice(choice: SpeedChoice, slow: boolean): string {
  const wanted = sayNumber(choice.wanted, 0);
  switch (choice.kind) {
    case 'chosen':
      if (slow) return `set ${choice.rpm} rpm, the slowest: the spindle runs on while it stops (${wanted} wanted)`;
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
