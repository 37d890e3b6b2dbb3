import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Cut, cuttingSpeedAdvice, STARTING_VALUE } from '../../src/shop/cutting-speeds.ts';
import { materialNames } from '../../src/shop/materials.ts';
import { asMetresPerMinute, asMm, asRpm } from '../../src/shop/quantities.ts';
import { sureOf } from '../../src/shop/refusal.ts';
import {
  chooseCommonSpeed,
  chooseSpeed,
  cuttingSpeedAt,
  fastestSpeed,
  type SpindleSpeeds,
  slowestSpeed,
  spindleSpeed,
} from '../../src/shop/speeds.ts';
import { CUTTING_SPEEDS } from '../../src/shop/tables/cutting-speeds.ts';
import { asFeetPerMinute, feetPerMinute, inchesToMm } from '../../src/shop/units.ts';
import published from './fixtures/cutting-speeds.json' with { type: 'json' };

const steps = (...rpm: number[]): SpindleSpeeds => ({ kind: 'steps', steps: rpm.map(asRpm) });
const range = (slowest: number, fastest: number): SpindleSpeeds => ({
  kind: 'range',
  slowest: asRpm(slowest),
  fastest: asRpm(fastest),
});
const choose = (wanted: number, speeds: SpindleSpeeds) => sureOf(chooseSpeed(asRpm(wanted), speeds));
const BELT_MILL = steps(200, 340, 560, 950, 1600, 2700);

describe('spindle speed', () => {
  // n = 1000 v / (pi d), any handbook.
  it.each([
    [30, 10, 954.93],
    [25, 2.5, 3183.1],
  ])('%f m/min at %f mm is %f rpm', (speed, diameter, rpm) => {
    expect(Math.abs(sureOf(spindleSpeed(asMetresPerMinute(speed), asMm(diameter))) - rpm)).toBeLessThan(0.05);
  });

  // University shop page (first four), tapping chart (80 ft/min), worked batch of our own (the rest).
  it.each([
    [300, 0.25, 4584],
    [300, 0.125, 9167],
    [120, 0.375, 1222],
    [120, 0.5, 917],
    [80, 0.25, 1223],
    [300, 0.5, 2291.8],
    [200, 0.395, 1934.0],
    [200, 0.18, 4244.1],
    [200, 0.136, 5617.2],
    [200, 0.3594, 2125.6],
    [100, 0.375, 1018.6],
  ])('%f ft/min at %f in is %f rpm', (speed, diameter, rpm) => {
    expect(Math.abs(sureOf(spindleSpeed(feetPerMinute(speed), inchesToMm(diameter))) - rpm)).toBeLessThan(1);
  });

  // Polymer design guide: acetal, 13 mm at 1500 rpm.
  it('1500 rpm at 13 mm is 61.261 m/min', () => {
    expect(sureOf(cuttingSpeedAt(asRpm(1500), asMm(13)))).toBeCloseTo(61.261, 3);
  });

  it('no. 29 at 2700 rpm is 96 ft/min', () => {
    expect(asFeetPerMinute(sureOf(cuttingSpeedAt(asRpm(2700), inchesToMm(0.136))))).toBeCloseTo(96.1, 1);
  });

  const speed = fc.double({ min: 1, max: 500, noNaN: true });
  const diameter = fc.double({ min: 0.3, max: 250, noNaN: true });

  it('goes there and back, up with cutting speed and down with diameter', () => {
    fc.assert(
      fc.property(speed, diameter, (v, d) => {
        const rpm = sureOf(spindleSpeed(asMetresPerMinute(v), asMm(d)));
        if (rpm <= 100_000) expect(sureOf(cuttingSpeedAt(rpm, asMm(d)))).toBeCloseTo(v, 6);
        expect(sureOf(spindleSpeed(asMetresPerMinute(v * 1.1), asMm(d)))).toBeGreaterThan(rpm);
        expect(sureOf(spindleSpeed(asMetresPerMinute(v), asMm(d * 0.9)))).toBeGreaterThan(rpm);
      }),
    );
  });

  it.each([
    [0, 10],
    [-30, 10],
    [Number.NaN, 10],
    [Number.POSITIVE_INFINITY, 10],
    [30, 0],
    [30, -1],
    [30, 400],
    [30, Number.NaN],
    [5000, 10],
  ])('%f m/min at %f mm is refused', (v, d) => expect(spindleSpeed(asMetresPerMinute(v), asMm(d)).ok).toBe(false));

  it.each([
    [1e9, 10],
    [0, 10],
    [Number.NaN, 10],
    [950, 0],
  ])('%f rpm at %f mm is refused', (rpm, d) => expect(cuttingSpeedAt(asRpm(rpm), asMm(d)).ok).toBe(false));
});

describe('the speed to set', () => {
  it.each([
    [954.93, steps(90, 150, 240, 400, 680, 1100), 680],
    [1934, BELT_MILL, 1600],
    [1018.6, BELT_MILL, 950],
    [950, BELT_MILL, 950],
    [949.99, BELT_MILL, 560],
    [4584, range(100, 3000), 3000],
    [954.93, range(100, 3000), 954],
    [100.4, range(100.2, 3000), 100.2],
  ] as const)('for %f rpm is never above it', (wanted, speeds, rpm) => {
    expect(choose(wanted, speeds)).toMatchObject({ kind: 'chosen', rpm });
  });

  it('200 as the slowest is 2.11 times a wanted 95', () => {
    const found = choose(95, steps(200, 350, 500, 750, 1100, 1700, 2600));
    expect(found).toMatchObject({ kind: 'slowest-too-fast', slowest: 200, wanted: 95 });
    expect(found.kind === 'slowest-too-fast' ? found.times : 0).toBeCloseTo(2.11, 2);
    expect(choose(95, range(200, 2000)).kind).toBe('slowest-too-fast');
  });

  it('says when the tool would take more than there is, and when much more', () => {
    expect(choose(5617.2, BELT_MILL)).toMatchObject({ rpm: 2700, fastestTooSlow: true, muchBelow: true });
    expect(choose(4583.7, BELT_MILL)).toMatchObject({ rpm: 2700, fastestTooSlow: true, muchBelow: false });
    expect(choose(1934, BELT_MILL)).toMatchObject({ fastestTooSlow: false, muchBelow: false });
  });

  it('drill and reamer in one clamping share 950', () => {
    expect(sureOf(chooseCommonSpeed([asRpm(2125.8), asRpm(1018.6)], BELT_MILL))).toMatchObject({ rpm: 950 });
    expect(chooseCommonSpeed([], BELT_MILL).ok).toBe(false);
  });

  it('is one the machine has, at or below the wanted, and no other there is nearer', () => {
    const anySteps = fc.array(fc.integer({ min: 20, max: 5000 }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(fc.double({ min: 1, max: 8000, noNaN: true }), anySteps, (wanted, list) => {
        const found = choose(wanted, steps(...list));
        if (found.kind === 'slowest-too-fast') {
          expect(Math.min(...list)).toBeGreaterThan(wanted);
          return;
        }
        expect(list).toContain(found.rpm);
        expect(found.rpm).toBeLessThanOrEqual(wanted * (1 + 1e-9));
        expect(list.filter((step) => step > found.rpm && step <= wanted)).toEqual([]);
      }),
    );
  });

  it.each([
    [Number.NaN, steps(100)],
    [0, steps(100)],
    [100, steps()],
    [100, steps(0, 100)],
    [100, steps(Number.NaN)],
    [100, steps(1e9)],
    [100, range(300, 100)],
    [100, range(0, 100)],
    [100, range(100, Number.POSITIVE_INFINITY)],
  ])('bad speeds are refused (%f)', (wanted, speeds) => expect(chooseSpeed(asRpm(wanted), speeds).ok).toBe(false));

  it('slowest and fastest do not depend on the order of the steps', () => {
    expect([slowestSpeed(steps(300, 100, 200)), fastestSpeed(steps(300, 100, 200))]).toEqual([100, 300]);
    expect([slowestSpeed(range(5, 9)), fastestSpeed(range(5, 9))]).toEqual([5, 9]);
  });
});

describe('cutting speeds to start from', () => {
  it.each(published.rows.map((row) => [`${row.cut} ${row.printed_as} ${row.tool}`, row] as const))(
    'the table holds %s as published',
    (_, row) => {
      const inMetres = (value: number, unit: string) => (unit === 'm/min' ? value : feetPerMinute(value));
      const same = CUTTING_SPEEDS.some(
        (one) =>
          one.material === row.material &&
          one.cut === row.cut &&
          one.tool === row.tool &&
          (one.as ?? one.material) === row.printed_as &&
          Math.abs(inMetres(one.low, one.unit) - row.low_m_per_min) < 0.051 &&
          Math.abs(inMetres(one.high, one.unit) - row.high_m_per_min) < 0.051,
      );
      expect(same).toBe(true);
    },
  );

  const CUTS: readonly Cut[] = ['drill', 'spot', 'ream', 'countersink', 'chamfer', 'counterbore', 'mill', 'tap'];

  // US Navy training course 14345: mild steel 80 to 110 ft/min, aluminium 200 to 300, carbon-steel drills half.
  it('drilling mild steel starts at 80 ft/min, half of it in a carbon-steel drill, and says why', () => {
    const found = sureOf(cuttingSpeedAdvice('mild steel', 'drill'));
    expect([found.low, found.high, found.start].map((v) => asFeetPerMinute(v))).toEqual([
      expect.closeTo(80, 6),
      expect.closeTo(110, 6),
      expect.closeTo(80, 6),
    ]);
    expect(found).toMatchObject({ confirmed: true, basis: expect.stringContaining('the low end') });
    const carbon = sureOf(cuttingSpeedAdvice('mild steel', 'drill', 'carbon steel'));
    expect(carbon.start).toBeCloseTo(found.start / 2, 9);
  });

  it('reaming takes half of drilling, countersinking half and says that it is from memory, spotting as drilling', () => {
    for (const material of materialNames()) {
      const drill = sureOf(cuttingSpeedAdvice(material, 'drill'));
      expect(sureOf(cuttingSpeedAdvice(material, 'ream')).start).toBeCloseTo(drill.start / 2, 9);
      expect(sureOf(cuttingSpeedAdvice(material, 'spot')).start).toBeCloseTo(drill.start, 9);
      const sink = sureOf(cuttingSpeedAdvice(material, 'countersink'));
      expect(sink.start).toBeCloseTo(drill.start / 2, 9);
      expect(sink).toMatchObject({ confirmed: false, basis: expect.stringContaining('from memory') });
    }
  });

  it('carbide doubles, tapping alloy steel is a quarter of drilling, milling it as drilling, both from memory', () => {
    const mill = sureOf(cuttingSpeedAdvice('aluminium', 'mill'));
    expect(sureOf(cuttingSpeedAdvice('aluminium', 'mill', 'carbide')).start).toBeCloseTo(2 * mill.start, 9);
    const drill = sureOf(cuttingSpeedAdvice('alloy steel', 'drill'));
    expect(sureOf(cuttingSpeedAdvice('alloy steel', 'tap'))).toMatchObject({
      start: drill.start / 4,
      confirmed: false,
    });
    expect(sureOf(cuttingSpeedAdvice('alloy steel', 'mill'))).toMatchObject({ start: drill.start, confirmed: false });
  });

  it('a material without a row borrows a like one and says so', () => {
    expect(sureOf(cuttingSpeedAdvice('acetal', 'tap'))).toMatchObject({
      confirmed: false,
      basis: expect.stringContaining('value of plastics'),
    });
  });

  it('every material takes every cut, but wood no tap; the start lies in its range', () => {
    for (const material of materialNames()) {
      for (const cut of CUTS) {
        const found = cuttingSpeedAdvice(material, cut);
        expect(found.ok, `${cut} ${material}`).toBe(!(material === 'wood' && cut === 'tap'));
        if (!found.ok) continue;
        expect(found.value.low).toBeGreaterThan(0);
        expect(found.value.start).toBeGreaterThanOrEqual(found.value.low);
        expect(found.value.start).toBeLessThanOrEqual(found.value.high);
      }
    }
    expect(STARTING_VALUE).toContain('starting value');
  });

  // Woodworking charts, rpm by drill: softwood 3000 (6.35 to 9.5 mm) and 1500 (11.1 to 15.9 mm), hardwood half of it.
  it.each([
    [6.35, 3000, 1500],
    [9.5, 3000, 1500],
    [11.1, 1500, 750],
    [15.9, 1500, 750],
  ])('a drill of %f mm starts in wood no faster than about %f rpm', (diameter, softwood, hardwood) => {
    const { start, high } = sureOf(cuttingSpeedAdvice('wood', 'drill'));
    const rpm = sureOf(spindleSpeed(start, asMm(diameter)));
    expect(rpm).toBeLessThan(softwood);
    expect(rpm).toBeLessThan(1.2 * hardwood);
    expect(sureOf(spindleSpeed(high, asMm(diameter)))).toBeGreaterThan(hardwood);
  });

  it('no aluminium drilling speed is the misprinted 195 m/min or more', () => {
    const rows = CUTTING_SPEEDS.filter((row) => row.material === 'aluminium' && row.cut === 'drill');
    for (const row of rows) expect(row.unit === 'm/min' ? row.high : feetPerMinute(row.high)).toBeLessThan(125);
  });
});
