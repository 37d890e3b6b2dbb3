import { describeReport } from '../describe.ts';
import type { Block, Chart, PaperDocument } from '../document.ts';
import { greatestOf } from '../extremes.ts';
import type { ReportModel } from '../model.ts';
import { columnsOf, plainLine } from '../neutral-text.ts';
import { tallyRows } from './tally.ts';
import { textTable, wrapText } from './text-table.ts';

/**
 * The report for a terminal: lines of at most `columns` (default 80, at least 40) ended by `\n`, plain signs of its own,
 * no escape sequences; controls in names become `?`. Bars are drawn with `#`; run charts are left to the page.
 */
export function formatReportText(model: ReportModel, options: { readonly columns?: number } = {}): string {
  return formatDocumentText(describeReport(model), options);
}

/** Any document for a terminal; see `formatReportText`. */
export function formatDocumentText(paper: PaperDocument, options: { readonly columns?: number } = {}): string {
  const columns = Math.max(40, options.columns ?? 80);
  const title = wrapText(plainLine(paper.title), columns);
  const head = [...title, ...wrapText(plainLine(paper.subtitle), columns), '='.repeat(columns)];
  // Joined block by block: the lines of a long report, each a string of its own, take far more memory than their text.
  const body = paper.blocks.flatMap((block) => {
    const lines = blockLines(block, columns);
    return lines.length === 0 ? [] : [lines.join('\n')];
  });
  return `${[...head, ...body].join('\n').replace(/\n{3,}/g, '\n\n')}\n`;
}

function blockLines(block: Block, columns: number): string[] {
  switch (block.kind) {
    case 'heading':
      return ['', ...wrapText(plainLine(block.text).toUpperCase(), columns), ''];
    case 'subheading':
      return ['', ...wrapText(plainLine(block.text), columns)];
    case 'sentence':
      return wrapText(plainLine(block.text), columns);
    case 'caution':
      return hanging('! ', plainLine(block.text), columns);
    case 'list':
      return block.items.map((item) => hanging(block.boxes ? '[ ] ' : '- ', plainLine(item), columns).join('\n'));
    case 'facts':
      return ['', ...factLines(block.rows, columns), ''];
    case 'table':
      return ['', ...textTable(block.columns, block.rows, columns), ''];
    case 'chart':
      return chartLines(block.chart, columns);
    case 'tally':
      return [...wrapText(plainLine(block.name), columns), ...tallyRows(block.count).map((row) => `  ${row}`), ''];
    case 'drawing':
    case 'new page':
      return [''];
  }
}

function hanging(mark: string, text: string, columns: number): string[] {
  return wrapText(text, columns - mark.length).map((line, index) =>
    index === 0 ? mark + line : ' '.repeat(mark.length) + line,
  );
}

function factLines(rows: readonly (readonly [string, string])[], columns: number): string[] {
  const width = Math.min(
    24,
    greatestOf(
      rows.map(([name]) => columnsOf(plainLine(name))),
      0,
    ) + 2,
  );
  return rows.flatMap(([name, value]) => hanging(`${plainLine(name)}:`.padEnd(width + 1), plainLine(value), columns));
}

function chartLines(chart: Chart, columns: number): string[] {
  if (chart.kind === 'values' || chart.legend.length > 0) return [];
  const bars = chart.rows.flatMap((row) => row.bars.map((bar) => ({ name: plainLine(row.name), bar })));
  const most = greatestOf(
    bars.map(({ bar }) => bar.value),
    0,
  );
  const names = Math.min(
    24,
    greatestOf(
      bars.map(({ name }) => columnsOf(name)),
      0,
    ),
  );
  const room = columns - names - 3;
  const lines = bars.map(({ name, bar }) => {
    const size = most > 0 ? Math.max(bar.value > 0 ? 1 : 0, Math.round((bar.value / most) * room)) : 0;
    return `${name.padEnd(names)} |${'#'.repeat(size)}`;
  });
  return [...lines, ''];
}
