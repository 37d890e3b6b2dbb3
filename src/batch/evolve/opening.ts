/** How a batch begins, is sat down to, and ends. */
import { chained } from '../chain.ts';
import type { EventOf } from '../events.ts';
import { cellAt } from '../flow.ts';
import { durationBetween, type Instant } from '../instant.ts';
import { type CellPlace, cellKey, lanesOf } from '../lanes.ts';
import { type Batch, type Cell, type CheckFact, emptyAccounts, emptyLoad } from '../state.ts';
import { withAllZerosLost } from './zero-lost.ts';

/** Milliseconds away after which the zero is proved and the tray recounted: half an hour. */
const longBreak_ms = 30 * 60_000;

/** The batch as it stands right after opening: nobody there, every piece before the first operation. */
export function opened(event: EventOf<'BatchOpened'>, at: Instant): Batch {
  const lanes = lanesOf(event.plan);
  return {
    kind: 'open',
    plan: event.plan,
    lanes,
    planText: event.planText,
    planSha256: event.planSha256,
    planPath: event.planPath,
    declinedPlans: [],
    zone: event.zone,
    hours: event.hours,
    rate: event.rate,
    overrides: event.overrides,
    opened: at,
    closed: null,
    last: at,
    presence: 'left',
    pause: null,
    by: null,
    lastPerson: null,
    sittings: null,
    current: null,
    cells: lanes.places.map(newCell),
    allotted: {},
    more: 0,
    cards: [],
    cardsRaised: 0,
    unproved: null,
    nextEntry: 0,
    needs: {
      resume: null,
      recount: false,
      asked: [],
      toolBack: null,
      endSeen: false,
      corrections: [],
      shortageSeen: 0,
    },
    machines: {},
    variantInHand: null,
    restored: [],
    holesAtChange: {},
    corrections: [],
    suspects: [],
    accounts: emptyAccounts,
    spans: null,
    remarks: null,
    outcome: null,
  };
}

/** A cell in which nothing has happened. */
export function newCell(place: CellPlace): Cell {
  const { operation, lane } = place;
  const checks = operation.checks.map((check): [string, CheckFact] => [
    check.id,
    { dueAbove: check.firstOff ? 0 : null, since: 0, checkedAt: 0, goodThen: 0, goodAt: 0 },
  ]);
  return {
    key: cellKey(operation.number, lane),
    operation: operation.number,
    lane,
    begun: false,
    good: 0,
    scrap: 0,
    reworked: 0,
    out: 0,
    outSince: null,
    trials: 0,
    counting: null,
    load: emptyLoad,
    lastGood: 0,
    entries: null,
    loads: null,
    loadRun_ms: 0,
    spoiled: null,
    checks: Object.fromEntries(checks),
    checkLog: null,
    accounts: emptyAccounts,
  };
}

/**
 * Somebody sits down. After a cut, a long break or with another person the place is shown again, and after a cut or a
 * break nobody knows the speeds any more.
 *
 * @param left - when the batch was last known to be attended
 */
export function sittingBegan(batch: Batch, event: EventOf<'SittingBegan'>, at: Instant, left: Instant): Batch {
  const away_ms = durationBetween(left, at).ms;
  const long = event.afterCut || away_ms > longBreak_ms;
  const handover = event.by !== null && batch.lastPerson !== null && event.by !== batch.lastPerson;
  const shown = batch.current === null ? batch : withPlaceShown(batch, long || handover, away_ms, event.afterCut);
  const known = long ? withAllZerosLost(shown, event.afterCut ? 'power cut' : 'long break') : shown;
  return {
    ...(long ? withSpeedsUnknown(known) : known),
    presence: 'here',
    pause: null,
    cards: [],
    by: event.by,
    lastPerson: event.by ?? batch.lastPerson,
    sittings: chained(closedSitting(batch.sittings, left, 'cut'), {
      began: at,
      by: event.by,
      host: event.host,
      afterCut: event.afterCut,
      ended: null,
    }),
  };
}

function withPlaceShown(batch: Batch, shown: boolean, away_ms: number, cut: boolean): Batch {
  if (!shown) return batch;
  const needs = { ...batch.needs, resume: { away_ms, cut }, recount: true };
  return { ...(cut ? withTimingSpoiled(batch, 'cut') : batch), needs };
}

/** The sitting ends; cards that were up come again with the next one. */
export function sittingEnded(batch: Batch, event: EventOf<'SittingEnded'>, at: Instant): Batch {
  return {
    ...batch,
    presence: 'left',
    pause: null,
    cards: [],
    sittings: closedSitting(batch.sittings, at, event.why),
  };
}

function closedSitting(
  sittings: Batch['sittings'],
  at: Instant,
  why: EventOf<'SittingEnded'>['why'] | 'cut',
): Batch['sittings'] {
  if (sittings === null || sittings.item.ended !== null) return sittings;
  return chained(sittings.older, { ...sittings.item, ended: { at, why } });
}

/** The pause is over; a long one counts as a break. */
export function resumed(batch: Batch, at: Instant): Batch {
  const ms = batch.pause === null ? 0 : durationBetween(batch.pause.since, at).ms;
  return afterBreak({ ...batch, presence: 'here', pause: null }, ms);
}

/** What a break of so many milliseconds asks for: nothing up to half an hour, else the place, the recount, the speeds. */
export function afterBreak(batch: Batch, ms: number): Batch {
  if (ms <= longBreak_ms || batch.current === null) return batch;
  const needs = { ...batch.needs, resume: { away_ms: ms, cut: false }, recount: true };
  const lost = withAllZerosLost({ ...batch, needs }, 'long break');
  return { ...withSpeedsUnknown(lost), cards: [] };
}

/** Another person carries on: the place is shown and the tray recounted. */
export function initialsGiven(batch: Batch, event: EventOf<'InitialsGiven'>): Batch {
  const handover = event.by !== null && batch.lastPerson !== null && event.by !== batch.lastPerson;
  const told = { ...batch, by: event.by, lastPerson: event.by ?? batch.lastPerson };
  if (!handover || batch.current === null) return told;
  return { ...told, cards: [], needs: { ...batch.needs, resume: { away_ms: 0, cut: false }, recount: true } };
}

/** The load in hand will not count as a timing, when some of it was timed at all. */
export function withTimingSpoiled(batch: Batch, why: NonNullable<Cell['spoiled']>): Batch {
  if (batch.current === null) return batch;
  const cell = cellAt(batch, batch.current);
  if (cell.loadRun_ms === 0 && cell.load.size === 0) return batch;
  return { ...batch, cells: batch.cells.with(batch.current, { ...cell, spoiled: cell.spoiled ?? why }) };
}

function withSpeedsUnknown(batch: Batch): Batch {
  const machines = Object.entries(batch.machines).map(([id, machine]) => [id, { ...machine, rpm: undefined }] as const);
  return { ...batch, machines: Object.fromEntries(machines) };
}

/** The batch is over, as planned, short, or given up. */
export function ended(batch: Batch, event: EventOf<'BatchFinished'> | EventOf<'BatchGivenUp'>, at: Instant): Batch {
  const finished = event.kind === 'BatchFinished';
  return {
    ...batch,
    kind: finished ? 'finished' : 'given up',
    presence: 'left',
    pause: null,
    cards: [],
    closed: at,
    sittings: closedSitting(batch.sittings, at, 'left'),
    outcome: { short: finished ? event.short : {}, reason: event.reason },
  };
}
