/**
 * What speaks against a correction. Some cannot be meant: they leave nothing to cut, are another depth than the plan's, or
 * make a plan that the checks stop (through the floor, into a parallel, off the part). Others may be meant but are larger than
 * what a correction usually is, and are asked for a second time.
 */
import { checkPlan } from '../../plan/checks/check-plan.ts';
import type { Finding } from '../../plan/checks/finding.ts';
import { readPlan } from '../../plan/read/read-plan.ts';
import type { ResolvedCut, ResolvedOperation, ResolvedPlan } from '../../plan/resolved.ts';
import { asMm } from '../../shop/quantities.ts';
import { formatLength } from '../../shop/units.ts';
import { inHandAt, placeAt } from '../flow.ts';
import type { Batch, Correction } from '../state.ts';
import { planWithShift, type Shift } from './corrected-plan.ts';
import { correctedBy } from './corrections.ts';
import type { SameHoles } from './same-holes.ts';

/** `refusal`: it cannot be meant, and why. `doubts`: sentences with the numbers for a second question; none: it is usual. */
export type CorrectionJudged = { readonly refusal: string | null; readonly doubts: readonly string[] };

/** Which holes are meant beside the cut in hand: one of it alone, and further cuts that come to the same. */
type HolesCorrected = { readonly point?: number | undefined; readonly also?: readonly SameHoles[] | undefined };

/** Most that a target may be corrected by, in mm: more is no correction but another plan. A choice of ours. */
const mostCorrection = 10;
/** A fifth of the depth is no wear and no slip of the zero any more: a choice of ours. */
const largeShareOfDepth = 0.2;
/** Ten times the tolerance lies far outside anything that a check lets pass: a choice of ours. */
const largeInTolerances = 10;
/** Where the operation measures nothing: what class m of ISO 2768-1 (table 1) allows on a size up to 6 mm. */
const usualTolerance = 0.1;

/**
 * Judges a correction of the cut in hand by `by` mm, together with what is in force already. With a reading the true depth or
 * place is known, and the correction brings it to the plan's: what the checks say of the numbers then holds only if the zero
 * is right, and is a doubt. An amount alone moves the cut off the plan.
 *
 * Example: 3.2 deeper on a depth of 3: refused; 0.7 on 3: asked again, 23 % of the depth; 0.06 on 3: usual.
 */
export function judgeCorrection(
  batch: Batch,
  axis: Correction['axis'],
  by: number,
  reading: number | null,
  { point, also = [] }: HolesCorrected = {},
): CorrectionJudged {
  if (batch.current === null) return { refusal: null, doubts: [] };
  if (Math.abs(by) > mostCorrection) {
    const most = formatLength(asMm(mostCorrection), batch.plan.units);
    return { refusal: `more than ${most} is no correction; amend the plan`, doubts: [] };
  }
  const { operation } = placeAt(batch, batch.current);
  const at = cutInHand(batch, batch.current);
  const total = correctedBy(batch, operation.number, at, axis, point) + by;
  const say = (length: number): string => formatLength(asMm(length), batch.plan.units);
  const seen: Seen = { plan: batch.plan, operation, cut: operation.cuts[at], total, say };
  const absurd = axis === 'z' ? depthRefusal(seen) : axis === 'stop' ? stopRefusal(seen) : null;
  if (absurd !== null) return { refusal: absurd, doubts: [] };
  const targets = [{ operation: operation.number, cut: at, point }, ...also];
  const before = planInForce(batch, new Set(targets.map((one) => one.operation)));
  const shift = { ...noShift, [axis]: by };
  const after = targets.reduce(
    (plan, one) => planWithShift(plan, { operation: one.operation, at: one.cut, point: one.point }, shift),
    before,
  );
  const numbers = [...new Set(targets.map((one) => one.operation))];
  const found = numbers.flatMap((number) => newFindings(batch, number, before, after));
  const stop = reading === null ? found.find((one) => one.severity === 'stop') : undefined;
  const warnings = found.map((one) =>
    reading === null ? `${one.message}.` : `unless the zero is off, ${one.message}.`,
  );
  return {
    refusal: stop === undefined ? null : `not taken: with it ${stop.message}`,
    doubts: [...(axis === 'z' ? depthDoubts(seen) : []), ...toleranceDoubts(seen), ...warnings],
  };
}

/** Position of the cut that the stop in hand belongs to; after the last stop, of the last. */
export function cutInHand(batch: Batch, at: number): number {
  const { stops, stop } = inHandAt(batch, at);
  return (stops[stop] ?? stops.at(-1))?.cut ?? 0;
}

type Seen = {
  readonly plan: ResolvedPlan;
  readonly operation: ResolvedOperation;
  readonly cut: ResolvedCut | undefined;
  /** The correction of the axis in all, in mm. */
  readonly total: number;
  readonly say: (length: number) => string;
};

const noShift: Shift = { x: 0, y: 0, z: 0, stop: 0 };

/** The plan with every correction that these operations have already. */
function planInForce(batch: Batch, operations: ReadonlySet<number>): ResolvedPlan {
  return batch.corrections
    .filter((one) => !one.takenBack && operations.has(one.operation))
    .reduce(
      (plan, { operation, cut, point, axis, by }) =>
        planWithShift(plan, { operation, at: cut, point }, { ...noShift, [axis]: by }),
      batch.plan,
    );
}

/** The shallowest hole or pass of a cut, as a depth; null where only a face is cut. */
function depthOf(cut: ResolvedCut | undefined): number | null {
  const depths = [
    ...(cut?.points ?? []).flatMap((point) => (point.z === null ? [] : [-point.z])),
    ...(cut?.passes ?? []).map((pass) => -pass.z),
  ].filter((depth) => depth > 0);
  return depths.length === 0 ? null : Math.min(...depths);
}

function depthRefusal({ cut, total, say }: Seen): string | null {
  const depth = depthOf(cut);
  if (depth === null || Math.abs(total) < depth) return null;
  return total > 0
    ? `not taken: ${say(total)} up of a depth of ${say(depth)} leaves nothing to cut`
    : `not taken: ${say(-total)} more on a depth of ${say(depth)} is another depth; amend the plan`;
}

function stopRefusal({ plan, operation, total, say }: Seen): string | null {
  const length = operation.stopLength;
  if (length === null) return null;
  const becomes = length + total;
  if (becomes <= 0) return `not taken: a stop of ${say(length)} less ${say(-total)} leaves nothing`;
  const finished = plan.part.length;
  return operation.kind === 'saw' && length >= finished && becomes < finished
    ? `not taken: a stop of ${say(becomes)} saws blanks shorter than the part of ${say(finished)}`
    : null;
}

function depthDoubts({ cut, total, say }: Seen): readonly string[] {
  const depth = depthOf(cut);
  if (depth === null || Math.abs(total) <= largeShareOfDepth * depth) return [];
  return [
    `In all ${say(Math.abs(total))}: ${Math.round((100 * Math.abs(total)) / depth)} % of the depth of ${say(depth)}.`,
  ];
}

/** Measured against the widest tolerance that the operation checks: its size may be the one that is corrected. */
function toleranceDoubts({ operation, total, say }: Seen): readonly string[] {
  const checked = operation.checks.flatMap(({ what }) =>
    what.kind === 'measured' ? [(what.upper - what.lower) / 2] : [],
  );
  const tolerance = checked.length === 0 ? usualTolerance : Math.max(...checked);
  if (Math.abs(total) <= largeInTolerances * tolerance + 1e-9) return [];
  const times = Math.round(Math.abs(total) / tolerance);
  const whose = checked.length === 0 ? 'a usual tolerance' : 'the tolerance';
  return [`In all ${say(Math.abs(total))}: ${times} times ${whose} of ${say(tolerance)}.`];
}

/** What the plan's checks find with the correction and did not find without it, of this operation. */
function newFindings(batch: Batch, operation: number, before: ResolvedPlan, after: ResolvedPlan): readonly Finding[] {
  const machines = batch.plan.machines.map((machine) => machine.id);
  const read = readPlan(batch.planText, machines);
  if (!read.ok) return [];
  const here = (plan: ResolvedPlan): readonly Finding[] =>
    checkPlan(read.plan, plan, read.positions).filter((one) => one.operation === operation && one.severity !== 'note');
  const found = here(after);
  if (found.length === 0) return [];
  const known = here(before);
  // The same thing said with other numbers is known: it was there, or was taken at the operator's word.
  const countOf = (list: readonly Finding[], { code, severity }: Finding): number =>
    list.filter((one) => one.code === code && one.severity === severity).length;
  return found.filter((one) => countOf(found, one) > countOf(known, one));
}
