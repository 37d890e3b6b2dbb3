/**
 * Copies for the two changes that happen with every count. Written out field by field because a spread costs twenty
 * times as much here (measured on Node 20: 1.05 against 0.04 microseconds for the fields of a batch), and a take-back
 * or an opening folds every event anew. The compiler tells when a field is missing.
 */
import type { Accounts, Batch, Cell } from './state.ts';

/** A fresh copy that its maker may still fill in before it is handed on. */
type Fresh<Value> = { -readonly [Key in keyof Value]: Value[Key] };

/** A batch like this one, to be filled in by the caller and by nobody after that. */
export function freshBatch(batch: Batch): Fresh<Batch> {
  return {
    kind: batch.kind,
    plan: batch.plan,
    lanes: batch.lanes,
    planText: batch.planText,
    planSha256: batch.planSha256,
    planPath: batch.planPath,
    declinedPlans: batch.declinedPlans,
    zone: batch.zone,
    hours: batch.hours,
    rate: batch.rate,
    overrides: batch.overrides,
    opened: batch.opened,
    closed: batch.closed,
    last: batch.last,
    presence: batch.presence,
    pause: batch.pause,
    by: batch.by,
    lastPerson: batch.lastPerson,
    sittings: batch.sittings,
    current: batch.current,
    cells: batch.cells,
    allotted: batch.allotted,
    more: batch.more,
    cards: batch.cards,
    cardsRaised: batch.cardsRaised,
    unproved: batch.unproved,
    nextEntry: batch.nextEntry,
    needs: batch.needs,
    machines: batch.machines,
    variantInHand: batch.variantInHand,
    restored: batch.restored,
    holesAtChange: batch.holesAtChange,
    corrections: batch.corrections,
    suspects: batch.suspects,
    accounts: batch.accounts,
    spans: batch.spans,
    remarks: batch.remarks,
    outcome: batch.outcome,
  };
}

/** A cell like this one, to be filled in by the caller and by nobody after that. */
export function freshCell(cell: Cell): Fresh<Cell> {
  return {
    key: cell.key,
    operation: cell.operation,
    lane: cell.lane,
    begun: cell.begun,
    good: cell.good,
    scrap: cell.scrap,
    reworked: cell.reworked,
    out: cell.out,
    outSince: cell.outSince,
    trials: cell.trials,
    counting: cell.counting,
    load: cell.load,
    lastGood: cell.lastGood,
    entries: cell.entries,
    loads: cell.loads,
    loadRun_ms: cell.loadRun_ms,
    spoiled: cell.spoiled,
    checks: cell.checks,
    checkLog: cell.checkLog,
    accounts: cell.accounts,
  };
}

/** Accounts like these, to be filled in by the caller and by nobody after that. */
export function freshAccounts(accounts: Accounts): Fresh<Accounts> {
  const { setup, run, check, delay, pause, away, unknown } = accounts;
  return { setup, run, check, delay, pause, away, unknown };
}
