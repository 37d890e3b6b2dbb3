/** Moments of mishaps and changes as text drawings, one file a size; drawn anew as the others are, see drawings.test.ts. */
import { expect, it } from 'vitest';
import { drawFrame, usualSizes } from './draw-frame.ts';
import { rareMoments } from './rare-moments.ts';

const moments = rareMoments();

it.each(usualSizes)('every rare moment at %ix%i', async (columns, rows) => {
  const drawn = moments.map((shot) => `=== ${shot.name}\n${drawFrame({ ...shot, columns, rows })}\n`).join('\n');
  await expect(drawn).toMatchFileSnapshot(`./drawn/rare-${columns}x${rows}.txt`);
});
