/** Charts as SVG inside a page: no script, no colour needed, every number also in a table beside it. */
import type { Chart } from '../document.ts';
import { columnsOf, escapeHtml } from '../neutral-text.ts';

const WIDTH = 720;
const TOP = 14;

/** A chart as one SVG element, with its title for those who do not see it. */
export const chartSvg = (chart: Chart): string => (chart.kind === 'values' ? valuesSvg(chart) : barsSvg(chart));

type Values = Extract<Chart, { kind: 'values' }>;
type Bars = Extract<Chart, { kind: 'bars' }>;

/** Values in the order in which they came, with a band and lines; a marked value is drawn hollow and larger. */
function valuesSvg(chart: Values): string {
  const [plotHeight, gutter] = [190, 150];
  const right = WIDTH - gutter;
  const all = [
    ...chart.values.map((one) => one.value),
    ...chart.lines.map((line) => line.value),
    ...(chart.band === null ? [] : [chart.band.low, chart.band.high]),
  ];
  const [least, most] = [Math.min(...all), Math.max(...all)];
  const margin = (most - least || Math.abs(most) || 1) * 0.08;
  const yOf = (value: number) => TOP + ((most + margin - value) / (most - least + 2 * margin)) * plotHeight;
  const xOf = (index: number) => 12 + ((index + 0.5) / chart.values.length) * (right - 24);
  const places = chart.values.map((one, index) => ({ ...one, x: xOf(index), y: yOf(one.value) }));
  const labels = spacedLabels([
    ...chart.lines.map((line) => ({ y: yOf(line.value), text: line.text })),
    ...(chart.band === null ? [] : [{ y: yOf(chart.band.low) + 15, text: chart.band.text }]),
  ]);
  const radius = chart.values.length > 120 ? 2 : 4;
  const parts = [
    chart.band === null ? '' : bandRect(yOf(chart.band.high), yOf(chart.band.low), right),
    ...chart.lines.map((line) => lineAcross(yOf(line.value), right, line.strong ? 'strong' : 'faint')),
    `<polyline class="thread" points="${places.map(({ x, y }) => `${fixed(x)},${fixed(y)}`).join(' ')}"/>`,
    ...places.map(
      ({ x, y, marked, label, text }) =>
        `<circle class="${marked ? 'hollow' : 'dot'}" cx="${fixed(x)}" cy="${fixed(y)}" r="${marked ? radius + 1 : radius}"><title>${escapeHtml(`${label}: ${text}`)}</title></circle>`,
    ),
    ...labels.map((label) => `<text x="${right + 8}" y="${fixed(label.y + 4)}">${escapeHtml(label.text)}</text>`),
    ...axisTexts(chart, TOP + plotHeight + 18, right),
  ];
  return svg(chart.title, TOP + plotHeight + 26, parts);
}

const bandRect = (top: number, bottom: number, right: number): string =>
  `<rect class="band" x="0" y="${fixed(top)}" width="${right}" height="${fixed(Math.max(1, bottom - top))}"/>`;

const lineAcross = (y: number, right: number, look: string): string =>
  `<line class="${look}" x1="0" x2="${right}" y1="${fixed(y)}" y2="${fixed(y)}"/>`;

function axisTexts(chart: Values, y: number, right: number): string[] {
  const [first, last] = [chart.values[0], chart.values.at(-1)];
  const hasMarks = chart.values.some((one) => one.marked);
  return [
    first === undefined ? '' : `<text x="0" y="${y}">${escapeHtml(first.label)}</text>`,
    last === undefined ? '' : `<text x="${right}" y="${y}" text-anchor="end">${escapeHtml(last.label)}</text>`,
    hasMarks ? `<text x="${right / 2}" y="${y}" text-anchor="middle">${escapeHtml(chart.markMeans)}</text>` : '',
  ];
}

/** Labels moved down where they would touch: at least 15 apart. */
function spacedLabels(labels: readonly { readonly y: number; readonly text: string }[]) {
  let lowest = Number.NEGATIVE_INFINITY;
  return [...labels]
    .sort((a, b) => a.y - b.y)
    .map((label) => {
      lowest = Math.max(label.y, lowest + 15);
      return { ...label, y: lowest };
    });
}

/** Bars from one line, the longest filling the width; their numbers stand behind them. */
function barsSvg(chart: Bars): string {
  const names = Math.min(260, 12 + 7 * Math.max(0, ...chart.rows.map((row) => columnsOf(row.name))));
  const room = WIDTH - names - 80;
  const most = Math.max(0, ...chart.rows.flatMap((row) => row.bars.map((bar) => bar.value)));
  const parts: string[] = [];
  let y = TOP;
  for (const row of chart.rows) {
    parts.push(`<text x="0" y="${y + 12}">${escapeHtml(shortened(row.name, Math.floor((names - 12) / 7)))}</text>`);
    for (const bar of row.bars) {
      const width = most > 0 ? (bar.value / most) * room : 0;
      parts.push(
        `<rect class="${bar.hollow ? 'hollow' : 'bar'}" x="${names}" y="${y + 1}" width="${fixed(Math.max(1, width))}" height="13"/>`,
        `<text x="${fixed(names + Math.max(1, width) + 6)}" y="${y + 12}">${escapeHtml(bar.text)}</text>`,
      );
      y += 18;
    }
    y += 8;
  }
  chart.legend.forEach((entry, index) => {
    const x = names + index * 110;
    parts.push(`<rect class="${entry.hollow ? 'hollow' : 'bar'}" x="${x}" y="${y + 1}" width="26" height="13"/>`);
    parts.push(`<text x="${x + 34}" y="${y + 12}">${escapeHtml(entry.text)}</text>`);
  });
  return svg(chart.title, y + (chart.legend.length > 0 ? 22 : 0), parts);
}

/** A name for the margin of a chart; whole names stand in the tables. */
const shortened = (text: string, most: number): string =>
  [...text].length > most ? `${[...text].slice(0, most - 2).join('')}..` : text;

const svg = (title: string, height: number, parts: readonly string[]): string =>
  `<svg viewBox="0 0 ${WIDTH} ${Math.ceil(height)}" role="img" aria-label="${escapeHtml(title)}">${parts.join('')}</svg>`;

const fixed = (value: number): string => (Math.round(value * 10) / 10).toString();
