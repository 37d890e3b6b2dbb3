/** How many: the headline, the variants, the operations, and every piece lost with its reason. */
import { type Block, left, right, section, sentence, tableOf } from '../document.ts';
import type { ReportModel } from '../model.ts';
import { cellName, counted, rowName } from '../row-names.ts';
import { formatClockTime, formatDecimalHours, formatHours, readableInstant } from '../time-text.ts';

/** What a reader wants first: pieces, hours, and whether it is over. */
export function headline(model: ReportModel): Block[] {
  const lead = { running: 'So far', finished: 'Made', 'given up': 'Made before it was given up' }[model.state];
  const pieces = `${lead}: ${model.good} good of ${model.ordered} ordered, ${model.scrap} scrap, ${model.started} started`;
  const { setup, run, check, delay } = model.elapsed_s;
  const work = setup + run + check + delay;
  const end = model.closed === null ? 'now' : 'closing';
  const because = model.because === null ? [] : [sentence(`Reason given: ${model.because}.`)];
  return [
    sentence(`${pieces}.`),
    sentence(
      `Work ${hours(work)}: set-up ${hours(setup)}, run ${hours(run)}, check ${hours(check)}, delay ${hours(delay)}. From opening to ${end} ${hours(model.total_s)}.`,
    ),
    ...because,
    ...facts(model),
  ];
}

/** Hours for those outside: `1:02 (1.03 h)`. */
const hours = (seconds: number): string => `${formatHours(seconds)} (${formatDecimalHours(seconds)} h)`;

function facts(model: ReportModel): Block[] {
  const drawing = [model.drawing, model.revision === null ? null : `revision ${model.revision}`]
    .filter((part) => part !== null)
    .join(', ');
  return [
    {
      kind: 'facts',
      rows: [
        ['Batch', `${model.batch}, ${model.state}`],
        ...(drawing === '' ? [] : [['Drawing', drawing] as const]),
        ['Material', model.material],
        ['Opened', `${readableInstant(model.opened)} (${model.zone})`],
        model.closed === null
          ? ['Report made', readableInstant(model.at)]
          : [model.state === 'given up' ? 'Given up' : 'Finished', readableInstant(model.closed)],
      ],
    },
  ];
}

/** Pieces by variant and by operation, with set-up and run time and the pace. */
export function piecesSection(model: ReportModel): Block[] {
  const variants = model.variants.map((one) => [one.title, ...[one.ordered, one.good, one.short].map(String)]);
  const rows = model.operations.map((row) => [
    rowName(row),
    String(row.ordered),
    String(row.good),
    String(row.scrap),
    String(row.rework),
    formatClockTime(row.elapsed_s.setup),
    formatClockTime(row.elapsed_s.run),
    row.pieces_per_hour === null ? '-' : row.pieces_per_hour.toFixed(1),
  ]);
  return section('Pieces', [
    ...(model.variants.length > 1
      ? tableOf(
          [left('Variant'), right('Ordered'), right('Good'), right(model.state === 'running' ? 'Left' : 'Short')],
          variants,
        )
      : []),
    ...tableOf(
      [
        left('Operation'),
        right('Ordered'),
        right('Good'),
        right('Scrap'),
        right('Rework'),
        right('Set-up'),
        right('Run'),
        right('An hour'),
      ],
      rows,
    ),
  ]);
}

/** Scrap, rework and pieces lost away, each with its reason. */
export function lossesSection(model: ReportModel): Block[] {
  const rows = model.losses.map((loss) => [
    cellName(model, loss),
    `${counted(loss.pieces, 'piece')}: ${loss.what}`,
    loss.reason,
    readableInstant(loss.at),
  ]);
  return section('Scrap and rework', tableOf([left('Operation'), left('What'), left('Reason'), left('When')], rows));
}
