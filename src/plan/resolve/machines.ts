/** Machines of a plan, resolved: defaults filled in, each axis with its way of reading. */
import { asMm } from '../../shop/quantities.ts';
import { suggestName } from '../../shop/suggest-name.ts';
import { neutral, type PathStep } from '../read/problem.ts';
import type { AxisReading, ResolvedMachine } from '../resolved.ts';
import type { PlanMachine } from '../schema/machines.ts';
import { addProblem, type Resolving } from './context.ts';

/** Machines known to a plan by key: its own, and those of the settings that it names. */
export type KnownMachines = ReadonlyMap<string, PlanMachine>;

/** The machines that a plan may name: those of the settings, and its own over them. */
export function knownMachines(
  own: Readonly<Record<string, PlanMachine>> | undefined,
  settings: Readonly<Record<string, PlanMachine>> | undefined,
): KnownMachines {
  return new Map([...Object.entries(settings ?? {}), ...Object.entries(own ?? {})]);
}

/** The machine of that key; `undefined` after a problem was added. */
export function machineNamed(
  resolving: Resolving,
  machines: KnownMachines,
  key: string,
  path: readonly PathStep[],
): PlanMachine | undefined {
  const machine = machines.get(key);
  if (machine !== undefined) return machine;
  const near = suggestName(key, [...machines.keys()]);
  addProblem(resolving, path, {
    found: `"${neutral(key)}"`,
    wanted:
      machines.size === 0
        ? 'a machine under "machines"'
        : `one of: ${[...machines.keys()].map((name) => neutral(name)).join(', ')}`,
    message: `there is no machine "${neutral(key)}", neither in the plan nor in the settings`,
    tryThis: near === undefined ? 'add it under "machines"' : `did you mean "${neutral(near)}"?`,
  });
  return undefined;
}

/** Does another speed ask for a belt to be moved, so that tools in one clamping share a speed? */
export const sharesSpeed = (machine: PlanMachine): boolean => speedChangeOf(machine) === 'belt';

const speedChangeOf = (machine: PlanMachine) =>
  machine['speed change'] ?? (Array.isArray(machine.speeds) ? 'belt' : 'knob');

/** A machine of the plan as the machine floor sees it. */
export function resolveMachine(id: string, machine: PlanMachine): ResolvedMachine {
  const readout: AxisReading =
    machine.readout === undefined ? { kind: 'none' } : { kind: 'readout', resolution: machine.readout };
  return {
    id,
    name: machine.name ?? id,
    station: machine.station,
    speeds: resolveSpeeds(machine.speeds),
    ...(machine.speeds === undefined ? {} : { speedChange: speedChangeOf(machine) }),
    reverse: machine.reverse ?? 'never',
    stoppingTime: machine['stopping time'] ?? null,
    x: machine.x === undefined ? readout : resolveAxis(machine.x),
    y: machine.y === undefined ? readout : resolveAxis(machine.y),
    z: machine.z === undefined ? { kind: 'none' } : resolveAxis(machine.z),
    zReadOn: machine['depth read on'] ?? (machine.station === 'pillar drill' ? 'depth stop' : 'quill'),
    vice:
      machine.vice === undefined
        ? null
        : {
            jawWidth: machine.vice['jaw width'],
            jawHeight: machine.vice['jaw height'],
            opening: machine.vice.opening,
            fixedJaw: machine.vice['fixed jaw'] ?? 'rear',
          },
    travel: machine.travel ?? null,
    climbFeed: machine['inward feed'] ?? false,
  };
}

function resolveSpeeds(speeds: PlanMachine['speeds']): ResolvedMachine['speeds'] {
  if (speeds === undefined) return { kind: 'none' };
  if (Array.isArray(speeds)) return { kind: 'steps', rpm: [...speeds].sort((a, b) => a - b) };
  return { kind: 'range', from: speeds.from, to: speeds.to };
}

function resolveAxis(axis: NonNullable<PlanMachine['x']>): AxisReading {
  if ('readout' in axis) return { kind: 'readout', resolution: axis.readout };
  const towardsMore = ['right', 'away', 'up'].includes(axis['clockwise moves']);
  return {
    kind: 'dial',
    perTurn: axis['per turn'],
    divisions: axis.divisions,
    clockwiseCounts: axis['clockwise counts'] ?? 'up',
    clockwiseMoves: towardsMore ? '+' : '-',
    backlash: axis.backlash ?? asMm(0),
  };
}
