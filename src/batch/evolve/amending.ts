/** A changed plan is taken over: cells keep what was counted in them, setups that changed are to be set again. */
import type { ResolvedPlan } from '../../plan/resolved.ts';
import type { EventOf } from '../events.ts';
import { lanesOf } from '../lanes.ts';
import type { Batch, Cell, MachineState } from '../state.ts';
import { newCell } from './opening.ts';

/** The batch under the new plan. */
export function planAmended(batch: Batch, event: EventOf<'PlanAmended'>): Batch {
  const { plan, planText, planSha256 } = event;
  const lanes = lanesOf(plan);
  const known = new Map(batch.cells.map((cell) => [cell.key, cell]));
  const cells = lanes.places.map((place) => carriedOver(known.get(newCell(place).key), newCell(place)));
  const key = batch.current === null ? undefined : batch.cells[batch.current]?.key;
  const current = key === undefined ? null : (lanes.positions.get(key) ?? null);
  const needs = { ...batch.needs, asked: [], toolBack: null, endSeen: false };
  const machines = Object.entries(batch.machines).map(([id, machine]): [string, MachineState] => [
    id,
    stillSet(machine, batch.plan, plan),
  ]);
  return {
    ...batch,
    plan,
    planText,
    planSha256,
    lanes,
    cells,
    current,
    needs,
    machines: Object.fromEntries(machines),
    cards: [],
  };
}

/** What was counted stays; checks that are new begin as in a new cell, checks that are gone are dropped. */
function carriedOver(old: Cell | undefined, fresh: Cell): Cell {
  if (old === undefined) return fresh;
  const facts = Object.entries(fresh.checks).map(([id, fact]) => [id, old.checks[id] ?? fact]);
  return { ...old, checks: Object.fromEntries(facts) };
}

function stillSet(machine: MachineState, before: ResolvedPlan, after: ResolvedPlan): MachineState {
  const find = (plan: ResolvedPlan) => plan.setups.find((setup) => setup.id === machine.setup);
  const same = JSON.stringify(find(before)) === JSON.stringify(find(after));
  return same
    ? machine
    : { ...machine, setup: null, x: false, y: false, why: null, tools: [], depths: [], lostDepths: [] };
}
