/**
 * Menus, questions and pages as text drawings, one file a size, and the room of every size there is between them. Drawn anew
 * as the moments are, see drawings.test.ts.
 */
import fc from 'fast-check';
import stringWidth from 'string-width';
import { beforeAll, describe, expect, it } from 'vitest';
import { textOf } from '../../../src/screen/parts/lines.ts';
import { asciiTheme, drawAppLines, drawAppText, drawLines, usualSizes } from './draw-frame.ts';
import { everyKindPlan } from './every-kind-plan.ts';
import { momentsOf } from './moments.ts';
import { type PageShot, pagesAt } from './pages.ts';
import { rareMoments } from './rare-moments.ts';
import { unsafeSigns } from './unsafe-signs.ts';

describe.each(usualSizes)('every page at %ix%i', (columns, rows) => {
  let pages: readonly PageShot[] = [];
  beforeAll(async () => {
    pages = await pagesAt(columns);
  });

  it('is as drawn', async () => {
    const drawn = pages.map(({ name, app }) => `=== ${name}\n${drawAppText({ app, columns, rows })}\n`).join('\n');
    await expect(drawn).toMatchFileSnapshot(`./drawn/pages-${columns}x${rows}.txt`);
  });

  it('is a page of its own: each leads somewhere', () => {
    const texts = pages.map(({ app }) => drawAppText({ app, columns, rows }));
    expect(new Set(texts).size).toBe(texts.length);
  });

  it('has only signs that every console has', () => {
    for (const { name, app } of pages)
      expect(unsafeSigns(drawAppText({ app, columns, rows }).replaceAll('\n', '')), name).toEqual([]);
  });

  it('cuts no word, and is ASCII where only that can be shown', () => {
    for (const { name, app } of pages) {
      const text = drawAppLines({ app, columns, rows, theme: asciiTheme }).map(textOf).join('\n');
      expect(text, name).toMatch(/^[ -~\n]*$/);
      expect(text.split('\n').slice(1).join('\n'), name).not.toContain('~');
    }
  });
});

describe('every size from 40x12 to 200x60', () => {
  const moments = [...momentsOf(everyKindPlan), ...rareMoments()];
  const size = fc.tuple(fc.integer({ min: 40, max: 200 }), fc.integer({ min: 12, max: 60 }));

  it('holds every page: no line wider, none more', async () => {
    const pages = await pagesAt(80);
    fc.assert(
      fc.property(size, fc.constantFrom(...pages), ([columns, rows], { name, app }) => {
        const lines = drawAppLines({ app, columns, rows });
        expect(lines.length, name).toBe(rows);
        for (const line of lines) expect(stringWidth(textOf(line)), name).toBeLessThanOrEqual(columns);
      }),
      { numRuns: 400 },
    );
  });

  it('holds every moment, and its biggest thing stays', () => {
    fc.assert(
      fc.property(
        size,
        fc.constantFrom(...moments),
        fc.constantFrom(5, 7, 10),
        ([columns, rows], { name, app, ...shot }, digitRows) => {
          const lines = drawLines({ ...shot, app: { ...app, digitRows }, columns, rows });
          expect(lines.length, name).toBe(rows);
          for (const line of lines) expect(stringWidth(textOf(line)), name).toBeLessThanOrEqual(columns);
          if (columns < 50 || rows < 15 || /^setup|^tool in/.test(name)) return;
          const inked = lines.filter((line) => line.some((one) => one.role === 'reverse' && /^ +$/.test(one.text)));
          // The banner is reversed too.
          expect(inked.length - 1, name).toBeGreaterThanOrEqual(5);
        },
      ),
      { numRuns: 400 },
    );
  });
});
