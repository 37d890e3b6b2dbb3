/**
 * A batch led by hand for tests of the report: events one by one, without commands, so that a test states exactly what
 * happened and when.
 */
import { booked } from '../../src/batch/accounts.ts';
import type { BatchEvent, EventOf } from '../../src/batch/events.ts';
import { evolve } from '../../src/batch/evolve.ts';
import type { Instant } from '../../src/batch/instant.ts';
import { type Account, type Batch, noBatch } from '../../src/batch/state.ts';
import type { ResolvedPlan } from '../../src/plan/resolved.ts';

/** Monday 1 March 2027, 18:30 in Berlin. */
const begin: Instant = { wall_ms: Date.UTC(2027, 2, 1, 17, 30), zone: 'Europe/Berlin', mono_ms: 5000, boot: 'a' };

/** So many milliseconds after the beginning; the wall clock may be off by `step_ms`. */
export const later = (ms: number, step_ms = 0): Instant => ({
  ...begin,
  wall_ms: begin.wall_ms + ms + step_ms,
  mono_ms: begin.mono_ms + ms,
});

/** The batch after an event, which must leave it there. */
export function happened(batch: Batch, at: Instant, event: BatchEvent): Batch {
  const next = evolve(batch, event, at);
  if (next.kind === 'none') throw new Error('the batch is gone');
  return next;
}

export function openedBatch(plan: ResolvedPlan, parts: Partial<EventOf<'BatchOpened'>> = {}): Batch {
  const event: BatchEvent = {
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
  };
  const batch = evolve(noBatch, event, begin);
  if (batch.kind === 'none') throw new Error('the batch was not opened');
  return batch;
}

/** Somebody sits down at a cell, and no card is up: from here on time is run time. */
export function satDown(batch: Batch, at: Instant, cell = 0): Batch {
  return atCell(happened(batch, at, { kind: 'SittingBegan', by: 'AB', host: 'bench', afterCut: false }), cell);
}

/** The cell becomes the one worked on. */
export function atCell(batch: Batch, cell: number): Batch {
  const cells = batch.cells.map((one, at) => (at === cell ? { ...one, begun: true } : one));
  return { ...batch, cells, current: cell, cards: [] };
}

/** Time goes by in an account of its own. */
export const spent = (batch: Batch, at: Instant, account: Account): Batch => booked(batch, at, account);

/** Operation and lane of the cell in hand. */
export function hereIn(batch: Batch): { operation: number; lane: string } {
  const cell = batch.cells[batch.current ?? 0];
  if (cell === undefined) throw new Error('no cell');
  return { operation: cell.operation, lane: cell.lane };
}

/** A load is counted at the cell in hand, timed by the run time since the last count. */
export function countedLoad(given: Batch, at: Instant, good: number, scrap: readonly string[] = []): Batch {
  const batch = booked(given, at);
  const cell = batch.cells[batch.current ?? 0];
  return happened(batch, at, {
    kind: 'LoadCounted',
    ...hereIn(batch),
    good,
    scrap: scrap.map((reason) => ({ place: null, reason })),
    ms: cell?.loadRun_ms ?? null,
    leftOut: cell?.spoiled ?? null,
    quick: false,
  });
}

export const left = (batch: Batch, at: Instant): Batch => happened(batch, at, { kind: 'SittingEnded', why: 'left' });

export const finished = (batch: Batch, at: Instant, reason: string | null = null): Batch =>
  happened(batch, at, { kind: 'BatchFinished', short: {}, reason });
