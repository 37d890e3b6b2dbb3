/**
 * Bar into blanks: how many one bar yields, how many bars a batch needs, what is left over. The cut list over bars of several
 * lengths is in cut-list.ts, the mass of stock in stock-mass.ts.
 *
 * Sums are unrounded; a bar that fits its blanks to the last hair counts as fitting (a millionth of a millimetre is forgiven,
 * for binary fractions only). Source: arithmetic, blanks = floor((usable + kerf) / (blank + kerf)).
 */
import { asMm, type Mm } from './quantities.ts';
import { ALLOWANCE, POSITIVE_LENGTH } from './ranges.ts';
import { type Range, type Refusal, type Result, refuseOutside, whenSound } from './refusal.ts';
import { refuseUnlessWhole } from './whole.ts';

/** How a saw treats a bar. */
export interface SawRules {
  /** Width of the cut. */
  readonly kerf: Mm;
  /** Cropped off one end of a new bar, the kerf of that crop included. */
  readonly endTrim: Mm;
  /** Shortest end that the saw can hold: it stays behind when the last blank is cut off. */
  readonly grip: Mm;
  /**
   * Whether the last blank is always sawn off what is left. Left out: only where a grip must stay behind; without one the
   * last blank may be the end of the bar itself.
   */
  readonly trailingCut?: boolean;
}

/** What one bar yields. */
export interface BarYield {
  readonly blanks: number;
  /** Length of the bar from which blanks may come: less the crop and the grip. */
  readonly usable: Mm;
  /** Length left when all blanks are off, the grip included. */
  readonly left: Mm;
}

/** What a number of bars of one length makes of a number of blanks. */
export interface BarsNeeded {
  readonly blanksPerBar: number;
  readonly bars: number;
  /** Blanks cut from the last bar. */
  readonly onLastBar: number;
  readonly leftOnFullBar: Mm;
  readonly leftOnLastBar: Mm;
}

/** Forgiven when a bar fits its blanks exactly but for binary fractions. */
export const HAIR_MM = 1e-6;

const BAR: Range = { ...POSITIVE_LENGTH, what: 'bar length' };
const BLANK: Range = { ...POSITIVE_LENGTH, what: 'blank length' };
const KERF: Range = { ...ALLOWANCE, what: 'kerf', upTo: 20 };
const NEEDED: Range = {
  what: 'blanks needed',
  unit: '',
  from: 1,
  upTo: 10_000,
  remedy: 'give the number of blanks, spares included',
};

/**
 * Length to saw a blank: the finished length with an allowance for facing at both ends.
 *
 * @param finished above 0. @param facingPerEnd 0 to 1000 mm.
 *
 * Example: 25 mm finished with 0.5 mm an end is sawn 26 mm.
 */
export function blankLength(finished: Mm, facingPerEnd: Mm): Result<Mm> {
  const checks = [
    refuseOutside(finished, { ...POSITIVE_LENGTH, what: 'finished length' }),
    refuseOutside(facingPerEnd, { ...ALLOWANCE, what: 'facing allowance' }),
  ];
  return whenSound(checks, () => asMm(finished + 2 * facingPerEnd));
}

/**
 * How many blanks one bar yields. None is an answer, not a refusal.
 *
 * @param bar and blank above 0, at most 20 m; kerf 0 to 20 mm; end trim and grip 0 to 1000 mm.
 *
 * Example: a 1000 mm bar, 26 mm blanks, kerf 1.5, grip 30: 35 blanks. A 304 mm bar gives three blanks of 100 mm with two
 * cuts of 2 mm; at 303.9 mm only two.
 */
export function blanksPerBar(bar: Mm, blank: Mm, saw: SawRules): Result<BarYield> {
  return whenSound([refuseOutside(bar, BAR), refuseOutside(blank, BLANK), ...refuseSaw(saw)], () =>
    yieldOf(bar, blank, saw),
  );
}

/**
 * How many bars of one length a number of blanks needs, and what is left of them.
 *
 * @param needed 1 to 10,000.
 * @returns a refusal when a bar yields no blank at all.
 *
 * Example: 63 blanks of 2.560 in from 72 in bars (crop .25, grip 1.5, kerf .0625): 26 a bar, 3 bars, 11 on the last; left
 * 3.565 in on a full bar and 42.90 in on the last.
 */
export function barsNeeded(needed: number, bar: Mm, blank: Mm, saw: SawRules): Result<BarsNeeded> {
  const one = blanksPerBar(bar, blank, saw);
  if (!one.ok) return one;
  const checks = [refuseUnlessWhole(needed, NEEDED), one.value.blanks === 0 ? tooShort(bar, blank, saw) : undefined];
  return whenSound(checks, () => {
    const perBar = one.value.blanks;
    const bars = Math.ceil(needed / perBar);
    const onLastBar = needed - (bars - 1) * perBar;
    return {
      blanksPerBar: perBar,
      bars,
      onLastBar,
      leftOnFullBar: one.value.left,
      leftOnLastBar: leftAfter(bar, onLastBar * (blank + saw.kerf), saw),
    };
  });
}

/** Checks the rules of a saw; used wherever bars are cut. */
export const refuseSaw = (saw: SawRules): readonly (Refusal | undefined)[] => [
  refuseOutside(saw.kerf, KERF),
  refuseOutside(saw.endTrim, { ...ALLOWANCE, what: 'end trim' }),
  refuseOutside(saw.grip, { ...ALLOWANCE, what: 'shortest end the saw can hold' }),
];

/** Length that blanks may take up, each with its kerf: the last kerf comes free where no trailing cut is made. */
export function roomFor(bar: Mm, saw: SawRules): number {
  const trailing = saw.trailingCut ?? saw.grip > 0;
  return bar - saw.endTrim - saw.grip + (trailing ? 0 : saw.kerf);
}

/** Length left on a bar after blanks with their kerfs were taken; never below 0 (the last kerf may run off the end). */
export const leftAfter = (bar: Mm, taken: number, saw: SawRules): Mm => {
  const left = bar - saw.endTrim - taken;
  return asMm(left < HAIR_MM ? 0 : left);
};

function yieldOf(bar: Mm, blank: Mm, saw: SawRules): BarYield {
  const blanks = Math.max(0, Math.floor((roomFor(bar, saw) + HAIR_MM) / (blank + saw.kerf)));
  return {
    blanks,
    usable: asMm(Math.max(0, bar - saw.endTrim - saw.grip)),
    left: leftAfter(bar, blanks * (blank + saw.kerf), saw),
  };
}

const tooShort = (bar: Mm, blank: Mm, saw: SawRules): Refusal => ({
  what: 'bar length',
  found: `${bar} mm`,
  allowed: `at least ${Number((blank + bar - roomFor(bar, saw) + saw.kerf).toFixed(3))} mm for one blank`,
  remedy: 'take a longer bar, a shorter blank or a saw that holds a shorter end',
});
