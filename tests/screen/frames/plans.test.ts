import stringWidth from 'string-width';
import { describe, expect, it } from 'vitest';
import { textOf } from '../../../src/screen/parts/lines.ts';
import { textOf as fileText, plansIn, proved } from '../../plan/plan-samples.ts';
import { asciiTheme, boxTheme, drawLines, usualSizes } from './draw-frame.ts';
import { momentsOf } from './moments.ts';
import { unsafeSigns } from './unsafe-signs.ts';

/** The four usual sizes and odd ones between and below them. */
const sizes = [...usualSizes, [57, 17], [64, 20], [132, 25], [85, 24], [40, 12], [200, 60]] as const;
const paths = [...plansIn('jobs/'), 'tests/samples/sound-plans/pump-spacer.yaml'];

/** Every size for the job that comes with the program; the smallest and the commonest for the others. */
const sizesFor = (path: string): readonly (readonly [number, number])[] =>
  path.endsWith('keeper-plates.yaml') ? sizes : [sizes[0], sizes[1]];

describe.each(paths)('every moment of %s', (path) => {
  const usual = sizesFor(path).slice(0, usualSizes.length);
  const moments = momentsOf(proved(fileText(path)).resolved);

  it.each(sizesFor(path))('at %ix%i fills the screen exactly, with signs that every console has', (columns, rows) => {
    for (const { name, ...shot } of moments) {
      const lines = drawLines({ ...shot, columns, rows, theme: boxTheme });
      expect(lines.length, name).toBe(rows);
      for (const line of lines) {
        expect(stringWidth(textOf(line)), name).toBeLessThanOrEqual(columns);
        expect(unsafeSigns(textOf(line)), name).toEqual([]);
      }
    }
  });

  it.each(usual)('at %ix%i in ASCII mode is ASCII', (columns, rows) => {
    for (const { name, ...shot } of moments) {
      const text = drawLines({ ...shot, columns, rows, theme: asciiTheme })
        .map(textOf)
        .join('\n');
      expect(text, name).toMatch(/^[ -~\n]*$/);
    }
  });

  it.each(usual)('at %ix%i cuts no word and no number, and says the counts', (columns, rows) => {
    for (const { name, state, ...shot } of moments) {
      const lines = drawLines({ ...shot, state, columns, rows }).map(textOf);
      // Only the title in the banner may be cut.
      expect(lines.slice(1).join('\n'), name).not.toContain('~');
      expect(lines[0], name).toMatch(/\d+ of \d+ good/);
    }
  });

  it.each(usual)('at %ix%i shows the number of every card and work in blocks', (columns, rows) => {
    for (const { name, ...shot } of moments) {
      if (/^setup/.test(name)) continue;
      const lines = drawLines({ ...shot, columns, rows });
      const inked = lines.filter(
        (line, row) => row > 0 && line.some(({ role, text }) => role === 'reverse' && /^ +$/.test(text)),
      );
      expect(inked.length, name).toBeGreaterThanOrEqual(5);
    }
  });
});
