/**
 * A plan from its file to its resolved form: loaded within its caps, read with positions, resolved. Everything that is
 * wrong with it comes back at once; nothing is created anywhere.
 */

import type { Problem } from '../plan/read/problem.ts';
import { readPlan } from '../plan/read/read-plan.ts';
import type { Positions } from '../plan/read/tree.ts';
import type { ComputedNote } from '../plan/resolve/context.ts';
import type { PastTimes } from '../plan/resolve/estimates.ts';
import { resolvePlan } from '../plan/resolve/resolve-plan.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';
import type { PlanMachine } from '../plan/schema/machines.ts';
import type { Plan } from '../plan/schema/plan.ts';
import type { Disk } from '../store/disk.ts';
import { type Fault, isFault } from '../store/fault.ts';
import { loadPlanFile, type PlanFile } from '../store/plan-files.ts';

export type LoadedPlan = {
  readonly kind: 'plan';
  readonly file: PlanFile;
  readonly plan: Plan;
  readonly positions: Positions;
  readonly resolved: ResolvedPlan;
  /** Machines of the settings with which it was resolved. */
  readonly machines: Readonly<Record<string, PlanMachine>>;
  /** What the plan left out and the program worked out. */
  readonly computed: readonly ComputedNote[];
};

export type PlanProblems = {
  readonly kind: 'problems';
  readonly file: PlanFile;
  readonly problems: readonly Problem[];
};

/** Where the times of past batches come from; asked only for a plan that leaves a time open, since it may cost a reading. */
export type PastTimesSource = () => PastTimes | Promise<PastTimes>;

/**
 * Loads, reads and resolves the plan at `path`; `machines` are those of the settings, which it may name. Without `past` every
 * time that the plan leaves open is computed.
 */
export async function loadPlan(
  disk: Disk,
  path: string,
  machines: Readonly<Record<string, PlanMachine>> = {},
  past?: PastTimesSource,
): Promise<LoadedPlan | PlanProblems | Fault> {
  const file = await loadPlanFile(disk, path);
  if (isFault(file)) return file;
  const read = readPlan(file.text, Object.keys(machines));
  if (!read.ok) return { kind: 'problems', file, problems: read.problems };
  const isOpen = read.plan.operations.some((operation) => operation.estimate?.piece === undefined);
  const estimates = past !== undefined && isOpen ? { estimates: await past() } : {};
  const resolution = resolvePlan(read.plan, { positions: read.positions, machines, ...estimates });
  if (!resolution.ok) return { kind: 'problems', file, problems: resolution.problems };
  return {
    kind: 'plan',
    file,
    plan: read.plan,
    positions: read.positions,
    resolved: resolution.plan,
    machines,
    computed: resolution.computed,
  };
}
