import { describe, expect, it } from 'vitest';
import { rowsFor } from '../../../src/screen/parts/digits.ts';
import { drawLines } from '../frames/draw-frame.ts';
import { panelSizes, pixelsFromAfar } from './panels.ts';
import { pictureOf } from './picture.ts';
import { picturedMoments, planFor, sheetsOf } from './sheets.ts';

const plan = planFor(undefined);

describe('a picture of the screen from afar', () => {
  it('is as large as the panel looks from there', () => {
    // 154 mm from 2 m subtends as much as 46.2 mm from 0.6 m, that is 184.8 pixels of 0.25 mm.
    expect(pixelsFromAfar(154, 2)).toBe(185);
    expect(pixelsFromAfar(154, 0.6)).toBe(616);
  });

  it('keeps the proportions of the panel and puts every character into its cell', () => {
    const [panel] = panelSizes;
    if (panel === undefined) throw new Error('no panel');
    const lines = [
      [],
      [
        { text: 'ab', role: 'plain' as const },
        { text: '  ', role: 'reverse' as const },
      ],
    ];
    const svg = pictureOf(lines, panel, 185);
    expect(svg).toContain('width="185" height="103"');
    // Column 2 of 80 on 1540 tenths of a mm, row 1 of 24 on 860.
    expect(svg).toContain(`<rect x="${2 * 19.25}" y="${860 / 24}" width="${2 * 19.25}"`);
  });

  it('shows every moment of the plan on every panel', () => {
    const sheets = sheetsOf(plan, 2);
    for (const panel of panelSizes) {
      const own = sheets.filter((sheet) => sheet.name.startsWith(`${panel.name}-`));
      const figures = own.reduce((sum, sheet) => sum + sheet.html.split('<figure>').length - 1, 0);
      expect(figures, panel.name).toBe(picturedMoments(plan).length);
    }
  });
});

/** 22 arcmin: what ISO 9241-3 style guidance prefers for a character that is read. */
const comfort_arcmin = 22;

it.each(panelSizes)('on %o the biggest thing of every moment can be read from 2 m', ({ columns, rows, high_mm }) => {
  const needed = rowsFor(2, high_mm / rows, comfort_arcmin);
  for (const { name, ...shot } of picturedMoments(plan)) {
    if (/^setup/.test(name)) continue;
    const lines = drawLines({ ...shot, columns, rows });
    const inked = lines.map(
      (line, row) => row > 0 && line.some((one) => one.role === 'reverse' && /^ +$/.test(one.text)),
    );
    const tallest = Math.max(...inked.map((_, row) => inked.slice(row).findIndex((ink) => !ink)));
    expect(tallest, name).toBeGreaterThanOrEqual(needed);
  }
});
