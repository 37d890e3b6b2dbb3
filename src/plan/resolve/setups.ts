/** Setups of a plan, resolved: zero worked out, what to do line by line, what to prove before metal is cut. */
import type { Mm } from '../../shop/quantities.ts';
import { acrossJaws } from '../drawing.ts';
import type { PathStep } from '../read/problem.ts';
import type { ResolvedSetup } from '../resolved.ts';
import type { PlanMachine } from '../schema/machines.ts';
import type { PlanSetup } from '../schema/setups.ts';
import { depthSignProof, signMove } from '../sign-proof.ts';
import { inUnits, type Resolving } from './context.ts';
import { type End, groundAt } from './finder-side.ts';
import { type Lie, lyingSize, outlineOf, turnedAgainst, zeroCorner } from './frames.ts';
import { placesOf } from './loads.ts';
import { resolveMachine } from './machines.ts';
import { readoutOf } from './set-text.ts';
import { resolveAxisZero, type ZeroGround, zZeroLine } from './zero.ts';

/** What a setup is worked out from. */
export interface SetupAsk {
  readonly resolving: Resolving;
  readonly id: string;
  readonly setup: PlanSetup;
  readonly machine: PlanMachine | undefined;
  /** How the part lay in the setup before; null for the first. */
  readonly before: Lie | null;
  /** Most pieces held here at once. */
  readonly loadSize: number;
  /** Length of the part when it comes here, before its ends are milled. */
  readonly lengthNow: Mm;
}

/** A setup with its zero values, steps and proofs. */
export function resolveSetup(ask: SetupAsk): ResolvedSetup {
  const { resolving, id, setup, machine } = ask;
  const path = ['setups', id];
  const part = resolving.plan.part;
  const lie = setup.lies ?? 'as drawn';
  const corner = zeroCorner(setup, machine?.vice?.['fixed jaw'] ?? 'rear', part.datum ?? 'left front');
  const size = lyingSize({ ...part, length: ask.lengthNow }, lie);
  const zeroPath: readonly PathStep[] = [...path, 'zero'];
  const zero = setup.zero;
  const x =
    zero?.x === undefined
      ? null
      : resolveAxisZero(resolving, zero.x, groundOf(setup, machine, 'x', corner.x.end), [...zeroPath, 'x']);
  const y =
    zero?.y === undefined
      ? null
      : resolveAxisZero(resolving, zero.y, groundOf(setup, machine, 'y', corner.y.end), [...zeroPath, 'y']);
  const outline = outlineOf(size, corner);
  return {
    id,
    title: setup.title ?? id,
    machine: setup.machine,
    hold: setup.hold,
    stop: setup.stop === undefined ? null : { side: setup.stop.side, height: setup.stop.height ?? null },
    parallels: setup.parallels === undefined ? null : { ...setup.parallels, where: setup.parallels.where ?? null },
    ...beyondJaws(setup, corner.x.end),
    up: setup.up ?? 'face as drawn',
    turned: ask.before === null ? (lie === 'as drawn' ? null : lie) : turnedAgainst(ask.before, lie),
    x,
    y,
    zZero: zZeroOf(resolving, setup, readoutOf(machine, 'z'), zeroPath),
    places: placesOf(setup, machine, { now: size, finished: lyingSize(part, lie) }, ask.loadSize),
    steps: stepsOf(ask),
    prove: proofsOf(ask, { x, y, outline }),
    outline,
  };
}

const groundOf = (setup: PlanSetup, machine: PlanMachine | undefined, axis: 'x' | 'y', end: End): ZeroGround => ({
  axis,
  end,
  kind: groundAt(setup, machine, axis, end),
  readout: readoutOf(machine, axis),
});

function zZeroOf(
  resolving: Resolving,
  setup: PlanSetup,
  readout: Mm | undefined,
  path: readonly PathStep[],
): string | null {
  const { z, tools } = setup.zero ?? {};
  const common = z === undefined ? [] : [zZeroLine(resolving, z, readout, [...path, 'z'])];
  const single = Object.entries(tools ?? {}).map(
    ([tool, zero]) => `${tool}: ${zZeroLine(resolving, zero, readout, [...path, 'tools', tool])}`,
  );
  return [...common, ...single].join('; ') || null;
}

const JAW_WORDS = { rear: 'at the rear', front: 'at the front', left: 'on the left', right: 'on the right' } as const;

/** What to do, in order. */
function stepsOf(ask: SetupAsk): string[] {
  const { resolving, setup, machine } = ask;
  const length = (value: Mm) => inUnits(resolving, value);
  const steps: string[] = [];
  if (setup.hold === 'vice' || setup.hold === 'two vices') {
    const jaw = JAW_WORDS[machine?.vice?.['fixed jaw'] ?? 'rear'];
    steps.push(
      `Bolt down ${setup.hold === 'vice' ? 'the vice' : 'both vices'}, fixed jaw ${jaw}; indicate the fixed jaw true.`,
    );
  } else if (setup.hold !== 'by hand') {
    steps.push(`Bolt down the ${setup.hold}; indicate it true.`);
  }
  if (setup.parallels !== undefined) {
    const { height, thickness, where } = setup.parallels;
    const shorter = acrossJaws(where ?? null) ? '; shorter than what lies on them, so that the jaws close on it' : '';
    steps.push(
      `Parallels ${length(height)} high, ${length(thickness)} thick${where === undefined ? '' : `, ${where}`}${shorter}.`,
    );
  }
  if (setup.stop !== undefined) {
    const height = setup.stop.height === undefined ? '' : `, ${length(setup.stop.height)} high, below the cut`;
    steps.push(`Stop on the ${setup.stop.side}${height}.`);
  }
  steps.push(`Lay the part: ${lyingWords(setup)}${sinceWords(ask)}.`);
  if (setup['above jaws'] !== undefined) steps.push(`It stands ${length(setup['above jaws'])} above the jaws.`);
  if (setup['beyond jaws'] !== undefined)
    steps.push(`The end to be cut stands ${length(setup['beyond jaws'])} beyond the jaws.`);
  if (ask.loadSize > 1) steps.push(loadStep(setup, ask.loadSize));
  return [...steps, ...(setup.steps ?? [])];
}

/** The end that stands out beyond the jaws lies away from the stop, else from the end that is zero. */
function beyondJaws(setup: PlanSetup, zeroEnd: 'left' | 'right'): Pick<ResolvedSetup, 'beyondJaws'> {
  const by = setup['beyond jaws'];
  if (by === undefined) return {};
  return { beyondJaws: { end: (setup.stop?.side ?? zeroEnd) === 'left' ? 'right' : 'left', by } };
}

/** How a load is laid in: in rows in a vice, each piece in its place where the places are named. */
function loadStep(setup: PlanSetup, loadSize: number): string {
  const packing = setup.packing === undefined ? '' : `, with ${setup.packing}`;
  const lieFlat = setup.parallels === undefined ? 'see that each lies down' : 'try the parallels';
  if (setup.places !== undefined) {
    const names = setup.places.slice(0, loadSize).map((place) => place.name);
    return `${loadSize} in a load, one in each place (${names.join(', ')})${packing}; clamp each, ${lieFlat}.`;
  }
  const held = setup.hold === 'vice' || setup.hold === 'two vices';
  return `${loadSize} in a load, ${setup.row ?? 'front to back'}${packing}; clamp, ${held ? `tap down, ${lieFlat}` : lieFlat}.`;
}

function lyingWords(setup: PlanSetup): string {
  const up = setup.up === undefined ? [] : [`${setup.up} up`];
  const lie = setup.lies ?? 'as drawn';
  return [...up, lie === 'as drawn' ? 'as drawn' : `${lie} against the drawing`].join(', ');
}

const SINCE: Readonly<Record<NonNullable<ResolvedSetup['turned']>, string>> = {
  'as before': '; it lies as in the setup before',
  'over about X': '; turned over about X since the setup before',
  'over about Y': '; turned over about Y since the setup before',
  'end for end': '; turned end for end since the setup before',
  'on edge': '; stood on edge since the setup before',
  'on end': '; stood on end since the setup before',
};

/** What was done to the part since the setup before, so that the same end or face is not milled twice. */
function sinceWords({ before, setup }: SetupAsk): string {
  if (before === null) return '';
  const turned = turnedAgainst(before, setup.lies ?? 'as drawn');
  return turned === null ? '; laid flat again since the setup before' : SINCE[turned];
}

/** What is proved before metal is cut. */
function proofsOf({ id, setup, machine }: SetupAsk, zeros: Pick<ResolvedSetup, 'x' | 'y' | 'outline'>): string[] {
  const scales = machine === undefined ? undefined : resolveMachine(id, machine);
  const signs = [zeros.x, zeros.y].flatMap((zero) =>
    zero === null ? [] : [signMove(zero, scales?.[zero.axis] ?? { kind: 'none' }, zeros.outline)],
  );
  const depth = setup.zero?.z === undefined || scales === undefined ? null : depthSignProof(scales);
  const level = signs.length === 0 ? [] : [`tool raised clear, ${signs.join('; ')}`];
  const proofs = [...level, ...(depth === null ? [] : [depth])].map(
    (proof) => `${proof.charAt(0).toUpperCase()}${proof.slice(1)}.`,
  );
  if (setup.parallels !== undefined || setup.stop !== undefined)
    proofs.push('Bring each tool over stop and parallels with the spindle off: nothing is met.');
  return [...proofs, ...(setup.prove ?? [])];
}
