/**
 * The spindle speed of a cut: from the published cutting speed at the largest diameter that the tool cuts, or as the plan
 * states it; never rounded up, never above what machine and tool can do. Tools of one clamping share a speed where another
 * speed means moving a belt.
 */
import { type Cut, cuttingSpeedAdvice, STARTING_VALUE } from '../../shop/cutting-speeds.ts';
import { findMaterial } from '../../shop/materials.ts';
import { asRpm, type MetresPerMinute, type Mm, type Rpm } from '../../shop/quantities.ts';
import { chooseSpeed, type SpindleSpeeds, slowestSpeed, spindleSpeed } from '../../shop/speeds.ts';
import { formatCuttingSpeed, formatLength, formatTrimmed } from '../../shop/units.ts';
import type { OperationKind, ResolvedCut } from '../resolved.ts';
import type { PlanMachine } from '../schema/machines.ts';
import { type Resolving, take } from './context.ts';
import { sharesSpeed } from './machines.ts';
import type { CutWork } from './work.ts';

type Speed = ResolvedCut['speed'];

/** The kind of cut in the tables of cutting speeds, for kinds of operation that turn a spindle. */
export function cutOfKind(kind: OperationKind): Cut | undefined {
  switch (kind) {
    case 'face':
    case 'mill to length':
    case 'mill edge':
    case 'slot':
    case 'step':
      return 'mill';
    case 'spot':
    case 'drill':
    case 'ream':
    case 'counterbore':
    case 'countersink':
    case 'chamfer':
    case 'tap':
      return kind;
    case 'saw':
    case 'deburr':
    case 'round corners':
    case 'inspect':
    case 'away':
    case 'hand work':
      return undefined;
  }
}

/** What the speed of one cut is asked with. */
export interface SpeedAsk {
  readonly cut: CutWork;
  readonly machine: PlanMachine | undefined;
  /** Largest diameter that the tool cuts. */
  readonly diameter: Mm | null;
  readonly byHand: boolean;
}

const NO_SPINDLE: Speed = { set: null, computed: null, because: 'no spindle turns', remark: null };

/** The speeds of all cuts of one clamping, in their order. */
export function speedsOfClamping(resolving: Resolving, asks: readonly SpeedAsk[]): readonly Speed[] {
  const own = asks.map((ask) => speedOf(resolving, ask));
  const machine = asks[0]?.machine;
  const turning = own.filter((speed) => speed.set !== null);
  if (machine === undefined || !sharesSpeed(machine) || turning.length < 2) return own;
  const slowest = asRpm(Math.min(...turning.map((speed) => speed.set ?? Number.POSITIVE_INFINITY)));
  return own.map((speed) =>
    speed.set === null || speed.set <= slowest
      ? speed
      : { ...speed, set: slowest, remark: `${speed.set} alone; ${slowest} in one clamping with the slower tool` },
  );
}

function speedOf(resolving: Resolving, ask: SpeedAsk): Speed {
  const work = cutOfKind(ask.cut.kind);
  const speeds = machineSpeeds(ask.machine);
  if (
    work === undefined ||
    ask.byHand ||
    ask.machine === undefined ||
    ask.machine.station === 'saw' ||
    ask.machine.station === 'bench'
  ) {
    return ask.byHand ? { ...NO_SPINDLE, because: 'turned by hand' } : NO_SPINDLE;
  }
  const computed = computedSpeed(resolving, ask, work);
  if (computed === undefined)
    return stated(ask, null, 'no cutting speed is known') ?? { ...NO_SPINDLE, because: 'not known' };
  const given = stated(ask, computed.rpm, computed.because);
  if (given !== undefined) return given;
  if (speeds === undefined) {
    return {
      set: computed.rpm,
      computed: computed.rpm,
      because: computed.because,
      remark: 'the machine lists no speeds',
    };
  }
  if (work === 'tap' && ask.machine.reverse !== 'at once') {
    const slowest = slowestSpeed(speeds);
    return {
      set: slowest,
      computed: computed.rpm,
      because: `slowest speed of the machine, for it reverses ${ask.machine.reverse === 'after stopping' ? 'only after stopping' : 'never'}; ${computed.because}`,
      remark: slowest > computed.rpm ? `slowest is above the computed ${formatTrimmed(computed.rpm, 0)}` : null,
    };
  }
  return chosenSpeed(resolving, ask, computed, speeds);
}

function stated(ask: SpeedAsk, computed: Rpm | null, because: string): Speed | undefined {
  const set = ask.cut.plan.speed;
  return set === undefined ? undefined : { set, computed, because: `stated by the plan; ${because}`, remark: null };
}

interface Computed {
  readonly rpm: Rpm;
  readonly because: string;
}

function computedSpeed(resolving: Resolving, ask: SpeedAsk, work: Cut): Computed | undefined {
  if (ask.diameter === null) return undefined;
  const advice = cuttingSpeedOf(resolving, ask, work);
  if (advice === undefined) return undefined;
  const rpm = take(resolving, ask.cut.path, spindleSpeed(advice.speed, ask.diameter));
  if (rpm === undefined) return undefined;
  const { units, material } = resolving.plan;
  const at = `${formatCuttingSpeed(advice.speed, units)} at ${formatLength(ask.diameter, units)}`;
  return { rpm, because: `${work} in ${material}, ${at}; ${advice.basis}` };
}

function cuttingSpeedOf(
  resolving: Resolving,
  ask: SpeedAsk,
  work: Cut,
): { readonly speed: MetresPerMinute; readonly basis: string } | undefined {
  const own = ask.cut.plan['cutting speed'] ?? ask.cut.tool?.['cutting speed'];
  if (own !== undefined) return { speed: own, basis: 'cutting speed of the plan' };
  const ofPlan = resolving.plan['cutting speeds']?.[work === 'chamfer' ? 'countersink' : work];
  if (ofPlan !== undefined) return { speed: ofPlan, basis: 'cutting speed of the plan' };
  const advice = adviceOf(resolving, ask, work);
  return advice === undefined ? undefined : { speed: advice.start, basis: `${advice.basis}; ${STARTING_VALUE}` };
}

function adviceOf(resolving: Resolving, ask: SpeedAsk, work: Cut) {
  const material = findMaterial(resolving.plan.material);
  // One unknown material is one problem, not one for every cut: resolve-plan.ts reports it.
  if (!material.ok) return undefined;
  return take(resolving, ask.cut.path, cuttingSpeedAdvice(material.value, work, ask.cut.tool?.material ?? 'HSS'));
}

/** The speeds of a machine as shop arithmetic takes them. */
export function machineSpeeds(machine: PlanMachine | undefined): SpindleSpeeds | undefined {
  if (machine?.speeds === undefined) return undefined;
  if (Array.isArray(machine.speeds)) return { kind: 'steps', steps: machine.speeds };
  return { kind: 'range', slowest: machine.speeds.from, fastest: machine.speeds.to };
}

function chosenSpeed(resolving: Resolving, ask: SpeedAsk, computed: Computed, speeds: SpindleSpeeds): Speed {
  const limit = ask.cut.tool?.['top speed'];
  const wanted = limit === undefined ? computed.rpm : asRpm(Math.min(computed.rpm, limit));
  const choice = take(resolving, ask.cut.path, chooseSpeed(wanted, speeds));
  if (choice === undefined) return { ...NO_SPINDLE, because: computed.because };
  const base = { computed: computed.rpm, because: computed.because };
  if (choice.kind === 'slowest-too-fast') {
    const remark = `slowest is ${formatTrimmed(choice.times, 2)} times the computed ${formatTrimmed(computed.rpm, 0)}`;
    return { ...base, set: choice.slowest, remark };
  }
  const slow = `fastest of the machine; the tool would take ${formatTrimmed(computed.rpm, 0)}`;
  return { ...base, set: choice.rpm, remark: choice.muchBelow ? slow : null };
}
