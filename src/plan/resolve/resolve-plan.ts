/**
 * Resolving: from a plan as written to a plan as worked from. Everything that the plan left out is computed with shop
 * arithmetic and noted as computed; everything is in millimetres, turns a minute and seconds; every point is absolute from
 * its setup's zero. Where that is not possible the problems are located in the plan's text, all at once.
 *
 * Whether the plan is wise is not asked here: see ../checks.
 */
import { findMaterial } from '../../shop/materials.ts';
import type { Mm } from '../../shop/quantities.ts';
import { inOrderOfText, type Problem } from '../read/problem.ts';
import { noPositions, type Positions } from '../read/tree.ts';
import type { ResolvedMachine, ResolvedOperation, ResolvedPlan, ResolvedSetup, ResolvedTool } from '../resolved.ts';
import type { PlanMachine } from '../schema/machines.ts';
import { MAX_PIECES, MAX_POINTS, type Plan } from '../schema/plan.ts';
import { toleranceWords } from './checks.ts';
import { addProblem, type ComputedNote, type Resolving } from './context.ts';
import type { PastTimes } from './estimates.ts';
import type { Lie } from './frames.ts';
import { allVisits } from './holes.ts';
import { lengthsAtSetups } from './loads.ts';
import { type KnownMachines, knownMachines, resolveMachine } from './machines.ts';
import { resolveOperations } from './operations.ts';
import { suggestOrders } from './order.ts';
import { refuseManyPasses } from './passes.ts';
import { drawnPoints } from './points.ts';
import { ordered, resolveSpares, resolveStock, resolveVariants, startLength } from './quantities.ts';
import { resolveSetup } from './setups.ts';
import { resolveTool } from './tools.ts';
import { type OperationWork, operationWorks } from './work.ts';

/** What resolving needs beside the plan. */
export interface ResolveSettings {
  /** Machines of the settings, by the key under which plans name them. */
  readonly machines?: Readonly<Record<string, PlanMachine>>;
  /** Where the parts of the plan stand, from `readPlan`; without it every problem is at the beginning. */
  readonly positions?: Positions;
  /** What past batches say of work for which the plan states no time; without it such times are computed. */
  readonly estimates?: PastTimes;
}

export type Resolution =
  | { readonly ok: true; readonly plan: ResolvedPlan; readonly computed: readonly ComputedNote[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/**
 * Resolves a plan.
 *
 * Example: a 5 mm hole through 8 mm of mild steel on a mill with 80 to 2200 rpm in steps gets 1350 rpm (24.4 m/min), a z
 * target of -10.5 (8 and the point and 1) and 2.9 to 5.1 s to feel for.
 */
export function resolvePlan(plan: Plan, settings: ResolveSettings = {}): Resolution {
  const resolving: Resolving = { plan, positions: settings.positions ?? noPositions, problems: [], computed: [] };
  const machines = knownMachines(plan.machines, settings.machines);
  const works = operationWorks(resolving, machines, drawnPoints(resolving));
  if (refuseManyPasses(resolving, works)) return refused(resolving);
  const visits = allVisits(works);
  const variants = resolveVariants(resolving);
  const spares = resolveSpares(resolving, ordered(variants));
  const stock = resolveStock(resolving);
  const tools = new Map(
    Object.entries(plan.tools ?? {}).map(([id, tool]): [string, ResolvedTool] => [
      id,
      resolveTool(resolving, id, tool),
    ]),
  );
  refuseUnknownMaterial(resolving, works);
  const operations = resolveOperations({
    resolving,
    works,
    visits,
    tools,
    variants,
    started: ordered(variants) + spares,
    blank: startLength(stock, plan.part),
    past: settings.estimates,
  });
  const loadSizes = new Map(operations.map((operation) => [operation.number, operation.loadSize]));
  const setups = resolveSetups(resolving, works, machines, startLength(stock, plan.part), loadSizes);
  const used = usedMachines(machines, works);
  suggestOrders(resolving, operations, setups, used);
  refuseTooMuch(resolving, operations, ordered(variants) + spares);
  if (resolving.problems.length > 0) return refused(resolving);
  const resolved: ResolvedPlan = {
    format: 1,
    id: plan.id,
    job: plan.job,
    drawing: plan.drawing ?? null,
    revision: plan.revision ?? null,
    units: plan.units,
    material: plan.material,
    part: { length: plan.part.length, width: plan.part.width, thickness: plan.part.thickness },
    tolerance: toleranceWords(resolving),
    variants,
    spares,
    stock,
    machines: used,
    setups,
    tools: [...tools.values()],
    operations,
    hours: hoursOf(plan),
    rate: plan.rate ?? null,
  };
  return { ok: true, plan: resolved, computed: resolving.computed };
}

const refused = (resolving: Resolving): Resolution => ({
  ok: false,
  problems: inOrderOfText(once(resolving.problems)),
});

/** The same fault met on several ways is told once. */
function once(problems: readonly Problem[]): Problem[] {
  const seen = new Set<string>();
  return problems.filter((problem) => {
    const key = `${problem.line}:${problem.column}:${problem.message}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** What no batch takes: more pieces than it counts, more points and passes than it goes through. */
function refuseTooMuch(resolving: Resolving, operations: readonly ResolvedOperation[], started: number): void {
  const cuts = operations.flatMap((operation) => operation.cuts);
  const places = cuts.reduce((sum, cut) => sum + cut.points.length + (cut.loadPasses ?? cut.passes).length, 0);
  if (places > MAX_POINTS) {
    addProblem(resolving, ['operations'], {
      found: `${places} points and passes`,
      wanted: `at most ${MAX_POINTS}`,
      message: `the operations cut ${places} points and passes in all; wanted at most ${MAX_POINTS}`,
      tryThis: 'make several plans of it',
    });
  }
  if (started <= MAX_PIECES) return;
  addProblem(resolving, ['spares'], {
    found: `${started} pieces to start`,
    wanted: `at most ${MAX_PIECES}`,
    message: `with its spares the batch starts ${started} pieces; wanted at most ${MAX_PIECES}`,
    tryThis: 'make several batches of it',
  });
}

/** A material that no table knows is a problem only where a speed or feed must be worked out from it. */
function refuseUnknownMaterial(resolving: Resolving, works: readonly OperationWork[]): void {
  const found = findMaterial(resolving.plan.material);
  if (found.ok) return;
  const asked = works.flatMap((work) =>
    work.cuts.filter(
      (cut) =>
        work.machine?.speeds !== undefined &&
        cut.plan.speed === undefined &&
        cut.plan['cutting speed'] === undefined &&
        cut.tool?.['cutting speed'] === undefined,
    ),
  );
  if (asked.length === 0 || resolving.plan['cutting speeds'] !== undefined) return;
  addProblem(resolving, ['material'], {
    found: found.problem.found,
    wanted: found.problem.allowed,
    message: `no cutting speeds are known for the material ${found.problem.found}`,
    tryThis: `${found.problem.remedy}; or give "cutting speeds:" in the plan`,
  });
}

/** Machines that the plan uses, its own and those of the settings, so that a journal holds them all. */
function usedMachines(machines: KnownMachines, works: readonly OperationWork[]): ResolvedMachine[] {
  const keys = new Set(works.flatMap((work) => work.machineKey ?? []));
  return [...machines].filter(([key]) => keys.has(key)).map(([key, machine]) => resolveMachine(key, machine));
}

/** Setups in the order in which operations first use them, then those that none uses. */
function resolveSetups(
  resolving: Resolving,
  works: readonly OperationWork[],
  machines: KnownMachines,
  blank: Mm,
  loadSizes: ReadonlyMap<number, number>,
): ResolvedSetup[] {
  const lengths = lengthsAtSetups(works, blank);
  let before: Lie | null = null;
  const done = new Map<string, ResolvedSetup>();
  for (const work of works) {
    const id = work.plan.setup;
    if (id !== undefined && work.setup !== undefined && !done.has(id)) {
      const users = works
        .filter((other) => other.plan.setup === id)
        .map((other) => loadSizes.get(other.plan.number) ?? 1);
      const { setup, machine } = work;
      const lengthNow = lengths.at.get(id) ?? blank;
      done.set(id, resolveSetup({ resolving, id, setup, machine, before, loadSize: Math.max(...users), lengthNow }));
      before = setup.lies ?? 'as drawn';
    }
  }
  const unused = Object.entries(resolving.plan.setups ?? {}).filter(([id]) => !done.has(id));
  const rest = unused.map(([id, setup]) =>
    resolveSetup({
      resolving,
      id,
      setup,
      machine: machines.get(setup.machine),
      before,
      loadSize: 1,
      lengthNow: lengths.last,
    }),
  );
  return [...done.values(), ...rest];
}

function hoursOf(plan: Plan): ResolvedPlan['hours'] {
  if (plan.hours === undefined) return null;
  const days = Object.entries(plan.hours).flatMap(([day, spans]) =>
    spans === undefined ? [] : [[day, spans] as const],
  );
  return Object.fromEntries(days);
}
