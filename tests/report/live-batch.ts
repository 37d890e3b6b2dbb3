/**
 * A batch led by hand for tests of the report: time is booked before each event as the fold does, then the event changes
 * the state. It uses the fold's own parts and no command, so that a test states exactly what happened.
 */
import { booked } from '../../src/batch/accounts.ts';
import { chained } from '../../src/batch/chain.ts';
import type { EventOf } from '../../src/batch/events.ts';
import { countedScrapped, loadCounted, pieceRejected } from '../../src/batch/evolve/counting.ts';
import { ended, opened, sittingBegan, sittingEnded } from '../../src/batch/evolve/opening.ts';
import type { Instant } from '../../src/batch/instant.ts';
import type { Account, Batch } from '../../src/batch/state.ts';
import type { ResolvedPlan } from '../../src/plan/resolved.ts';

/** Monday 1 March 2027, 18:30 in Berlin. */
export const begin: Instant = {
  wall_ms: Date.UTC(2027, 2, 1, 17, 30),
  zone: 'Europe/Berlin',
  mono_ms: 5000,
  boot: 'a',
};

/** So many milliseconds after the beginning; the wall clock may be off by `step_ms`. */
export const later = (ms: number, step_ms = 0): Instant => ({
  ...begin,
  wall_ms: begin.wall_ms + ms + step_ms,
  mono_ms: begin.mono_ms + ms,
});

export function openedBatch(plan: ResolvedPlan, parts: Partial<EventOf<'BatchOpened'>> = {}): Batch {
  return opened(
    {
      kind: 'BatchOpened',
      planText: '',
      planSha256: 'ab'.repeat(32),
      planPath: null,
      plan,
      zone: 'Europe/Berlin',
      hours: null,
      rate: null,
      overrides: [],
      ...parts,
    },
    begin,
  );
}

const remarked = (batch: Batch, at: Instant, event: Reasoned): Batch => ({
  ...batch,
  remarks: chained(batch.remarks, { at, by: batch.by, event }),
});
type Reasoned = EventOf<'LoadCounted'> | EventOf<'PieceRejected'> | EventOf<'CountedScrapped'>;

/** Somebody sits down at the first cell. */
export function satDown(batch: Batch, at: Instant, cell = 0): Batch {
  const now = booked(batch, at);
  const here = sittingBegan(now, { kind: 'SittingBegan', by: 'AB', host: 'bench', afterCut: false }, at, now.last);
  return atCell(here, cell);
}

/** The cell becomes the one worked on; no card is up, so time runs as run time. */
export function atCell(batch: Batch, cell: number): Batch {
  const cells = batch.cells.map((one, at) => (at === cell ? { ...one, begun: true } : one));
  return { ...batch, cells, current: cell, cards: [] };
}

/** Time goes by in an account of its own. */
export const spent = (batch: Batch, at: Instant, account: Account): Batch => booked(batch, at, account);

/** A load is counted at the cell in hand, timed from the run time since the last count. */
export function countedLoad(batch: Batch, at: Instant, good: number, scrap: readonly string[] = []): Batch {
  const now = booked(batch, at);
  const cell = now.cells[now.current ?? 0]!;
  const event: EventOf<'LoadCounted'> = {
    kind: 'LoadCounted',
    operation: cell.operation,
    lane: cell.lane,
    good,
    scrap: scrap.map((reason) => ({ place: null, reason })),
    ms: cell.loadRun_ms,
    leftOut: cell.spoiled,
    quick: false,
  };
  return remarked(loadCounted(now, event, at), at, event);
}

export function rejectedPiece(batch: Batch, at: Instant, reason: string): Batch {
  const now = booked(batch, at);
  const { operation, lane } = now.cells[now.current ?? 0]!;
  const event: EventOf<'PieceRejected'> = { kind: 'PieceRejected', operation, lane, place: null, reason };
  return remarked(pieceRejected(now, event), at, event);
}

export function scrappedCounted(batch: Batch, at: Instant, pieces: number, reason: string): Batch {
  const now = booked(batch, at);
  const { operation, lane } = now.cells[now.current ?? 0]!;
  const event: EventOf<'CountedScrapped'> = { kind: 'CountedScrapped', operation, lane, pieces, reason };
  return remarked(countedScrapped(now, event), at, event);
}

export const left = (batch: Batch, at: Instant): Batch =>
  sittingEnded(booked(batch, at), { kind: 'SittingEnded', why: 'left' }, at);

export const finished = (batch: Batch, at: Instant, reason: string | null = null): Batch =>
  ended(booked(batch, at), { kind: 'BatchFinished', short: {}, reason }, at);
