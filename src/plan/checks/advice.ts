/** What the advice of a finding is written with: values and numbers as they stand in a plan, ready to be typed. */
import { asMm } from '../../shop/quantities.ts';
import { formatTrimmed, mmToInches } from '../../shop/units.ts';
import type { CheckAsk, OperationSeen } from './ask.ts';

/** Finest step of a value that is proposed; the size of a tool is written one finer. */
const DECIMALS = { mm: 2, inch: 3 } as const;

/**
 * A length as a bare number in the plan's units, at a hundredth of a millimetre or a thousandth of an inch; `towards` says
 * which way it is rounded when a limit must not be passed. `near` is for the size of a tool and one decimal finer.
 *
 * Example: 7.5167 mm `down` is `7.51`; in a plan in inches 9.525 mm is `0.375`.
 */
export function writeLength(
  ask: Pick<CheckAsk, 'plan'>,
  length: number,
  towards: 'down' | 'up' | 'near' = 'near',
): string {
  const { units } = ask.plan;
  const value = units === 'mm' ? length : mmToInches(asMm(length));
  const decimals = DECIMALS[units] + (towards === 'near' ? 1 : 0);
  const steps = value * 10 ** decimals;
  const rounded = { down: Math.floor(steps + 1e-6), up: Math.ceil(steps - 1e-6), near: Math.round(steps) }[towards];
  return formatTrimmed(rounded / 10 ** decimals, decimals);
}

/**
 * A number for an operation that is put before one of the plan; null when none is free there.
 *
 * Example: before 60 in 40, 50, 60 it is 55.
 */
export function numberBefore(ask: Pick<CheckAsk, 'operations'>, operation: OperationSeen): number | null {
  const before = ask.operations[operation.index - 1]?.resolved.number ?? 0;
  return between(before, operation.resolved.number);
}

/** A number for an operation that is put after one of the plan; null when none is free there. */
export function numberAfter(ask: Pick<CheckAsk, 'operations'>, operation: OperationSeen): number | null {
  const after = ask.operations[operation.index + 1]?.resolved.number ?? operation.resolved.number + 10;
  return between(operation.resolved.number, after);
}

const between = (low: number, high: number): number | null => (high - low < 2 ? null : Math.floor((low + high) / 2));

/** `, as number 55`, or nothing when no number is free. */
export const asNumber = (number: number | null): string => (number === null ? '' : ` as number ${number}`);
