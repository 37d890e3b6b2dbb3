/**
 * What the steps of resolving share: the plan, where its parts stand, the problems found so far and the notes on what was
 * worked out. The two lists grow while one plan is resolved; nothing outlives the call.
 */

import type { Mm } from '../../shop/quantities.ts';
import type { Result } from '../../shop/refusal.ts';
import { formatLength, type LengthUnit } from '../../shop/units.ts';
import { formatPath, type PathStep, type Problem } from '../read/problem.ts';
import type { Positions } from '../read/tree.ts';
import type { Plan } from '../schema/plan.ts';

/** A value that the plan left out and that was worked out, shown as such. */
export interface ComputedNote {
  /** Number of the operation, or null when it belongs to the whole plan. */
  readonly operation: number | null;
  /** What was worked out: `speed`, `depth`, `loads`. */
  readonly what: string;
  readonly value: string;
  /** From what it follows. */
  readonly because: string;
}

export interface Resolving {
  readonly plan: Plan;
  readonly positions: Positions;
  readonly problems: Problem[];
  readonly computed: ComputedNote[];
}

/** What is said of a problem beside its place. */
export interface ProblemParts {
  readonly found: string;
  readonly wanted: string;
  readonly message: string;
  readonly tryThis: string;
}

/** Adds a located problem. */
export function addProblem(resolving: Resolving, path: readonly PathStep[], parts: ProblemParts): void {
  resolving.problems.push({ ...resolving.positions.placeOf(path), path: formatPath(path), ...parts });
}

/** The answer of a question to shop arithmetic; a refusal becomes a problem at the path, and `undefined`. */
export function take<Value>(resolving: Resolving, path: readonly PathStep[], result: Result<Value>): Value | undefined {
  if (result.ok) return result.value;
  const { what, found, allowed, remedy } = result.problem;
  addProblem(resolving, path, {
    found,
    wanted: allowed,
    message: `${what} ${found}: wanted ${allowed}`,
    tryThis: remedy,
  });
  return undefined;
}

/** Notes a value that was worked out. */
export function noteComputed(
  resolving: Resolving,
  operation: number | null,
  what: string,
  value: string,
  because: string,
): void {
  resolving.computed.push({ operation, what, value, because });
}

/** A length in the plan's units, for a sentence. */
export const inUnits = (resolving: { readonly plan: { readonly units: LengthUnit } }, length: Mm): string =>
  formatLength(length, resolving.plan.units);

/** The entry of a map by a name from the plan's text, never something that the map inherits. */
export const entryOf = <Entry>(map: Readonly<Record<string, Entry>> | undefined, key: string): Entry | undefined =>
  map !== undefined && Object.hasOwn(map, key) ? map[key] : undefined;

/** The path of an operation: its index in the list. */
export const operationPath = (index: number, ...more: readonly PathStep[]): readonly PathStep[] => [
  'operations',
  index,
  ...more,
];
