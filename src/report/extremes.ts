/**
 * Least and greatest of any number of values. `Math.max(...values)` throws from about a hundred thousand on (its arguments lie
 * on the stack), and a long batch has as many loads.
 */

/** The greatest of the values, at least `floor`. Example: `greatestOf([3, 7])` is 7, of nothing it is `floor`. */
export function greatestOf(values: readonly number[], floor = Number.NEGATIVE_INFINITY): number {
  return values.reduce((most, value) => Math.max(most, value), floor);
}

/** The least of the values, at most `ceiling`. Example: `leastOf([3, 7])` is 3. */
export function leastOf(values: readonly number[], ceiling = Number.POSITIVE_INFINITY): number {
  return values.reduce((least, value) => Math.min(least, value), ceiling);
}
