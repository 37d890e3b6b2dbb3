import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clearanceHole, clearanceHoles } from '../../src/shop/clearance-holes.ts';
import { asMm } from '../../src/shop/quantities.ts';
import { sureOf } from '../../src/shop/refusal.ts';
import { judgeTapDrill } from '../../src/shop/tap-drills.ts';
import { allThreads, metricThread } from '../../src/shop/thread-list.ts';
import { parseThread } from '../../src/shop/thread-names.ts';
import {
  basesOf,
  type EngagementBasis,
  engagementPercent,
  holeForEngagement,
  threadGeometry,
} from '../../src/shop/threads.ts';
import { inchesToMm, mmToInches } from '../../src/shop/units.ts';
import ba from './fixtures/ba-threads.json' with { type: 'json' };
import metric from './fixtures/metric-threads.json' with { type: 'json' };
import unified from './fixtures/unified-threads.json' with { type: 'json' };
import whitworth from './fixtures/whitworth-threads.json' with { type: 'json' };

const thread = (name: string) => sureOf(parseThread(name));
const percent = (name: string, holeMm: number, basis: EngagementBasis) =>
  sureOf(engagementPercent(thread(name), asMm(holeMm), basis));
const holes = (name: string) => sureOf(clearanceHoles(thread(name))).holes.map((hole) => hole.diameter);

describe('ISO metric threads against ISO 68-1, ISO 724, ISO 965-1, ISO 2306, ISO 273', () => {
  it.each(metric.rows.map((row) => [row.designation, row] as const))('%s has the published numbers', (name, row) => {
    const found = thread(name);
    const geometry = sureOf(threadGeometry('iso', found.major, found.pitch));
    expect([found.major, found.pitch]).toEqual([row.major_diameter_mm, row.pitch_mm]);
    expect(geometry.sharpHeight).toBeCloseTo(row.fundamental_triangle_height_mm, 5);
    expect(Math.abs(geometry.pitchDiameter - row.pitch_diameter_d2_mm)).toBeLessThanOrEqual(0.00051);
    expect(Math.abs(geometry.minor - row.minor_diameter_basic_d1_mm)).toBeLessThanOrEqual(0.00051);
    expect(Math.abs((geometry.externalRoot ?? 0) - row.minor_diameter_external_root_d3_mm)).toBeLessThanOrEqual(
      0.00051,
    );
    expect([found.limits.min, found.limits.max]).toEqual([row.minor_6h_min_mm, row.minor_6h_max_mm]);
    expect(found.tapDrill.diameter).toBe(row.tap_drill_mm);
    expect(percent(name, row.tap_drill_mm, '5H/8')).toBeCloseTo(row.tap_drill_engagement_of_basic_depth_percent, 0);
    expect(percent(name, row.tap_drill_mm, '3H/4')).toBeCloseTo(row.tap_drill_engagement_of_external_depth_percent, 0);
    expect(holes(name)).toEqual([row.clearance_fine_mm, row.clearance_medium_mm, row.clearance_coarse_mm]);
  });

  // ISO 965-1 6H limits, ISO 2306 drills and ISO 273 holes of the coarse sizes completed by us.
  it.each([
    ['M1.6', 1.221, 1.321, 1.25, [1.7, 1.8, 2]],
    ['M6', 4.917, 5.153, 5, [6.4, 6.6, 7]],
    ['M7', 5.917, 6.153, 6, [7.4, 7.6, 8]],
    ['M20', 17.294, 17.744, 17.5, [21, 22, 24]],
    ['M22', 19.294, 19.744, 19.5, [23, 24, 26]],
    ['M24', 20.752, 21.252, 21, [25, 26, 28]],
  ] as const)('%s, completed from the standards, has limits %f to %f and drill %f', (name, min, max, drill, clear) => {
    const found = thread(name);
    expect([found.limits.min, found.limits.max, found.tapDrill.diameter]).toEqual([min, max, drill]);
    expect(holes(name)).toEqual(clear);
  });

  it('M9 x 0.75 is outside the tables and has 8.188 to 8.378 (ASME B1.13M table)', () => {
    const found = thread('M9x0.75');
    expect([found.limits.min, found.limits.max]).toEqual([8.188, 8.378]);
    expect(found.tapDrill).toMatchObject({ diameter: 8.25, confirmed: false });
    expect(sureOf(judgeTapDrill(found, found.tapDrill.diameter)).kind).toBe('within');
  });

  it.each([
    [100, 2],
    [Number.NaN, 1],
    [0, 1],
    [6, 3],
    [6, 0.9],
    [6, Number.POSITIVE_INFINITY],
  ])('a metric thread of %f x %f is refused with the pitches that fit', (major, pitch) => {
    expect(metricThread(major, pitch).ok).toBe(false);
  });
});

describe('Unified threads against ASME B1.1, B18.2.8 and the usual charts', () => {
  it.each(unified.rows.map((row) => [row.designation, row] as const))('%s has the published numbers', (name, row) => {
    const found = thread(name);
    const geometry = sureOf(threadGeometry('iso', found.major, found.pitch));
    expect(mmToInches(found.major)).toBeCloseTo(row.major_diameter_in, 9);
    expect(mmToInches(found.pitch)).toBeCloseTo(row.pitch_in, 5);
    expect(Math.abs(mmToInches(geometry.pitchDiameter) - row.pitch_diameter_basic_in)).toBeLessThan(0.000051);
    expect(Math.abs(mmToInches(geometry.minor) - row.minor_diameter_basic_in)).toBeLessThan(0.000051);
    expect(mmToInches(found.limits.min)).toBeCloseTo(row.minor_2b_min_in, 9);
    expect(mmToInches(found.limits.max)).toBeCloseTo(row.minor_2b_max_in, 9);
    expect(found.tapDrill.diameter).toBeCloseTo(row.tap_drill_mm, 2);
    expect(Math.abs(mmToInches(found.tapDrill.diameter) - row.tap_drill_in)).toBeLessThan(0.000051);
    const drill = found.tapDrill.diameter;
    expect(Math.abs(percent(name, drill, '5H/8') - row.tap_drill_engagement_of_basic_depth_percent)).toBeLessThan(0.2);
    expect(Math.abs(percent(name, drill, '3H/4') - row.tap_drill_engagement_of_external_depth_percent)).toBeLessThan(
      0.2,
    );
    const published = [row.clearance_close_in, row.clearance_normal_in, row.clearance_loose_in];
    if (published[0] === null) expect(clearanceHoles(found).ok).toBe(false);
    else
      for (const [at, hole] of holes(name).entries())
        expect(Math.abs(mmToInches(hole) - (published[at] ?? 0))).toBeLessThan(0.000051);
  });

  it('every 2B row agrees with the tolerance formula of ASME B1.1 within its rounding of 0.0006 in', () => {
    for (const found of allThreads().filter((one) => one.series === 'UNC' || one.series === 'UNF')) {
      const [pitch, major] = [mmToInches(found.pitch), mmToInches(found.major)];
      const large = 0.25 * pitch - 0.4 * pitch ** 2;
      const small = Math.max(large, Math.min(0.394 * pitch, 0.05 * pitch ** (2 / 3) + (0.03 * pitch) / major - 0.002));
      const min = major - 1.0825318 * pitch;
      expect(Math.abs(mmToInches(found.limits.min) - min), found.name).toBeLessThan(0.0006);
      expect(Math.abs(mmToInches(found.limits.max) - min - (major >= 0.25 ? large : small)), found.name).toBeLessThan(
        0.0006,
      );
    }
  });

  // ASME B1.1 class 2B minor limits of the row that charts often miss.
  it('5/16-18 UNC has .252 to .265 and letter F', () => {
    const found = thread('5/16-18 UNC');
    expect([mmToInches(found.limits.min), mmToInches(found.limits.max)].map((x) => x.toFixed(3))).toEqual([
      '0.252',
      '0.265',
    ]);
    expect(found.tapDrill.name).toBe('letter F');
  });
});

describe('British threads', () => {
  // BS 93; 0.005 mm is the rounding of its tables.
  it.each(ba.rows.map((row) => [row.designation, row] as const))('%s has the numbers of BS 93', (name, row) => {
    const found = thread(name);
    const geometry = sureOf(threadGeometry('ba', found.major, found.pitch));
    expect([found.major, found.pitch]).toEqual([row.major_diameter_mm, row.pitch_mm]);
    expect(geometry.minor).toBeCloseTo(row.minor_diameter_mm, 6);
    expect(geometry.pitchDiameter).toBeCloseTo(row.effective_diameter_mm, 6);
    expect(geometry.depth).toBeCloseTo(row.thread_depth_mm, 6);
    expect(found.tapDrill).toMatchObject({ diameter: row.tap_drill_mm, confirmed: row.confirmed });
    expect(holes(name)).toEqual([row.clearance_close_mm]);
    expect(mmToInches(found.tapDrill.others[0] ?? asMm(0))).toBeCloseTo(row.tap_drill_alternative_in, 6);
  });

  it('BA pitches follow 0.9 to the power of the number, to 0.01 mm, and majors 6 p^1.2, to two figures (BS 93)', () => {
    for (const found of allThreads().filter((one) => one.series === 'BA')) {
      const number = Number(found.name.split(' ')[0]);
      expect(found.pitch).toBeCloseTo(Number((0.9 ** number).toFixed(2)), 6);
      expect(found.major).toBeCloseTo(Number((6 * found.pitch ** 1.2).toPrecision(2)), 6);
    }
  });

  // BS 84, BS 1157, model-engineer tables. 3/8 x 40 is left out: its listed 8.7 mm is below its own core of 8.71 mm.
  it.each(whitworth.rows.map((row) => [row.designation, row] as const))('%s has the numbers of BS 84', (name, row) => {
    const found = thread(name);
    const geometry = sureOf(threadGeometry('whitworth', found.major, found.pitch));
    expect(Math.abs(mmToInches(geometry.minor) - row.core_diameter_in)).toBeLessThan(0.00011);
    expect(Math.abs(mmToInches(geometry.pitchDiameter) - row.effective_diameter_in)).toBeLessThan(0.00011);
    if (name !== '3/8-40 ME') expect(found.tapDrill.diameter).toBe(row.tap_drill_mm);
    if (row.clearance_mm === null) expect(clearanceHoles(found).ok).toBe(false);
    else expect(holes(name)).toEqual([row.clearance_mm]);
  });

  it('the 8.7 mm of one list for 3/8 x 40 ME is below its core, so 8.9 mm stands', () => {
    const found = thread('3/8 x 40 ME');
    expect(sureOf(judgeTapDrill(found, asMm(8.7))).kind).toBe('below-minimum');
    expect(found.tapDrill.diameter).toBe(8.9);
  });

  it('Whitworth 1/4-20 has a depth of .032 in and a core of .186 in; 3/16-40 ME a core of .1555 in', () => {
    const quarter = sureOf(threadGeometry('whitworth', inchesToMm(0.25), inchesToMm(1 / 20)));
    expect(mmToInches(quarter.depth)).toBeCloseTo(0.032, 3);
    expect(mmToInches(quarter.minor)).toBeCloseTo(0.186, 3);
    const small = sureOf(threadGeometry('whitworth', inchesToMm(0.1875), inchesToMm(1 / 40)));
    expect(mmToInches(small.minor)).toBeCloseTo(0.1555, 3);
  });
});

describe('engagement', () => {
  // M10: a tap maker's flow chart (common practice). 1-64 UNC: a handbook's tap-drill table. 1/4-20: a thread page. M6: shop
  // convention.
  it('M10 in 8.5 mm is 92.4 % of 5H/8', () => expect(percent('M10', 8.5, '5H/8')).toBeCloseTo(92.4, 1));
  it('no. 1-64 UNC in .061 in is 59 % of 3H/4', () => {
    expect(Math.abs(percent('no. 1-64 UNC', inchesToMm(0.061), '3H/4') - 59)).toBeLessThan(0.6);
  });
  it('1/4-20 for 75 % of 3H/4 wants .2015 in', () => {
    const hole = sureOf(holeForEngagement(thread('1/4-20 UNC'), 75, '3H/4'));
    expect(Math.abs(mmToInches(hole) - 0.2015)).toBeLessThan(0.0005);
  });
  it('M6 for 75 % is 5.188 mm on 5H/8 and 5.026 mm on 3H/4', () => {
    expect(sureOf(holeForEngagement(thread('M6'), 75, '5H/8'))).toBeCloseTo(5.188, 3);
    expect(sureOf(holeForEngagement(thread('M6'), 75, '3H/4'))).toBeCloseTo(5.0257, 3);
  });

  const anyThread = fc.constantFrom(...allThreads());

  it('hole and percentage are each other backwards, and a larger hole leaves less thread', () => {
    fc.assert(
      fc.property(anyThread, fc.double({ min: 1, max: 100, noNaN: true }), (one, share) => {
        for (const basis of basesOf(one.form)) {
          const hole = sureOf(holeForEngagement(one, share, basis));
          expect(sureOf(engagementPercent(one, hole, basis))).toBeCloseTo(share, 6);
          const wider = asMm((hole + one.major) / 2);
          expect(sureOf(engagementPercent(one, wider, basis))).toBeLessThan(share);
        }
      }),
    );
  });

  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY, 101])('%f % is refused', (share) => {
    expect(holeForEngagement(thread('M6'), share, '5H/8').ok).toBe(false);
  });
  it.each([0, -1, 6, 7, Number.NaN])('a hole of %f mm for M6 is refused', (hole) => {
    expect(engagementPercent(thread('M6'), asMm(hole), '5H/8').ok).toBe(false);
  });
  it.each([
    [0, 1],
    [6, 0],
    [6, 5],
    [300, 1],
    [Number.NaN, 1],
    [6, Number.NaN],
  ])('geometry of %f x %f is refused', (major, pitch) => {
    for (const form of ['iso', 'whitworth', 'ba'] as const) {
      expect(threadGeometry(form, asMm(major), asMm(pitch)).ok).toBe(false);
    }
  });
});

describe('clearance holes', () => {
  it('M12 is 13 fine, 13.5 medium, 14.5 coarse (ISO 273), the middle one when no fit is said', () => {
    expect(holes('M12')).toEqual([13, 13.5, 14.5]);
    expect(sureOf(clearanceHole(thread('M12')))).toMatchObject({ fit: 'medium', diameter: 13.5, name: '13.5 mm' });
  });
  it('M8 coarse is 10 (ISO 273)', () => expect(sureOf(clearanceHole(thread('M8'), 'coarse')).diameter).toBe(10));
  it('4 BA has the one hole of the trade tables', () => {
    expect(sureOf(clearanceHole(thread('4 BA')))).toMatchObject({ fit: 'close', diameter: 3.7 });
  });
  it('a fit that the standard does not have is refused with those that it has', () => {
    const found = clearanceHole(thread('M8'), 'loose');
    expect(found).toMatchObject({ ok: false, problem: { found: 'fit loose', allowed: 'fine, medium, coarse' } });
  });
  it.each(['M9x0.75', 'no. 12-24 UNC', '1/2-16 BSF', '1/2 x 32 ME', '9/16-12 UNC'])(
    '%s has none and is refused',
    (name) => {
      expect(clearanceHole(thread(name)).ok).toBe(false);
    },
  );
  it('rows from memory say so', () => {
    expect(sureOf(clearanceHoles(thread('3/4-10 UNC'))).confirmed).toBe(false);
    expect(sureOf(clearanceHoles(thread('1/4-20 UNC'))).confirmed).toBe(true);
  });
  it('every hole clears its screw, each fit wider than the one before', () => {
    for (const one of allThreads()) {
      const found = clearanceHoles(one);
      if (!found.ok) continue;
      const sizes = [one.major, ...found.value.holes.map((hole) => hole.diameter)];
      expect(
        [...sizes].sort((a, b) => a - b),
        one.name,
      ).toEqual(sizes);
    }
  });
});
