/**
 * An operation laid open for resolving: its machine, setup and frame, and each cut with its tool and points found. Everything
 * here is still in the plan's own terms; numbers to wind come in cuts.ts.
 */
import type { Position } from '../../shop/patterns.ts';
import { asMm, type Mm } from '../../shop/quantities.ts';
import { suggestName } from '../../shop/suggest-name.ts';
import { neutral, type PathStep } from '../read/problem.ts';
import type { OperationKind, Station } from '../resolved.ts';
import type { PlanMachine } from '../schema/machines.ts';
import type { PlanCut, PlanDepth, PlanOperation } from '../schema/operations.ts';
import { MAX_POINTS } from '../schema/plan.ts';
import type { PlanSetup } from '../schema/setups.ts';
import type { PlanTool } from '../schema/tools.ts';
import { addProblem, entryOf, operationPath, type Resolving } from './context.ts';
import { AS_WRITTEN, type Frame, frameOf, type Lie, type LyingSize, lyingSize, toSetup, zeroCorner } from './frames.ts';
import { type KnownMachines, machineNamed } from './machines.ts';
import { type DrawnPoints, type NamedPoint, pointsNamed } from './points.ts';
import { toolNamed } from './tools.ts';

/** One point of a cut, with what it says for itself. */
export interface WorkPoint {
  readonly name: string;
  readonly drawn: Position;
  readonly at: Position;
  readonly depth: PlanDepth | undefined;
  readonly top: Mm | undefined;
}

/** One cut of an operation, its names found. */
export interface CutWork {
  readonly kind: OperationKind;
  readonly plan: PlanCut;
  readonly path: readonly PathStep[];
  readonly toolKey: string | undefined;
  readonly tool: PlanTool | undefined;
  readonly points: readonly WorkPoint[];
}

/** One operation with what surrounds it. */
export interface OperationWork {
  readonly index: number;
  readonly plan: PlanOperation;
  readonly machineKey: string | undefined;
  readonly machine: PlanMachine | undefined;
  readonly setup: PlanSetup | undefined;
  readonly station: Station;
  readonly frame: Frame;
  readonly size: LyingSize;
  readonly cuts: readonly CutWork[];
}

/** Kinds of work that are done with the hands alone. */
const BENCH_KINDS: ReadonlySet<OperationKind> = new Set(['deburr', 'round corners', 'inspect', 'away', 'hand work']);

/** What is left of them while one plan is laid open; a plan that asks for more is refused before its points are made. */
interface Budget {
  points: number;
  told: boolean;
}

/** Lays open every operation of the plan. */
export function operationWorks(
  resolving: Resolving,
  machines: KnownMachines,
  points: DrawnPoints,
): readonly OperationWork[] {
  const budget: Budget = { points: MAX_POINTS, told: false };
  return resolving.plan.operations.map((plan, index) => layOpen(resolving, plan, index, machines, points, budget));
}

function layOpen(
  resolving: Resolving,
  plan: PlanOperation,
  index: number,
  machines: KnownMachines,
  points: DrawnPoints,
  budget: Budget,
): OperationWork {
  const setup = plan.setup === undefined ? undefined : setupNamed(resolving, plan.setup, operationPath(index, 'setup'));
  const machineKey = plan.machine ?? setup?.machine;
  const machinePath =
    plan.machine === undefined ? ['setups', plan.setup ?? '', 'machine'] : operationPath(index, 'machine');
  const machine = machineKey === undefined ? undefined : machineNamed(resolving, machines, machineKey, machinePath);
  const part = resolving.plan.part;
  const lie = setup?.lies ?? 'as drawn';
  const frame =
    setup === undefined
      ? AS_WRITTEN
      : frameOf(part, lie, zeroCorner(setup, machine?.vice?.['fixed jaw'] ?? 'rear', part.datum ?? 'left front'));
  const size = lyingSize(part, lie);
  const base = {
    index,
    plan,
    machineKey,
    machine,
    setup,
    frame,
    size: { ...size, z: thicknessBefore(resolving, index, size, lie) },
  };
  return {
    ...base,
    station: stationOf(resolving, base),
    cuts: cutWorks(resolving, plan, index, frame, points, budget),
  };
}

/** Thickness that a tool meets: what later facing takes off, and this one, is still there. */
function thicknessBefore(resolving: Resolving, index: number, size: LyingSize, lie: Lie): Mm {
  if (lie === 'on edge' || lie === 'on end') return size.z;
  const faced = resolving.plan.operations
    .slice(index)
    .map((operation) => (operation.kind === 'face' && operation.depth?.kind === 'length' ? operation.depth.mm : 0));
  return asMm(faced.reduce((sum, depth) => sum + depth, size.z as number));
}

function stationOf(
  resolving: Resolving,
  work: Pick<OperationWork, 'plan' | 'machine' | 'index' | 'machineKey'>,
): Station {
  if (work.machine !== undefined) return work.machine.station;
  if (BENCH_KINDS.has(work.plan.kind)) return 'bench';
  if (work.plan.kind === 'tap' && work.plan['by hand'] === true) return 'bench';
  if (work.machineKey === undefined) {
    addProblem(resolving, operationPath(work.index), {
      found: 'neither setup nor machine',
      wanted: '"setup" or "machine"',
      message: `operation ${work.plan.number} does not say where it is done`,
      tryThis: 'add "setup:" or "machine:"',
    });
  }
  return 'bench';
}

function setupNamed(resolving: Resolving, key: string, path: readonly PathStep[]): PlanSetup | undefined {
  const setups = resolving.plan.setups ?? {};
  const setup = entryOf(setups, key);
  if (setup !== undefined) return setup;
  const known = Object.keys(setups);
  const near = suggestName(key, known);
  addProblem(resolving, path, {
    found: `"${neutral(key)}"`,
    wanted: known.length === 0 ? 'a setup under "setups"' : `one of: ${known.map((name) => neutral(name)).join(', ')}`,
    message: `there is no setup "${neutral(key)}"`,
    tryThis: near === undefined ? 'add it under "setups"' : `did you mean "${neutral(near)}"?`,
  });
  return undefined;
}

/** The keys of an operation that say what one tool does; they stand in `cuts` instead where there are several. */
const CUT_KEYS = ['tool', 'points', 'lines', 'depth', 'top', 'leg', 'thread', 'full thread'] as const;

function cutWorks(
  resolving: Resolving,
  plan: PlanOperation,
  index: number,
  frame: Frame,
  points: DrawnPoints,
  budget: Budget,
): readonly CutWork[] {
  if (plan.cuts === undefined) {
    const works = plan.tool !== undefined || CUT_KEYS.some((key) => plan[key] !== undefined);
    return works ? [cutWork(resolving, plan, plan.kind, operationPath(index), frame, points, budget)] : [];
  }
  const doubled = CUT_KEYS.filter((key) => plan[key] !== undefined);
  for (const key of doubled) {
    addProblem(resolving, operationPath(index, key), {
      found: `"${key}" beside "cuts"`,
      wanted: `"${key}" inside "cuts"`,
      message: `operation ${plan.number} has "${key}" and "cuts"; it belongs to one of the cuts`,
      tryThis: `move "${key}" into the cut that it belongs to`,
    });
  }
  return plan.cuts.map((cut, at) =>
    cutWork(resolving, cut, cut.kind ?? plan.kind, operationPath(index, 'cuts', at), frame, points, budget),
  );
}

function cutWork(
  resolving: Resolving,
  plan: PlanCut,
  kind: OperationKind,
  path: readonly PathStep[],
  frame: Frame,
  points: DrawnPoints,
  budget: Budget,
): CutWork {
  const tool = plan.tool === undefined ? undefined : toolNamed(resolving, plan.tool, [...path, 'tool']);
  const used = (plan.points ?? []).flatMap((use, at): WorkPoint[] => {
    const found = withinBudget(
      resolving,
      budget,
      pointsNamed(resolving, points, use.at, [...path, 'points', at]) ?? [],
    );
    return found.map((point) => ({
      name: point.name,
      drawn: point.at,
      at: toSetup(point.at, frame),
      depth: 'depth' in use ? use.depth : undefined,
      top: 'top' in use ? use.top : undefined,
    }));
  });
  return { kind, plan, path, toolKey: tool === undefined ? undefined : plan.tool, tool, points: used };
}

function withinBudget(resolving: Resolving, budget: Budget, found: readonly NamedPoint[]): readonly NamedPoint[] {
  budget.points -= found.length;
  if (budget.points >= 0) return found;
  if (!budget.told) {
    addProblem(resolving, ['operations'], {
      found: `more than ${MAX_POINTS} points to cut`,
      wanted: `at most ${MAX_POINTS}`,
      message: `the operations cut more than ${MAX_POINTS} points in all`,
      tryThis: 'make several plans of it',
    });
  }
  budget.told = true;
  return [];
}
