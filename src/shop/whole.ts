import { formatRange, type Range, type Refusal, refuseOutside } from './refusal.ts';

/**
 * A refusal when a value is not a whole number inside its range, `undefined` when it is.
 *
 * Example: `refuseUnlessWhole(2.5, HOLES)` names `2.5` and asks for a whole number; `refuseUnlessWhole(3, HOLES)` is fine.
 */
export function refuseUnlessWhole(value: number, range: Range): Refusal | undefined {
  const outside = refuseOutside(value, range);
  if (outside !== undefined || Number.isInteger(value)) return outside;
  return {
    what: range.what,
    found: String(value),
    allowed: `a whole number ${formatRange(range)}`,
    remedy: range.remedy,
  };
}
