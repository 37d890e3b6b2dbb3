/**
 * Every thread of the tables as one list, with its limits worked out by the rule of its standard.
 */
import { drillName } from './drill-sizes.ts';
import { parseDiameter } from './parse-length.ts';
import { asMm, type Mm } from './quantities.ts';
import { type Result, refuseOutside, sureOf, sureRow, whenSound } from './refusal.ts';
import { BA, type BaThreadRow, BSF, BSW, ME, type WhitworthThreadRow } from './tables/british-threads.ts';
import { METRIC_COARSE, METRIC_FINE, type MetricThreadRow, MINOR_TOLERANCE_6_MM } from './tables/metric-threads.ts';
import { UNC, UNF, type UnifiedThreadRow } from './tables/unified-threads.ts';
import { type MinorLimits, type TapDrill, type Thread, type ThreadForm, threadGeometry } from './threads.ts';
import { inchesToMm, MM_PER_INCH, roundToResolution } from './units.ts';

/** Least share of the depth that charts of the model-engineer series leave, in percent (common practice, from memory). */
const LEAST_ME_ENGAGEMENT = 60;

/** Where metric sizes outside the tables make sense. */
const METRIC_MAJOR = { what: 'metric thread', unit: 'mm', from: 1, upTo: 68, remedy: 'give a thread of M1 to M68' };

/**
 * An ISO metric thread by its numbers, for sizes that the tables leave out: limits from ISO 965-1, drill computed as major
 * diameter less pitch, to the nearest 0.05 mm.
 *
 * @param major 1 to 68 mm
 * @param pitch one of those with a grade 6 tolerance in ISO 965-1 (0.35 to 3 mm), at most 0.3 of the major diameter
 *
 * Example: M9 x 0.75 has limits 8.188 to 8.378 mm, drill 8.25 mm.
 */
export function metricThread(major: number, pitch: number): Result<Thread> {
  const row = [...METRIC_COARSE, ...METRIC_FINE].find((known) => known.majorMm === major && known.pitchMm === pitch);
  if (row !== undefined) return { ok: true, value: fromMetricRow(row) };
  const pitches = Object.keys(MINOR_TOLERANCE_6_MM)
    .filter((known) => Number(known) <= 0.3 * major)
    .sort((a, b) => Number(a) - Number(b));
  const badPitch = pitches.includes(String(pitch))
    ? undefined
    : {
        what: 'thread pitch',
        found: `${pitch} mm`,
        allowed: `one of ${pitches.join(', ')} mm for M${major}`,
        remedy: 'check the pitch on the tap',
      };
  return whenSound([refuseOutside(major, METRIC_MAJOR), badPitch], () => ({
    name: `M${major}x${pitch}`,
    size: `M${major}`,
    series: 'metric fine',
    form: 'iso',
    major: asMm(major),
    pitch: asMm(pitch),
    limits: metricLimits(major, pitch),
    tapDrill: tapDrillOf(roundToResolution(major - pitch, 0.05), [], 'computed: major diameter less pitch', false),
  }));
}

function fromMetricRow(row: MetricThreadRow): Thread {
  const coarse = METRIC_COARSE.includes(row);
  return {
    name: coarse ? `M${row.majorMm}` : `M${row.majorMm}x${row.pitchMm}`,
    size: `M${row.majorMm}`,
    series: coarse ? 'metric coarse' : 'metric fine',
    form: 'iso',
    major: asMm(row.majorMm),
    pitch: asMm(row.pitchMm),
    limits: metricLimits(row.majorMm, row.pitchMm),
    tapDrill: tapDrillOf(row.tapDrillMm, row.otherDrillsMm ?? [], 'ISO 2306', row.confirmed),
  };
}

/** 6H: basic minor diameter to 0.001 mm, plus the grade 6 tolerance of the pitch. Source: ISO 724, ISO 965-1. */
function metricLimits(major: number, pitch: number): MinorLimits {
  const min = roundToResolution(basicMinor('iso', major, pitch), 0.001);
  const max = roundToResolution(min + sureRow(MINOR_TOLERANCE_6_MM[String(pitch)]), 0.001);
  return { min: asMm(min), max: asMm(max), source: 'ISO 965-1, 6H', confirmed: true };
}

function fromUnifiedRow(row: UnifiedThreadRow, series: 'UNC' | 'UNF'): Thread {
  const drill = (name: string) => sureOf(parseDiameter(name, undefined));
  return {
    name: `${row.size}-${row.threadsPerInch} ${series}`,
    size: row.size,
    series,
    form: 'iso',
    major: inchesToMm(row.majorIn),
    pitch: asMm(MM_PER_INCH / row.threadsPerInch),
    limits: {
      min: inchesToMm(row.minor2bIn[0]),
      max: inchesToMm(row.minor2bIn[1]),
      source: 'ASME B1.1, class 2B',
      confirmed: row.confirmed,
    },
    tapDrill: {
      ...tapDrillOf(drill(row.tapDrill), (row.otherDrills ?? []).map(drill), 'usual inch charts', row.confirmed),
      name: row.tapDrill,
    },
  };
}

/** BA minor tolerance 0.375 pitch: BS 93, from memory. */
function fromBaRow(row: BaThreadRow): Thread {
  const min = basicMinor('ba', row.majorMm, row.pitchMm);
  const name = `${row.number} BA`;
  return {
    name,
    size: name,
    series: 'BA',
    form: 'ba',
    major: asMm(row.majorMm),
    pitch: asMm(row.pitchMm),
    limits: { min: asMm(min), max: asMm(min + 0.375 * row.pitchMm), source: 'BS 93, from memory', confirmed: false },
    tapDrill: tapDrillOf(
      row.tapDrillMm,
      [sureOf(parseDiameter(row.tapDrillInch, undefined))],
      'trade tapping size, common practice',
      row.confirmed,
    ),
  };
}

function fromWhitworthRow(row: WhitworthThreadRow, series: 'BSW' | 'BSF' | 'ME'): Thread {
  const major = inchesToMm(row.majorIn);
  const pitch = asMm(MM_PER_INCH / row.threadsPerInch);
  return {
    name: series === 'ME' ? `${row.size} x ${row.threadsPerInch} ME` : `${row.size}-${row.threadsPerInch} ${series}`,
    size: row.size,
    series,
    form: 'whitworth',
    major,
    pitch,
    limits: series === 'ME' ? modelEngineerLimits(major, pitch) : whitworthLimits(major, pitch, row.threadsPerInch),
    tapDrill: tapDrillOf(row.tapDrillMm, [], 'trade tapping size, common practice', row.confirmed),
  };
}

/** Minor tolerance of a Whitworth nut, in inches: 0.2 pitch + 0.004 (from 26 threads), 0.005 (24, 22), 0.007 (coarser). */
function whitworthLimits(major: Mm, pitch: Mm, threadsPerInch: number): MinorLimits {
  const min = basicMinor('whitworth', major, pitch);
  const constantIn = threadsPerInch >= 26 ? 0.004 : threadsPerInch >= 22 ? 0.005 : 0.007;
  const max = min + 0.2 * pitch + constantIn * MM_PER_INCH;
  return { min: asMm(min), max: asMm(max), source: 'BS 84, from memory', confirmed: false };
}

function modelEngineerLimits(major: Mm, pitch: Mm): MinorLimits {
  const min = basicMinor('whitworth', major, pitch);
  const max = major - (major - min) * (LEAST_ME_ENGAGEMENT / 100);
  const source = `core diameter up to ${LEAST_ME_ENGAGEMENT} % of the depth, common practice`;
  return { min: asMm(min), max: asMm(max), source, confirmed: false };
}

const basicMinor = (form: ThreadForm, major: number, pitch: number): number =>
  sureOf(threadGeometry(form, asMm(major), asMm(pitch))).minor;

function tapDrillOf(diameterMm: number, othersMm: readonly number[], source: string, confirmed: boolean): TapDrill {
  const diameter = asMm(diameterMm);
  return { diameter, name: drillName(diameter), source, confirmed, others: othersMm.map(asMm) };
}

/** Made when it is first asked for, then kept: a start that names no thread works none out, a metric one no inch table. */
function once<Value>(make: () => Value): () => Value {
  let made: Value | undefined;
  return () => {
    made ??= make();
    return made;
  };
}

/** The metric threads of the tables, coarse before fine, each by size. */
export const metricThreads = once((): readonly Thread[] => [...METRIC_COARSE, ...METRIC_FINE].map(fromMetricRow));

/** Every thread of the tables, metric first, each series by size. */
export const allThreads = once((): readonly Thread[] => [
  ...metricThreads(),
  ...UNC.map((row) => fromUnifiedRow(row, 'UNC')),
  ...UNF.map((row) => fromUnifiedRow(row, 'UNF')),
  ...BA.map(fromBaRow),
  ...BSW.map((row) => fromWhitworthRow(row, 'BSW')),
  ...BSF.map((row) => fromWhitworthRow(row, 'BSF')),
  ...ME.map((row) => fromWhitworthRow(row, 'ME')),
]);
