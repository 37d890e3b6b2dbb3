import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { throughTravel } from '../../src/shop/drilling.ts';
import { cuttingTime, feedPerTooth, feedPerTurn, feedRate, peckAdvice, secondsToFeel } from '../../src/shop/feeds.ts';
import { materialNames } from '../../src/shop/materials.ts';
import { asDegrees, asMm, asRpm } from '../../src/shop/quantities.ts';
import { sureOf } from '../../src/shop/refusal.ts';
import { inchesToMm, mmToInches } from '../../src/shop/units.ts';

const inches = (feed: { low: number; high: number }) => [feed.low, feed.high].map((mm) => mmToInches(asMm(mm)));

describe('feed of a drill', () => {
  // US Navy training course 14345, drill press section; a size on a band's end belongs to the lower band.
  it.each([
    [0.1, 0.001, 0.002],
    [0.125, 0.001, 0.002],
    [0.136, 0.002, 0.004],
    [0.25, 0.002, 0.004],
    [0.251, 0.004, 0.007],
    [0.5, 0.004, 0.007],
    [1, 0.007, 0.015],
    [1.5, 0.015, 0.025],
  ])('%f in takes %f to %f in a turn', (diameter, low, high) => {
    const [foundLow = 0, foundHigh = 0] = inches(sureOf(feedPerTurn(inchesToMm(diameter))));
    expect(foundLow).toBeCloseTo(low, 9);
    expect(foundHigh).toBeCloseTo(high, 9);
  });

  // From memory, general workshop practice.
  it.each([
    [1, 0.01, 0.02],
    [1.5, 0.015, 0.03],
    [2, 0.02, 0.05],
    [0.5, 0.005, 0.01],
  ])('%f mm takes %f to %f mm a turn, from memory', (diameter, low, high) => {
    const found = sureOf(feedPerTurn(asMm(diameter)));
    expect([found.low, found.high]).toEqual([expect.closeTo(low, 9), expect.closeTo(high, 9)]);
    expect(found.confirmed).toBe(false);
  });

  // Three other tables, kept out because they are heavier than the hand likes: a drilling and reaming table and a college table
  // of power feeds (common practice), small drills by hand (from memory). Nowhere do they contradict the low end.
  it.each([
    [0.125, 0.001, 0.003],
    [0.25, 0.002, 0.006],
    [0.5, 0.004, 0.01],
    [1, 0.007, 0.015],
    [1.5, 0.01, 0.025],
  ])('%f in lies no higher than the %f to %f in of the drilling and reaming table', (diameter, _low, high) => {
    expect(inches(sureOf(feedPerTurn(inchesToMm(diameter))))[1]).toBeLessThanOrEqual(high + 1e-9);
  });
  it.each([
    ['aluminium', 0.3, 0.4, 0.61, 0.81],
    ['brass', 0.2, 0.25, 0.41, 0.51],
    ['cast iron', 0.13, 0.18, 0.25, 0.31],
    ['mild steel', 0.2, 0.25, 0.41, 0.51],
    ['stainless steel', 0.13, 0.18, 0.25, 0.31],
    ['plastics', 0.1, 0.15, 0.2, 0.25],
  ])('the low end is below the power feeds of the college table for %s', (_material, ...feeds) => {
    for (const [at, diameter] of [6, 12, 18, 25].entries()) {
      expect(sureOf(feedPerTurn(asMm(diameter))).low).toBeLessThan(feeds[at] ?? 0);
    }
  });
  it.each([
    [3, 0.04, 0.08],
    [4, 0.05, 0.1],
    [5, 0.07, 0.12],
    [6, 0.08, 0.15],
    [8, 0.1, 0.2],
    [10, 0.12, 0.25],
  ])('%f mm overlaps the %f to %f mm by hand, from memory', (diameter, low, high) => {
    const found = sureOf(feedPerTurn(asMm(diameter)));
    expect(found.low).toBeLessThan(high);
    expect(found.high).toBeGreaterThan(low);
  });

  it('a reamer takes twice that, said to be from memory', () => {
    const found = sureOf(feedPerTurn(inchesToMm(0.375), 'ream'));
    expect(inches(found)).toEqual([expect.closeTo(0.008, 9), expect.closeTo(0.014, 9)]);
    expect(found).toMatchObject({ confirmed: false, source: expect.stringContaining('from memory') });
  });

  it('never falls as the drill grows past 2 mm', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 2.01, max: 100, noNaN: true }),
        fc.double({ min: 1, max: 2, noNaN: true }),
        (d, factor) => {
          expect(sureOf(feedPerTurn(asMm(d * factor))).low).toBeGreaterThanOrEqual(sureOf(feedPerTurn(asMm(d))).low);
        },
      ),
    );
  });

  it.each([0, -1, 400, Number.NaN, Number.POSITIVE_INFINITY])('%f mm is refused', (d) => {
    expect(feedPerTurn(asMm(d)).ok).toBe(false);
    expect(feedPerTooth(asMm(d), 'brass').ok).toBe(false);
    expect(peckAdvice(asMm(d), asMm(10)).ok).toBe(false);
  });
});

describe('feed of an end mill', () => {
  // Columns 1/8, 1/4, 1/2, 1 in of a cutter sheet (common practice): upper ends.
  it.each([
    ['mild steel', [0.001, 0.002, 0.004, 0.006]],
    ['aluminium', [0.001, 0.002, 0.0025, 0.003]],
    ['brass', [0.0008, 0.0015, 0.003, 0.006]],
    ['bronze', [0.0008, 0.0015, 0.003, 0.006]],
    ['cast iron', [0.0008, 0.0015, 0.0025, 0.005]],
    ['free-machining stainless steel', [0.0005, 0.0007, 0.0012, 0.002]],
  ] as const)('%s is at least what the sheet says and no more than the larger of both tables', (material, feeds) => {
    for (const [at, diameter] of [0.125, 0.25, 0.5, 1].entries()) {
      const high = mmToInches(sureOf(feedPerTooth(inchesToMm(diameter), material)).high);
      expect(high).toBeGreaterThanOrEqual((feeds[at] ?? 0) - 1e-9);
      expect(high).toBeLessThanOrEqual(Math.max(feeds[at] ?? 0, 0.1 / 25.4) + 1e-9);
    }
  });

  // Small HSS end mills on a light mill, from memory: steel, aluminium. Each is an end of the range or inside it.
  it.each([
    [2, 0.005, 0.01],
    [3, 0.008, 0.02],
    [4, 0.012, 0.03],
    [6, 0.02, 0.05],
    [8, 0.03, 0.06],
    [10, 0.04, 0.08],
    [12, 0.05, 0.1],
  ])('%f mm on a light mill: %f mm in steel, %f mm in aluminium', (diameter, steel, aluminium) => {
    expect(sureOf(feedPerTooth(asMm(diameter), 'mild steel')).low).toBeCloseTo(steel, 9);
    const soft = sureOf(feedPerTooth(asMm(diameter), 'aluminium'));
    expect([soft.low, soft.high]).toContainEqual(expect.closeTo(aluminium, 9));
  });

  // Solid carbide, a catalogue (common practice on a rigid machine); its guide: 0.005 D at least in steel, 0.002 D in stainless.
  it.each([
    [3, 0.01, 0.015],
    [4, 0.02, 0.02],
    [5, 0.03, 0.02],
    [6, 0.04, 0.025],
    [8, 0.06, 0.025],
    [10, 0.08, 0.05],
    [12, 0.1, 0.06],
  ])('carbide of %f mm: up to %f mm in steel, %f mm in stainless steel', (diameter, steel, stainless) => {
    const inSteel = sureOf(feedPerTooth(asMm(diameter), 'mild steel', 'carbide'));
    const inStainless = sureOf(feedPerTooth(asMm(diameter), 'stainless steel', 'carbide'));
    expect(inSteel).toMatchObject({ high: expect.closeTo(steel, 9), confirmed: false });
    expect(inStainless).toMatchObject({ high: expect.closeTo(stainless, 9), confirmed: false });
    expect(inSteel.low).toBeCloseTo(Math.min(steel, 0.005 * diameter), 9);
    expect(inStainless.low).toBeCloseTo(Math.min(stainless, 0.002 * diameter), 9);
  });

  // Light mills, from memory: 2 mm 0.005 and 0.01, 6 mm 0.02 and 0.05, 10 mm 0.04 and 0.08.
  it('a light mill starts at 0.02 mm with 6 mm in steel and 0.005 mm with 2 mm', () => {
    expect(sureOf(feedPerTooth(asMm(6), 'mild steel')).low).toBeCloseTo(0.02, 9);
    expect(sureOf(feedPerTooth(asMm(2), 'mild steel')).low).toBeCloseTo(0.005, 9);
    expect(sureOf(feedPerTooth(asMm(10), 'aluminium')).high).toBeCloseTo(0.08, 9);
  });

  it('low is never above high, and both are above nothing', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.2, max: 250, noNaN: true }),
        fc.constantFrom(...materialNames()),
        fc.constantFrom('HSS' as const, 'carbide' as const),
        (d, material, tool) => {
          const feed = sureOf(feedPerTooth(asMm(d), material, tool));
          expect(feed.low).toBeGreaterThan(0);
          expect(feed.low).toBeLessThanOrEqual(feed.high);
        },
      ),
    );
  });
});

describe('feed rate and time', () => {
  // f n; n z fz.
  it('1200 rpm at 0.12 mm is 144 mm/min; 900 rpm, 4 teeth, 0.025 mm is 90', () => {
    expect(sureOf(feedRate(asRpm(1200), asMm(0.12)))).toBeCloseTo(144, 9);
    expect(sureOf(feedRate(asRpm(900), asMm(0.025), 4))).toBeCloseTo(90, 9);
    expect(sureOf(feedRate(asRpm(1000), inchesToMm(0.002), 2)) / 25.4).toBeCloseTo(4, 9);
  });

  it('a 20 mm plate with a 10 mm drill and 2 mm past it at 800 rpm and 0.1 mm takes 18.753 s', () => {
    const travel = sureOf(throughTravel(asMm(20), { diameter: asMm(10), angle: asDegrees(118) }, asMm(2)));
    expect(travel).toBeCloseTo(25.0043, 4);
    expect(sureOf(cuttingTime({ length: travel }, asRpm(800), asMm(0.1)))).toBeCloseTo(18.753, 3);
  });

  it('100 mm in two passes at 500 rpm and 0.15 mm takes 2.6667 min; approach and overrun count in each', () => {
    expect(sureOf(cuttingTime({ length: asMm(100), passes: 2 }, asRpm(500), asMm(0.15))) / 60).toBeCloseTo(2.6667, 4);
    const plain = sureOf(cuttingTime({ length: asMm(110), passes: 2 }, asRpm(500), asMm(0.15)));
    const parts = { length: asMm(100), approach: asMm(6), overrun: asMm(4), passes: 2 };
    expect(sureOf(cuttingTime(parts, asRpm(500), asMm(0.15)))).toBeCloseTo(plain, 9);
  });

  it('no. 29 to .603 in at 2700 rpm and .002 to .004 in is 3.4 to 6.7 s by feel', () => {
    const feed = sureOf(feedPerTurn(inchesToMm(0.136)));
    const found = sureOf(secondsToFeel(inchesToMm(0.603), asRpm(2700), feed));
    expect(found.quickest).toBeCloseTo(3.35, 2);
    expect(found.slowest).toBeCloseTo(6.7, 1);
  });

  it('twice the feed halves the time', () => {
    const positive = (max: number) => fc.double({ min: 0.01, max, noNaN: true });
    fc.assert(
      fc.property(positive(500), fc.integer({ min: 1, max: 5000 }), positive(1), (length, rpm, feed) => {
        const once = sureOf(cuttingTime({ length: asMm(length) }, asRpm(rpm), asMm(feed)));
        expect(sureOf(cuttingTime({ length: asMm(length) }, asRpm(rpm), asMm(2 * feed))) * 2).toBeCloseTo(once, 6);
      }),
    );
  });

  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY, 1e9])('%f is refused as a length, a speed, a feed', (bad) => {
    expect(cuttingTime({ length: asMm(bad) }, asRpm(500), asMm(0.1)).ok).toBe(false);
    expect(cuttingTime({ length: asMm(10) }, asRpm(bad), asMm(0.1)).ok).toBe(false);
    expect(cuttingTime({ length: asMm(10) }, asRpm(500), asMm(bad)).ok).toBe(false);
    expect(feedRate(asRpm(bad), asMm(0.1)).ok).toBe(false);
    expect(feedRate(asRpm(500), asMm(0.1), bad).ok).toBe(false);
    expect(secondsToFeel(asMm(bad), asRpm(500), { low: asMm(0.1), high: asMm(0.2) }).ok).toBe(false);
  });

  it('a bad low feed is refused even when the high one is sound', () => {
    expect(secondsToFeel(asMm(10), asRpm(500), { low: asMm(0), high: asMm(0.2) }).ok).toBe(false);
  });
});

describe('pecking', () => {
  // Depth shares: drilling reference guide. Steps: common practice, from memory.
  it.each([
    [2, 0, 1, 1],
    [3, 0, 0.9, 0.9],
    [4, 1, 0.8, 0.9],
    [5, 2, 0.7, 0.8],
    [6, 3, 0.6, 0.8],
    [7.5, 5, 0.6, 0.8],
  ])(
    '%f diameters deep: %i withdrawals, %f of the speed, %f of the feed',
    (depth, withdrawals, speedShare, feedShare) => {
      expect(sureOf(peckAdvice(asMm(3), asMm(3 * depth)))).toMatchObject({
        withdrawals,
        speedShare,
        feedShare,
        next: 3,
      });
    },
  );

  it('the pecks reach the depth and the last one does not pass it by more than its step', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 20, noNaN: true }),
        fc.double({ min: 1, max: 200, noNaN: true }),
        (d, depth) => {
          const { first, next, withdrawals } = sureOf(peckAdvice(asMm(d), asMm(depth)));
          const reach = first + next * withdrawals;
          expect(reach).toBeGreaterThanOrEqual(depth - 1e-6);
          expect(reach - depth).toBeLessThan(next + 1e-6);
        },
      ),
    );
  });
});
