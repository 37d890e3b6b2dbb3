/**
 * The flow of pieces: what waits in a cell is what came good out of the cell before, less what was counted here. Every
 * number is derived from counts, so pieces can neither appear nor vanish; a change is sound when nothing falls below zero.
 */
import { commonLane, orderedIn, startQuantity } from './lanes.ts';
import type { Batch, Cell } from './state.ts';
import { type Counting, type Stop, stopFrom, stopsOf } from './stops.ts';

/** The cell at a position; a position that is not there is a bug. */
export function cellAt(batch: Batch, at: number): Cell {
  const cell = batch.cells[at];
  if (cell === undefined) throw new Error(`no cell at position ${at}`);
  return cell;
}

/** The place of a cell in the plan; a position that is not there is a bug. */
export function placeAt(batch: Batch, at: number) {
  const place = batch.lanes.places[at];
  if (place === undefined) throw new Error(`no place at position ${at}`);
  return place;
}

/** Pieces that have come to a cell so far. */
function cameIn(batch: Batch, at: number): number {
  const { inlet, lane } = placeAt(batch, at);
  if (inlet.kind === 'cell') return cellAt(batch, inlet.at).good;
  return inlet.kind === 'pool' ? (batch.allotted[lane] ?? 0) : startQuantity(batch.plan) + batch.more;
}

/** Pieces that wait at a cell, those in hand included: came in, and neither good nor scrap nor out of the house. */
export function waitingAt(batch: Batch, at: number): number {
  const cell = cellAt(batch, at);
  return cameIn(batch, at) - cell.good - cell.scrap - cell.out;
}

/** Pieces in the pool that no variant has been given yet. */
export function unallotted(batch: Batch): number {
  return batch.lanes.parted.length === 0 ? 0 : poolFilled(batch) - sumOf(batch.allotted);
}

function poolFilled(batch: Batch): number {
  const { poolCell } = batch.lanes;
  return poolCell === null ? startQuantity(batch.plan) + batch.more : cellAt(batch, poolCell).good;
}

/** Pieces not yet given to a variant that can still become good: in the pool and on the way to it. */
export function unallottedAlive(batch: Batch): number {
  const lost = batch.cells.reduce((sum, cell) => (cell.lane === commonLane ? sum + cell.scrap : sum), 0);
  return startQuantity(batch.plan) + batch.more - lost - sumOf(batch.allotted);
}

/** Pieces of a variant that were allotted to it and are not scrap. */
function aliveIn(batch: Batch, lane: string): number {
  const lost = batch.cells.reduce((sum, cell) => (cell.lane === lane ? sum + cell.scrap : sum), 0);
  return (batch.allotted[lane] ?? 0) - lost;
}

/** How many pieces fewer than ordered can still come out; 0 when the order can be met. */
export function shortageOf(batch: Batch): number {
  const alive = unallottedAlive(batch);
  if (batch.lanes.parted.length === 0) return Math.max(0, orderedIn(batch.plan, commonLane) - alive);
  const needed = batch.lanes.parted.reduce((sum, lane) => sum + needOf(batch, lane), 0);
  return Math.max(0, needed - alive);
}

/** Pieces of the order that a variant still lacks. */
export function needOf(batch: Batch, lane: string): number {
  return Math.max(0, orderedIn(batch.plan, lane) - aliveIn(batch, lane));
}

/** How the count key counts in a cell: as the plan says unless the operator changed it. */
export function countingOf(batch: Batch, at: number): Counting {
  return cellAt(batch, at).counting ?? placeAt(batch, at).operation.counting;
}

/** Pieces held at once when a load is full; 1 when every piece is counted by itself. */
export function fullLoad(batch: Batch, at: number): number {
  return countingOf(batch, at) === 'piece' ? 1 : placeAt(batch, at).operation.loadSize;
}

/** The load in hand at a cell: its size when it began, the pieces still in it, its stops and the next of them. */
export type InHand = {
  readonly size: number;
  readonly pieces: number;
  readonly rejected: readonly number[];
  readonly stops: readonly Stop[];
  /** Position of the next stop in `stops`; their number when every stop is done. */
  readonly stop: number;
};

/** Pieces that the load in hand began with, or would begin with now. */
export function loadSizeAt(batch: Batch, at: number): number {
  const { size } = cellAt(batch, at).load;
  return size > 0 ? size : Math.min(fullLoad(batch, at), Math.max(0, waitingAt(batch, at)));
}

/** What is in hand at a cell; no pieces when none wait there. */
export function inHandAt(batch: Batch, at: number): InHand {
  const { load } = cellAt(batch, at);
  const size = loadSizeAt(batch, at);
  const stops = stopsOf(placeAt(batch, at).operation, countingOf(batch, at), size);
  const stop = stopFrom(stops, load.stop, load.rejected);
  return { size, pieces: size - load.rejected.length, rejected: load.rejected, stops, stop };
}

/** Pieces through a cell, good and scrap: the ordinal of the piece counted last. */
export function throughAt(cell: Cell): number {
  return cell.good + cell.scrap;
}

/** Pieces of whole loads through a cell: the ordinal of the newest piece that can be taken from the tray and measured. */
export function countedAt(cell: Cell): number {
  return throughAt(cell) - cell.load.rejected.length;
}

/**
 * A cell whose numbers cannot be: more was used than came; null when all is sound. Of a batch that grew out of a sound one,
 * `before`, only what has changed since is looked at.
 */
export function unsoundCell(batch: Batch, before: Batch | null = null): number | null {
  if (unallotted(batch) < 0) return batch.lanes.poolCell ?? 0;
  const known = before !== null && hasSameInlets(before, batch) ? before.cells : null;
  const { cells } = batch;
  for (let at = 0; at < cells.length; at += 1) {
    if (known !== null && known[at] === cells[at]) continue;
    if (isUnsound(batch, at)) return at;
    // What came into the next cell changed with this one.
    const next = known === null ? null : placeAt(batch, at).next;
    if (next !== null && isUnsound(batch, next)) return next;
  }
  return null;
}

function hasSameInlets(before: Batch, batch: Batch): boolean {
  const { plan, lanes, allotted, more } = before;
  return plan === batch.plan && lanes === batch.lanes && allotted === batch.allotted && more === batch.more;
}

function isUnsound(batch: Batch, at: number): boolean {
  const cell = cellAt(batch, at);
  const held = cell.load.size > 0 ? cell.load.size - cell.load.rejected.length : 0;
  return cell.good < 0 || cell.scrap < 0 || cell.out < 0 || waitingAt(batch, at) < held;
}

function sumOf(counts: Readonly<Record<string, number>>): number {
  return Object.values(counts).reduce((sum, count) => sum + count, 0);
}
