/** A drawn frame as an SVG picture in the proportions of a panel: every character in its cell, bold and reverse as shown. */
import stringWidth from 'string-width';
import type { Line, Role } from '../../../src/screen/parts/lines.ts';
import type { PanelSize } from './panels.ts';

const looks: Record<Role, { readonly ink: string; readonly ground: string; readonly bold: boolean }> = {
  plain: { ink: '#aaaaaa', ground: '#000000', bold: false },
  strong: { ink: '#ffffff', ground: '#000000', bold: true },
  reverse: { ink: '#000000', ground: '#aaaaaa', bold: false },
  good: { ink: '#55ff55', ground: '#000000', bold: true },
  alarm: { ink: '#000000', ground: '#ffffff', bold: true },
  mark: { ink: '#000000', ground: '#aaaaaa', bold: false },
};

/** The picture, `width` pixels wide; its units are tenths of a mm of the panel. */
export function pictureOf(lines: readonly Line[], panel: PanelSize, width: number): string {
  const [cellWide, cellHigh] = [(panel.wide_mm * 10) / panel.columns, (panel.high_mm * 10) / panel.rows];
  const [wide, high] = [panel.wide_mm * 10, panel.high_mm * 10];
  const cells = lines.flatMap((line, row) => lineParts(line, row, cellWide, cellHigh));
  const height = Math.round((width * panel.high_mm) / panel.wide_mm);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${wide} ${high}">`,
    `<rect width="${wide}" height="${high}" fill="#000000"/>`,
    `<g font-family="DejaVu Sans Mono, monospace" font-size="${cellHigh * 0.8}" xml:space="preserve">`,
    ...cells,
    '</g></svg>',
  ].join('\n');
}

function lineParts(line: Line, row: number, cellWide: number, cellHigh: number): readonly string[] {
  const parts: string[] = [];
  let column = 0;
  for (const { text, role } of line) {
    const { ink, ground, bold } = looks[role];
    const columns = stringWidth(text);
    const [x, y, wide] = [column * cellWide, row * cellHigh, columns * cellWide];
    if (ground !== '#000000')
      parts.push(`<rect x="${x}" y="${y}" width="${wide}" height="${cellHigh + 0.3}" fill="${ground}"/>`);
    if (text.trim() !== '')
      parts.push(
        `<text x="${x}" y="${y + cellHigh * 0.78}" textLength="${wide}" lengthAdjust="spacingAndGlyphs" fill="${ink}"` +
          `${bold ? ' font-weight="bold"' : ''}>${escaped(text)}</text>`,
      );
    column += columns;
  }
  return parts;
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll(' ', '\u00a0');
}
