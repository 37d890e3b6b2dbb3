/**
 * What a drill must leave for a reamer. Too little and the reamer rubs, too much and it chokes.
 */
import { asMm, type Mm } from './quantities.ts';
import { HOLE_DIAMETER, TOOL_DIAMETER } from './ranges.ts';
import { type Range, type Result, refuseOutside, sureRow, whenSound } from './refusal.ts';
import { inchesToMm } from './units.ts';

export interface ReamingStock {
  /** Least and most to leave on the diameter. */
  readonly least: Mm;
  readonly most: Mm;
  readonly source: string;
}

/** A table row: up to and including this reamer, leave so much on the diameter. */
type StockRow = readonly [upTo: number, least: number, most: number];

/**
 * Metric rows, mm. Source: a published trainees' course on manual reaming (undersize for steel; light metals half as much
 * again), where the drill is reckoned to cut 0.05 mm over.
 */
const METRIC_STOCK_MM: readonly StockRow[] = [
  [5, 0.1, 0.2],
  [20, 0.2, 0.3],
  [50, 0.3, 0.5],
];

/** Inch rows. Source: common practice, a table of reaming stock. */
const INCH_STOCK_IN: readonly StockRow[] = [
  [0.17, 0.005, 0.01],
  [0.28, 0.008, 0.012],
  [0.88, 0.01, 0.016],
  [2.5, 0.015, 0.03],
];

/** What a drill is reckoned to cut over its own diameter before a reamer, in mm. Source: the same course. */
const DRILL_CUTS_OVER_MM = 0.05;

/**
 * Stock to leave for a reamer, metric practice: undersize of the drilled hole.
 *
 * @param reamer above 0, at most 50 mm
 *
 * Example: 10 mm wants 0.2 to 0.3 mm on the diameter.
 */
export const metricReamingStock = (reamer: Mm): Result<ReamingStock> =>
  stockFrom(reamer, METRIC_STOCK_MM, asMm, 'trainees course on manual reaming, steel');

/**
 * Stock to leave for a reamer, inch practice: reamer less drill.
 *
 * @param reamer above 0, at most 2.5 in (63.5 mm)
 *
 * Example: 3/8 in wants .010 to .016 in; a 23/64 in drill leaves .0156.
 */
export const inchReamingStock = (reamer: Mm): Result<ReamingStock> =>
  stockFrom(reamer, INCH_STOCK_IN, inchesToMm, 'common practice, inch reaming table');

function stockFrom(
  reamer: Mm,
  rows: readonly StockRow[],
  toMm: (value: number) => Mm,
  source: string,
): Result<ReamingStock> {
  const upTo = toMm(sureRow(rows.at(-1))[0]);
  const range: Range = { ...TOOL_DIAMETER, what: 'reamer', upTo };
  const row = rows.find(([end]) => reamer <= toMm(end) + 1e-9);
  return whenSound([refuseOutside(reamer, range)], () => {
    const [, least, most] = sureRow(row);
    return { least: toMm(least), most: toMm(most), source };
  });
}

/**
 * Largest and smallest drill for a reamer by metric practice: reamer - (undersize + 0.05 mm that the drill cuts over).
 *
 * Example: 10 mm reamer: 9.65 to 9.75 mm.
 */
export function reamingDrill(reamer: Mm): Result<{ readonly smallest: Mm; readonly largest: Mm }> {
  const stock = metricReamingStock(reamer);
  if (!stock.ok) return stock;
  const { least, most } = stock.value;
  return {
    ok: true,
    value: { smallest: asMm(reamer - most - DRILL_CUTS_OVER_MM), largest: asMm(reamer - least - DRILL_CUTS_OVER_MM) },
  };
}

export type ReamingVerdict =
  | { readonly kind: 'sound'; readonly stock: Mm }
  | { readonly kind: 'too little' | 'too much'; readonly stock: Mm; readonly wanted: ReamingStock };

/**
 * Judges the stock that a drill leaves: sound inside either practice's limits, metric or inch (with the drill's own 0.05 mm
 * taken into account for the metric one).
 *
 * @param drill above 0, below the reamer
 *
 * Example: 23/64 in for a 3/8 in reamer leaves .0156 in: sound. 9.0 mm for 10 mm leaves 1 mm: too much.
 */
export function judgeReamingStock(reamer: Mm, drill: Mm): Result<ReamingVerdict> {
  const [metric, inch] = [metricReamingStock(reamer), inchReamingStock(reamer)];
  if (!inch.ok) return inch;
  const known: readonly [ReamingStock, ...ReamingStock[]] = metric.ok ? [metric.value, inch.value] : [inch.value];
  const least = Math.min(...known.map((one) => one.least));
  const most = Math.max(...known.map((one) => one.most)) + DRILL_CUTS_OVER_MM;
  const range: Range = {
    ...HOLE_DIAMETER,
    what: 'drill',
    below: reamer,
    remedy: 'take a drill smaller than the reamer',
  };
  return whenSound([refuseOutside(drill, range)], (): ReamingVerdict => {
    const stock = asMm(reamer - drill);
    if (stock < least - 1e-9) return { kind: 'too little', stock, wanted: known[0] };
    if (stock > most + 1e-9) return { kind: 'too much', stock, wanted: known[0] };
    return { kind: 'sound', stock };
  });
}
