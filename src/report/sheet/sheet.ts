/**
 * The plan on paper, for the wall and for the day when the screen is dead: one block a setup with drawing, zero, stop and
 * parallels, points with readout values and dial turns, depths, speeds, tools with their preparation, checks with blank
 * boxes, the usual cautions with the line that defers, and boxes to cross off. It computes nothing: the numbers are those of
 * the resolved plan, rounded once at the readout or dial.
 */
import { DEFERRING_LINE } from '../../plan/cautions.ts';
import type { ResolvedOperation, ResolvedPlan } from '../../plan/resolved.ts';
import { formatLength, formatTrimmed } from '../../shop/units.ts';
import { type Block, left, type PaperDocument, right, sentence, tableOf } from '../document.ts';
import { formatDocumentMarkdown } from '../forms/markdown.ts';
import { formatDocumentHtml } from '../forms/page.ts';
import { formatSpan } from '../time-text.ts';
import { operationBlocks, variantText } from './operation-blocks.ts';
import { setupBlocks } from './setup-blocks.ts';

export interface SheetOptions {
  /** SVG of each setup by its id, made by src/plan/drawing-svg.ts; a setup without one has no drawing. */
  readonly drawings: Readonly<Record<string, string>>;
  /** What a check of the plan says against cutting it, one line each; they stand at the top. */
  readonly stops?: readonly string[];
}

/** The sheet as one page that prints on A4 and Letter: a new page for each setup, no network, no script. */
export const formatSheetHtml = (plan: ResolvedPlan, options: SheetOptions): string =>
  formatDocumentHtml(describeSheet(plan, options));

/** The sheet as Markdown; drawings are named only. */
export const formatSheetMarkdown = (plan: ResolvedPlan, options: SheetOptions): string =>
  formatDocumentMarkdown(describeSheet(plan, options));

/** The sheet as a document: every operation once, under its setup or at the place where it is done without one. */
function describeSheet(plan: ResolvedPlan, options: SheetOptions): PaperDocument {
  const drawing = [plan.drawing, plan.revision === null ? null : `revision ${plan.revision}`].filter(
    (one) => one !== null,
  );
  return {
    title: `${plan.job}: the sheet`,
    subtitle: [...drawing, plan.material, `plan ${plan.id}`].join(', '),
    blocks: [
      ...(options.stops ?? []).map((text): Block => ({ kind: 'caution', text })),
      { kind: 'caution', text: DEFERRING_LINE },
      ...partBlocks(plan),
      ...orderOfWork(plan),
      ...stretchesOf(plan).flatMap((stretch) => stretchBlocks(plan, stretch, options)),
      ...tallyBlocks(plan),
    ],
  };
}

function partBlocks(plan: ResolvedPlan): Block[] {
  const { part, stock } = plan;
  const size = (mm: Parameters<typeof formatLength>[0]) => formatLength(mm, plan.units);
  return [
    {
      kind: 'facts',
      rows: [
        ['Part', `${size(part.length)} x ${size(part.width)} x ${size(part.thickness)}`],
        ...(plan.tolerance === null ? [] : [['General tolerance', plan.tolerance] as const]),
        ...(stock === null
          ? []
          : [['Stock', `${stock.section}, blank ${size(stock.blank)}, kerf ${size(stock.kerf)}`] as const]),
        ['Start', `${startCount(plan)} pieces, ${plan.spares} of them spare`],
      ],
    },
    ...tableOf(
      [left('Variant'), right('Ordered'), left('Marking')],
      plan.variants.map((one) => [one.title, String(one.quantity), one.marking ?? '-']),
    ),
  ];
}

const startCount = (plan: ResolvedPlan): number =>
  plan.spares + plan.variants.reduce((sum, variant) => sum + variant.quantity, 0);

function orderOfWork(plan: ResolvedPlan): Block[] {
  const rows = plan.operations.map((operation) => [
    String(operation.number),
    `${operation.title}${variantText(plan, operation)}`,
    operation.setup === null ? operation.station : `${operation.station}, setup ${operation.setup}`,
    operation.cuts.map((cut) => plan.tools.find((tool) => tool.id === cut.tool)?.name ?? '-').join(' + ') || '-',
    operation.cuts.map((cut) => (cut.speed.set === null ? '-' : formatTrimmed(cut.speed.set, 0))).join(' + ') || '-',
    formatSpan(operation.estimate.piece),
  ]);
  return [
    { kind: 'heading', text: 'Order of work' },
    sentence('Speeds are starting values: go by the tool maker, the machine and the sound of the cut.'),
    ...tableOf([right('Op'), left('What'), left('Where'), left('Tool'), right('rpm'), right('A piece')], rows),
  ];
}

/** Operations that follow each other in one setup, or one after another without a setup. */
interface Stretch {
  readonly setup: string | null;
  readonly operations: readonly ResolvedOperation[];
}

function stretchesOf(plan: ResolvedPlan): Stretch[] {
  const stretches: Stretch[] = [];
  for (const operation of plan.operations) {
    const newest = stretches.at(-1);
    if (newest !== undefined && newest.setup === operation.setup) {
      stretches[stretches.length - 1] = { ...newest, operations: [...newest.operations, operation] };
    } else stretches.push({ setup: operation.setup, operations: [operation] });
  }
  return stretches;
}

function stretchBlocks(plan: ResolvedPlan, stretch: Stretch, options: SheetOptions): Block[] {
  const setup = plan.setups.find((one) => one.id === stretch.setup);
  const numbers = stretch.operations.map((one) => one.number).join(', ');
  const opening: Block[] =
    setup === undefined
      ? [{ kind: 'heading', text: `Without a setup: ${numbers}` }]
      : setupBlocks(plan, setup, options.drawings[setup.id] ?? null);
  return [...opening, ...stretch.operations.flatMap((one) => operationBlocks(plan, one))];
}

function tallyBlocks(plan: ResolvedPlan): Block[] {
  const count = (operation: ResolvedOperation) =>
    operation.variants.length === plan.variants.length
      ? startCount(plan)
      : plan.variants.reduce((sum, one) => sum + (operation.variants.includes(one.id) ? one.quantity : 0), 0);
  return [
    { kind: 'new page' },
    { kind: 'heading', text: 'Tally, when the screen is dead' },
    sentence('Cross off one box for each good piece; write scrap beside it with its reason.'),
    ...plan.operations.map(
      (one): Block => ({
        kind: 'tally',
        name: `${one.number} ${one.title}${variantText(plan, one)}`,
        count: count(one),
      }),
    ),
  ];
}
