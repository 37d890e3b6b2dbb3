/**
 * The whole plan language, format 1. Keys are the words of the workshop; every value may carry its own unit, bare lengths
 * are in the plan's units. `schemaPage` makes the reference page from this.
 */
import * as z from 'zod';
import type { LengthUnit } from '../../shop/units.ts';
import {
  count,
  cuttingSpeed,
  type Fields,
  form,
  listOf,
  makeFields,
  named,
  oneOf,
  oneOrMore,
  percent,
  section,
  words,
} from './fields.ts';
import { machineSection } from './machines.ts';
import { operationSection } from './operations.ts';
import { lineEntry, pointsEntry } from './places.ts';
import { setupSection } from './setups.ts';
import { toolSection } from './tools.ts';

/** Bounds of a plan: pieces started, operations, points; those that are named, and those that are cut in all. */
export const MAX_PIECES = 10_000;
const MAX_OPERATIONS = 99;
export const MAX_POINTS = 2000;

const hoursField = form('A span of working time.', '18:00-22:00', (text): [string, string] | undefined => {
  const match = /^([01]?\d|2[0-3]):([0-5]\d) ?- ?([01]?\d|2[0-4]):([0-5]\d)$/u.exec(text);
  if (match === null) return undefined;
  const from = `${(match[1] ?? '').padStart(2, '0')}:${match[2]}`;
  const to = `${(match[3] ?? '').padStart(2, '0')}:${match[4]}`;
  return from < to && to <= '24:00' ? [from, to] : undefined;
});

const rateField = form('What an hour costs.', '42 EUR', (text) => {
  const match = /^(\d{1,6}(?:\.\d{1,2})?) ?([A-Z]{3})$/u.exec(text);
  return match === null ? undefined : { amount: Number(match[1]), currency: match[2] ?? '' };
});

const idField = form('Name of the plan for good: small letters, digits and dashes.', 'keeper-plates', (text) =>
  /^[a-z0-9][a-z0-9-]{0,60}$/u.test(text) ? text : undefined,
);

const toleranceField = (f: Fields) =>
  z
    .union([
      words('Metric: an ISO 2768 class, such as "ISO 2768-m".').transform((text) => ({ kind: 'class' as const, text })),
      section('Inch: by the decimal places of the dimension, as the block of the drawing says.', {
        '1 decimal': f.allowance('One decimal place.').optional(),
        '2 decimals': f.allowance('Two decimal places.').optional(),
        '3 decimals': f.allowance('Three decimal places.').optional(),
        '4 decimals': f.allowance('Four decimal places.').optional(),
      }).transform((places) => ({ kind: 'decimals' as const, ...places })),
    ])
    .meta({ meaning: 'Tolerance of dimensions without their own.', unit: 'a class, or a map by decimal places' });
export type PlanTolerance = z.output<ReturnType<typeof toleranceField>>;

const stockSection = (f: Fields) =>
  section('What the blanks are sawn from.', {
    section: words('Section of the bar, such as "50 x 8 flat".'),
    bars: oneOrMore('Length of the bars that can be had.', f.size('A length.'), 20),
    'on hand': count('Bars that are there.', 0, 10_000, 'as many as needed').optional(),
    blank: f.size('Length of a blank.', 'the part and twice the facing allowance').optional(),
    facing: f.allowance('Allowance for facing, at each end.', '0').optional(),
    kerf: f.size('Width of the saw cut.'),
    'end trim': f.allowance('Cropped off a new bar.', '0').optional(),
    grip: f.allowance('Shortest end that the saw can hold.', '0').optional(),
  });

const allowancesSection = (f: Fields) =>
  section('Allowances for the whole plan.', {
    breakthrough: f
      .allowance('Past the point, the lead or the bevel when a tool goes through.', '1 mm or .040 in')
      .optional(),
    'below the tap': form(
      'Room below the tip of the tap in a blind hole.',
      '1 thread',
      (text) => {
        const match = /^(\d+(?:\.\d+)?) threads?$/u.exec(text);
        return match === null ? undefined : Number(match[1]);
      },
      '1 thread',
    ).optional(),
    'run out': f
      .allowance('Between the cutter and the part at an open end of a line cut.', '1 mm or .040 in')
      .optional(),
  });

const speedsSection = () =>
  section('Cutting speeds of this plan, instead of those of the table.', {
    drill: cuttingSpeed('Drilling.').optional(),
    spot: cuttingSpeed('Spotting.').optional(),
    mill: cuttingSpeed('Milling.').optional(),
    ream: cuttingSpeed('Reaming.').optional(),
    tap: cuttingSpeed('Tapping.').optional(),
    countersink: cuttingSpeed('Countersinking and chamfering.').optional(),
    counterbore: cuttingSpeed('Counterboring.').optional(),
  });

const variantSection = () =>
  section('One variant of the part.', {
    quantity: count('Good pieces ordered.', 1, MAX_PIECES),
    title: words('What it is called.', 'its key').optional(),
    marking: words('How a piece of it is told from the others.').optional(),
  });

const sparesField = () =>
  z
    .union([
      count('Pieces started above the order.', 0, MAX_PIECES).transform((pieces) => ({
        kind: 'pieces' as const,
        pieces,
      })),
      section('Worked out from the scrap that is expected.', {
        scrap: percent('Scrap expected.'),
        sure: percent('How sure you want to be that enough good pieces are left.', '90 %').optional(),
      }).transform((chance) => ({ kind: 'chance' as const, ...chance })),
    ])
    .meta({
      meaning: 'Pieces started above the order, pooled until the variants part.',
      unit: 'whole number, or { scrap: 2 %, sure: 90 % }',
      default: '0',
    });

/** The schema of a plan in the given units. */
export function planSchema(unit: LengthUnit) {
  const f = makeFields(unit);
  return section('A job plan.', {
    format: form('Version of the plan language.', '1', (text) => (text === '1' ? (1 as const) : undefined)),
    id: idField,
    job: words('What the job is called.'),
    drawing: words('Number of the drawing.').optional(),
    revision: words('Revision of the drawing.').optional(),
    units: oneOf('Units of bare lengths.', ['mm', 'inch']),
    material: words('What the part is made of; speeds and feeds are looked up by it.'),
    part: section('The part when it is finished.', {
      length: f.size('Along X.'),
      width: f.size('Along Y.'),
      thickness: f.size('Along Z.'),
      datum: oneOf(
        'The corner from which the drawing measures; from a rear corner the part lies at negative Y.',
        ['left front', 'left rear', 'right front', 'right rear'],
        'left front',
      ).optional(),
    }),
    tolerance: toleranceField(f).optional(),
    quantity: count(
      'Good pieces ordered in all; needed where there is one kind of part only.',
      1,
      MAX_PIECES,
    ).optional(),
    variants: named('Variants of the part.', variantSection(), 20).optional(),
    spares: sparesField().optional(),
    stock: stockSection(f).optional(),
    allowances: allowancesSection(f).optional(),
    'cutting speeds': speedsSection().optional(),
    machines: named('Machines; one that is not here is looked up in the settings.', machineSection(f), 20).optional(),
    setups: named('Setups.', setupSection(f), 50).optional(),
    tools: named('Tools.', toolSection(f), 200).optional(),
    points: named('Named points, as on the drawing.', pointsEntry(f), 500).optional(),
    lines: named('Line cuts, as on the drawing.', lineEntry(f), 200).optional(),
    operations: listOf('Operations in working order.', operationSection(f), MAX_OPERATIONS),
    hours: section('Shop hours; a day that is left out is a day off.', {
      mon: hoursSpan().optional(),
      tue: hoursSpan().optional(),
      wed: hoursSpan().optional(),
      thu: hoursSpan().optional(),
      fri: hoursSpan().optional(),
      sat: hoursSpan().optional(),
      sun: hoursSpan().optional(),
    }).optional(),
    rate: rateField.optional(),
  });
}

const hoursSpan = () => oneOrMore('Working time.', hoursField, 6);

export type Plan = z.output<ReturnType<typeof planSchema>>;
