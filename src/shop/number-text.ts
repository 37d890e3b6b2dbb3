import { type Refusal, type Result, refuse } from './refusal.ts';

/**
 * The first step of reading any quantity: tidy the text, and refuse early what could be read in two ways. No exponents, no
 * commas, no thousands marks: a decimal point and digits.
 */

/** Longest text that is read as one quantity; anything longer is no quantity. */
const LONGEST_TEXT = 60;

/** What a quantity may be read from: text, or a number that a file gave without quotes. */
export type QuantityText = string | number;

/**
 * The text in lower case with single spaces, plain minus, plain inch mark and `x` for a multiplication sign; or a refusal
 * for an empty text, a comma, an exponent, a number that is not finite, a control character or an overlong text.
 *
 * Example: `tidyText('  1/4″ ', 'length', '6 mm')` answers `1/4"`.
 */
export function tidyText(given: QuantityText, what: string, example: string): Result<string> {
  const raw = typeof given === 'number' ? plainNumber(given) : given;
  const no = (allowed: string, remedy: string) => refuse({ what, found: quoteText(raw), allowed, remedy });
  if (raw.length > LONGEST_TEXT || /[\p{Cc}]/u.test(raw.trim()))
    return no(`short plain text like ${example}`, 'write only the value');
  const text = raw
    .trim()
    .toLowerCase()
    .replace(/[\u2212\u2010-\u2013]/gu, '-')
    .replace(/[\u2033\u201c\u201d]|''/gu, '"')
    .replace(/\u00d7/gu, 'x')
    .replace(/\s+/gu, ' ');
  if (text === '') return no(`text like ${example}`, 'write a value');
  if (text.includes(','))
    return no('a decimal point and no comma', `write ${text.replace(/,/gu, '.')} if the comma is the decimal mark`);
  if (/\d\.?e[+-]?\d/u.test(text)) return no('plain digits without an exponent', `write it like ${example}`);
  if (/nan|infinity/u.test(text)) return no('a finite number', `write it like ${example}`);
  return { ok: true, value: text };
}

/**
 * A decimal number from tidy text, or `undefined`. Takes `12`, `12.`, `.750`, `-3.5`, `+2`.
 *
 * Example: `readDecimal('.750')` is 0.75; `readDecimal('1.2.3')` is undefined.
 */
export function readDecimal(text: string): number | undefined {
  return /^[+-]?(\d+\.?\d*|\.\d+)$/u.test(text) ? Number(text) : undefined;
}

/** A text in quotes for a message, shortened to what fits on a line. */
export function quoteText(text: string): string {
  const printable = text.replace(/\p{Cc}/gu, '?');
  return `"${printable.length > LONGEST_TEXT ? `${printable.slice(0, LONGEST_TEXT - 1)}…` : printable}"`;
}

/** The refusal of a text that has not the form of its quantity. */
export const refuseForm = (what: string, text: string, allowed: string, remedy: string) =>
  refuse({ what, found: quoteText(text), allowed, remedy } satisfies Refusal);

const plainNumber = (value: number): string =>
  Number.isFinite(value) && Math.abs(value) < 1e15 ? value.toFixed(12).replace(/\.?0+$/, '') : String(value);
