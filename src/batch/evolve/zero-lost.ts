/**
 * A zero that no longer stands: after a bump, another tool, a power cut or a long break. It is set anew from its cards, and
 * then it is asked whether what was corrected against the old one is kept.
 */
import { machineKey, operationNumbered } from '../machines.ts';
import { correctedJust, correctedKey } from '../questions/corrections.ts';
import type { Batch, CorrectedTarget, MachineState } from '../state.ts';

/** Every zero of the machine of an operation is lost; of the tools that are in only that of `tool` where one is named. */
export function withZeroLost(batch: Batch, operation: number, why: string, tool?: string): Batch {
  const key = machineKey(batch, operationNumbered(batch, operation));
  return { ...zerosLost(batch, [key], why, tool), cards: [] };
}

/** Every zero of every machine is lost: a readout without mains forgets its place, and nobody saw what moved meanwhile. */
export const withAllZerosLost = (batch: Batch, why: string): Batch =>
  zerosLost(batch, Object.keys(batch.machines), why);

function zerosLost(batch: Batch, keys: readonly string[], why: string, tool?: string): Batch {
  const machines = { ...batch.machines };
  for (const key of keys) {
    const machine = machines[key];
    if (machine !== undefined && machine.setup !== null) machines[key] = withoutZero(machine, why, tool);
  }
  const setups = new Set(keys.flatMap((key) => batch.machines[key]?.setup ?? []));
  return { ...batch, machines, needs: { ...batch.needs, corrections: inForceAt(batch, setups) } };
}

function withoutZero(machine: MachineState, why: string, tool: string | undefined): MachineState {
  const zeroed = machine.depths.filter((depth) => tool === undefined || depth.tool === tool);
  return {
    ...machine,
    x: false,
    y: false,
    why,
    depths: machine.depths.filter((depth) => !zeroed.includes(depth)),
    lostDepths: [...new Set([...machine.lostDepths, ...zeroed.map((depth) => depth.tool)])],
  };
}

/**
 * What is corrected in the operations of these setups, with what is still to be asked from before. A hole corrected alone
 * stands off from the others by that, whatever the zero.
 */
function inForceAt(batch: Batch, setups: ReadonlySet<string>): readonly CorrectedTarget[] {
  const targets = new Map(batch.needs.corrections.map((one) => [correctedKey(one), one]));
  for (const { operation, cut, axis, point, takenBack } of batch.corrections) {
    const setup = batch.plan.operations.find((one) => one.number === operation)?.setup ?? null;
    if (takenBack || axis === 'stop' || setup === null || !setups.has(setup)) continue;
    const target: CorrectedTarget = { operation, cut, axis, ...(point === undefined ? {} : { point }) };
    if (correctedJust(batch, target) !== 0) targets.set(correctedKey(target), target);
  }
  return [...targets.values()];
}
