/** The topic of the mass of stock. */
import { andThen, answer, type Result, refuse } from '../../shop/refusal.ts';
import { densityOf, massOfStock, type Section, sectionArea } from '../../shop/stock-mass.ts';
import { diameter, lengthList, positiveLength, wholeNumber } from './readers.ts';
import { type Asked, read, readIf, readOr, type Topic, withAll } from './topic.ts';
import { sayCount, sayLength, sayNumber } from './words.ts';

export const mass: Topic = {
  name: 'mass',
  summary: 'mass of stock by section, length and material',
  flags: [
    { name: 'round', value: 'LENGTH', meaning: 'diameter of a round bar; with --wall of a tube' },
    { name: 'square', value: 'LENGTH', meaning: 'side of a square bar' },
    { name: 'hexagon', value: 'LENGTH', meaning: 'width across flats' },
    { name: 'flat', value: 'WIDTH,THICKNESS', meaning: 'a flat bar: "40 mm, 10 mm"' },
    { name: 'wall', value: 'LENGTH', meaning: 'with --round: wall of a tube', with: ['round'] },
    { name: 'length', value: 'LENGTH', meaning: 'length of one piece' },
    { name: 'material', value: 'NAME', meaning: 'its usual density, from memory' },
    { name: 'density', value: 'KG/M3', meaning: 'instead: kilograms in a cubic metre' },
    { name: 'pieces', value: 'NUMBER', meaning: 'pieces; 1 when left out' },
  ],
  needs: [['round', 'square', 'hexagon', 'flat'], ['length'], ['material', 'density']],
  apart: [
    ['round', 'square', 'hexagon', 'flat'],
    ['material', 'density'],
  ],
  example: 'mass --round "20 mm" --length "1000 mm" --material "mild steel"',
  run: (asked) =>
    withAll(
      {
        section: sectionOf(asked),
        length: read(asked, 'length', positiveLength),
        density: asked.given.has('density') ? read(asked, 'density', plainDensity) : read(asked, 'material', densityOf),
        pieces: readOr(asked, 'pieces', wholeNumber, 1),
      },
      ({ section, length, density, pieces }) =>
        withAll({ kg: massOfStock(section, length, density, pieces), area: sectionArea(section) }, ({ kg, area }) =>
          answer({
            text: `${sayNumber(kg, 3)} kg (${sayNumber(kg / KG_PER_LB, 2)} lb)`,
            working: [
              `${section.kind}, ${sayNumber(area)} mm2 x ${sayLength(length, asked.unit)}, ${sayCount(pieces, 'piece')}, ${density} kg/m3${asked.given.has('density') ? '' : ' (from memory)'}`,
            ],
            fields: {
              mass_kg: kg,
              mass_lb: kg / KG_PER_LB,
              area_mm2: area,
              density_kg_per_m3: density,
              length_mm: length,
              pieces,
            },
          }),
        ),
    ),
};

/** Kilograms in a pound, exact (international yard and pound agreement of 1959). */
const KG_PER_LB = 0.45359237;

const plainDensity = (text: string): Result<number> => {
  const value = /^\s*(\d+(?:\.\d+)?)(?:\s*kg\/m3)?\s*$/u.exec(text)?.[1];
  return value === undefined
    ? refuse({
        what: 'density',
        found: `"${text}"`,
        allowed: 'kg/m3 such as 7850',
        remedy: 'write kilograms in a cubic metre',
      })
    : answer(Number(value));
};

function sectionOf(asked: Asked): Result<Section> {
  const has = (flag: string): boolean => asked.given.has(flag);
  if (has('round')) {
    return withAll(
      { across: read(asked, 'round', diameter), wall: readIf(asked, 'wall', positiveLength) },
      ({ across, wall }) =>
        answer<Section>(
          wall === undefined ? { kind: 'round', diameter: across } : { kind: 'tube', outside: across, wall },
        ),
    );
  }
  if (has('square')) {
    return andThen(read(asked, 'square', positiveLength), (side) => answer<Section>({ kind: 'square', side }));
  }
  if (has('hexagon')) {
    return andThen(read(asked, 'hexagon', positiveLength), (acrossFlats) =>
      answer<Section>({ kind: 'hexagon', acrossFlats }),
    );
  }
  return andThen(read(asked, 'flat', lengthList), ([width, thickness, ...more]) =>
    width === undefined || thickness === undefined || more.length > 0
      ? refuse({
          what: '--flat',
          found: `"${asked.given.get('flat')}"`,
          allowed: 'WIDTH,THICKNESS such as 40 mm, 10 mm',
          remedy: 'write two lengths with a comma between them',
        })
      : answer<Section>({ kind: 'flat', width, thickness }),
  );
}
