/**
 * Feeds: how far a drill or a cutter moves in a turn, what that is in seconds that a hand can feel for, and how long a cut
 * takes. Feeds are starting values: the maker of the tool and the machine's manual come first.
 */
import type { Cut } from './cutting-speeds.ts';
import type { MaterialName } from './materials.ts';
import { asMm, asSeconds, type Mm, type Rpm, type Seconds } from './quantities.ts';
import { ALLOWANCE, FEED, POSITIVE_LENGTH, SPINDLE_SPEED, TOOL_DIAMETER } from './ranges.ts';
import { type Range, type Result, refuseOutside, sureRow, whenSound } from './refusal.ts';
import {
  CARBIDE_LEAST_SHARE,
  CARBIDE_MILL_FEEDS_MM,
  DEEP_HOLE_SHARES,
  DRILL_FEEDS,
  END_MILL_COLUMNS_IN,
  END_MILL_FEEDS_IN,
  LIGHT_MILL_FEEDS_MM,
  type MillFeedGroup,
  SMALL_DRILL_FEEDS_MM,
} from './tables/feeds.ts';
import { inchesToMm, mmToInches } from './units.ts';

export interface FeedRange {
  /** For the harder materials and the light hand. */
  readonly low: Mm;
  readonly high: Mm;
  readonly source: string;
  readonly confirmed: boolean;
}

/** Reaming takes about twice the feed of drilling: common practice, from memory. */
const REAMING_FEED_FACTOR = 2;

const TEETH: Range = { what: 'teeth', unit: '', from: 1, upTo: 100, remedy: 'count the cutting edges' };

/**
 * Feed in one turn of a drill by its size; a reamer twice that, a countersink or spot as a drill of its size.
 *
 * @param diameter above 0, at most 250 mm; a size on a band's end belongs to the lower band
 *
 * Sources: US Navy training course 14345; up to 2 mm from memory, less the smaller the drill. Example: no. 29 (.136 in) is
 * .002 to .004 in; 10 mm is 0.102 to 0.178 mm; a 3/8 in reamer .008 to .014 in.
 */
export function feedPerTurn(diameter: Mm, cut: Exclude<Cut, 'mill' | 'tap'> = 'drill'): Result<FeedRange> {
  return whenSound([refuseOutside(diameter, TOOL_DIAMETER)], () => {
    const range = diameter <= 2 ? smallDrillFeed(diameter) : tabledDrillFeed(diameter);
    if (cut !== 'ream') return range;
    return {
      low: asMm(range.low * REAMING_FEED_FACTOR),
      high: asMm(range.high * REAMING_FEED_FACTOR),
      source: `twice drilling, common practice, from memory (${range.source})`,
      confirmed: false,
    };
  });
}

function tabledDrillFeed(diameter: Mm): FeedRange {
  const row = sureRow(DRILL_FEEDS.find((band) => mmToInches(diameter) <= band.upToIn + 1e-9));
  return {
    low: inchesToMm(row.lowIn),
    high: inchesToMm(row.highIn),
    source: 'US Navy training course 14345',
    confirmed: true,
  };
}

/** Below 1 mm in proportion to the diameter, else the row of the next larger drill scaled to this one. */
function smallDrillFeed(diameter: Mm): FeedRange {
  const [size, low, high] = sureRow(SMALL_DRILL_FEEDS_MM.find(([upTo]) => diameter <= upTo));
  const share = diameter / size;
  return { low: asMm(low * share), high: asMm(high * share), source: 'from memory', confirmed: false };
}

/**
 * Feed of one tooth of an end mill.
 *
 * @param diameter above 0, at most 250 mm; sizes between columns in proportion, beyond the last column as that
 * @param tool HSS when left out
 * @returns for HSS the low end for a light mill (from memory), the high end of common practice; for carbide both of common
 * practice, the high end on a rigid machine
 *
 * Example: 6 mm in mild steel is 0.02 to 0.048 mm; 10 mm in aluminium 0.058 to 0.08 mm; 10 mm carbide in mild steel 0.05 to
 * 0.08 mm.
 */
export function feedPerTooth(diameter: Mm, material: MaterialName, tool: 'HSS' | 'carbide' = 'HSS'): Result<FeedRange> {
  return whenSound([refuseOutside(diameter, TOOL_DIAMETER)], () => {
    if (tool === 'carbide') return carbideToothFeed(diameter, material);
    const group = MILL_GROUP[material];
    const columns = END_MILL_COLUMNS_IN.map((inches, at) => [inches, sureRow(END_MILL_FEEDS_IN[group][at])] as const);
    const sheet = inchesToMm(between(mmToInches(diameter), columns));
    const soft = group === 'aluminium' || group === 'plastics' || group === 'brass and bronze';
    const light = between(
      diameter,
      LIGHT_MILL_FEEDS_MM.map(([size, steel, aluminium]) => [size, soft ? aluminium : steel]),
    );
    return {
      low: asMm(Math.min(light, sheet)),
      high: asMm(group === 'stainless steel' ? sheet : Math.max(light, sheet)),
      source: 'common practice, cutter sheet; light mills from memory',
      confirmed: false,
    };
  });
}

function carbideToothFeed(diameter: Mm, material: MaterialName): FeedRange {
  const isTough = MILL_GROUP[material] === 'stainless steel';
  const sheet = between(
    diameter,
    CARBIDE_MILL_FEEDS_MM.map(([size, steel, stainless]) => [size, isTough ? stainless : steel]),
  );
  const least = diameter * (isTough ? CARBIDE_LEAST_SHARE.stainless : CARBIDE_LEAST_SHARE.steel);
  return {
    low: asMm(Math.min(least, sheet)),
    high: asMm(sheet),
    source: 'common practice, carbide catalogue: the high end wants a rigid machine',
    confirmed: false,
  };
}

const MILL_GROUP: Readonly<Record<MaterialName, MillFeedGroup>> = {
  'mild steel': 'steel',
  'free-cutting steel': 'steel',
  'medium carbon steel': 'steel',
  'alloy steel': 'stainless steel',
  'tool steel': 'stainless steel',
  'stainless steel': 'stainless steel',
  'free-machining stainless steel': 'stainless steel',
  'cast iron': 'cast iron',
  brass: 'brass and bronze',
  bronze: 'brass and bronze',
  aluminium: 'aluminium',
  acetal: 'plastics',
  nylon: 'plastics',
  plastics: 'plastics',
  wood: 'plastics',
};

/** Value at a size by straight lines between rows, through zero below the first, level above the last. */
function between(size: number, rows: readonly (readonly [size: number, value: number])[]): number {
  let [lastSize, lastValue] = [0, 0];
  for (const [rowSize, value] of rows) {
    if (size <= rowSize) return lastValue + ((size - lastSize) / (rowSize - lastSize)) * (value - lastValue);
    [lastSize, lastValue] = [rowSize, value];
  }
  return lastValue;
}

/**
 * Feed rate in mm a minute: speed x teeth x feed of one tooth; one tooth for a drill whose feed is of a turn.
 *
 * Source: n z f. Example: 1200 rpm, 0.12 mm a turn: 144 mm/min; 900 rpm, 4 teeth, 0.025 mm: 90 mm/min.
 */
export function feedRate(speed: Rpm, feed: Mm, teeth = 1): Result<number> {
  return whenSound(
    [refuseOutside(speed, SPINDLE_SPEED), refuseOutside(feed, FEED), refuseOutside(teeth, TEETH)],
    () => {
      return speed * teeth * feed;
    },
  );
}

export interface CutTravel {
  /** Length of cut. */
  readonly length: Mm;
  /** Before the cut begins at feed. */
  readonly approach?: Mm;
  /** Past its end. */
  readonly overrun?: Mm;
  readonly passes?: number;
}

const PASSES: Range = { what: 'passes', unit: '', from: 1, upTo: 1000, remedy: 'give the number of passes' };

/**
 * Time of a cut: (length + approach + overrun) x passes / (speed x feed of a turn).
 *
 * @param feedOfTurn teeth x feed of one tooth for a mill
 *
 * Example: 25.0043 mm at 800 rpm and 0.1 mm is 18.753 s; 100 mm in 2 passes at 500 rpm and 0.15 mm is 160 s.
 */
export function cuttingTime(travel: CutTravel, speed: Rpm, feedOfTurn: Mm): Result<Seconds> {
  const { length, approach = 0, overrun = 0, passes = 1 } = travel;
  return whenSound(
    [
      refuseOutside(length, POSITIVE_LENGTH),
      refuseOutside(approach, { ...ALLOWANCE, what: 'approach' }),
      refuseOutside(overrun, { ...ALLOWANCE, what: 'overrun' }),
      refuseOutside(passes, PASSES),
      refuseOutside(speed, SPINDLE_SPEED),
      refuseOutside(feedOfTurn, FEED),
    ],
    () => asSeconds((((length + approach + overrun) * passes) / (speed * feedOfTurn)) * 60),
  );
}

export interface SecondsToFeel {
  /** At the high feed. */
  readonly quickest: Seconds;
  /** At the low feed. */
  readonly slowest: Seconds;
}

/**
 * Seconds that a hand-fed cut should take, from first touch to depth: what to feel for.
 *
 * Example: no. 29 to .603 in at 2700 rpm and .002 to .004 in a turn is 3.4 to 6.7 s.
 */
export function secondsToFeel(travel: Mm, speed: Rpm, feed: Pick<FeedRange, 'low' | 'high'>): Result<SecondsToFeel> {
  const quickest = cuttingTime({ length: travel }, speed, feed.high);
  if (!quickest.ok) return quickest;
  const slowest = cuttingTime({ length: travel }, speed, feed.low);
  if (!slowest.ok) return slowest;
  return { ok: true, value: { quickest: quickest.value, slowest: slowest.value } };
}

export interface PeckAdvice {
  readonly depthInDiameters: number;
  /** Withdrawals to clear chips before the last feed; 0 when one feed will do. */
  readonly withdrawals: number;
  /** First feed, and every one after it. */
  readonly first: Mm;
  readonly next: Mm;
  /** Share of speed and feed to keep in a deep hole, 1 when it is not deep. */
  readonly speedShare: number;
  readonly feedShare: number;
}

/**
 * How to peck a hole: up to 3 diameters in one feed, then a diameter at a time; slower and finer the deeper it is.
 *
 * Sources: depth shares, drilling reference guide (trade data sheet); the steps are common practice, from memory.
 * Example: 3 mm drill, 15 mm deep: 9 mm first, then 3 mm each, 2 withdrawals, 0.7 of the speed and 0.8 of the feed.
 */
export function peckAdvice(diameter: Mm, depth: Mm): Result<PeckAdvice> {
  return whenSound([refuseOutside(diameter, TOOL_DIAMETER), refuseOutside(depth, POSITIVE_LENGTH)], () => {
    const depthInDiameters = depth / diameter;
    const [, speedShare, feedShare] = DEEP_HOLE_SHARES.find(([from]) => depthInDiameters >= from - 1e-9) ?? [0, 1, 1];
    const withdrawals = Math.max(0, Math.ceil(depthInDiameters - 3 - 1e-9));
    return {
      depthInDiameters,
      withdrawals,
      first: asMm(Math.min(depth, 3 * diameter)),
      next: diameter,
      speedShare,
      feedShare,
    };
  });
}
