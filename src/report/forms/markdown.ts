import { describeReport } from '../describe.ts';
import type { Block, PaperDocument } from '../document.ts';
import type { ReportModel } from '../model.ts';
import { escapeMarkdown } from '../neutral-text.ts';
import { tallyRows } from './tally.ts';

/**
 * The report as Markdown (CommonMark with tables), one line break at its end. Names are escaped, so that a title with
 * stars, pipes or tags stays text. Charts are left to the page; their numbers are in the tables.
 */
export const formatReportMarkdown = (model: ReportModel): string => formatDocumentMarkdown(describeReport(model));

/** Any document as Markdown; see `formatReportMarkdown`. Drawings, being pictures, are named only. */
export function formatDocumentMarkdown(paper: PaperDocument): string {
  const blocks = paper.blocks.map(blockText).filter((text) => text !== '');
  return `${[`# ${escapeMarkdown(paper.title)}`, escapeMarkdown(paper.subtitle), ...blocks].join('\n\n')}\n`;
}

function blockText(block: Block): string {
  switch (block.kind) {
    case 'heading':
      return `## ${escapeMarkdown(block.text)}`;
    case 'subheading':
      return `### ${escapeMarkdown(block.text)}`;
    case 'sentence':
      return lineStart(escapeMarkdown(block.text));
    case 'caution':
      return `> ${escapeMarkdown(block.text)}`;
    case 'list':
      return block.items.map((item) => `- ${block.boxes ? '[ ] ' : ''}${escapeMarkdown(item)}`).join('\n');
    case 'facts':
      return block.rows.map(([name, value]) => `- **${escapeMarkdown(name)}:** ${escapeMarkdown(value)}`).join('\n');
    case 'table':
      return table(block);
    case 'tally':
      return `**${escapeMarkdown(block.name)}**\n\n${tallyRows(block.count)
        .map((row) => `    ${row}`)
        .join('\n')}`;
    case 'drawing':
      return `*${escapeMarkdown(block.label)}: the drawing is on the page form.*`;
    case 'chart':
    case 'new page':
      return '';
  }
}

/** A paragraph must not begin a list or a rule by chance: `1. plate`, `- 5`, `+ 3`, `---`. */
const lineStart = (text: string): string => text.replace(/^(\d+)([.)])/, '$1\\$2').replace(/^([-+=])/, '\\$1');

function table(block: Extract<Block, { kind: 'table' }>): string {
  const row = (cells: readonly string[]) => `| ${cells.map(escapeMarkdown).join(' | ')} |`;
  const rule = block.columns.map((column) => (column.align === 'right' ? '---:' : '---'));
  return [
    row(block.columns.map((column) => column.title)),
    `| ${rule.join(' | ')} |`,
    ...block.rows.map((cells) => row(block.columns.map((_, index) => cells[index] ?? ''))),
  ].join('\n');
}
