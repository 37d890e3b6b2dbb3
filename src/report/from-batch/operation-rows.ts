/** The rows of operations and loads, from the cells of a batch. */
import { oldestFirst } from '../../batch/chain.ts';
import { commonLane, orderedIn } from '../../batch/lanes.ts';
import type { Accounts, Batch, Cell } from '../../batch/state.ts';
import type { ResolvedOperation } from '../../plan/resolved.ts';
import type { Elapsed, LoadRow, OperationRow } from '../model.ts';
import { leftOutOf, pieceTimesOf } from '../piece-times.ts';
import type { ReportSettings } from '../settings.ts';
import { standardTime } from '../standard-time.ts';
import { isoInstant } from '../time-text.ts';

/** Milliseconds of the accounts as seconds, exact to the millisecond. */
export const elapsedOf = (accounts: Accounts): Elapsed => ({
  setup: accounts.setup / 1000,
  run: accounts.run / 1000,
  check: accounts.check / 1000,
  delay: accounts.delay / 1000,
  pause: accounts.pause / 1000,
  away: accounts.away / 1000,
  unknown: accounts.unknown / 1000,
});

/** A load with its place in the order in which the whole batch was counted. */
type OrderedLoad = LoadRow & { readonly entry: number };

/** The loads of a cell in the order counted, numbered through; those taken back are gone. */
export function loadRows(cell: Cell): OrderedLoad[] {
  let before = 0;
  return oldestFirst(cell.loads).map((load) => {
    const pieces = load.good + load.scrap;
    const first_piece = before + 1;
    before += pieces;
    return {
      entry: load.entry,
      operation: cell.operation,
      lane: cell.lane,
      first_piece,
      pieces,
      good: load.good,
      scrap: load.scrap,
      time_s: load.ms === null ? null : load.ms / 1000,
      left_out: load.leftOut,
      quick: load.quick,
      at: isoInstant(load.at.wall_ms, load.at.zone),
      by: load.by,
    };
  });
}

/**
 * The row of a cell. An operation's set-up is planned once, in its first lane; `plan.total_s` speaks of the pieces counted
 * here so far.
 */
export function operationRow(
  batch: Batch,
  cell: Cell,
  operation: ResolvedOperation,
  loads: readonly LoadRow[],
  settings: ReportSettings,
): OperationRow {
  const elapsed_s = elapsedOf(cell.accounts);
  const piece = pieceTimesOf(loads);
  const isFirstLane = batch.cells.find((one) => one.operation === cell.operation) === cell;
  const setup_s = isFirstLane ? operation.estimate.setup : 0;
  return {
    operation: cell.operation,
    lane: cell.lane,
    title: operation.title,
    variant: batch.plan.variants.find((one) => one.id === cell.lane)?.title ?? null,
    kind: operation.kind,
    station: operation.station,
    tools: operation.cuts.flatMap((cut) => batch.plan.tools.find((tool) => tool.id === cut.tool)?.name ?? []),
    load_size: operation.loadSize,
    begun: cell.begun,
    ordered: cell.lane === commonLane ? orderedHere(batch, operation) : orderedIn(batch.plan, cell.lane),
    good: cell.good,
    scrap: cell.scrap,
    rework: cell.reworked,
    elapsed_s,
    piece,
    left_out: leftOutOf(loads),
    pieces_per_hour: elapsed_s.run > 0 ? cell.good / (elapsed_s.run / 3600) : null,
    plan: {
      setup_s,
      piece_s: operation.estimate.piece,
      from: operation.estimate.from,
      batches: operation.estimate.past?.batches ?? null,
      total_s: setup_s + operation.estimate.piece * (cell.good + cell.scrap),
    },
    actual_s: elapsed_s.setup + elapsed_s.run,
    standard: piece === null ? null : standardTime(piece.mean_s, settings),
  };
}

const orderedHere = (batch: Batch, operation: ResolvedOperation): number =>
  operation.variants.reduce((sum, id) => sum + orderedIn(batch.plan, id), 0);
