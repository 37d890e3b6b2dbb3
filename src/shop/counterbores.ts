/**
 * Counterbores for cap screws with hexagon socket. The bore must clear the knurled head, which is larger than the plain
 * one: M3 measures up to 5.68 mm.
 */
import { quoteText } from './number-text.ts';
import { parseDiameter } from './parse-length.ts';
import { asMm, type Mm } from './quantities.ts';
import { HOLE_DIAMETER, POSITIVE_LENGTH } from './ranges.ts';
import { type Result, refuse, refuseOutside, sureOf, whenSound } from './refusal.ts';
import { suggestNames } from './suggest-name.ts';
import { INCH_CAP_HEADS, METRIC_CAP_HEADS } from './tables/cap-heads.ts';
import { inchesToMm } from './units.ts';

export interface CapHead {
  readonly size: string;
  /** Largest head, knurling included. */
  readonly head: Mm;
  readonly height: Mm;
  /** Counterbore of the standard. */
  readonly counterbore: Mm;
  /** Its depth: the head just below the face. */
  readonly counterboreDepth: Mm;
  readonly source: string;
  /** False: the counterbore is common practice, from memory. */
  readonly confirmed: boolean;
}

/**
 * The cap head of a thread size: `M5`, `no. 8`, `#8`, `1/4`. A size outside the tables is refused with the nearest.
 *
 * Sources: ISO 4762 with DIN 974-1; ASME B18.3 (counterbores from memory).
 * Example: M3 has a head of 5.68 mm and a counterbore of 6 mm, 3.4 mm deep.
 */
export function capHead(size: string): Result<CapHead> {
  const wanted = size
    .trim()
    .toLowerCase()
    .replace(/^(?:#|no\.?) ?/u, 'no. ')
    .replace(/ ?(?:in|")$/u, '');
  const found = metricCapHead(wanted.toUpperCase()) ?? inchCapHead(wanted);
  if (found !== undefined) return { ok: true, value: found };
  const sizes = [...METRIC_CAP_HEADS, ...INCH_CAP_HEADS].map((row) => row.size);
  const near = suggestNames(wanted, sizes).join(', ');
  return refuse({
    what: 'cap head',
    found: quoteText(size),
    allowed: sizes.join(', '),
    remedy: near === '' ? 'measure the head' : `nearest known: ${near}`,
  });
}

function metricCapHead(size: string): CapHead | undefined {
  const row = METRIC_CAP_HEADS.find((one) => one.size === size);
  return (
    row && {
      size: row.size,
      head: asMm(row.knurledMaxMm),
      height: asMm(row.heightMm),
      counterbore: asMm(row.counterboreMm),
      counterboreDepth: asMm(row.counterboreDepthMm),
      source: 'ISO 4762, DIN 974-1',
      confirmed: true,
    }
  );
}

function inchCapHead(size: string): CapHead | undefined {
  const row = INCH_CAP_HEADS.find((one) => one.size === size);
  return (
    row && {
      size: row.size,
      head: inchesToMm(row.headMaxIn),
      height: inchesToMm(row.heightIn),
      counterbore: sureOf(parseDiameter(row.counterbore, undefined)),
      counterboreDepth: inchesToMm(row.heightIn),
      source: 'ASME B18.3, counterbore from memory',
      confirmed: false,
    }
  );
}

export type CounterboreVerdict =
  | { readonly kind: 'clears'; readonly aSide: Mm; readonly below: Mm }
  | { readonly kind: 'too small'; readonly head: Mm; readonly short: Mm }
  | { readonly kind: 'proud'; readonly by: Mm };

/**
 * Whether a counterbore takes the largest knurled head and hides it.
 *
 * @param bore its diameter, above 0
 * @param depth its depth, above 0
 * @returns `clears` with the gap on one side and how far the head lies below the face; `too small` with what the diameter
 * lacks; `proud` with how far the head stands out
 *
 * Example: M3 in 6 mm, 3.4 mm deep, clears by 0.16 mm a side, 0.4 mm below; in 5.5 mm it is too small by 0.18 mm.
 */
export function judgeCounterbore(cap: CapHead, bore: Mm, depth: Mm): Result<CounterboreVerdict> {
  return whenSound(
    [
      refuseOutside(bore, { ...HOLE_DIAMETER, what: 'counterbore' }),
      refuseOutside(depth, { ...POSITIVE_LENGTH, what: 'depth' }),
    ],
    (): CounterboreVerdict => {
      if (bore <= cap.head) return { kind: 'too small', head: cap.head, short: asMm(cap.head - bore) };
      if (depth < cap.height - 1e-9) return { kind: 'proud', by: asMm(cap.height - depth) };
      return { kind: 'clears', aSide: asMm((bore - cap.head) / 2), below: asMm(Math.max(0, depth - cap.height)) };
    },
  );
}
