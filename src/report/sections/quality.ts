/** What was measured, what is under suspicion, and what was taken at the operator's word. */
import { asMm } from '../../shop/quantities.ts';
import { formatLength, type LengthUnit } from '../../shop/units.ts';
import { type Block, left, right, section, sentence, tableOf } from '../document.ts';
import type { CheckReport, ReportModel } from '../model.ts';
import { cellName } from '../row-names.ts';
import { readableInstant } from '../time-text.ts';

/** A decimal more than a readout shows, so that a mean keeps what the values bear. */
const decimalsOf = (units: LengthUnit): number => (units === 'mm' ? 3 : 4);
const length = (mm: number, units: LengthUnit): string => formatLength(asMm(mm), units, decimalsOf(units));

/** Every check: limits, results, what they mean, and a run chart of the measured ones. */
export function checksSection(model: ReportModel): Block[] {
  const rows = model.checks.map((check) => [
    cellName(model, check),
    check.title,
    check.limits === null
      ? 'yes or no'
      : `${length(check.limits.lower_mm, model.units)} to ${length(check.limits.upper_mm, model.units)}`,
    String(check.done),
    String(check.failed),
    String(check.skipped),
    check.mean_mm === null ? '-' : length(check.mean_mm, model.units),
  ]);
  return section('Checks', [
    ...tableOf(
      [left('Operation'), left('Check'), left('Limits'), ...['Done', 'Failed', 'Skipped', 'Mean'].map(right)],
      rows,
    ),
    ...model.checks.flatMap((check) => [sentence(`${check.title}: ${check.says}`), ...runChart(check, model.units)]),
  ]);
}

function runChart(check: CheckReport, units: LengthUnit): Block[] {
  const values = check.results.flatMap((result) =>
    result.value_mm === null ? [] : [{ ...result, value_mm: result.value_mm }],
  );
  if (check.limits === null || values.length < 2) return [];
  const { lower_mm, nominal_mm, upper_mm } = check.limits;
  return [
    {
      kind: 'chart',
      chart: {
        kind: 'values',
        title: `${check.title}, as measured`,
        values: values.map((result) => ({
          label: `piece ${result.piece}`,
          value: result.value_mm,
          text: length(result.value_mm, units),
          marked: result.passed === false,
        })),
        lines: [
          { value: upper_mm, text: `upper ${length(upper_mm, units)}`, strong: true },
          { value: nominal_mm, text: `nominal ${length(nominal_mm, units)}`, strong: false },
          { value: lower_mm, text: `lower ${length(lower_mm, units)}`, strong: true },
        ],
        band: null,
        markMeans: 'hollow: outside the limits',
      },
    },
  ];
}

/** Pieces made between a good and a failed check, and how each case was settled. */
export function suspectsSection(model: ReportModel): Block[] {
  const rows = model.suspects.map((one) => [
    cellName(model, one),
    one.from === one.to ? `piece ${one.from}` : `pieces ${one.from} to ${one.to}`,
    one.cleared ?? 'NOT CLEARED',
  ]);
  return section('Suspect pieces', tableOf([left('Operation'), left('Which'), left('How settled')], rows));
}

/** Corrections made at the machine, and findings overridden when the batch was opened. */
export function wordsSection(model: ReportModel): Block[] {
  const corrections = model.corrections.map((one) => [
    cellName(model, one),
    `${one.hole === undefined ? '' : `${one.hole} alone: `}${one.axis.toUpperCase()} ${one.by_mm < 0 ? '' : '+'}${length(one.by_mm, model.units)}${
      one.reading_mm === null ? '' : `, read ${length(one.reading_mm, model.units)}`
    }`,
    `${one.reason}${one.taken_back ? ' (taken back)' : ''}`,
    readableInstant(one.at),
  ]);
  const overrides = model.overrides.map((one) => [one.code, one.message, one.reason]);
  return [
    ...section(
      'Corrections at the machine',
      tableOf([left('Operation'), left('Correction'), left('Reason'), left('When')], corrections),
    ),
    ...section(
      'Findings taken at your word',
      tableOf([left('Finding'), left('What it said'), left('Reason given')], overrides),
    ),
  ];
}

/** What a reader must know to judge the numbers, and the notes made on the way. */
export function remarksSection(model: ReportModel): Block[] {
  const notes = model.notes.map((note) => `${cellName(model, note)}, ${readableInstant(note.at)}: ${note.text}`);
  return [
    ...section('Notes', notes.length === 0 ? [] : [{ kind: 'list', items: notes, boxes: false }]),
    ...section(
      'To judge the numbers',
      model.remarks.length === 0 ? [] : [{ kind: 'list', items: model.remarks, boxes: false }],
    ),
  ];
}
