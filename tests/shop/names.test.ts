import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findMaterial, materialNames } from '../../src/shop/materials.ts';
import { sureOf } from '../../src/shop/refusal.ts';
import { editDistance, suggestName, suggestNames } from '../../src/shop/suggest-name.ts';
import { allThreads } from '../../src/shop/thread-list.ts';
import { parseThread, threadNames } from '../../src/shop/thread-names.ts';

const nameOf = (text: string) => sureOf(parseThread(text)).name;
const refusal = (text: string) => {
  const found = parseThread(text);
  return found.ok ? `found ${found.value.name}` : `${found.problem.allowed}; ${found.problem.remedy}`;
};

describe('threads by name', () => {
  it.each([
    ['M5', 'M5'],
    ['m5', 'M5'],
    ['M 5', 'M5'],
    ['M5x0.8', 'M5'],
    ['M5 x 0.5', 'M5x0.5'],
    ['M5\u00d70.5', 'M5x0.5'],
    ['M5*.5', 'M5x0.5'],
    ['M6-6H', 'M6'],
    ['M12 x 1.5 6H', 'M12x1.5'],
    ['1/4-20 UNC', '1/4-20 UNC'],
    ['1/4 UNC', '1/4-20 UNC'],
    ['1/4 in UNF', '1/4-28 UNF'],
    ['1/4"-28', '1/4-28 UNF'],
    ['.25-20 UNC', '1/4-20 UNC'],
    ['#8-32 UNC-2B', 'no. 8-32 UNC'],
    ['no. 8-32 UNC', 'no. 8-32 UNC'],
    ['No 8-32', 'no. 8-32 UNC'],
    ['8-32', 'no. 8-32 UNC'],
    ['8 x 36', 'no. 8-36 UNF'],
    ['10-32 UN', 'no. 10-32 UNF'],
    ['4 BA', '4 BA'],
    ['4BA', '4 BA'],
    ['no. 4 b.a.', '4 BA'],
    ['1/4 x 40 ME', '1/4 x 40 ME'],
    ['1/4-40 ME', '1/4 x 40 ME'],
    ['1/4 x 40 tpi', '1/4 x 40 ME'],
    ['1/4 BSW', '1/4-20 BSW'],
    ['1/4-20 Whitworth', '1/4-20 BSW'],
    ['1/4 BSF', '1/4-26 BSF'],
    ['3/8 x 32 ME', '3/8 x 32 ME'],
  ])('%s is %s', (text, name) => expect(nameOf(text)).toBe(name));

  it('every thread of the tables is found by its own name, and no name is there twice', () => {
    expect(allThreads().map((thread) => nameOf(thread.name))).toEqual(threadNames());
    expect(new Set(threadNames()).size).toBe(allThreads().length);
  });

  it.each([
    ['1/4-20', '1/4-20 UNC, 1/4-20 BSW'],
    ['1/4', '1/4-20 UNC, 1/4-28 UNF'],
    ['1/4 ME', '1/4 x 32 ME, 1/4 x 40 ME'],
    ['M9', 'nearest known: M8, M10'],
    ['M5x0.55', 'one of 0.35, 0.4, 0.45, 0.5, 0.6, 0.7, 0.75, 0.8, 1, 1.25, 1.5 mm'],
    ['1/4-22 UNC', 'nearest known: 1/4-20 UNC'],
    ['no. 9 UNC', 'nearest known'],
    ['17 BA', 'nearest known: 1 BA, 7 BA'],
    ['M6 5H', '6H or 2B'],
    ['1/4-20 UNC-3B', '6H or 2B'],
    ['1/4-20 UNC-2A', '6H or 2B'],
    ['big bolt', 'a thread of the tables'],
    ['', 'text like M6'],
  ])('%s is not found, with %s', (text, words) => {
    expect(refusal(text)).toContain(words);
  });

  it('no text makes it throw', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'0123456789.x/- mubacnfe#no"') }), (text) => {
        parseThread(text);
      }),
      { numRuns: 1000 },
    );
  });
});

describe('materials by name', () => {
  it.each([
    ['mild steel', 'mild steel'],
    ['Mild-Steel', 'mild steel'],
    ['EN3B', 'mild steel'],
    ['6061-T6', 'aluminium'],
    ['6082', 'aluminium'],
    ['aluminum', 'aluminium'],
    ['CZ121', 'brass'],
    ['316', 'stainless steel'],
    ['303', 'free-machining stainless steel'],
    ['silver steel', 'tool steel'],
  ])('%s is %s', (written, name) => expect(sureOf(findMaterial(written))).toBe(name));

  it('an unknown one is refused with the nearest known', () => {
    expect(findMaterial('alluminium')).toMatchObject({
      ok: false,
      problem: { remedy: expect.stringContaining('aluminium') },
    });
    expect(findMaterial('brsas')).toMatchObject({ ok: false, problem: { remedy: 'nearest known: brass' } });
    expect(findMaterial('zzzzzzzzzzzzzzzz')).toMatchObject({
      ok: false,
      problem: { remedy: expect.stringContaining('give the cutting speed') },
    });
    expect(findMaterial('').ok).toBe(false);
  });

  it('every material is found by its own name', () => {
    for (const name of materialNames()) expect(sureOf(findMaterial(name))).toBe(name);
  });
});

describe('nearest names', () => {
  it.each([
    ['brsas', 'brass', 1],
    ['mild', 'mill', 1],
    ['', 'tap', 3],
    ['tap', '', 3],
    ['kitten', 'sitting', 3],
    ['same', 'same', 0],
  ])('%j to %j is %i changes', (a, b, distance) => expect(editDistance(a, b)).toBe(distance));

  it('distance is the same both ways, nothing only for the same text, and never more than the longer text', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 20 }), fc.string({ maxLength: 20 }), (a, b) => {
        const distance = editDistance(a, b);
        expect(distance).toBe(editDistance(b, a));
        expect(distance === 0).toBe(a === b);
        expect(distance).toBeLessThanOrEqual(Math.max(a.length, b.length));
        expect(distance).toBeGreaterThanOrEqual(Math.abs(a.length - b.length));
      }),
    );
  });

  it('suggests the nearest first, at most so many, and nothing for nonsense', () => {
    expect(suggestNames('spindel', ['spindle', 'spin', 'stop'], 2)).toEqual(['spindle', 'spin']);
    expect(suggestName('toool', ['tool', 'tools'])).toBe('tool');
    expect(suggestName('qqqqqqqq', ['tool'])).toBeUndefined();
  });
});
