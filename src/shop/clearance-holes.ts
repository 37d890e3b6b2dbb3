/**
 * Holes that a screw passes through. Metric: ISO 273 by nominal diameter. Inch: ASME B18.2.8 by size. BA, Whitworth and
 * model-engineer: one size of the trade tables (common practice).
 */
import { parseDiameter } from './parse-length.ts';
import { asMm, type Mm } from './quantities.ts';
import { type Result, refuse, sureOf } from './refusal.ts';
import { BA, BSF, BSW, ME } from './tables/british-threads.ts';
import { CLEARANCE_ISO_273_MM } from './tables/metric-threads.ts';
import { CLEARANCE_B18_2_8 } from './tables/unified-threads.ts';
import type { Thread } from './threads.ts';
import { formatTrimmed, mmToInches } from './units.ts';

/** How freely: fine, medium, coarse of ISO 273; close, normal, loose of ASME B18.2.8; trade tables know close only. */
export type ClearanceFit = 'fine' | 'medium' | 'coarse' | 'close' | 'normal' | 'loose';

export interface ClearanceHole {
  readonly fit: ClearanceFit;
  readonly diameter: Mm;
  /** The drill as it is called: `13.5 mm`, `no. 9`, `17/64 in`. */
  readonly name: string;
}

export interface ClearanceHoles {
  readonly holes: readonly [ClearanceHole, ...ClearanceHole[]];
  readonly source: string;
  readonly confirmed: boolean;
}

/** Sizes whose B18.2.8 row is from memory. */
const FROM_MEMORY = ['5/8', '3/4'];

/**
 * Clearance holes of a thread, tightest first.
 *
 * @returns the holes of its standard; a refusal for a size that the standard leaves out (no. 12, M9)
 *
 * Sources: ISO 273, ASME B18.2.8. Example: M12 is 13, 13.5, 14.5 mm; no. 8-32 UNC is no. 15, no. 9, no. 3.
 */
export function clearanceHoles(thread: Thread): Result<ClearanceHoles> {
  switch (thread.series) {
    case 'metric coarse':
    case 'metric fine':
      return metricHoles(thread);
    case 'UNC':
    case 'UNF':
      return unifiedHoles(thread);
    case 'BA':
      return tradeHole(thread, BA.find((row) => `${row.number} BA` === thread.size)?.clearanceMm);
    case 'BSW':
      return tradeHole(thread, whitworthClearance(BSW, thread));
    case 'BSF':
      return tradeHole(thread, whitworthClearance(BSF, thread));
    case 'ME':
      return tradeHole(thread, whitworthClearance(ME, thread));
  }
}

/**
 * The clearance hole of one fit; without a fit the middle one (medium, normal), or the only one there is.
 *
 * Example: M8 `coarse` is 10 mm; M6 without a fit is 6.6 mm.
 */
export function clearanceHole(thread: Thread, fit?: ClearanceFit): Result<ClearanceHole> {
  const found = clearanceHoles(thread);
  if (!found.ok) return found;
  const { holes } = found.value;
  const hole = fit === undefined ? (holes[1] ?? holes[0]) : holes.find((one) => one.fit === fit);
  if (hole !== undefined) return { ok: true, value: hole };
  return refuse({
    what: `clearance hole for ${thread.name}`,
    found: `fit ${fit}`,
    allowed: holes.map((one) => one.fit).join(', '),
    remedy: `choose one of the fits of ${found.value.source}`,
  });
}

function metricHoles(thread: Thread): Result<ClearanceHoles> {
  const row = CLEARANCE_ISO_273_MM[String(thread.major)];
  if (row === undefined) return noHole(thread, 'ISO 273 as far as this program holds it: M1.6 to M24');
  const hole = (fit: ClearanceFit, mm: number): ClearanceHole => ({
    fit,
    diameter: asMm(mm),
    name: `${formatTrimmed(mm, 2)} mm`,
  });
  const holes = [hole('fine', row[0]), hole('medium', row[1]), hole('coarse', row[2])] as const;
  return { ok: true, value: { holes, source: 'ISO 273', confirmed: true } };
}

function unifiedHoles(thread: Thread): Result<ClearanceHoles> {
  const row = CLEARANCE_B18_2_8[thread.size];
  if (row === undefined) return noHole(thread, 'ASME B18.2.8, which leaves this size out');
  const hole = (fit: ClearanceFit, name: string): ClearanceHole => ({
    fit,
    diameter: sureOf(parseDiameter(name, undefined)),
    name,
  });
  const holes = [hole('close', row[0]), hole('normal', row[1]), hole('loose', row[2])] as const;
  return { ok: true, value: { holes, source: 'ASME B18.2.8', confirmed: !FROM_MEMORY.includes(thread.size) } };
}

function whitworthClearance(rows: typeof BSW, thread: Thread): number | undefined {
  return rows.find((row) => row.size === thread.size && row.clearanceMm !== undefined)?.clearanceMm;
}

function tradeHole(thread: Thread, mm: number | undefined): Result<ClearanceHoles> {
  if (mm === undefined) return noHole(thread, 'trade tables, which have no row for it here');
  const hole: ClearanceHole = { fit: 'close', diameter: asMm(mm), name: `${formatTrimmed(mm, 2)} mm` };
  return { ok: true, value: { holes: [hole], source: 'trade table, common practice', confirmed: false } };
}

function noHole(thread: Thread, allowed: string) {
  const major = `${formatTrimmed(thread.major, 3)} mm, ${formatTrimmed(mmToInches(thread.major), 4)} in`;
  return refuse({
    what: 'clearance hole for',
    found: thread.name,
    allowed,
    remedy: `choose a hole above the major diameter (${major})`,
  });
}
