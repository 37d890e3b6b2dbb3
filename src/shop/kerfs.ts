import { quoteText } from './number-text.ts';
import { type Result, refuse } from './refusal.ts';
import { suggestNames } from './suggest-name.ts';
import { type KerfRow, USUAL_KERFS } from './tables/saws.ts';

/** Saws whose usual kerf is known. */
export const sawNames: readonly string[] = USUAL_KERFS.map((row) => row.saw);

/**
 * The usual kerf of a saw, in any case. To plan stock with, take the wide end; measure a cut of your own saw.
 *
 * Example: `cold saw` cuts 2.4 to 3.2 mm; `bandsaw` is refused and `band saw` named.
 */
export function usualKerf(saw: string): Result<KerfRow> {
  const wanted = saw.trim().toLowerCase().replace(/\s+/gu, ' ');
  const row = USUAL_KERFS.find((one) => one.saw === wanted);
  if (row !== undefined) return { ok: true, value: row };
  const near = suggestNames(wanted, sawNames);
  return refuse({
    what: 'saw',
    found: quoteText(saw),
    allowed: sawNames.join(', '),
    remedy: near.length === 0 ? 'give the kerf itself' : `nearest known: ${near.join(', ')}`,
  });
}
