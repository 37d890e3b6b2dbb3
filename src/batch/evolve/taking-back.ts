/**
 * Taking back: counts, lanes and the next point become what they were; time stays spent. Changes of counts are undone by
 * their amount, so that what happened in other cells meanwhile stays; the load in hand is put back as it was, which is
 * right because within a cell the newest entry is always undone first.
 */
import { type Chain, chained } from '../chain.ts';
import { cellAt, shortageOf, throughAt } from '../flow.ts';
import type { Batch, Cell, CheckEntry, Entry } from '../state.ts';
import { movedBack, sharesAdded } from './counting.ts';

/** Undoes the newest entry of the cell whose newest entry has this ordinal; one that is not there is a bug. */
export function takenBack(batch: Batch, ordinal: number): Batch {
  const at = batch.cells.findIndex((cell) => cell.entries?.item.entry === ordinal);
  const entry = batch.cells[at]?.entries?.item;
  if (entry === undefined) throw new Error(`entry ${ordinal} is not the newest of its operation`);
  const cell = cellUndone(cellAt(batch, at), entry);
  const through = throughAt(cell);
  const undone = beyondUndone({ ...batch, cells: batch.cells.with(at, cell) }, at, entry);
  return {
    ...undone,
    cards: [],
    suspects: undone.suspects.filter(
      (s) => !(s.operation === cell.operation && s.lane === cell.lane && s.piece > through),
    ),
    needs: { ...batch.needs, endSeen: false, shortageSeen: Math.min(batch.needs.shortageSeen, shortageOf(undone)) },
  };
}

function cellUndone(cell: Cell, entry: Entry): Cell {
  const good = cell.good - entry.good;
  const scrap = cell.scrap - entry.scrap;
  const load = entry.what === 'LoadCounted' ? cell.loads : null;
  return {
    ...cell,
    good,
    scrap,
    out: cell.out - entry.out,
    outSince: entry.outSince,
    reworked: cell.reworked - entry.reworked,
    load: entry.load,
    lastGood: entry.lastGood,
    entries: cell.entries?.older ?? null,
    loads: load === null ? cell.loads : load.older,
    loadRun_ms: cell.loadRun_ms + (load?.item.ms ?? 0),
    checks: checksUndone(cell.checks, entry, good + scrap),
    checkLog: withVoid(cell.checkLog, good + scrap),
  };
}

/**
 * A check made on a piece that is no longer counted is due again, and one that nothing has touched since the entry is as it
 * was before it. What a bump or another check said of it meanwhile stays.
 */
function checksUndone(now: Cell['checks'], { checks: before, checksAfter }: Entry, through: number): Cell['checks'] {
  const facts = Object.entries(now).map(([id, fact]) => {
    const isUndone = fact.checkedAt > through || fact === checksAfter[id];
    return [id, isUndone ? (before[id] ?? fact) : fact];
  });
  return Object.fromEntries(facts);
}

/** The log without the newest checks that were made on pieces no longer counted; the newest of those stays, marked void. */
function withVoid(log: Chain<CheckEntry>, through: number): Chain<CheckEntry> {
  let kept = log;
  while (kept !== null && (kept.item.void || kept.item.piece > through)) kept = kept.older;
  return log === null || kept === log ? log : chained(kept, { ...log.item, void: true });
}

function beyondUndone(batch: Batch, at: number, entry: Entry): Batch {
  const { beyond } = entry;
  switch (beyond.kind) {
    case 'nothing':
      return batch;
    case 'rework':
      return movedBack(batch, at, beyond.to, -beyond.pieces);
    case 'shares':
      return { ...batch, allotted: sharesAdded(batch.allotted, beyond.shares, -1) };
    case 'more':
      return { ...batch, more: batch.more - beyond.pieces };
    case 'suspects':
      return { ...batch, suspects: [...batch.suspects, ...beyond.settled] };
    case 'correction':
      return {
        ...batch,
        corrections: batch.corrections.map((c) => (c.entry === entry.entry ? { ...c, takenBack: true } : c)),
      };
  }
}
