/**
 * The bow of a strip that was released from its bar. Drawn bar is under stress; a thin strip sawn from it lengthwise may bow by
 * some millimetres in 300 mm as it comes free. Cut to length first and then mill, for the bow shrinks with the square of the
 * length. Common practice of the trade; no published figure.
 */
import { asMm, type Mm } from './quantities.ts';
import { POSITIVE_LENGTH } from './ranges.ts';
import { type Range, type Result, refuseOutside, whenSound } from './refusal.ts';

/** Largest bow by length of a strip that still is a flat arc. */
const FLAT_ARC = 0.1;

/**
 * How far a length of a bowed strip stands from straight, from the bow measured over another length: bow x (length / over)
 * squared.
 *
 * @param bow in the middle, 0 or more, at most a tenth of `over`
 * @param over length of the strip on which it was measured, above 0
 * @param length of the part, above 0 and at most `over`
 * @returns mm, unrounded
 *
 * Source: geometry of a flat arc. Example: 3 mm over 300 mm is 0.12 mm over 60 mm.
 */
export function bowOfLength(bow: Mm, over: Mm, length: Mm): Result<Mm> {
  const overRange: Range = { ...POSITIVE_LENGTH, what: 'length of the bowed strip' };
  const problem = refuseOutside(over, overRange);
  if (problem !== undefined) return { ok: false, problem };
  const bowRange: Range = {
    what: 'bow',
    unit: 'mm',
    from: 0,
    upTo: FLAT_ARC * over,
    remedy: 'lay a straight edge on the hollow side and measure the gap in the middle',
  };
  const lengthRange: Range = { ...POSITIVE_LENGTH, what: 'length of the part', upTo: over };
  return whenSound([refuseOutside(bow, bowRange), refuseOutside(length, lengthRange)], () =>
    asMm(bow * (length / over) ** 2),
  );
}
