/** What an operation is done on, and what stands ready there. */
import type { ResolvedOperation, ResolvedPlan, ResolvedSetup } from '../plan/resolved.ts';
import { type Batch, type MachineState, unsetMachine } from './state.ts';

/** The operation of a number; one that the plan lacks is a bug. */
export function operationNumbered(batch: Batch, number: number): ResolvedOperation {
  const operation = batch.plan.operations.find((candidate) => candidate.number === number);
  if (operation === undefined) throw new Error(`no operation ${number} in the plan`);
  return operation;
}

/** The setup of an operation, null when it has none (saw, bench). */
export function setupOf(batch: Batch, operation: ResolvedOperation): ResolvedSetup | null {
  return batch.plan.setups.find((setup) => setup.id === operation.setup) ?? null;
}

/** Under what name the machine of an operation is remembered: its id, or its station when the plan names no machine. */
export function machineKey(batch: Batch, operation: ResolvedOperation): string {
  return setupOf(batch, operation)?.machine ?? operation.machine ?? operation.station;
}

/** What stands ready on the machine of an operation. */
export function machineFor(batch: Batch, operation: ResolvedOperation): MachineState {
  return batch.machines[machineKey(batch, operation)] ?? unsetMachine;
}

/** Whether the machine of an operation turns a tool at a speed that is set. */
export function hasSpindle(batch: Batch, operation: ResolvedOperation): boolean {
  const key = machineKey(batch, operation);
  const machine = batch.plan.machines.find((candidate) => candidate.id === key);
  return machine !== undefined && machine.speeds.kind !== 'none';
}

/**
 * How often the top was faced in the setup of an operation before it comes: a Z zero set before a facing lies above the top
 * that the next operation meets.
 */
export function facedBefore(plan: ResolvedPlan, { number, setup }: ResolvedOperation): number {
  return plan.operations.filter((one) => one.setup === setup && one.kind === 'face' && one.number < number).length;
}

/**
 * Holes that a tool has made in this batch, by the pieces counted through the cuts that use it; points of a load not
 * yet counted are not in it.
 *
 * Example: a drill with two points a piece, seven pieces good and one scrap: 16.
 */
export function holesMade(batch: Batch, tool: string): number {
  return batch.cells.reduce((sum, cell, at) => {
    const operation = batch.lanes.places[at]?.operation;
    const cuts = operation?.cuts.filter((cut) => cut.tool === tool) ?? [];
    const points = cuts.reduce((holes, cut) => holes + cut.points.length, 0);
    return sum + points * (cell.good + cell.scrap);
  }, 0);
}
