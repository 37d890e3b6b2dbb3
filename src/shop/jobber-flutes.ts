/**
 * How deep a common (jobber) drill can go before its flutes end and chips no longer get out.
 *
 * Source: flute lengths of DIN 338, from memory; drills of other makers and of inch sizes are near them.
 */
import { asMm, type Mm } from './quantities.ts';

/** Up to and including this diameter, the flutes are this long; mm. */
const FLUTES: readonly (readonly [upTo: number, flutes: number])[] = [
  [1, 12],
  [1.5, 18],
  [2, 24],
  [2.5, 30],
  [3, 33],
  [3.3, 36],
  [4, 43],
  [5, 52],
  [6, 57],
  [7, 69],
  [8, 75],
  [9, 81],
  [10, 87],
  [11, 94],
  [13, 101],
  [14, 108],
  [16, 120],
  [20, 140],
];

/**
 * Usual flute length of a jobber drill in mm; undefined below 0.8 mm and above 20 mm.
 *
 * Example: a 5 mm drill has flutes of about 52 mm.
 */
export function jobberFlutes(diameter: Mm): Mm | undefined {
  if (!(diameter >= 0.8)) return undefined;
  const row = FLUTES.find(([upTo]) => diameter <= upTo + 1e-6);
  return row === undefined ? undefined : asMm(row[1]);
}
