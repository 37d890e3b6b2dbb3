/** Words for numbers, as the answers of `reckon` write them. */
import { asMm, type Mm } from '../../shop/quantities.ts';
import { formatLength, formatTrimmed, type LengthUnit, mmToInches } from '../../shop/units.ts';

/** A length for the reader: `3.004 mm` or `.1183 in`. */
export const sayLength = (mm: number, unit: LengthUnit): string => formatLength(asMm(mm), unit, unit === 'mm' ? 3 : 4);

/** A length in both units, the reader's first: `5.188 mm (.2043 in)`. */
export const sayBoth = (mm: Mm, unit: LengthUnit): string =>
  `${sayLength(mm, unit)} (${sayLength(mm, unit === 'mm' ? 'inch' : 'mm')})`;

/** A signed length: `+5 mm`, `-5 mm`, `0 mm`. */
export const saySigned = (mm: number, unit: LengthUnit): string =>
  mm > 0 ? `+${sayLength(mm, unit)}` : sayLength(mm, unit);

/** A number with up to so many decimals. */
export const sayNumber = (value: number, decimals = 2): string => formatTrimmed(value, decimals);

/** What a value rests on; that it is common practice is said once, not twice. */
export const saySource = (source: string, confirmed: boolean): string => {
  if (confirmed) return `source: ${source}`;
  return /common practice|from memory/u.test(source) ? source : `common practice: ${source}`;
};

/** `1 blank`, `3 blanks`. */
export const sayCount = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

/** Decimals by name, for what is multiplied on: a pitch of 32 an inch, the answer of a conversion. */
const DECIMALS_BY_NAME: Readonly<Record<string, number>> = { length_mm: 5, pitch_mm: 5 };

/** Decimals by unit suffix of a field's name; any other number has six. */
const DECIMALS: readonly (readonly [suffix: string, decimals: number])[] = [
  ['_mm', 3],
  ['_in', 5],
  ['_mm2', 2],
  ['_um', 1],
  ['_deg', 4],
  ['_arcmin', 2],
  ['_rpm', 2],
  ['_m_per_min', 2],
  ['_ft_per_min', 1],
  ['_mm_per_min', 2],
  ['_s', 2],
  ['_percent', 2],
  ['_kg', 3],
  ['_lb', 3],
  ['_turns', 3],
];

/** A field rounded by the unit in its name: micrometres of a length, hundredths of a turn a minute. */
export function roundField(name: string, value: number): number {
  const bySuffix = DECIMALS.find(([suffix]) => name.endsWith(suffix))?.[1] ?? 6;
  return Number(formatTrimmed(value, DECIMALS_BY_NAME[name] ?? bySuffix));
}

/** The inch twin of a field in millimetres: its name and value. */
export const inchTwin = (name: string, mm: number): readonly [string, number] => [
  name.replace(/_mm$/u, '_in'),
  roundField('_in', mmToInches(asMm(mm))),
];
