/**
 * The Z zero of the tool of one cut, with the value to set. Every tool has its own: zero is the top of the part as it lies
 * there when the work begins, so a tool that faces goes below zero by what it takes off.
 *
 * Only a cutter with a flat end can skim a face. What points, and what drills, reams or taps, touches it.
 */
import { asMm, type Mm } from '../../shop/quantities.ts';
import { zeroSetting } from '../../shop/zero.ts';
import type { ResolvedCut, ResolvedTool } from '../resolved.ts';
import type { PlanZZero } from '../schema/setups.ts';
import { entryOf, type Resolving, take } from './context.ts';
import { readoutOf, setText } from './set-text.ts';
import type { CutWork, OperationWork } from './work.ts';

type CutZero = NonNullable<ResolvedCut['zZero']>;

/** What the zero of a cut is asked with. */
export interface CutZeroAsk {
  readonly resolving: Resolving;
  readonly operation: OperationWork;
  readonly cut: CutWork;
  readonly tool: ResolvedTool | undefined;
  /** Z target of a cut without points, such as facing; null else. */
  readonly z: Mm | null;
}

/**
 * The Z zero of a cut; undefined where its setup says of none.
 *
 * Example: a feeler of 0.05 on the top: set +0.05. A top of 22 that is faced by 1: skimmed and measured, 21.00 is to size and
 * set to -1.00, which is the target; 21.90 is set to -0.10.
 */
export function resolveCutZero(ask: CutZeroAsk): CutZero | undefined {
  const { operation, cut } = ask;
  const zeros = operation.setup?.zero;
  const single = cut.toolKey === undefined ? undefined : entryOf(zeros?.tools, cut.toolKey);
  const zero = single ?? zeros?.z;
  if (zero === undefined || cut.toolKey === undefined) return undefined;
  const on = zero.on ?? 'top of the part';
  if (zero.how === 'skim' && canSkim(ask)) return skimmed(ask, on, zero.at ?? asMm(0));
  return touched(ask, zero, on);
}

function touched(ask: CutZeroAsk, zero: PlanZZero, on: string): CutZero {
  const { resolving, cut } = ask;
  const at = zero.at ?? asMm(0);
  const how = zero.how === 'skim' ? 'touch' : zero.how;
  if (how !== 'feeler' || zero.feeler === undefined) return { how, on, set: at, sum: `${on} ${say(ask, at)}` };
  const setting = take(resolving, cut.path, zeroSetting({ kind: 'feeler', surfaceAt: at, feeler: zero.feeler }));
  const set = setting?.set ?? at;
  const sum = `${on} ${say(ask, at)} + feeler ${say(ask, zero.feeler)} = ${signed(ask, set)}`;
  return { how, on, set, sum };
}

/** Measured less what the part would measure at zero: to size that is the target of the facing, or the top itself. */
function skimmed(ask: CutZeroAsk, on: string, at: Mm): CutZero {
  const { operation, cut, z } = ask;
  const down = cut.kind === 'face' && z !== null ? z : asMm(0);
  const wanted = asMm(operation.size.z + down);
  const set = asMm(at + down);
  const less = asMm(wanted - set);
  const sum = `measured less ${say(ask, less)}, to size ${say(ask, wanted)} gives ${signed(ask, set)}`;
  return { how: 'skim', on, set, sum, wanted };
}

/** A flat cutter that faces, or comes to a top that no operation of this setup has faced before. */
function canSkim({ resolving, operation, cut, tool }: CutZeroAsk): boolean {
  if (cut.kind === 'face') return true;
  const isFlat = tool?.kind === 'end mill' || tool?.kind === 'face mill';
  const before = resolving.plan.operations.slice(0, operation.index);
  return isFlat && !before.some(({ kind, setup }) => kind === 'face' && setup === operation.plan.setup);
}

const say = ({ resolving, operation }: CutZeroAsk, length: Mm): string =>
  setText(resolving.plan.units, length, readoutOf(operation.machine, 'z'));

const signed = (ask: CutZeroAsk, length: Mm): string => `${length > 0 ? '+' : ''}${say(ask, length)}`;
