/**
 * Mass of stock: cross-section times length times density.
 *
 * Densities are usual values from memory, good to about one part in a hundred; a certificate or a scale rules. Areas are
 * those of sharp-cornered sections: rolled corners and tolerances are left out.
 */
import { findMaterial } from './materials.ts';
import { asMm, type Mm } from './quantities.ts';
import { POSITIVE_LENGTH } from './ranges.ts';
import { answer, type Range, type Refusal, type Result, refuse, refuseOutside, sureRow, whenSound } from './refusal.ts';
import { suggestNames } from './suggest-name.ts';
import { refuseUnlessWhole } from './whole.ts';

/** Cross-section of a bar. */
export type Section =
  | { readonly kind: 'round'; readonly diameter: Mm }
  | { readonly kind: 'square'; readonly side: Mm }
  | { readonly kind: 'hexagon'; readonly acrossFlats: Mm }
  | { readonly kind: 'flat'; readonly width: Mm; readonly thickness: Mm }
  | { readonly kind: 'tube'; readonly outside: Mm; readonly wall: Mm };

// Kilograms in a cubic metre, from memory (usual textbook values). Names joined by / mean one density.
const DENSITIES: readonly (readonly [names: string, kgPerM3: number])[] = [
  ['mild steel/steel/free-cutting steel/medium carbon steel/alloy steel/tool steel/silver steel', 7850],
  ['stainless steel/free-machining stainless steel', 7900],
  ['cast iron', 7200],
  ['aluminium', 2700],
  ['brass', 8500],
  ['bronze', 8800],
  ['copper', 8940],
  ['titanium', 4500],
  ['zinc', 7140],
  ['acetal', 1410],
  ['nylon', 1140],
];

/** Names of materials with a density here, one for each, in the order of the table. */
export const densityMaterials: readonly string[] = DENSITIES.map(([names]) => sureRow(names.split('/')[0]));

const DENSITY: Range = {
  what: 'density',
  unit: 'kg/m3',
  from: 100,
  upTo: 25_000,
  remedy: 'give kilograms in a cubic metre, such as 7850 for steel',
};
const PIECES: Range = { what: 'number of pieces', unit: '', from: 1, upTo: 100_000, remedy: 'give a whole number' };
const SIZE: Range = { ...POSITIVE_LENGTH, upTo: 1000 };

/**
 * Density of a material by name, in kilograms in a cubic metre, from memory.
 *
 * @param material a name here, or any name that `findMaterial` knows.
 * @returns a refusal that names the nearest known materials for others.
 *
 * Example: `brass` is 8500, `6061-T6` is 2700.
 */
export function densityOf(material: string): Result<number> {
  const wanted = material.trim().toLowerCase();
  const found = findMaterial(material);
  const row = rowOf(wanted) ?? (found.ok ? rowOf(found.value) : undefined);
  if (row !== undefined) return answer(row[1]);
  const known = DENSITIES.flatMap(([names]) => names.split('/'));
  const near = suggestNames(wanted, known);
  return refuse({
    what: 'material',
    found: wanted === '' ? '(empty)' : material,
    allowed: `one of ${densityMaterials.join(', ')}`,
    remedy: near.length > 0 ? `nearest known: ${near.join(', ')}; or give the density` : 'or give the density in kg/m3',
  });
}

const rowOf = (name: string): readonly [names: string, kgPerM3: number] | undefined =>
  DENSITIES.find(([names]) => names.split('/').includes(name));

/**
 * Area of a cross-section in square millimetres.
 *
 * @param section every size above 0 and at most 1000 mm; a wall less than half the outside.
 *
 * Example: round 20 is 314.159; hexagon 17 across flats is 250.281 (sqrt(3)/2 s^2); flat 40 x 10 is 400.
 */
export function sectionArea(section: Section): Result<number> {
  return whenSound(refuseSection(section), () => areaOf(section));
}

/**
 * Mass of pieces of stock, in kilograms.
 *
 * @param length of one piece, above 0. @param densityKgPerM3 100 to 25,000. @param pieces 1 to 100,000.
 *
 * Example: 63 blanks of 2.560 in from flat 1.500 x .750 in at 2699 kg/m3 (.0975 lb/in3) weigh 8.02 kg (17.7 lb).
 */
export function massOfStock(section: Section, length: Mm, densityKgPerM3: number, pieces = 1): Result<number> {
  const checks = [
    ...refuseSection(section),
    refuseOutside(length, { ...POSITIVE_LENGTH, what: 'length of stock' }),
    refuseOutside(densityKgPerM3, DENSITY),
    refuseUnlessWhole(pieces, PIECES),
  ];
  return whenSound(checks, () => (areaOf(section) * length * pieces * densityKgPerM3) / 1e9);
}

function areaOf(section: Section): number {
  switch (section.kind) {
    case 'round':
      return (Math.PI / 4) * section.diameter ** 2;
    case 'square':
      return section.side ** 2;
    case 'hexagon':
      return (Math.sqrt(3) / 2) * section.acrossFlats ** 2;
    case 'flat':
      return section.width * section.thickness;
    case 'tube':
      return Math.PI * section.wall * (section.outside - section.wall);
  }
}

function refuseSection(section: Section): readonly (Refusal | undefined)[] {
  const size = (value: Mm, what: string): Refusal | undefined => refuseOutside(value, { ...SIZE, what });
  switch (section.kind) {
    case 'round':
      return [size(section.diameter, 'diameter')];
    case 'square':
      return [size(section.side, 'side')];
    case 'hexagon':
      return [size(section.acrossFlats, 'width across flats')];
    case 'flat':
      return [size(section.width, 'width'), size(section.thickness, 'thickness')];
    case 'tube':
      return [
        size(section.outside, 'outside diameter'),
        refuseOutside(section.wall, { ...SIZE, what: 'wall', upTo: asMm(section.outside / 2) }),
      ];
  }
}
