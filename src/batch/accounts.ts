/**
 * Accounts: every millisecond between opening and closing belongs to exactly one of setup, run, check, delay, pause,
 * away, unknown; for the batch and, while an operation is at hand, for its cell as well. The account follows from the
 * state, so the time up to an event is booked before the event changes anything. Keeps P5 by `durationBetween`.
 */
import type { Card } from './cards.ts';
import { chained } from './chain.ts';
import { cellAt, placeAt } from './flow.ts';
import { freshAccounts, freshBatch, freshCell } from './fresh-copies.ts';
import { durationBetween, type Instant } from './instant.ts';
import type { Account, Accounts, Batch, Cell, Span } from './state.ts';

/** The account in which time runs in this state. */
export function accountOf(batch: Batch): Account {
  if (batch.presence === 'left') return 'away';
  if (batch.presence === 'paused') return 'pause';
  const card = batch.cards[0];
  if (card !== undefined) return accountOfCard(card);
  if (batch.current === null) return 'delay';
  return placeAt(batch, batch.current).operation.kind === 'away' ? 'away' : 'run';
}

/** The account in which time runs while a card is up. A zero that was lost is a delay, the first one is setup. */
function accountOfCard(card: Card): Account {
  switch (card.kind) {
    case 'setup':
    case 'tool':
    case 'speed':
    case 'variant':
      return 'setup';
    case 'zero':
    case 'z zero':
      return card.why === null ? 'setup' : 'delay';
    case 'check':
      return 'check';
    case 'away':
      return 'away';
    case 'resume':
    case 'recount':
    case 'correction':
    case 'parting':
    case 'suspects':
    case 'shortage':
    case 'operation ended':
    case 'batch ended':
      return 'delay';
  }
}

/**
 * Books the time since the newest line. Without `account` it goes where the state says.
 *
 * @param at - the present instant; one that lies before the newest line books nothing (see `durationBetween`)
 */
export function booked(batch: Batch, at: Instant, account: Account = accountOf(batch)): Batch {
  if (batch.closed !== null) return batch;
  return bookedMs(batch, durationBetween(batch.last, at).ms, account, at);
}

/**
 * Books so many milliseconds, also such as no clock saw passing here because the computer slept.
 *
 * @param last - the moment up to which time is booked afterwards
 */
export function bookedMs(batch: Batch, ms: number, account: Account, last: Instant): Batch {
  if (ms === 0 && batch.last === last) return batch;
  const next = freshBatch(batch);
  next.last = last;
  if (ms === 0) return next;
  const cell = batch.current === null ? null : cellAt(batch, batch.current);
  next.accounts = added(batch.accounts, account, ms);
  next.spans = spansWith(batch.spans, { account, cell: cell?.key ?? null, from: batch.last, ms });
  if (batch.current !== null && cell !== null)
    next.cells = batch.cells.with(batch.current, cellBooked(cell, account, ms));
  return next;
}

function cellBooked(cell: Cell, account: Account, ms: number): Cell {
  const next = freshCell(cell);
  next.accounts = added(cell.accounts, account, ms);
  if (account === 'run') next.loadRun_ms += ms;
  return next;
}

/** Adds a stretch of time; one like the newest makes that longer. */
function spansWith(newest: Batch['spans'], span: Span): Batch['spans'] {
  if (newest === null || newest.item.account !== span.account || newest.item.cell !== span.cell) {
    return chained(newest, span);
  }
  const { account, cell, from, ms } = newest.item;
  return chained(newest.older, { account, cell, from, ms: ms + span.ms });
}

function added(accounts: Accounts, account: Account, ms: number): Accounts {
  const next = freshAccounts(accounts);
  next[account] += ms;
  return next;
}
