/** What all charts share: their width, their frame, their numbers. */
import { escapeHtml } from '../neutral-text.ts';

/** Width of a chart in its own units: as many CSS pixels on a wide page, fewer on a phone. */
export const CHART_WIDTH = 560;

/** An SVG element of the full width, with its title for those who do not see it. */
export const svgOf = (title: string, height: number, parts: readonly string[]): string =>
  `<svg viewBox="0 0 ${CHART_WIDTH} ${Math.ceil(height)}" role="img" aria-label="${escapeHtml(title)}">${parts.join('')}</svg>`;

/** A coordinate to a tenth. */
export const shortNumber = (value: number): string => String(Math.round(value * 10) / 10);
