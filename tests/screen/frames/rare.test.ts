/** Moments of mishaps and changes as text drawings, one file a size; drawn anew as the others are, see drawings.test.ts. */
import { expect, it } from 'vitest';
import { textOf } from '../../../src/screen/parts/lines.ts';
import { asciiTheme, drawFrame, drawLines, usualSizes } from './draw-frame.ts';
import { rareMoments } from './rare-moments.ts';
import { unsafeSigns } from './unsafe-signs.ts';

const moments = rareMoments();

it.each(usualSizes)('every rare moment at %ix%i', async (columns, rows) => {
  const drawn = moments.map((shot) => `=== ${shot.name}\n${drawFrame({ ...shot, columns, rows })}\n`).join('\n');
  await expect(drawn).toMatchFileSnapshot(`./drawn/rare-${columns}x${rows}.txt`);
});

it.each(usualSizes)(
  'every rare moment at %ix%i cuts no word, and has only signs that the console has',
  (columns, rows) => {
    for (const { name, ...shot } of moments) {
      const lines = drawLines({ ...shot, columns, rows }).map(textOf);
      expect(lines.slice(1).join(''), name).not.toContain('~');
      expect(unsafeSigns(lines.join('')), name).toEqual([]);
      const plain = drawLines({ ...shot, columns, rows, theme: asciiTheme }).map(textOf);
      expect(plain.join(''), name).toMatch(/^[ -~]*$/);
    }
  },
);
