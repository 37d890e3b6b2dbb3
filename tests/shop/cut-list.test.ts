import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type BarStock, type BlankWish, type CutList, cutList } from '../../src/shop/cut-list.ts';
import { asMm } from '../../src/shop/quantities.ts';
import { formatRefusal, sureOf } from '../../src/shop/refusal.ts';
import type { SawRules } from '../../src/shop/stock.ts';
import { inchesToMm, mmToInches } from '../../src/shop/units.ts';

const saw = (kerf: number, grip = 0, endTrim = 0): SawRules => ({
  kerf: asMm(kerf),
  endTrim: asMm(endTrim),
  grip: asMm(grip),
});
const bar = (length: number, count?: number): BarStock =>
  count === undefined ? { length: asMm(length) } : { length: asMm(length), count };
const wish = (length: number, count: number): BlankWish => ({ length: asMm(length), count });
const list = (bars: readonly BarStock[], wishes: readonly BlankWish[], rules: SawRules): CutList =>
  sureOf(cutList(bars, wishes, rules));

/** Least total length by trying every assignment of single blanks to bars: an independent, slow answer for tiny cases. */
function leastByTrying(bars: readonly number[], blanks: readonly number[], kerf: number): number {
  let best = Number.POSITIVE_INFINITY;
  const place = (
    index: number,
    open: readonly { readonly length: number; readonly room: number }[],
    taken: number,
  ): void => {
    if (taken >= best) return;
    const blank = blanks[index];
    if (blank === undefined) {
      best = taken;
      return;
    }
    for (const [at, one] of open.entries()) {
      if (one.room >= blank + kerf - 1e-6)
        place(index + 1, open.with(at, { ...one, room: one.room - blank - kerf }), taken);
    }
    for (const length of bars) {
      if (length >= blank - 1e-6) place(index + 1, [...open, { length, room: length - blank }], taken + length);
    }
  };
  place(0, [], 0);
  return best;
}

describe('cut list', () => {
  it('the worked batch: 63 blanks of 2.560 in take three 72 in bars, proven; 3.565 in is no use, 42.90 in is kept', () => {
    const rules = { kerf: inchesToMm(0.0625), endTrim: inchesToMm(0.25), grip: inchesToMm(1.5) };
    const found = list([{ length: inchesToMm(72) }], [{ length: inchesToMm(2.56), count: 63 }], rules);
    expect(found).toMatchObject({ kind: 'enough', bars: 3, proven: true, missing: [0] });
    expect(found.cuts).toMatchObject([
      { times: 2, blanks: [26], worthKeeping: false },
      { times: 1, blanks: [11], worthKeeping: true },
    ]);
    expect(found.cuts.map((cut) => mmToInches(cut.left).toFixed(4))).toEqual(['3.5650', '42.9025']);
  });

  it('with two bars at hand the worked batch is short by 11, proven', () => {
    const rules = { kerf: inchesToMm(0.0625), endTrim: inchesToMm(0.25), grip: inchesToMm(1.5) };
    const found = list([{ length: inchesToMm(72), count: 2 }], [{ length: inchesToMm(2.56), count: 63 }], rules);
    expect(found).toMatchObject({ kind: 'short', bars: 2, missing: [11], proven: true });
  });

  it('longest first alone would waste a bar: 3 of 480 and 4 of 250 fit three bars of 1000', () => {
    const found = list([bar(1000)], [wish(250, 4), wish(480, 3)], saw(2));
    expect(found).toMatchObject({ bars: 3, taken: 3000, proven: true });
    expect(found.cuts.reduce((sum, cut) => sum + (cut.blanks[1] ?? 0) * cut.times, 0)).toBe(3);
  });

  it('finds the filling that leaves nothing: 600 + 400 and 500 + 300 + 200', () => {
    const found = list([bar(1000)], [wish(600, 1), wish(500, 1), wish(400, 1), wish(300, 1), wish(200, 1)], saw(0));
    expect(found).toMatchObject({ taken: 2000, waste: 0, proven: true });
  });

  it('takes the mix of bar lengths with the least length, not the fewest bars', () => {
    const found = list([bar(1000), bar(650)], [wish(600, 2)], saw(3));
    expect(found).toMatchObject({ taken: 1300, bars: 2, proven: true });
  });

  it('blanks longer than half a bar are proven at once, however many', () => {
    const found = list([bar(1000)], [wish(600, 5000), wish(550, 3000)], saw(2));
    expect(found).toMatchObject({ bars: 8000, proven: true });
  });

  it('says so when its work ran out before it was sure', () => {
    const wishes = [wish(437, 7), wish(381, 9), wish(293, 11), wish(211, 8), wish(167, 13)];
    const hasty = sureOf(cutList([bar(1500), bar(1170), bar(910)], wishes, saw(2), { workLimit: 40 }));
    expect(hasty).toMatchObject({ kind: 'enough', proven: false, missing: [0, 0, 0, 0, 0] });
    expect(list([bar(1500), bar(1170), bar(910)], wishes, saw(2)).taken).toBeLessThanOrEqual(hasty.taken);
  });

  it('three of about a third in each bar are proven by their number', () => {
    expect(list([bar(1000)], [wish(334, 1500), wish(330, 1500)], saw(0))).toMatchObject({ bars: 1000, proven: true });
  });

  it('a search that would go too deep gives its quick list and says that it is not proven', () => {
    const found = list([bar(1000)], [wish(510, 600), wish(270, 600), wish(260, 600), wish(230, 1200)], saw(0));
    expect(found).toMatchObject({ kind: 'enough', missing: [0, 0, 0, 0], proven: false });
    expect(found.bars).toBeGreaterThanOrEqual(900);
    expect(found.bars).toBeLessThanOrEqual(1100);
  });

  it('takes a limited stock before it falls short, and a choice of what is worth keeping', () => {
    const found = sureOf(cutList([bar(1000, 1), bar(600, 3)], [wish(290, 6)], saw(2), { keepFrom: asMm(100) }));
    expect(found).toMatchObject({ kind: 'enough', taken: 1800, missing: [0] });
    const kept = sureOf(cutList([bar(1000, 1)], [wish(290, 3)], saw(2), { keepFrom: asMm(100) }));
    expect(kept.cuts[0]).toMatchObject({ left: 124, worthKeeping: true });
    expect(kept.waste).toBe(6);
    expect(list([bar(1000, 1)], [wish(290, 3)], saw(2)).cuts[0]?.worthKeeping).toBe(false);
  });

  it('short of several kinds: cuts the longest first and says how many of each are missing', () => {
    const found = list([bar(1000, 1)], [wish(600, 1), wish(500, 2)], saw(0));
    expect(found.kind).toBe('short');
    expect(found.missing).toEqual([0, 2]);
  });

  it('is never worse than trying everything, and adds up, on small cases', () => {
    const lengths = fc.array(fc.integer({ min: 8, max: 60 }), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(
        lengths,
        fc.uniqueArray(fc.constantFrom(60, 83, 100), { minLength: 1, maxLength: 2 }),
        fc.integer({ min: 0, max: 3 }),
        (blanks, bars, kerf) => {
          const wishes = [...new Set(blanks)].map((length) =>
            wish(length, blanks.filter((other) => other === length).length),
          );
          const found = list(
            bars.map((length) => bar(length)),
            wishes,
            saw(kerf),
          );
          expect(found.proven).toBe(true);
          expect(found.taken).toBeCloseTo(leastByTrying(bars, blanks, kerf), 6);
          expect(found.missing.every((number) => number === 0)).toBe(true);
          for (const cut of found.cuts) {
            const length = cut.blanks.reduce(
              (sum, number, index) => sum + number * ((wishes[index]?.length ?? 0) + kerf),
              0,
            );
            expect(length - kerf).toBeLessThanOrEqual(cut.bar + 1e-6);
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  it.each([
    ['no bar', [], [wish(10, 1)], 'bar lengths 0'],
    ['no blank', [bar(100)], [], 'blank lengths 0'],
    ['a bar of no length', [bar(0)], [wish(10, 1)], 'bar length 0 mm'],
    ['half a bar', [bar(100, 0.5)], [wish(10, 1)], 'bars at hand'],
    ['a blank of NaN', [bar(100)], [wish(Number.NaN, 1)], 'blank length NaN mm'],
    ['no pieces', [bar(100)], [wish(10, 0)], 'blanks wanted 0'],
    ['a blank longer than every bar', [bar(100), bar(200)], [wish(250, 1)], 'at most 200 mm from the longest bar'],
  ] as const)('%s is refused', (_name, bars, wishes, words) => {
    const result = cutList(bars, wishes, saw(1));
    expect(result.ok ? 'answered' : formatRefusal(result.problem)).toContain(words);
  });

  it('a blank that only the grip rules out is refused, and so are absurd options', () => {
    expect(cutList([bar(100)], [wish(95, 1)], saw(1)).ok).toBe(true);
    expect(cutList([bar(100)], [wish(95, 1)], saw(1, 10)).ok).toBe(false);
    expect(cutList([bar(100)], [wish(95, 1)], saw(1), { keepFrom: asMm(0) }).ok).toBe(false);
    expect(cutList([bar(100)], [wish(95, 1)], saw(1), { workLimit: 0 }).ok).toBe(false);
  });
});
