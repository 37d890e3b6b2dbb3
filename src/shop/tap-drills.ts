/**
 * The hole before the tap. The published limits of the minor diameter decide whether a drill is right; the percentage of
 * engagement is a note beside it, with its basis named.
 */
import { drillName } from './drill-sizes.ts';
import { asMm, type Mm } from './quantities.ts';
import { andThen, type Refusal, type Result, refuse } from './refusal.ts';
import { basesOf, type EngagementBasis, engagementPercent, type MinorLimits, type Thread } from './threads.ts';
import { formatLength, formatTrimmed, type LengthUnit, mmToInches } from './units.ts';

/** Slack for a drill that is the limit itself, in mm: less than any drill is made to. */
const SAME_MM = 0.0005;

export interface Engagement {
  readonly percent: number;
  readonly basis: EngagementBasis;
}

/**
 * What a drilled hole is for its thread:
 * - `within`: inside the published limits, nothing to say;
 * - `usual`: outside them by a hair, but the drill of the usual charts; a note at most;
 * - `above-maximum`: too little thread, by the limits;
 * - `below-minimum`: the tap would have to cut its core and is likely to break.
 */
export type TapDrillVerdict = {
  readonly kind: 'within' | 'usual' | 'above-maximum' | 'below-minimum';
  readonly drill: Mm;
  readonly limits: MinorLimits;
  /** On every basis of the form, the one meant when nothing is said first. */
  readonly engagement: readonly Engagement[];
};

/**
 * Judges a drill by the thread's published minor limits.
 *
 * @param drill diameter of the hole, above 0 and below the major diameter; anything else is refused
 *
 * Source of limits: ISO 965-1 (6H), ASME B1.1 (2B), see `limits.source`.
 * Example: no. 8-32 UNC with no. 29 (.136 in) is `within` .130 to .139, 82.8 % of 5H/8, 69.0 % of 3H/4; 3/8 x 32 ME with
 * letter Q is `below-minimum`.
 */
export function judgeTapDrill(thread: Thread, drill: Mm): Result<TapDrillVerdict> {
  const engagement: Engagement[] = [];
  for (const basis of basesOf(thread.form)) {
    const percent = engagementPercent(thread, drill, basis);
    if (!percent.ok) return percent;
    engagement.push({ percent: percent.value, basis });
  }
  return { ok: true, value: { kind: placeOf(thread, drill), drill, limits: thread.limits, engagement } };
}

function placeOf(thread: Thread, drill: Mm): TapDrillVerdict['kind'] {
  if (drill < thread.limits.min - SAME_MM) return 'below-minimum';
  if (drill <= thread.limits.max + SAME_MM) return 'within';
  return thread.tapDrill.others.some((usual) => Math.abs(usual - drill) < 0.01) ? 'usual' : 'above-maximum';
}

/**
 * A refusal for a drill that is smaller than the thread's minor minimum, `undefined` for any other.
 *
 * Example: `3/8 x 32 ME` with letter Q: .332 in is below the core of .335 in; use 8.75 mm.
 */
function refuseTapDrill(thread: Thread, drill: Mm, unit: LengthUnit): Refusal | undefined {
  if (placeOf(thread, drill) !== 'below-minimum') return undefined;
  return {
    what: `tap drill for ${thread.name}`,
    found: `${drillName(drill)} (${formatLength(drill, unit)})`,
    allowed: formatLimits(thread.limits, unit),
    remedy: `use ${thread.tapDrill.name}: a hole below the minimum breaks taps`,
  };
}

/**
 * Limits in words: `4.917 to 5.153 mm (ISO 965-1, 6H)` or `.130 to .139 in (ASME B1.1, class 2B)`. Inches have four decimals
 * where three would hide a part of the limit: no. 0-80 is `.0465 to .0514 in`, not .047, which lies above its own drill.
 */
export function formatLimits(limits: MinorLimits, unit: LengthUnit): string {
  const decimals = unit === 'inch' && [limits.min, limits.max].some(needsFourPlaces) ? 4 : 3;
  const min = formatLength(limits.min, unit, decimals).replace(/ (?:mm|in)$/u, '');
  return `${min} to ${formatLength(limits.max, unit, decimals)} (${limits.source})`;
}

const needsFourPlaces = (mm: Mm): boolean => {
  const thousandths = mmToInches(mm) * 1000;
  return Math.abs(thousandths - Math.round(thousandths)) > 1e-6;
};

/** Engagement in words: `90.5 % of 5H/8, 75.4 % of 3H/4`. */
export const formatEngagement = (engagement: readonly Engagement[]): string =>
  engagement.map(({ percent, basis }) => `${formatTrimmed(percent, 1)} % of ${basis}`).join(', ');

/**
 * A verdict on text: judges a drill, but refuses one below the minor minimum outright. For answers at the bench, where a
 * number that breaks taps must not be printed as an answer.
 *
 * Example: M6 with 5 mm answers `within`; M6 with 4.8 mm is refused.
 */
export function judgeOrRefuse(thread: Thread, drill: Mm, unit: LengthUnit): Result<TapDrillVerdict> {
  return andThen(judgeTapDrill(thread, drill), (verdict) => {
    const problem = refuseTapDrill(thread, asMm(drill), unit);
    return problem === undefined ? { ok: true, value: verdict } : refuse(problem);
  });
}
