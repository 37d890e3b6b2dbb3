/**
 * Lanes: the streams of pieces through the operations. All variants flow in the common lane '*' until the first operation
 * that names fewer variants than all; from there each variant has its own lane to the end, also through later operations
 * done to all of them. A plan of one variant has the common lane only.
 *
 * A cell is one operation in one lane: the place where pieces wait and are counted.
 */
import type { ResolvedOperation, ResolvedPlan } from '../plan/resolved.ts';

/** The lane of all variants together. */
export const commonLane = '*';

/** Where a cell's pieces come from: the start of the batch, the pool of the parting, or the cell before. */
export type Inlet =
  | { readonly kind: 'start' }
  | { readonly kind: 'pool' }
  | { readonly kind: 'cell'; readonly at: number };

/** Where a cell lies in its plan. `at` values are positions in `Lanes.places`. */
export type CellPlace = {
  readonly operation: ResolvedOperation;
  readonly lane: string;
  readonly inlet: Inlet;
  /** The cell that takes what is good here; null after the last operation of the lane and before the parting. */
  readonly next: number | null;
};

/** The route of every lane of a plan. */
export type Lanes = {
  /** All cells, by operation in plan order and then by variant in plan order. */
  readonly places: readonly CellPlace[];
  /** Position of a cell by its key. */
  readonly positions: ReadonlyMap<string, number>;
  /** The lanes that part from the pool, in plan order; empty when nothing parts. */
  readonly parted: readonly string[];
  /** The last common cell, whose good pieces enter the pool; null when the lanes part at the start or never. */
  readonly poolCell: number | null;
};

/** The key of a cell: `cellKey(40, 'threaded')` is `40/threaded`. */
export function cellKey(operation: number, lane: string): string {
  return `${operation}/${lane}`;
}

/**
 * The routes through a plan.
 *
 * Example: operations 10 (all), 20 (threaded), 30 (all) of two variants: cells 10/*, 20/threaded, 30/threaded,
 * 30/clearance; the pool is filled by 10/* and parts into threaded and clearance.
 */
export function lanesOf(plan: ResolvedPlan): Lanes {
  const parting = plan.operations.findIndex((operation) => operation.variants.length < plan.variants.length);
  const commonCount = parting === -1 ? plan.operations.length : parting;
  const parted = parting === -1 ? [] : plan.variants.map((variant) => variant.id);
  const ends = new Map<string, number>();
  const places: CellPlace[] = [];
  plan.operations.forEach((operation, i) => {
    const lanes = i < commonCount ? [commonLane] : parted.filter((lane) => operation.variants.includes(lane));
    for (const lane of lanes) {
      const before = ends.get(lane);
      if (before !== undefined) places[before] = { ...(places[before] as CellPlace), next: places.length };
      ends.set(lane, places.length);
      places.push({ operation, lane, inlet: inletOf(before, lane), next: null });
    }
  });
  const positions = new Map(places.map((place, at) => [cellKey(place.operation.number, place.lane), at]));
  return { places, positions, parted, poolCell: parted.length === 0 ? null : (ends.get(commonLane) ?? null) };
}

function inletOf(before: number | undefined, lane: string): Inlet {
  if (before !== undefined) return { kind: 'cell', at: before };
  return lane === commonLane ? { kind: 'start' } : { kind: 'pool' };
}

/** Pieces that a batch starts with before any are made more: the ordered quantities and the spares. */
export function startQuantity(plan: ResolvedPlan): number {
  return plan.variants.reduce((sum, variant) => sum + variant.quantity, 0) + plan.spares;
}

/** Pieces ordered in a lane: of all variants for the common one. */
export function orderedIn(plan: ResolvedPlan, lane: string): number {
  return plan.variants.reduce((sum, v) => (lane === commonLane || v.id === lane ? sum + v.quantity : sum), 0);
}
