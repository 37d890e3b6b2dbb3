/** How counts change a cell: points, loads, rejects, rework, recounts, pieces out of the house. Each leaves an entry. */
import { chained } from '../chain.ts';
import type { BatchEvent, EventOf } from '../events.ts';
import { cellAt, loadSizeAt, waitingAt } from '../flow.ts';
import { freshBatch, freshCell } from '../fresh-copies.ts';
import type { Instant } from '../instant.ts';
import { cellKey, commonLane } from '../lanes.ts';
import { type Batch, type Cell, type Entry, emptyLoad } from '../state.ts';
import { checksLowered } from './first-off.ts';
import { amongPieces, type Pieces, withoutPieces } from './suspect-pieces.ts';

type Change = Partial<Pick<Entry, 'good' | 'scrap' | 'out' | 'reworked' | 'beyond'>>;

/** Position of the cell that an event speaks of; one that is not in the plan is a bug. */
export function positionOf(batch: Batch, operation: number, lane: string): number {
  const at = batch.lanes.positions.get(cellKey(operation, lane));
  if (at === undefined) throw new Error(`no operation ${operation} in lane ${lane}`);
  return at;
}

/** Applies a change of counts to a cell with an entry for taking it back, and sets what else is new in the cell. */
export function withEntry(
  batch: Batch,
  at: number,
  what: BatchEvent['kind'],
  change: Change,
  news: Partial<Cell>,
): Batch {
  const cell = cellAt(batch, at);
  const { good = 0, scrap = 0, out = 0, reworked = 0, beyond = { kind: 'nothing' } } = change;
  const entry: Entry = {
    entry: batch.nextEntry,
    what,
    good,
    scrap,
    out,
    outSince: cell.outSince,
    reworked,
    load: cell.load,
    lastGood: cell.lastGood,
    checks: cell.checks,
    checksAfter: good < 0 ? checksLowered(batch, at, cell.good + good) : cell.checks,
    beyond,
  };
  const changed = freshCell(cell);
  changed.good += good;
  changed.scrap += scrap;
  changed.checks = entry.checksAfter;
  changed.out += out;
  changed.reworked += reworked;
  changed.entries = chained(cell.entries, entry);
  Object.assign(changed, news);
  const next = freshBatch(batch);
  next.cells = batch.cells.with(at, changed);
  next.nextEntry += 1;
  next.cards = [];
  if (batch.needs.endSeen) next.needs = { ...batch.needs, endSeen: false };
  return next;
}

/** One point of the load is done. */
export function pointDone(batch: Batch, event: EventOf<'PointDone'>): Batch {
  const at = positionOf(batch, event.operation, event.lane);
  const { load } = cellAt(batch, at);
  return withEntry(batch, at, event.kind, {}, { load: { ...load, size: loadSizeAt(batch, at), stop: event.next } });
}

/** The load is counted; the next one begins at its first stop. */
export function loadCounted(batch: Batch, event: EventOf<'LoadCounted'>, when: Instant): Batch {
  const at = positionOf(batch, event.operation, event.lane);
  const cell = cellAt(batch, at);
  const { accounts } = batch;
  const loads = chained(cell.loads, {
    entry: batch.nextEntry,
    good: event.good,
    scrap: event.scrap.length + cell.load.rejected.length,
    ms: event.ms,
    leftOut: event.leftOut,
    quick: event.quick,
    by: batch.by,
    at: when,
    setup_ms: cell.accounts.setup,
    check_ms: cell.accounts.check,
    waiting: waitingAt(batch, at) - event.good - event.scrap.length,
    idle_ms: accounts.pause + accounts.away + accounts.unknown,
  });
  const change = { good: event.good, scrap: event.scrap.length };
  const news = { load: emptyLoad, lastGood: event.good, loads, loadRun_ms: 0, spoiled: null };
  return withEntry(batch, at, event.kind, change, news);
}

/** A piece of the load in hand is scrap: the load shrinks. Without a place it is the last that is still there. */
export function pieceRejected(batch: Batch, event: EventOf<'PieceRejected'>): Batch {
  const at = positionOf(batch, event.operation, event.lane);
  const { load } = cellAt(batch, at);
  const size = loadSizeAt(batch, at);
  const place = event.place ?? lastHeld(size, load.rejected);
  return withEntry(
    batch,
    at,
    event.kind,
    { scrap: 1 },
    { load: { ...load, size, rejected: [...load.rejected, place] } },
  );
}

/** The last place of a load whose piece was not rejected; the last of all when none is left. */
function lastHeld(size: number, rejected: readonly number[]): number {
  const gone = new Set(rejected);
  let place = size;
  while (place > 0 && gone.has(place)) place -= 1;
  return place > 0 ? place : size;
}

/**
 * Pieces that had been counted good turn out to be scrap. When the whole last load is, none of it is suspect any more; of
 * a part of it nobody knows which pieces they were.
 */
export function countedScrapped(batch: Batch, event: EventOf<'CountedScrapped'>): Batch {
  const at = positionOf(batch, event.operation, event.lane);
  const cell = cellAt(batch, at);
  const lastGood = cell.lastGood - event.pieces;
  const scrapped = lastGood > 0 ? null : lastLoadOf(cell);
  const settled = scrapped === null ? [] : amongPieces(batch.suspects, scrapped);
  const change = { good: -event.pieces, scrap: event.pieces, beyond: { kind: 'suspects', settled } as const };
  const next = withEntry(batch, at, event.kind, change, { lastGood });
  return scrapped === null ? next : { ...next, suspects: withoutPieces(batch.suspects, scrapped) };
}

/** The pieces of the last load, by their ordinals. */
function lastLoadOf(cell: Cell): Pieces | null {
  const load = cell.loads?.item;
  if (load === undefined) return null;
  const { operation, lane } = cell;
  const to = cell.good + cell.scrap;
  return { operation, lane, from: to - load.good - load.scrap + 1, to };
}

/** Pieces go back: through this operation again, or to an earlier one, which then counts them once more. */
export function sentToRework(batch: Batch, event: EventOf<'SentToRework'>): Batch {
  const at = positionOf(batch, event.operation, event.lane);
  const { pieces, to } = event;
  if (to === event.operation) {
    const lastGood = Math.max(0, cellAt(batch, at).lastGood - pieces);
    return withEntry(batch, at, event.kind, { good: -pieces, reworked: pieces }, { lastGood });
  }
  const beyond = { kind: 'rework', to, pieces } as const;
  return movedBack(withEntry(batch, at, event.kind, { reworked: pieces, beyond }, {}), at, to, pieces);
}

/**
 * Moves pieces waiting at a cell back to the earlier operation `to`, along the cell's own route; a negative number moves
 * them forward again. Pieces that go back over the parting leave their variant's share.
 */
export function movedBack(batch: Batch, at: number, to: number, pieces: number): Batch {
  const { lane } = cellAt(batch, at);
  const passes = batch.cells.map(
    (cell, i) => i < at && cell.operation >= to && (cell.lane === lane || cell.lane === commonLane),
  );
  const cells = batch.cells.map((cell, i) => {
    if (!passes[i]) return cell;
    const good = cell.good - pieces;
    return { ...cell, good, checks: pieces > 0 ? checksLowered(batch, i, good) : cell.checks };
  });
  const { poolCell } = batch.lanes;
  const overParting = lane !== commonLane && poolCell !== null && passes[poolCell] === true;
  if (!overParting) return { ...batch, cells };
  return { ...batch, cells, allotted: { ...batch.allotted, [lane]: (batch.allotted[lane] ?? 0) - pieces } };
}

/** The count is set by hand; when it changes, the load in hand is no timing any more. */
export function recounted(batch: Batch, event: EventOf<'Recounted'>): Batch {
  const at = positionOf(batch, event.operation, event.lane);
  const change = event.good - event.before;
  if (change === 0) return batch;
  const spoiled = change > 0 ? 'made by hand count' : 'recount';
  return withEntry(batch, at, event.kind, { good: change }, { lastGood: 0, spoiled });
}

/** A trial piece: counted apart. Between loads its time is its own, within a load the timing is spoiled. */
export function trialMade(batch: Batch, event: EventOf<'TrialMade'>): Batch {
  const at = positionOf(batch, event.operation, event.lane);
  const cell = cellAt(batch, at);
  const timing = cell.load.size > 0 ? { spoiled: 'trial' as const } : { loadRun_ms: 0 };
  return { ...batch, cells: batch.cells.with(at, { ...cell, trials: cell.trials + 1, ...timing }) };
}

/** Pieces leave the house. */
export function sentAway(batch: Batch, event: EventOf<'SentAway'>, when: Instant): Batch {
  const at = positionOf(batch, event.operation, event.lane);
  return withEntry(batch, at, event.kind, { out: event.pieces }, { outSince: when });
}

/** Pieces come back; what was lost outside is scrap. */
export function cameBack(batch: Batch, event: EventOf<'CameBack'>): Batch {
  const { pieces, lost } = event;
  const at = positionOf(batch, event.operation, event.lane);
  return withEntry(batch, at, event.kind, { good: pieces, scrap: lost, out: -(pieces + lost) }, { lastGood: pieces });
}

/** More pieces are begun at the first operation than the plan had. */
export function moreStarted(batch: Batch, event: EventOf<'MoreStarted'>): Batch {
  const { pieces } = event;
  const counted = withEntry(batch, 0, event.kind, { beyond: { kind: 'more', pieces } }, {});
  return { ...counted, more: batch.more + pieces };
}

/** Pieces of the pool go to the variants. */
export function poolAllotted(batch: Batch, event: EventOf<'PoolAllotted'>): Batch {
  const at = batch.lanes.poolCell ?? batch.current ?? 0;
  const { shares } = event;
  const counted = withEntry(batch, at, event.kind, { beyond: { kind: 'shares', shares } }, {});
  return { ...counted, allotted: sharesAdded(batch.allotted, shares, 1) };
}

/** Shares added to (`times` 1) or taken from (-1) what the variants have. */
export function sharesAdded(allotted: Batch['allotted'], shares: Batch['allotted'], times: 1 | -1): Batch['allotted'] {
  const sums = Object.entries(shares).map(([lane, pieces]) => [lane, (allotted[lane] ?? 0) + times * pieces] as const);
  return { ...allotted, ...Object.fromEntries(sums) };
}
