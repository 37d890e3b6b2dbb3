/** Values in the order in which they came, with a band and lines: piece times and measured dimensions. */
import type { Chart, ChartValue } from '../document.ts';
import { greatestOf, leastOf } from '../extremes.ts';
import { escapeHtml } from '../neutral-text.ts';
import { CHART_WIDTH, shortNumber, svgOf } from './svg.ts';

type Values = Extract<Chart, { kind: 'values' }>;

const TOP = 22;
const HEIGHT = 180;
/** Room for the labels of lines and band, at the right. */
const GUTTER = 145;
const RIGHT = CHART_WIDTH - GUTTER;
const LABEL_STEP = 16;

/**
 * The chart. A marked value is drawn hollow; one that lies so far off that the rest would be squashed is drawn at the edge
 * as a triangle with its number, and does not stretch the scale.
 */
export function valueChart(chart: Values): string {
  const { yOf, isBeyond } = scaleOf(chart);
  const xOf = (index: number) => 10 + ((index + 0.5) / chart.values.length) * (RIGHT - 20);
  const radius = chart.values.length > 120 ? 2 : 4;
  const within = chart.values.map((one, index) => ({ one, index })).filter(({ one }) => !isBeyond(one.value));
  const path = within.map(({ one, index }) => `${shortNumber(xOf(index))},${shortNumber(yOf(one.value))}`);
  const parts = [
    chart.band === null ? '' : bandRect(yOf(chart.band.high), yOf(chart.band.low)),
    ...chart.lines.map((line) => lineAcross(yOf(line.value), line.strong ? 'strong' : 'faint')),
    `<polyline class="thread" points="${path.join(' ')}"/>`,
    ...chart.values.map((one, index) => {
      const y = yOf(one.value);
      return isBeyond(one.value) ? edgeMark(one, xOf(index), y) : dot(one, xOf(index), y, radius);
    }),
    ...labelsOf(chart, yOf).map(
      (label) => `<text x="${RIGHT + 8}" y="${shortNumber(label.y + 4)}">${escapeHtml(label.text)}</text>`,
    ),
    ...axisTexts(chart),
  ];
  return svgOf(chart.title, TOP + HEIGHT + 28, parts);
}

/** The scale fits all that is not marked, and marked values up to as far again. */
function scaleOf(chart: Values) {
  const lines = chart.lines.map((line) => line.value);
  const band = chart.band === null ? [] : [chart.band.low, chart.band.high];
  const plain = chart.values.filter((one) => !one.marked).map((one) => one.value);
  const core = [...plain, ...lines, ...band];
  const reach = greatestOf(core) - leastOf(core) || Math.abs(core[0] ?? 1) * 0.1 || 1;
  const [low, high] = [leastOf(core) - reach, greatestOf(core) + reach];
  const isBeyond = (value: number) => value < low || value > high;
  const all = [...core, ...chart.values.map((one) => one.value).filter((value) => !isBeyond(value))];
  const [least, most] = [leastOf(all), greatestOf(all)];
  const margin = (most - least || reach) * 0.08;
  const yOf = (value: number) => {
    const share = (most + margin - value) / (most - least + 2 * margin);
    return TOP + Math.min(1, Math.max(0, share)) * HEIGHT;
  };
  return { yOf, isBeyond };
}

const bandRect = (top: number, bottom: number): string =>
  `<rect class="band" x="0" y="${shortNumber(top)}" width="${RIGHT}" height="${shortNumber(Math.max(1, bottom - top))}"/>`;

const lineAcross = (y: number, look: string): string =>
  `<line class="${look}" x1="0" x2="${RIGHT}" y1="${shortNumber(y)}" y2="${shortNumber(y)}"/>`;

const titled = (one: ChartValue): string => `<title>${escapeHtml(`${one.label}: ${one.text}`)}</title>`;

const dot = (one: ChartValue, x: number, y: number, radius: number): string =>
  `<circle class="${one.marked ? 'hollow' : 'dot'}" cx="${shortNumber(x)}" cy="${shortNumber(y)}" r="${one.marked ? radius + 1 : radius}">${titled(one)}</circle>`;

/** A triangle at the upper or lower edge, its number beside it. */
function edgeMark(one: ChartValue, x: number, y: number): string {
  const tip = y < TOP + HEIGHT / 2 ? -9 : 9;
  const points = `${shortNumber(x - 6)},${shortNumber(y)} ${shortNumber(x + 6)},${shortNumber(y)} ${shortNumber(x)},${shortNumber(y + tip)}`;
  const anchor = x > RIGHT / 2 ? 'end' : 'start';
  const beside = `<text x="${shortNumber(x + (anchor === 'end' ? -9 : 9))}" y="${shortNumber(y + tip / 2 + 3)}" text-anchor="${anchor}">${escapeHtml(one.text)}</text>`;
  return `<polygon class="hollow" points="${points}">${titled(one)}</polygon>${beside}`;
}

/** Labels of lines and band from the top down, pushed apart where they would touch. */
function labelsOf(chart: Values, yOf: (value: number) => number) {
  const band =
    chart.band === null
      ? []
      : [
          { y: yOf(chart.band.high), text: chart.band.highText },
          { y: yOf(chart.band.low), text: chart.band.lowText },
        ];
  const wanted = [...chart.lines.map((line) => ({ y: yOf(line.value), text: line.text })), ...band];
  let lowest = Number.NEGATIVE_INFINITY;
  return wanted
    .sort((a, b) => a.y - b.y)
    .map((label) => {
      lowest = Math.max(label.y, lowest + LABEL_STEP);
      return { ...label, y: lowest };
    });
}

function axisTexts(chart: Values): string[] {
  const y = TOP + HEIGHT + 20;
  const [first, last] = [chart.values[0], chart.values.at(-1)];
  const hasMarks = chart.values.some((one) => one.marked);
  return [
    first === undefined ? '' : `<text x="0" y="${y}">${escapeHtml(first.label)}</text>`,
    last === undefined ? '' : `<text x="${RIGHT}" y="${y}" text-anchor="end">${escapeHtml(last.label)}</text>`,
    hasMarks ? `<text x="${RIGHT / 2}" y="${y}" text-anchor="middle">${escapeHtml(chart.markMeans)}</text>` : '',
  ];
}
