/**
 * Accounts: every millisecond between opening and closing belongs to exactly one of setup, run, check, delay, pause,
 * away, unknown; for the batch and, while an operation is at hand, for its cell as well. The account follows from the
 * state, so the time up to an event is booked before the event changes anything. Keeps P5 by `durationBetween`.
 */
import type { Card } from './cards.ts';
import { chained } from './chain.ts';
import { cellAt, placeAt } from './flow.ts';
import { durationBetween, type Instant } from './instant.ts';
import type { Account, Accounts, Batch, Span } from './state.ts';

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
      return card.why === null ? 'setup' : 'delay';
    case 'check':
      return 'check';
    case 'away':
      return 'away';
    case 'resume':
    case 'recount':
    case 'parting':
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
  const { ms } = durationBetween(batch.last, at);
  return { ...bookedMs(batch, ms, account, batch.last), last: at };
}

/** Books milliseconds that no clock saw passing here: the computer slept. */
export function bookedMs(batch: Batch, ms: number, account: Account, from: Instant): Batch {
  if (ms === 0) return batch;
  return {
    ...batch,
    accounts: added(batch.accounts, account, ms),
    cells: batch.current === null ? batch.cells : cellsBooked(batch, batch.current, account, ms),
    spans: spansWith(batch, {
      account,
      cell: batch.current === null ? null : cellAt(batch, batch.current).key,
      from,
      ms,
    }),
  };
}

function cellsBooked(batch: Batch, at: number, account: Account, ms: number): Batch['cells'] {
  const cell = cellAt(batch, at);
  return batch.cells.with(at, {
    ...cell,
    accounts: added(cell.accounts, account, ms),
    loadRun_ms: account === 'run' ? cell.loadRun_ms + ms : cell.loadRun_ms,
  });
}

function spansWith(batch: Batch, span: Span): Batch['spans'] {
  const newest = batch.spans;
  if (newest !== null && newest.item.account === span.account && newest.item.cell === span.cell) {
    return chained(newest.older, { ...newest.item, ms: newest.item.ms + span.ms });
  }
  return chained(newest, span);
}

const added = (accounts: Accounts, account: Account, ms: number): Accounts => ({
  ...accounts,
  [account]: accounts[account] + ms,
});
