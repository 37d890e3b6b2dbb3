import { describe, expect, it } from 'vitest';
import { safeGlyphs, showable } from '../../../src/screen/parts/showable.ts';

describe('what a console can show', () => {
  it.each([
    ['⌀ 6 – 8', false, 'dia  6 - 8'],
    ['Größe 45°', true, 'Grosse 45 deg'],
    ['Größe 45°', false, 'Größe 45°'],
    ['½ “x” ✓', false, '1/2 "x" ?'],
    ['→ FEED', true, '-> FEED'],
    ['plain', true, 'plain'],
  ])('%s, ascii %s: %s', (text, ascii, wanted) => {
    expect(showable(text, ascii)).toBe(wanted);
  });

  it('leaves every safe glyph by default and none in ASCII', () => {
    expect(showable(safeGlyphs, false)).toBe(safeGlyphs);
    expect(showable(safeGlyphs, true)).toMatch(/^[ -~]*$/);
  });
});
