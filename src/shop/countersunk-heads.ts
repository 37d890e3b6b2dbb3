/**
 * Countersunk screw heads: how wide the countersink must be so that the head lies flush, or below by a stated amount. Old
 * DIN heads are named as such, for they differ from the ISO heads of the same thread: ask which screw, or measure one.
 */
import { quoteText, tidyText } from './number-text.ts';
import { asDegrees, asMm, type Degrees, type Mm } from './quantities.ts';
import { ALLOWANCE, HOLE_DIAMETER } from './ranges.ts';
import { type Result, refuse, refuseOutside, whenSound } from './refusal.ts';
import { suggestNames } from './suggest-name.ts';
import {
  type CountersunkHeadRow,
  DIN_963_965,
  DIN_7991,
  ISO_2009_7046,
  ISO_10642,
} from './tables/countersunk-heads.ts';

export type HeadStandard = 'ISO 10642' | 'ISO 2009/7046' | 'DIN 963/965' | 'DIN 7991';

/** The standards in the order in which they are offered: present ones first. */
export const HEAD_STANDARDS: readonly HeadStandard[] = ['ISO 10642', 'ISO 2009/7046', 'DIN 963/965', 'DIN 7991'];

const ROWS: Readonly<Record<HeadStandard, readonly CountersunkHeadRow[]>> = {
  'ISO 10642': ISO_10642,
  'ISO 2009/7046': ISO_2009_7046,
  'DIN 963/965': DIN_963_965,
  'DIN 7991': DIN_7991,
};

/** Included angle of every head in the tables. */
const HEAD_ANGLE = asDegrees(90);

export interface CountersunkHead {
  readonly standard: HeadStandard;
  readonly size: string;
  /** Withdrawn standard: screws of it differ from present ones of the same thread. */
  readonly withdrawn: boolean;
  readonly angle: Degrees;
  /** Where the cone of the largest head would end at the head's face; a mouth of this size puts it flush. */
  readonly sharp: Mm;
  readonly height: Mm;
  /** Mouth that the standard wants for the countersink; the sharp diameter where it names none. */
  readonly countersink: Mm;
  /** Over the rim, as a caliper reads it, where the standard tells. */
  readonly least?: Mm;
  readonly largest?: Mm;
}

/**
 * Reads the name of a head standard: `ISO 10642`, `ISO 2009`, `ISO 7046`, `DIN 963`, `DIN 965`, `DIN 7991`, in any case and
 * spacing. Unknown ones are refused with those that are known.
 */
export function parseHeadStandard(given: string): Result<HeadStandard> {
  const tidy = tidyText(given, 'head standard', 'ISO 10642');
  if (!tidy.ok) return tidy;
  const plain = tidy.value.replace(/[ -]/gu, '');
  const found = HEAD_STANDARDS.find((standard) => {
    const [body, numbers = ''] = standard.toLowerCase().split(' ');
    return [numbers, ...numbers.split('/')].some((number) => plain === `${body}${number}`);
  });
  if (found !== undefined) return { ok: true, value: found };
  return refuse({
    what: 'head standard',
    found: quoteText(given),
    allowed: HEAD_STANDARDS.join(', '),
    remedy: 'choose the standard on the box, or measure a head',
  });
}

/**
 * A head by standard and thread size.
 *
 * @param size `M5` and the like; a size that the standard leaves out is refused with the nearest
 *
 * Sources: ISO 10642, ISO 2009/7046 with ISO 15065, DIN 963/965 with DIN 74-1, DIN 7991. The sharp diameter of old DIN heads
 * is geometry: shank + twice the height, at 90 degrees, which holds for every ISO row too.
 *
 * Example: ISO 10642 M5 is 11.2 mm sharp; ISO 2009/7046 M4 9.4 mm; DIN 963/965 M4 8.4 mm with a countersink of 8.6 mm.
 */
export function countersunkHead(standard: HeadStandard, size: string): Result<CountersunkHead> {
  const rows = ROWS[standard];
  const wanted = size.trim().toUpperCase();
  const row = rows.find((one) => one.size === wanted);
  if (row === undefined) {
    const sizes = rows.map((one) => one.size);
    const near = suggestNames(wanted, sizes).join(', ');
    return refuse({
      what: `${standard} head`,
      found: quoteText(size),
      allowed: sizes.join(', '),
      remedy: near === '' ? 'choose a size of the standard' : `nearest known: ${near}`,
    });
  }
  const sharp = asMm(row.sharpMm ?? Number(row.size.slice(1)) + 2 * row.heightMm);
  const head: CountersunkHead = {
    standard,
    size: row.size,
    withdrawn: standard.startsWith('DIN'),
    angle: HEAD_ANGLE,
    sharp,
    height: asMm(row.heightMm),
    countersink: asMm(row.countersinkMm ?? sharp),
    ...(row.leastMm === undefined ? {} : { least: asMm(row.leastMm) }),
    ...(row.largestMm === undefined ? {} : { largest: asMm(row.largestMm) }),
  };
  return { ok: true, value: head };
}

/**
 * The mouth that puts the largest head below the face by a stated amount; 0 puts it flush.
 *
 * @param below 0 or more, in mm
 *
 * Example: ISO 10642 M5 flush 11.2 mm; 0.2 mm below 11.6 mm.
 */
export function mouthForHead(head: CountersunkHead, below: Mm): Result<Mm> {
  return whenSound([refuseOutside(below, { ...ALLOWANCE, what: 'depth of the head below the face' })], () =>
    asMm(head.sharp + 2 * below * headSlope(head)),
  );
}

export type HeadSeat =
  | { readonly kind: 'flush or below'; readonly below: Mm }
  | { readonly kind: 'proud'; readonly by: Mm };

/**
 * Where the largest head of the standard ends up in a countersink of a given mouth.
 *
 * Example: ISO 10642 M5 in a mouth of 10 mm stands proud by 0.6 mm; in 11.6 mm it lies 0.2 mm below.
 */
export function seatOfHead(head: CountersunkHead, mouth: Mm): Result<HeadSeat> {
  return whenSound([refuseOutside(mouth, { ...HOLE_DIAMETER, what: 'top diameter' })], () => {
    const below = (mouth - head.sharp) / 2 / headSlope(head);
    return below >= -1e-9
      ? { kind: 'flush or below', below: asMm(Math.max(0, below)) }
      : { kind: 'proud', by: asMm(-below) };
  });
}

const headSlope = (head: CountersunkHead): number => Math.tan((head.angle * Math.PI) / 360);
