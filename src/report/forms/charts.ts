/** Charts as SVG inside a page: no script, no colour needed, every number also in a table beside it. */
import type { Chart } from '../document.ts';
import { greatestOf } from '../extremes.ts';
import { columnsOf, escapeHtml } from '../neutral-text.ts';
import { CHART_WIDTH, shortNumber, svgOf } from './svg.ts';
import { valueChart } from './value-chart.ts';

type Bars = Extract<Chart, { kind: 'bars' }>;

const TOP = 6;
/** Width of a letter at the larger size that a phone gets. */
const LETTER = 8.4;
const BAR = 14;
const ROW = 20;

/** A chart as one SVG element. */
export const chartSvg = (chart: Chart): string => (chart.kind === 'values' ? valueChart(chart) : barChart(chart));

/** Bars from one line, the longest filling the width; their numbers stand behind them. */
function barChart(chart: Bars): string {
  const letters = Math.min(
    26,
    greatestOf(
      chart.rows.map((row) => columnsOf(row.name)),
      0,
    ),
  );
  const start = Math.ceil(letters * LETTER) + 10;
  const room = CHART_WIDTH - start - 70;
  const most = greatestOf(
    chart.rows.flatMap((row) => row.bars.map((bar) => bar.value)),
    0,
  );
  const parts: string[] = [];
  let y = TOP;
  for (const row of chart.rows) {
    parts.push(`<text x="0" y="${y + 12}">${escapeHtml(shortened(row.name, letters))}</text>`);
    for (const bar of row.bars) {
      const width = Math.max(1, most > 0 ? (bar.value / most) * room : 0);
      parts.push(
        box(bar.hollow, start, y, width),
        `<text x="${shortNumber(start + width + 6)}" y="${y + 12}">${escapeHtml(bar.text)}</text>`,
      );
      y += ROW;
    }
    y += row.bars.length > 1 ? 8 : 0;
  }
  chart.legend.forEach((entry, index) => {
    const x = start + index * 110;
    parts.push(box(entry.hollow, x, y, 26), `<text x="${x + 34}" y="${y + 12}">${escapeHtml(entry.text)}</text>`);
  });
  return svgOf(chart.title, y + (chart.legend.length > 0 ? ROW : 0) + 2, parts);
}

const box = (hollow: boolean, x: number, y: number, width: number): string =>
  `<rect class="${hollow ? 'hollow' : 'bar'}" x="${x}" y="${y + 1}" width="${shortNumber(width)}" height="${BAR}"/>`;

/** A name for the margin of a chart; whole names stand in the tables. */
const shortened = (text: string, most: number): string =>
  [...text].length > most ? `${[...text].slice(0, most - 2).join('')}..` : text;
