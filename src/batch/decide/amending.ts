/** Taking over a changed plan, or leaving it alone. */
import type { ResolvedPlan } from '../../plan/resolved.ts';
import type { CommandOf } from '../commands.ts';
import type { BatchEvent, EventOf } from '../events.ts';
import { planAmended } from '../evolve/amending.ts';
import { nextCellAt } from '../expected.ts';
import { cellAt, unallotted, unsoundCell } from '../flow.ts';
import { cellKey, lanesOf, startQuantity } from '../lanes.ts';
import { planChanges } from '../plan-changes.ts';
import type { Batch, Cell } from '../state.ts';
import { type Decision, events, refused, whenHere, whenOpen } from './decision.ts';
import { boundsProblem } from './opening.ts';

/** The changed plan, as the store read it. */
export type Amendment = { readonly planText: string; readonly planSha256: string; readonly plan: ResolvedPlan };

/** Amends the batch with a list of what changes. Refused when counts would be lost or become impossible. */
export function decideAmend(batch: Batch, amendment: Amendment | undefined): Decision {
  return whenHere(batch, () => {
    if (amendment === undefined) return refused('the plan file has not changed');
    const problem = amendmentProblem(batch, amendment.plan);
    if (problem !== null) return refused(problem);
    const { plan, planText, planSha256 } = amendment;
    const changes = [...planChanges(batch.plan, plan)];
    const amended: EventOf<'PlanAmended'> = { kind: 'PlanAmended', planText, planSha256, plan, changes };
    return events(amended, ...begunInstead(planAmended(batch, amended)));
  });
}

/** When the operation at hand is not in the new plan, work goes to the next one where pieces wait. */
function begunInstead(amended: Batch): readonly BatchEvent[] {
  if (amended.current !== null) return [];
  const { operation, lane } = cellAt(amended, nextCellAt(amended) ?? amended.cells.length - 1);
  return [{ kind: 'OperationBegun', operation, lane }];
}

/** Why a batch cannot be amended to a plan, or null when it can. */
function amendmentProblem(batch: Batch, plan: ResolvedPlan): string | null {
  if (plan.id !== batch.plan.id) return 'that is another plan; open a new batch for it';
  if (plan.units !== batch.plan.units) return 'the units of a batch stay; open a new batch';
  const tooLarge = boundsProblem(plan);
  if (tooLarge !== null) return tooLarge;
  return lostCellProblem(batch, plan) ?? reorderedProblem(batch, plan) ?? countsProblem(batch, plan);
}

const isTouched = (cell: Cell): boolean => cell.entries !== null || cell.good + cell.scrap + cell.out > 0;

function lostCellProblem(batch: Batch, plan: ResolvedPlan): string | null {
  const { positions, parted } = lanesOf(plan);
  const lost = batch.cells.find((cell) => isTouched(cell) && !positions.has(cellKey(cell.operation, cell.lane)));
  if (lost !== undefined) return `operation ${lost.operation} has counted pieces; it must stay for its variants`;
  const given = Object.entries(batch.allotted).find(([lane, pieces]) => pieces > 0 && !parted.includes(lane));
  return given === undefined ? null : `pieces were given to ${given[0]} already; it must stay`;
}

function reorderedProblem(batch: Batch, plan: ResolvedPlan): string | null {
  const counted = new Set(batch.cells.filter(isTouched).map((cell) => cell.operation));
  const order = (of: ResolvedPlan) => of.operations.map((o) => o.number).filter((number) => counted.has(number));
  const same = order(batch.plan).join() === order(plan).join();
  return same ? null : 'operations that have counted pieces must keep their order';
}

function countsProblem(batch: Batch, plan: ResolvedPlan): string | null {
  const begun = batch.cells.find((cell) => cell.load.size > 0 && loadChanges(batch.plan, plan, cell.operation));
  if (begun !== undefined) return `a load of operation ${begun.operation} is begun; finish it or take its points back`;
  const after = planAmended(batch, { kind: 'PlanAmended', plan, planText: '', planSha256: '', changes: [] });
  const bad = unsoundCell(after);
  if (bad === null) return null;
  if (unallotted(after) < 0) return 'more pieces were given to the variants than there would be';
  const { operation, inlet } = after.lanes.places[bad] ?? {};
  if (inlet?.kind === 'start') return `more than ${startQuantity(plan) + batch.more} pieces were begun already`;
  return `operation ${operation?.number} has counted more pieces than would have come to it`;
}

/** Whether an operation's stops differ, so that "the next point" would mean another. */
function loadChanges(before: ResolvedPlan, after: ResolvedPlan, number: number): boolean {
  const stops = (plan: ResolvedPlan) => {
    const operation = plan.operations.find((candidate) => candidate.number === number);
    const cuts = operation?.cuts.map((cut) => [cut.tool, cut.points.length, (cut.loadPasses ?? cut.passes).length]);
    return JSON.stringify([operation?.counting, operation?.loadSize, cuts]);
  };
  return stops(before) !== stops(after);
}

/** The changed file is left alone; it is not offered again until it changes once more. */
export function decideDeclineAmendment(batch: Batch, command: CommandOf<'declineAmendment'>): Decision {
  return whenOpen(batch, () =>
    batch.declinedPlans.includes(command.planSha256)
      ? refused('that change was declined already')
      : events({ kind: 'PlanChangeDeclined', planSha256: command.planSha256 }),
  );
}
