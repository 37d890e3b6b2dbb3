/**
 * The report as spreadsheets (RFC 4180, UTF-8): one row an operation, and separately one row a load (a piece, where pieces
 * are counted singly). Times are seconds with up to three decimals, hours decimal; nothing known is an empty cell. Text
 * that a spreadsheet would run as a formula is guarded (neutral-text.ts).
 */
import type { LoadRow, OperationRow, ReportModel } from '../model.ts';
import { type CsvCell, csvLine } from '../neutral-text.ts';

type Field<Row> = readonly [name: string, cell: (row: Row, model: ReportModel) => CsvCell];

/** Thousandths, so that a sum of binary fractions does not show its tail. */
const exact = (value: number | null | undefined): number | null =>
  value === null || value === undefined ? null : Math.round(value * 1000) / 1000 + 0;

const OPERATION_FIELDS: readonly Field<OperationRow>[] = [
  ['batch', (_, model) => model.batch],
  ['job', (_, model) => model.job],
  ['operation', (row) => row.operation],
  ['title', (row) => row.title],
  ['variant', (row) => row.variant],
  ['kind', (row) => row.kind],
  ['station', (row) => row.station],
  ['tools', (row) => row.tools.join('; ')],
  ['ordered', (row) => row.ordered],
  ['good', (row) => row.good],
  ['scrap', (row) => row.scrap],
  ['rework', (row) => row.rework],
  ['setup_s', (row) => exact(row.elapsed_s.setup)],
  ['run_s', (row) => exact(row.elapsed_s.run)],
  ['check_s', (row) => exact(row.elapsed_s.check)],
  ['delay_s', (row) => exact(row.elapsed_s.delay)],
  ['pause_s', (row) => exact(row.elapsed_s.pause)],
  ['away_s', (row) => exact(row.elapsed_s.away)],
  ['unknown_s', (row) => exact(row.elapsed_s.unknown)],
  ['timed_pieces', (row) => row.piece?.timed_pieces ?? 0],
  ['left_out_pieces', (row) => row.left_out.reduce((sum, out) => sum + out.pieces, 0)],
  ['left_out_reasons', (row) => row.left_out.map((out) => out.reason).join('; ')],
  ['median_s', (row) => exact(row.piece?.median_s)],
  ['p10_s', (row) => exact(row.piece?.p10_s)],
  ['p90_s', (row) => exact(row.piece?.p90_s)],
  ['mean_s', (row) => exact(row.piece?.mean_s)],
  ['deviation_s', (row) => exact(row.piece?.deviation_s)],
  ['first_five_s', (row) => exact(row.piece?.first_five_s)],
  ['last_five_s', (row) => exact(row.piece?.last_five_s)],
  ['trend', (row) => row.piece?.trend?.verdict ?? null],
  ['pieces_per_hour', (row) => exact(row.pieces_per_hour)],
  ['plan_setup_s', (row) => exact(row.plan.setup_s)],
  ['plan_piece_s', (row) => exact(row.plan.piece_s)],
  ['plan_total_s', (row) => exact(row.plan.total_s)],
  ['actual_s', (row) => exact(row.actual_s)],
  ['actual_h', (row) => exact(row.actual_s / 3600)],
  ['rating_pct', (row) => row.standard?.rating_pct ?? null],
  ['normal_s', (row) => exact(row.standard?.normal_s)],
  ['allowance_pct', (row) => row.standard?.allowance_pct ?? null],
  ['standard_s', (row) => exact(row.standard?.standard_s)],
];

const LOAD_FIELDS: readonly Field<LoadRow>[] = [
  ['batch', (_, model) => model.batch],
  ['operation', (row) => row.operation],
  ['variant', (row, model) => model.variants.find((one) => one.id === row.lane)?.title ?? null],
  ['first_piece', (row) => row.first_piece],
  ['pieces', (row) => row.pieces],
  ['good', (row) => row.good],
  ['scrap', (row) => row.scrap],
  ['load_s', (row) => exact(row.time_s)],
  ['piece_s', (row) => (row.time_s === null || row.pieces === 0 ? null : exact(row.time_s / row.pieces))],
  ['timed', (row) => (row.left_out === null && row.time_s !== null ? 'yes' : 'no')],
  ['left_out', (row) => row.left_out],
  ['quick', (row) => (row.quick ? 'yes' : 'no')],
  ['at', (row) => row.at],
  ['by', (row) => row.by],
];

/** One row an operation and lane, after a line of names. A batch without operations begun has them all, with zeros. */
export const formatReportCsv = (model: ReportModel): string => spreadsheet(OPERATION_FIELDS, model.operations, model);

/** One row a load (a piece, where they are counted singly), after a line of names. */
export const formatLoadsCsv = (model: ReportModel): string => spreadsheet(LOAD_FIELDS, model.loads, model);

function spreadsheet<Row>(fields: readonly Field<Row>[], rows: readonly Row[], model: ReportModel): string {
  const lines = rows.map((row) => csvLine(fields.map(([, cell]) => cell(row, model))));
  return csvLine(fields.map(([name]) => name)) + lines.join('');
}
