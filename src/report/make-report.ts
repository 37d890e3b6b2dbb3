/**
 * The report of a batch, made from its state alone, and so from its journal alone (P14). Counts and times are those of the
 * batch; what is computed here (statistics, standard time, cost, better estimates) is in a file of its own each.
 */
import { booked } from '../batch/accounts.ts';
import type { Instant } from '../batch/instant.ts';
import { accountNames, type Batch } from '../batch/state.ts';
import { elapsedOf, loadRows, operationRow } from './from-batch/operation-rows.ts';
import { dayRows, pauseRows, sittingRows } from './from-batch/people-rows.ts';
import { checkReports, correctionRows, suspectRows } from './from-batch/quality-rows.ts';
import { quantitiesOf } from './from-batch/quantities.ts';
import { lossRows, noteRows } from './from-batch/remark-rows.ts';
import { remarkSentences } from './from-batch/remark-sentences.ts';
import type { Elapsed, ReportModel } from './model.ts';
import { estimateChanges } from './next-time.ts';
import { costOf } from './piece-cost.ts';
import { makeReportSettings, type ReportSettings } from './settings.ts';
import { isoInstant } from './time-text.ts';

/** What a report needs beside the state. */
export interface ReportContext {
  /** The batch's id, its folder's name. */
  readonly batch: string;
  readonly settings?: ReportSettings;
}

/**
 * The report at the instant `at`; of a batch that is over, at its closing. Time since the newest line is booked where the
 * state says it runs, so the accounts add up to `at` less the opening.
 *
 * Example: a batch opened a minute ago in which nothing happened has no pieces and 60 s in the account `away`.
 */
export function makeReport(given: Batch, at: Instant, context: ReportContext): ReportModel {
  const batch = booked(given, at);
  const until = batch.closed ?? at;
  const settings = context.settings ?? makeReportSettings();
  const elapsed_s = elapsedOf(batch.accounts);
  const quantities = quantitiesOf(batch);
  const rows = operationsOf(batch, settings);
  const loads = rows
    .flatMap((row) => row.loads)
    .sort((a, b) => a.entry - b.entry)
    .map(({ entry: _, ...load }) => load);
  const operations = rows.map((row) => row.row);
  const checks = rows.flatMap((row) => row.checks);
  return {
    format: 1,
    batch: context.batch,
    plan: { id: batch.plan.id, sha256: batch.planSha256, path: batch.planPath },
    job: batch.plan.job,
    drawing: batch.plan.drawing,
    revision: batch.plan.revision,
    material: batch.plan.material,
    units: batch.plan.units,
    zone: batch.zone,
    state: batch.kind === 'open' ? 'running' : batch.kind,
    because: batch.outcome?.reason ?? null,
    opened: isoInstant(batch.opened.wall_ms, batch.opened.zone),
    closed: batch.closed === null ? null : isoInstant(batch.closed.wall_ms, batch.closed.zone),
    at: isoInstant(until.wall_ms, until.zone),
    elapsed_s,
    total_s: totalOf(elapsed_s),
    ...quantities,
    operations,
    losses: lossRows(batch),
    loads,
    checks,
    suspects: suspectRows(batch),
    corrections: correctionRows(batch),
    overrides: [...batch.overrides],
    sittings: sittingRows(batch, until),
    days: dayRows(batch, loads),
    pauses: pauseRows(batch),
    notes: noteRows(batch),
    money: costOf(elapsed_s, quantities, settings.rate ?? batch.rate ?? batch.plan.rate, settings),
    next_time: estimateChanges(operations, loads),
    remarks: remarkSentences(batch, loads, checks),
  };
}

/** Added in whole milliseconds, so that the sum shows no tail of binary fractions. */
const totalOf = (elapsed: Elapsed): number =>
  accountNames.reduce((sum, name) => sum + Math.round(elapsed[name] * 1000), 0) / 1000;

function operationsOf(batch: Batch, settings: ReportSettings) {
  return batch.cells.flatMap((cell, at) => {
    const operation = batch.lanes.places[at]?.operation;
    if (operation === undefined) return [];
    const loads = loadRows(cell);
    const row = operationRow(batch, cell, operation, loads, settings);
    return [{ row, loads, checks: checkReports(cell, operation) }];
  });
}
