/**
 * Cutting speed to start from, by material, cut and tool. Every value is a starting value for a manual machine: the maker of
 * the tool and the machine's manual come first.
 */
import type { MaterialName } from './materials.ts';
import { asMetresPerMinute, type MetresPerMinute } from './quantities.ts';
import { type Result, refuse } from './refusal.ts';
import { CUTTING_SPEEDS, type CuttingSpeedRow, SPEED_SOURCES } from './tables/cutting-speeds.ts';
import { feetPerMinute } from './units.ts';

export type Cut = 'drill' | 'spot' | 'ream' | 'countersink' | 'chamfer' | 'counterbore' | 'mill' | 'tap';

export type ToolMaterial = 'HSS' | 'carbide' | 'carbon steel';

export interface CuttingSpeedAdvice {
  readonly low: MetresPerMinute;
  readonly high: MetresPerMinute;
  /** The speed to start at: the low end of the range. */
  readonly start: MetresPerMinute;
  /** Where the range comes from and why the start was chosen, in a sentence. */
  readonly basis: string;
  /** False: common practice or from memory, to be called so. */
  readonly confirmed: boolean;
}

/** Said wherever a cutting speed of the tables is shown. */
export const STARTING_VALUE = 'a starting value: the maker of the tool and the manual of the machine come first';

const WHY_LOW = 'the low end is the start for hand feed, brushed-on fluid and a tool that is not new';

/** A share of another cut's speed, and whose word that is. */
interface Share {
  readonly of: 'drill' | 'mill';
  readonly factor: number;
  readonly why: string;
  readonly confirmed: boolean;
}

/**
 * Cuts that take a share of drilling or milling speed. Reaming half: a technical college table gives one half to two thirds,
 * the lower is taken. Countersinking half: common practice, from memory. Spotting as drilling.
 */
const SHARE_OF: Readonly<Partial<Record<Cut, Share>>> = {
  spot: { of: 'drill', factor: 1, why: 'as drilling', confirmed: true },
  ream: { of: 'drill', factor: 0.5, why: 'half of drilling', confirmed: true },
  countersink: { of: 'drill', factor: 0.5, why: 'half of drilling, common practice, from memory', confirmed: false },
  chamfer: { of: 'drill', factor: 0.5, why: 'half of drilling, common practice, from memory', confirmed: false },
  counterbore: { of: 'drill', factor: 0.5, why: 'half of drilling, common practice, from memory', confirmed: false },
};

/** What stands in where a material has no row of its own. */
const STAND_IN: Readonly<Partial<Record<MaterialName, MaterialName>>> = {
  'free-machining stainless steel': 'stainless steel',
  acetal: 'plastics',
  nylon: 'plastics',
};

/**
 * A tool's share of the high-speed steel value. Carbon steel half (US Navy training course 14345); carbide double, the
 * lowest of several sources, since catalogue speeds suppose a rigid machine.
 */
const TOOL_FACTOR: Readonly<Record<ToolMaterial, { readonly factor: number; readonly why: string }>> = {
  HSS: { factor: 1, why: '' },
  carbide: { factor: 2, why: 'doubled for carbide' },
  'carbon steel': { factor: 0.5, why: 'halved for a carbon-steel tool' },
};

/**
 * The cutting speed to start from.
 *
 * @returns range and start in m/min, unrounded; a refusal for a cut that the material has no sensible speed for (tapping
 * wood)
 *
 * Example: drilling mild steel with HSS is 24.4 to 33.5 m/min, start 24.4 (US Navy training course 14345, 80 to
 * 110 ft/min); reaming it starts at 12.2; milling aluminium with HSS is 91.4 m/min.
 */
export function cuttingSpeedAdvice(
  material: MaterialName,
  cut: Cut,
  tool: ToolMaterial = 'HSS',
): Result<CuttingSpeedAdvice> {
  const base = baseAdvice(material, cut);
  if (base === undefined) {
    return refuse({
      what: 'cutting speed',
      found: `${cut} in ${material}`,
      allowed: 'a cut that this material takes',
      remedy: 'state the cutting speed yourself if you mean it',
    });
  }
  const { factor, why } = TOOL_FACTOR[tool];
  const scaled = scale(base, factor);
  return {
    ok: true,
    value: { ...scaled, basis: [scaled.basis, why, WHY_LOW].filter((part) => part !== '').join('; ') },
  };
}

function baseAdvice(material: MaterialName, cut: Cut): CuttingSpeedAdvice | undefined {
  const share = SHARE_OF[cut];
  if (share !== undefined) return sharedAdvice(material, share);
  if (cut === 'tap') return rowAdvice(material, 'tap') ?? quarterOfDrilling(material);
  if (cut === 'mill') return rowAdvice(material, 'mill') ?? sharedAdvice(material, MILLS_AS_DRILLS);
  return rowAdvice(material, 'drill');
}

/** Milling where no source has a row: the drilling speed, which lies near it in every steel that has both. */
const MILLS_AS_DRILLS: Share = { of: 'drill', factor: 1, why: 'as drilling, from memory', confirmed: false };

/** Tapping where no source has a row: a quarter of drilling, common practice. Not for wood, which is not tapped. */
const quarterOfDrilling = (material: MaterialName): CuttingSpeedAdvice | undefined =>
  material === 'wood'
    ? undefined
    : sharedAdvice(material, {
        of: 'drill',
        factor: 0.25,
        why: 'a quarter of drilling, from memory',
        confirmed: false,
      });

function sharedAdvice(material: MaterialName, share: Share): CuttingSpeedAdvice | undefined {
  const whole = rowAdvice(material, share.of);
  if (whole === undefined) return undefined;
  const scaled = scale(whole, share.factor);
  return { ...scaled, basis: `${share.why} (${whole.basis})`, confirmed: whole.confirmed && share.confirmed };
}

function rowAdvice(material: MaterialName, cut: CuttingSpeedRow['cut']): CuttingSpeedAdvice | undefined {
  const own = firstRow(material, cut);
  const standIn = own === undefined ? STAND_IN[material] : undefined;
  const row = own ?? (standIn === undefined ? undefined : firstRow(standIn, cut));
  if (row === undefined) return undefined;
  const source = SPEED_SOURCES[row.source];
  const low = speedOf(row, row.low);
  const borrowed = standIn === undefined ? '' : `, value of ${standIn}`;
  return {
    low,
    high: speedOf(row, row.high),
    start: low,
    basis: `${source.text}${borrowed}`,
    confirmed: source.confirmed && standIn === undefined,
  };
}

const firstRow = (material: MaterialName, cut: CuttingSpeedRow['cut']): CuttingSpeedRow | undefined =>
  CUTTING_SPEEDS.find((row) => row.material === material && row.cut === cut && row.tool === 'HSS');

const speedOf = (row: CuttingSpeedRow, value: number): MetresPerMinute =>
  row.unit === 'm/min' ? asMetresPerMinute(value) : feetPerMinute(value);

const scale = (advice: CuttingSpeedAdvice, factor: number): CuttingSpeedAdvice => ({
  ...advice,
  low: asMetresPerMinute(advice.low * factor),
  high: asMetresPerMinute(advice.high * factor),
  start: asMetresPerMinute(advice.start * factor),
});
