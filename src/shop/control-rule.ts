/**
 * Two rules that say when measured values are no longer scattered by chance, exact for any distribution as long as pieces
 * do not influence each other. A rule is a reason to look at tool and stop, never proof.
 *
 * - run rule: n values in a row on the same side of the middle. By chance 2^(1 - n), the middle being the median.
 * - trend rule: n values in a row each larger (or each smaller) than the one before. By chance 2 / n!, since every order of
 *   n different values is equally likely.
 * Source: elementary probability (n fair coins; n! orders). Seven and five make 1 in 64 and 1 in 60.
 */

/** Values in a row on one side that are worth saying. */
export const RUN_LENGTH = 7;
/** Values in a row going one way that are worth saying. */
export const TREND_LENGTH = 5;

/** What the newest values do, with how often chance alone does it: once in so many times. */
export type ControlSign =
  | { readonly kind: 'run'; readonly side: 'above' | 'below'; readonly values: number; readonly onceIn: number }
  | { readonly kind: 'trend'; readonly way: 'up' | 'down'; readonly values: number; readonly onceIn: number };

/**
 * The sign that the newest values give, the rarer one when both do; null when there is none.
 *
 * @param values oldest first, finite. @param middle the value around which they should scatter: the middle of the limits.
 * A value on the middle ends a run; two equal values end a trend.
 *
 * Example: 60.01, 60.02, 60.03, 60.05, 60.06 about 60: a trend up of 5, once in 60. Six of 60.01 about 60: null.
 */
export function controlSign(values: readonly number[], middle: number): ControlSign | null {
  const run = newestRun(values.map((value) => Math.sign(value - middle)));
  const steps = values.slice(1).map((value, index) => Math.sign(value - (values[index] ?? value)));
  const trend = newestRun(steps);
  const signs: ControlSign[] = [];
  if (run.length >= RUN_LENGTH)
    signs.push({
      kind: 'run',
      side: run.sign > 0 ? 'above' : 'below',
      values: run.length,
      onceIn: 2 ** (run.length - 1),
    });
  if (trend.length + 1 >= TREND_LENGTH)
    signs.push({
      kind: 'trend',
      way: trend.sign > 0 ? 'up' : 'down',
      values: trend.length + 1,
      onceIn: factorial(trend.length + 1) / 2,
    });
  return signs.reduce<ControlSign | null>(
    (best, one) => (best === null || one.onceIn > best.onceIn ? one : best),
    null,
  );
}

/** How many of the newest signs are the same and not 0. */
function newestRun(signs: readonly number[]): { readonly sign: number; readonly length: number } {
  const sign = signs.at(-1) ?? 0;
  if (sign === 0) return { sign, length: 0 };
  let length = 0;
  while (length < signs.length && signs[signs.length - 1 - length] === sign) length += 1;
  return { sign, length };
}

function factorial(n: number): number {
  return n <= 1 ? 1 : n * factorial(n - 1);
}
