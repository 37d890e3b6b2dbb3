import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asMm } from '../../src/shop/quantities.ts';
import { formatRefusal, sureOf } from '../../src/shop/refusal.ts';
import { densityMaterials, densityOf, massOfStock, type Section, sectionArea } from '../../src/shop/stock-mass.ts';
import { inchesToMm } from '../../src/shop/units.ts';

describe('area and mass of stock', () => {
  it.each<[string, Section, number]>([
    ['round 20', { kind: 'round', diameter: asMm(20) }, 314.159],
    ['square 10', { kind: 'square', side: asMm(10) }, 100],
    // sqrt(3) / 2 x 17^2
    ['hexagon 17', { kind: 'hexagon', acrossFlats: asMm(17) }, 250.281],
    ['flat 40 x 10', { kind: 'flat', width: asMm(40), thickness: asMm(10) }, 400],
    ['tube 20 x 2', { kind: 'tube', outside: asMm(20), wall: asMm(2) }, 113.097],
    ['tube without a bore', { kind: 'tube', outside: asMm(20), wall: asMm(10) }, 314.159],
  ])('%s', (_name, section, area) => {
    expect(sureOf(sectionArea(section))).toBeCloseTo(area, 3);
  });

  it('the worked batch: 63 blanks of 2.560 x 1.500 x .750 in at .0975 lb/in3 (from memory) weigh 17.7 lb', () => {
    const section: Section = { kind: 'flat', width: inchesToMm(1.5), thickness: inchesToMm(0.75) };
    const kgPerLb = 0.45359237;
    const density = (0.0975 * kgPerLb) / 0.0254 ** 3;
    expect(sureOf(massOfStock(section, inchesToMm(2.56), density, 63)) / kgPerLb).toBeCloseTo(17.7, 1);
    expect(sureOf(massOfStock(section, inchesToMm(2.56), sureOf(densityOf('aluminium')), 63)) / kgPerLb).toBeCloseTo(
      17.7,
      1,
    );
  });

  it('twice the length or twice the pieces is twice the mass', () => {
    const size = fc.double({ min: 1, max: 400, noNaN: true });
    fc.assert(
      fc.property(size, size, (side, length) => {
        const section: Section = { kind: 'square', side: asMm(side) };
        const one = sureOf(massOfStock(section, asMm(length), 7850));
        expect(sureOf(massOfStock(section, asMm(2 * length), 7850))).toBeCloseTo(2 * one, 9);
        expect(sureOf(massOfStock(section, asMm(length), 7850, 2))).toBeCloseTo(2 * one, 9);
      }),
    );
  });

  it('a metre of 20 mm round steel weighs 2.47 kg (usual stock list value)', () => {
    expect(sureOf(massOfStock({ kind: 'round', diameter: asMm(20) }, asMm(1000), 7850))).toBeCloseTo(2.466, 3);
  });

  it('knows a density for each listed material, and names the nearest for one that it does not know', () => {
    for (const material of densityMaterials) expect(sureOf(densityOf(material))).toBeGreaterThan(1000);
    expect(sureOf(densityOf(' Brass '))).toBe(8500);
    expect(sureOf(densityOf('6061-T6'))).toBe(2700);
    expect(densityOf('wood').ok).toBe(false);
    const unknown = densityOf('alumnium');
    expect(unknown.ok ? '' : formatRefusal(unknown.problem)).toContain('nearest known: aluminium');
    const empty = densityOf('');
    expect(empty.ok ? '' : formatRefusal(empty.problem)).toContain('(empty)');
    const strange = densityOf('unobtainable-xyzzyq');
    expect(strange.ok ? '' : formatRefusal(strange.problem)).toContain('give the density');
  });

  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY, 5000])('a size of %s mm is refused', (mm) => {
    const size = asMm(mm);
    const sections: readonly Section[] = [
      { kind: 'round', diameter: size },
      { kind: 'square', side: size },
      { kind: 'hexagon', acrossFlats: size },
      { kind: 'flat', width: size, thickness: asMm(5) },
      { kind: 'flat', width: asMm(5), thickness: size },
      { kind: 'tube', outside: size, wall: asMm(1) },
      { kind: 'tube', outside: asMm(20), wall: size },
    ];
    for (const section of sections) expect(sectionArea(section).ok).toBe(false);
  });

  it('a density, length or number of pieces out of range is refused', () => {
    const section: Section = { kind: 'round', diameter: asMm(20) };
    expect(massOfStock(section, asMm(100), 7.85).ok).toBe(false);
    expect(massOfStock(section, asMm(0), 7850).ok).toBe(false);
    expect(massOfStock(section, asMm(100), 7850, 1.5).ok).toBe(false);
  });
});
