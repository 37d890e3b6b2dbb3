import { describeReport } from '../describe.ts';
import type { Block, Column, PaperDocument } from '../document.ts';
import type { ReportModel } from '../model.ts';
import { escapeHtml } from '../neutral-text.ts';
import { chartSvg } from './charts.ts';
import { PAGE_STYLE } from './page-style.ts';
import { tallySvg } from './tally.ts';

/**
 * The report as one page that needs nothing else: no network, no script (its own policy forbids both), charts inside it.
 * Every name is escaped. It is well-formed XML too, so that a strict reader takes it.
 */
export const formatReportHtml = (model: ReportModel): string => formatDocumentHtml(describeReport(model));

/** Any document as a page; see `formatReportHtml`. Drawings go in as they are: only our own code makes them. */
export function formatDocumentHtml(paper: PaperDocument): string {
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8"/>
<meta name="viewport" content="width=device-width, initial-scale=1"/>
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'"/>
<title>${escapeHtml(paper.title)}</title>
<style>${PAGE_STYLE}</style>
</head>
<body>
<h1>${escapeHtml(paper.title)}</h1>
<p class="subtitle">${escapeHtml(paper.subtitle)}</p>
${paper.blocks.map(blockHtml).join('\n')}
</body>
</html>
`;
}

function blockHtml(block: Block): string {
  switch (block.kind) {
    case 'heading':
      return `<h2>${escapeHtml(block.text)}</h2>`;
    case 'subheading':
      return `<h3>${escapeHtml(block.text)}</h3>`;
    case 'sentence':
      return `<p>${escapeHtml(block.text)}</p>`;
    case 'caution':
      return `<p class="caution">${escapeHtml(block.text)}</p>`;
    case 'list':
      return `<ul${block.boxes ? ' class="boxes"' : ''}>${block.items.map((item) => `<li>${escapeHtml(item)}</li>`).join('')}</ul>`;
    case 'facts':
      return `<dl>${block.rows.map(([name, value]) => `<dt>${escapeHtml(name)}</dt><dd>${escapeHtml(value)}</dd>`).join('')}</dl>`;
    case 'table':
      return table(block.columns, block.rows);
    case 'chart':
      return `<figure><figcaption>${escapeHtml(block.chart.title)}</figcaption>${chartSvg(block.chart)}</figure>`;
    case 'drawing':
      return `<figure><figcaption>${escapeHtml(block.label)}</figcaption>${block.svg}</figure>`;
    case 'tally':
      return `<figure><figcaption>${escapeHtml(block.name)}</figcaption>${tallySvg(block.count)}</figure>`;
    case 'new page':
      return '<div class="page"></div>';
  }
}

/** A table; a wide one folds into blocks of `name: value` on a phone, so its cells carry their heads. */
function table(columns: readonly Column[], rows: readonly (readonly string[])[]): string {
  const look = (column: Column) => (column.align === 'right' ? ' class="right"' : '');
  const head = columns.map((column) => `<th${look(column)}>${escapeHtml(column.title)}</th>`).join('');
  const cell = (text: string, column: Column) =>
    `<td${look(column)} data-head="${escapeHtml(column.title)}">${escapeHtml(text)}</td>`;
  const body = rows
    .map((row) => `<tr>${columns.map((column, index) => cell(row[index] ?? '', column)).join('')}</tr>`)
    .join('\n');
  const folds = columns.length > FOLDS_ABOVE ? ' class="folds"' : '';
  return `<div class="wide"><table${folds}><thead><tr>${head}</tr></thead><tbody>\n${body}\n</tbody></table></div>`;
}

const FOLDS_ABOVE = 4;
