/** What a named line is worked with, and what all that is worked out of lines shares. */
import type { Mm } from '../../shop/quantities.ts';
import type { ResolvedTool } from '../resolved.ts';
import { runOutOf } from './assumptions.ts';
import { addProblem, type ProblemParts, type Resolving } from './context.ts';
import type { CutWork, OperationWork } from './work.ts';

/** What a line is worked with. */
export interface LineAsk {
  readonly resolving: Resolving;
  readonly operation: OperationWork;
  readonly cut: CutWork;
  readonly tool: ResolvedTool | undefined;
  /** Its cutting diameter. */
  readonly cutter: Mm;
}

/** Air between cutter and part at an open end. */
export const runOut = (resolving: Resolving): Mm =>
  resolving.plan.allowances?.['run out'] ?? runOutOf(resolving.plan.units);

/** Adds a problem at a key of a line. */
export function lineProblem(
  { resolving }: LineAsk,
  name: string,
  key: string | undefined,
  parts: ProblemParts,
): undefined {
  addProblem(resolving, ['lines', name, ...(key === undefined ? [] : [key])], parts);
  return undefined;
}
