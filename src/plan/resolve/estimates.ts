/** Times of an operation: as the plan states them, else worked out from the assumptions and the cutting times. */
import { asSeconds } from '../../shop/quantities.ts';
import type { OperationKind, ResolvedCut, ResolvedOperation, ResolvedPlan } from '../resolved.ts';
import {
  CLAMPING_S,
  CONE_TOUCH_S,
  HAND_SECONDS,
  HAND_TAP_TURN_S,
  LOCATING_S,
  MAKE_READY_S,
  NEW_SETUP_S,
  TOOL_CHANGE_S,
  WINDING_S,
} from './assumptions.ts';
import { cuttingSeconds } from './cuts.ts';
import type { OperationWork } from './work.ts';

/** What an operation without a time of its own is known by to whoever keeps the history. */
export interface UntimedWork {
  /** Id of its plan and its number there. */
  readonly plan: string;
  readonly operation: number;
  readonly kind: OperationKind;
  /** Names of its tools together, joined with ` + `; left out where it has none. */
  readonly tool?: string;
  readonly material: string;
  /** Seconds a piece as worked out from clamping, winding and cutting. */
  readonly computed_s: number;
}

/** What past batches say of such work: seconds a piece, and how many batches that rests on. */
export interface PastTime {
  readonly piece_s: number;
  readonly batches: number;
}

/**
 * Asked for every operation that the plan gives no time for a piece; null where the past says nothing. A time taken from it
 * is marked `past batches`, so that nobody puts it right by the same batches again.
 */
export type PastTimes = (work: UntimedWork) => PastTime | null;

/**
 * What past batches said when `opened` was resolved, for another version of the same plan: a running batch keeps what it was
 * opened with, whatever has become of the history since. A time is kept in its proportion to what is computed.
 *
 * Example: opened with 100 s from 3 batches where 80 s were computed; the changed plan computes 96 s: 120 s from 3 batches.
 */
export function pastTimesAsOpened(opened: ResolvedPlan): PastTimes {
  return ({ operation, kind, computed_s }) => {
    const before = opened.operations.find((one) => one.number === operation && one.kind === kind)?.estimate;
    const past = before?.past;
    if (before === undefined || past === undefined || past.computed <= 0) return null;
    return { piece_s: (before.piece * computed_s) / past.computed, batches: past.batches };
  };
}

/** What a time for a piece rests on, in a word or two: `given`, `computed`, `past batches, 3`. */
export function estimateGrounds(from: ResolvedOperation['estimate']['from'], batches: number | null): string {
  if (from === 'plan') return 'given';
  return batches === null ? from : `${from}, ${batches}`;
}

/** Usual turns of a hand tap where its depth is not counted in turns. */
const USUAL_HAND_TURNS = 12;

/**
 * The estimate of an operation.
 *
 * @param sameSetup the operation before it was done in the same setup, so that only the tool changes
 */
export function estimateOf(
  work: OperationWork,
  cuts: readonly ResolvedCut[],
  loadSize: number,
  sameSetup: boolean,
): ResolvedOperation['estimate'] {
  const stated = work.plan.estimate;
  const setup = stated?.setup ?? asSeconds(setupSeconds(work, sameSetup));
  const piece = stated?.piece ?? asSeconds(Math.round(pieceSeconds(work, cuts, loadSize)));
  return { setup, piece, from: stated?.piece === undefined ? 'computed' : 'plan' };
}

function setupSeconds(work: OperationWork, sameSetup: boolean): number {
  if (work.station === 'mill') return sameSetup ? TOOL_CHANGE_S : NEW_SETUP_S;
  return work.station === 'bench' ? 0 : MAKE_READY_S;
}

function pieceSeconds(work: OperationWork, cuts: readonly ResolvedCut[], loadSize: number): number {
  const byHand = HAND_SECONDS[work.plan.kind];
  if (byHand !== undefined) return byHand;
  const changes = Math.max(0, cuts.length - 1) * TOOL_CHANGE_S;
  const working = cuts.reduce((sum, cut) => sum + cutSeconds(work, cut, loadSize), 0);
  return CLAMPING_S / loadSize + changes / loadSize + working;
}

/** Seconds of one cut on one piece: winding to its points and passes, and cutting. */
function cutSeconds(work: OperationWork, cut: ResolvedCut, loadSize: number): number {
  const reach = work.station === 'pillar drill' ? LOCATING_S : WINDING_S;
  const stops = cut.points.length + (cut.loadPasses ?? cut.passes).length / loadSize;
  if (cut.thread !== null) return stops * reach + cut.points.length * tappingSeconds(cut);
  const cutting = cuttingSeconds(cut);
  const touches = cut.topDiameter === null ? 0 : cut.points.length * CONE_TOUCH_S;
  return (
    stops * reach + touches + (cut.topDiameter === null ? (cut.passes.length > 0 ? cutting / loadSize : cutting) : 0)
  );
}

/** In and out again; by hand with the quarter turns back. */
function tappingSeconds(cut: ResolvedCut): number {
  if (cut.thread?.byHand === true) return (cut.thread.turns ?? USUAL_HAND_TURNS) * HAND_TAP_TURN_S * 1.5;
  return 2 * (cut.feel?.to ?? 0);
}
