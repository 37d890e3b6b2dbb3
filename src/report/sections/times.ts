/** Where the time went: accounts, time a piece, plan against actual, and standard time. */
import { type Account, accountNames } from '../../batch/state.ts';
import { type Block, left, right, section, sentence, tableOf } from '../document.ts';
import type { OperationRow, ReportModel } from '../model.ts';
import { counted, percentChange, rowName } from '../row-names.ts';
import { formatClockTime, formatDecimalHours, formatSpan, wholeSecondParts } from '../time-text.ts';

const ACCOUNT_WORDS: Readonly<Record<Account, string>> = {
  setup: 'Set-up',
  run: 'Run',
  check: 'Check',
  delay: 'Delay',
  pause: 'Pause',
  away: 'Away',
  unknown: 'Not known (power cut)',
};

/** Every second in one account, shown so that the column adds up. */
export function accountsSection(model: ReportModel): Block[] {
  const whole = wholeSecondParts(accountNames.map((name) => model.elapsed_s[name]));
  const rows = accountNames.map((name, index) => ({
    name: ACCOUNT_WORDS[name],
    value: model.elapsed_s[name],
    text: formatClockTime(whole[index] ?? 0),
  }));
  const shown = rows.filter((row) => row.value > 0);
  const attended = shown.filter((row) => row.name !== ACCOUNT_WORDS.away);
  const total = shownTotal(whole);
  const cells = shown.map((row) => [
    row.name,
    row.text,
    formatDecimalHours(row.value),
    share(row.value, model.total_s),
  ]);
  const sum = ['In all', formatClockTime(total), formatDecimalHours(model.total_s), model.total_s > 0 ? '100 %' : '-'];
  return section('Where the time went', [
    ...tableOf([left('Account'), right('h:mm:ss'), right('Hours'), right('Share')], [...cells, sum]),
    ...(attended.length === 0
      ? []
      : [
          {
            kind: 'chart' as const,
            chart: {
              kind: 'bars' as const,
              title: 'Where the time went, away left out',
              rows: attended.map((row) => ({
                name: row.name,
                bars: [{ value: row.value, text: row.text, hollow: false }],
              })),
              legend: [],
            },
          },
        ]),
  ]);
}

const shownTotal = (whole: readonly number[]): number => whole.reduce((sum, part) => sum + part, 0);
const share = (part: number, whole: number): string => (whole > 0 ? `${((part / whole) * 100).toFixed(1)} %` : '-');

/** Median, band, learning and what was left out, an operation a row. */
export function pieceTimesSection(model: ReportModel): Block[] {
  const timed = model.operations.filter((row) => row.piece !== null || row.left_out.length > 0);
  return section('Time a piece', [
    ...tableOf(
      [
        left('Operation'),
        right('Median'),
        right('P10'),
        right('P90'),
        right('First 5'),
        right('Last 5'),
        right('Timed'),
        left('Trend'),
      ],
      timed.map(pieceTimeCells),
    ),
    ...leftOutSentences(timed),
    ...timed.flatMap((row) => pieceTimesChart(model, row)),
  ]);
}

function pieceTimeCells(row: OperationRow): string[] {
  const piece = row.piece;
  const span = (value: number | null | undefined) =>
    value === null || value === undefined ? '-' : formatClockTenths(value);
  return [
    rowName(row),
    span(piece?.median_s),
    span(piece?.p10_s),
    span(piece?.p90_s),
    span(piece?.first_five_s),
    span(piece?.last_five_s),
    String(piece?.timed_pieces ?? 0),
    piece?.trend === null || piece?.trend === undefined ? 'too few' : piece.trend.verdict,
  ];
}

/** Seconds with a tenth below a minute, else minutes and seconds: `42.3 s`, `2:10`. */
const formatClockTenths = (seconds: number): string =>
  Math.round(seconds * 10) < 600 ? formatSpan(seconds) : formatClockTime(seconds).replace(/^0:0?/, '');

function leftOutSentences(rows: readonly OperationRow[]): Block[] {
  const items = rows.flatMap((row) =>
    row.left_out.map(
      (out) =>
        `${rowName(row)}: ${counted(out.pieces, 'piece')} in ${counted(out.loads, 'load')} left out of the timing (${out.reason}), ${formatClockTime(out.total_s)} in all`,
    ),
  );
  return items.length === 0 ? [] : [{ kind: 'list', items, boxes: false }];
}

function pieceTimesChart(model: ReportModel, row: OperationRow): Block[] {
  const loads = model.loads.filter(
    (load) => load.operation === row.operation && load.lane === row.lane && load.time_s !== null && load.pieces > 0,
  );
  const piece = row.piece;
  if (piece === null || loads.length < 2) return [];
  const values = loads.map((load) => ({ load, each: (load.time_s ?? 0) / load.pieces }));
  return [
    {
      kind: 'chart',
      chart: {
        kind: 'values',
        title: `Time a piece, ${rowName(row)}`,
        values: values.map(({ load, each }) => ({
          label: `piece ${load.first_piece}`,
          value: each,
          text: formatClockTenths(each),
          marked: load.left_out !== null,
        })),
        lines: [{ value: piece.median_s, text: `median ${formatClockTenths(piece.median_s)}`, strong: true }],
        band: {
          low: piece.p10_s,
          high: piece.p90_s,
          lowText: `P10 ${formatClockTenths(piece.p10_s)}`,
          highText: `P90 ${formatClockTenths(piece.p90_s)}`,
        },
        markMeans: 'hollow: left out of the timing',
      },
    },
  ];
}

/** What the plan gave for the pieces made, and what it took. */
export function planSection(model: ReportModel): Block[] {
  const begun = model.operations.filter((row) => row.begun);
  const rows = begun.map((row) => [
    rowName(row),
    formatClockTime(row.plan.setup_s),
    formatClockTime(row.elapsed_s.setup),
    formatClockTenths(row.plan.piece_s),
    row.piece === null ? '-' : formatClockTenths(row.piece.median_s),
    formatClockTime(row.plan.total_s),
    formatClockTime(row.actual_s),
    percentChange(row.actual_s, row.plan.total_s),
  ]);
  const columns = ['Set-up plan', 'Set-up', 'Piece plan', 'Median', 'In all plan', 'In all', 'Over'];
  return section('Plan against actual', [
    ...tableOf([left('Operation'), ...columns.map(right)], rows),
    ...(begun.length === 0 ? [] : [planChart(begun)]),
  ]);
}

const planChart = (rows: readonly OperationRow[]): Block => ({
  kind: 'chart',
  chart: {
    kind: 'bars',
    title: 'Plan against actual, set-up and run',
    rows: rows.map((row) => ({
      name: rowName(row),
      bars: [
        { value: row.plan.total_s, text: formatClockTime(row.plan.total_s), hollow: true },
        { value: row.actual_s, text: formatClockTime(row.actual_s), hollow: false },
      ],
    })),
    legend: [
      { text: 'plan', hollow: true },
      { text: 'actual', hollow: false },
    ],
  },
});

/** Observed, normal and standard time with their rating and allowance named. */
export function standardSection(model: ReportModel): Block[] {
  const rated = model.operations.flatMap((row) => (row.standard === null ? [] : [{ row, standard: row.standard }]));
  const first = rated[0]?.standard;
  if (first === undefined) return [];
  const sum =
    first.allowance_of === 'job time'
      ? `standard = normal x (1 + ${first.allowance_pct} %), the allowance being a share of the job time`
      : `standard = normal / (1 - ${first.allowance_pct} %), the allowance being a share of the working day`;
  return section('Standard time', [
    sentence(`Observed is the mean of the timed pieces; normal = observed x rating ${first.rating_pct} %; ${sum}.`),
    ...tableOf(
      [left('Operation'), right('Observed'), right('Normal'), right('Standard'), right('Standard an hour')],
      rated.map(({ row, standard }) => [
        rowName(row),
        formatClockTenths(standard.observed_s),
        formatClockTenths(standard.normal_s),
        formatClockTenths(standard.standard_s),
        standard.standard_s > 0 ? (3600 / standard.standard_s).toFixed(1) : '-',
      ]),
    ),
  ]);
}
