/**
 * A number as it is typed, at a card or in a flow, from keyboard, keypad or a gauge that types. What cannot belong to a number
 * is refused at the key, with the reason, and what was typed before it stays: nothing on the screen was not taken.
 */

/** What is typed so far, and what was wrong with the last key. */
export type Typing = { readonly typed: string; readonly wrong: string | null };

/** What is asked for: a length with its sign and point, a whole number of pieces, pieces from-to, or a time of day. */
export type NumberKind = 'number' | 'pieces' | 'range' | 'time';

const commaWords = 'a point, not a comma: press the point';
const tooLong = (most: number): string => `at most ${most} characters`;

const marks: Readonly<Record<NumberKind, string>> = { number: '.+-', pieces: '', range: '-', time: '.:' };
const whyNot: Readonly<Record<NumberKind, string>> = {
  number: 'not taken: a sign stands first, a point once',
  pieces: 'not taken: whole pieces, in digits',
  range: 'not taken: one piece, or the first, a minus, the last',
  time: 'not taken: a point or colon once, between hours and minutes',
};

/**
 * The number after one more character. A comma is refused and leaves a gap: digits behind it are not taken either until the
 * point comes, for 3,06 must never become 306.
 *
 * @param most characters that fit; a longer number must be typed anew (`notWhole`), never cut short
 *
 * Example: 3 then a comma then 0 is still 3, with the reason; the point then 0 and 6 give 3.06.
 */
export function typeCharacter(now: Typing, character: string, kind: NumberKind, most: number): Typing {
  const { typed, wrong } = now;
  if (character === ',' && kind !== 'pieces') return { typed, wrong: commaWords };
  if (wrong === commaWords && /^\d$/.test(character)) return now;
  if (wrong === tooLong(most)) return now;
  if (!/^\d$/.test(character) && !fits(typed, character, kind)) return { typed, wrong: whyNot[kind] };
  if (typed.length >= most) return { typed, wrong: tooLong(most) };
  return { typed: typed + character, wrong: null };
}

/**
 * What Enter finds when the number is not whole, or null when it can be handed over: behind a comma the point is still
 * missing, so the 3 of 3,06 is no answer; of a number that did not fit nothing is kept.
 */
export function notWhole({ typed, wrong }: Typing, most: number): Typing | null {
  if (wrong === commaWords) return { typed, wrong };
  return wrong === tooLong(most) ? { typed: '', wrong: `not taken: more than ${most} characters; type it anew` } : null;
}

/** A sign stands first, a minus between two pieces, every mark once. */
function fits(typed: string, mark: string, kind: NumberKind): boolean {
  if (!marks[kind].includes(mark)) return false;
  if (kind === 'number' && mark !== '.') return typed === '';
  if (kind === 'number') return !typed.includes('.');
  return typed !== '' && !/\D/.test(typed);
}
