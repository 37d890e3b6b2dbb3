/** The zero of each axis of a setup: the value to set at touch, with its sum in words and digits. */
import { asMm, type Mm } from '../../shop/quantities.ts';
import { type Side, type ZeroMethod, type ZeroTerm, zeroSetting } from '../../shop/zero.ts';
import { neutral, type PathStep } from '../read/problem.ts';
import type { AxisZero } from '../resolved.ts';
import type { PlanAxisZero, PlanZZero } from '../schema/setups.ts';
import { addProblem, inUnits, type Resolving, take } from './context.ts';
import { type End, finderSide, type GroundKind, OPPOSITE } from './finder-side.ts';
import { setText } from './set-text.ts';

/** What an axis needs to know of its setup. */
export interface ZeroGround {
  readonly axis: 'x' | 'y';
  /** Which end of the part the ground touches. */
  readonly end: End;
  /** What stands there by the setup. */
  readonly kind: GroundKind;
  /** Resolution of the readout on which it is set, if it is one. */
  readonly readout: Mm | undefined;
}

/**
 * The zero of one axis.
 *
 * Example: finder of 10 mm tip in front of a fixed jaw at the rear: set -5.00, "fixed jaw 0.00 - half tip 5.00 = -5.00",
 * touched going +.
 */
export function resolveAxisZero(
  resolving: Resolving,
  zero: PlanAxisZero,
  ground: ZeroGround,
  path: readonly PathStep[],
): AxisZero | null {
  const side = sideOf(resolving, zero, ground, path);
  if (side === undefined) return null;
  const at = zero.at ?? asMm(0);
  const method = methodOf(resolving, zero, side, at, path);
  if (method === undefined) return null;
  const say: Say = (length) => setText(resolving.plan.units, length, ground.readout);
  const base = { axis: ground.axis, how: zero.how, against: zero.against, ground: at };
  if (method === 'stop only') {
    const sum = `${zero.against} is ${say(at)}`;
    return { ...base, tip: asMm(0), side: null, set: at, sum, touchedGoing: null };
  }
  const setting = take(resolving, path, zeroSetting(method));
  if (setting === undefined) return null;
  return {
    ...base,
    tip: zero.tip ?? zero.block ?? asMm(0),
    side: setting.touchMoves === 'none' ? null : sign(side),
    set: setting.set,
    sum: sumInWords(zero.against, setting.terms, setting.set, say),
    touchedGoing: setting.touchMoves === 'none' ? null : sign(setting.touchMoves),
  };
}

/** Zeros at which something touches from a side. */
const TOUCHING: ReadonlySet<PlanAxisZero['how']> = new Set(['edge finder', 'ground block', 'pin']);

/** The side on which the finder stands; `undefined` after a problem was added. */
function sideOf(
  resolving: Resolving,
  zero: PlanAxisZero,
  { axis, end, kind }: ZeroGround,
  path: readonly PathStep[],
): Side | undefined {
  const toSide = (side: End): Side => (side === 'right' || side === 'rear' ? 'plus' : 'minus');
  if (!TOUCHING.has(zero.how)) return toSide(zero.side ?? end);
  const found = finderSide({ ground: kind, end, against: zero.against, stated: zero.side });
  const what = `the ${zero.how} at ${axis.toUpperCase()}`;
  const against = neutral(zero.against);
  switch (found.kind) {
    case 'side':
      return toSide(found.side);
    case 'inside the part':
      addProblem(resolving, [...path, 'side'], {
        found: found.side,
        wanted: found.outside,
        message: `${what} would stand inside the part: its ${end} ${axis === 'x' ? 'end' : 'edge'} can be touched from the ${found.outside} only`,
        tryThis: `write "side: ${found.outside}"; or say in "against:" which stop, pin or fence is touched instead of the part`,
      });
      return undefined;
    case 'untold':
      addProblem(resolving, path, {
        found: 'no side',
        wanted: `"side: ${end}" or "side: ${OPPOSITE[end]}"`,
        message: `the plan does not say on which side of "${against}" ${what} stands; on the wrong one zero is out by a whole tip`,
        tryThis: `write "side: ${end}" where the part itself is touched, "side: ${OPPOSITE[end]}" where a stop, pin or fence is, against which the part will lie`,
      });
      return undefined;
  }
}

const sign = (side: Side): '+' | '-' => (side === 'plus' ? '+' : '-');

function methodOf(
  resolving: Resolving,
  zero: PlanAxisZero,
  side: Side,
  at: Mm,
  path: readonly PathStep[],
): ZeroMethod | 'stop only' | undefined {
  const wantTip = (what: string): Mm | undefined => {
    if (zero.tip !== undefined) return zero.tip;
    addProblem(resolving, path, {
      found: 'no tip',
      wanted: `the diameter of the ${what} as "tip"`,
      message: `a zero by ${zero.how} needs the diameter of the ${what}`,
      tryThis: 'add "tip:" with its diameter',
    });
    return undefined;
  };
  switch (zero.how) {
    case 'edge finder': {
      const tip = wantTip('tip');
      return tip === undefined ? undefined : { kind: 'edge-finder', edgeAt: at, tip, side };
    }
    case 'pin': {
      const pin = wantTip('pin');
      return pin === undefined ? undefined : { kind: 'pin', edgeAt: at, pin, side };
    }
    case 'ground block': {
      const pin = wantTip('pin');
      return pin === undefined ? undefined : { kind: 'block', edgeAt: at, pin, block: zero.block ?? asMm(0), side };
    }
    case 'indicator':
      return { kind: 'indicator', centreAt: at };
    case 'scribed line':
      return { kind: 'line', lineAt: at };
    case 'stop only':
      return 'stop only';
  }
}

type Say = (length: Mm) => string;

function sumInWords(against: string, terms: readonly ZeroTerm[], set: Mm, say: Say): string {
  const parts = terms.map((term, index) => {
    const amount = say(asMm(Math.abs(term.amount)));
    if (index === 0) return `${against} ${say(term.amount)}`;
    return `${term.amount < 0 ? '-' : '+'} ${term.what} ${amount}`;
  });
  return `${parts.join(' ')} = ${set > 0 ? '+' : ''}${say(set)}`;
}

/**
 * How a tool finds its own Z zero, in one line.
 *
 * Example: "feeler 0.05 mm under the tool on top of the part, set +0.05".
 */
export function zZeroLine(
  resolving: Resolving,
  zero: PlanZZero,
  readout: Mm | undefined,
  path: readonly PathStep[],
): string {
  const on = zero.on ?? 'top of the part';
  const at = zero.at ?? asMm(0);
  const signed = (length: Mm) => `${length > 0 ? '+' : ''}${setText(resolving.plan.units, length, readout)}`;
  switch (zero.how) {
    case 'feeler': {
      const method = { kind: 'feeler' as const, surfaceAt: at, feeler: zero.feeler ?? asMm(0) };
      const setting = take(resolving, path, zeroSetting(method));
      const feeler = inUnits(resolving, zero.feeler ?? asMm(0));
      return `feeler ${feeler} under the tool on ${on}, set ${signed(setting?.set ?? at)}`;
    }
    case 'touch':
      return `touch ${on} with the tool, set ${signed(at)}`;
    case 'skim':
      return `a facing cutter skims ${on}, the part is measured; any other tool touches it; what to set stands with the tool`;
    case 'by eye':
      return `bring the tool to ${on} by eye, set ${signed(at)}`;
  }
}
