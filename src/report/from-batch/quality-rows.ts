/** Checks, suspect pieces and corrections, from the cells and the remarks of a batch. */
import { oldestFirst } from '../../batch/chain.ts';
import type { Batch, Cell, CheckEntry, Correction } from '../../batch/state.ts';
import type { ResolvedCheck, ResolvedOperation } from '../../plan/resolved.ts';
import { judgeCheck } from '../check-verdict.ts';
import type { CheckReport, ReportModel } from '../model.ts';
import { isoInstant } from '../time-text.ts';
import { standingRemarks } from './remark-rows.ts';

/** The checks of a cell with their results; a result whose piece was taken back is void and left out. */
export function checkReports(cell: Cell, operation: ResolvedOperation): CheckReport[] {
  const log = oldestFirst(cell.checkLog).filter((entry) => !entry.void);
  return operation.checks
    .filter((check) => cell.begun || log.some((entry) => entry.check === check.id))
    .map((check) => checkReport(cell, check, log));
}

function checkReport(cell: Cell, check: ResolvedCheck, log: readonly CheckEntry[]): CheckReport {
  const limits =
    check.what.kind === 'measured'
      ? { nominal_mm: check.what.nominal, lower_mm: check.what.lower, upper_mm: check.what.upper }
      : null;
  const results = withWords(log.filter((entry) => entry.check === check.id));
  return {
    operation: cell.operation,
    lane: cell.lane,
    check: check.id,
    title: check.title,
    gauge: check.gauge,
    limits,
    results,
    ...judgeCheck({ limits, results }),
  };
}

/** The results, each word on a skipped one with the skip that it is of. */
function withWords(log: readonly CheckEntry[]): CheckReport['results'] {
  const results: CheckReport['results'] = [];
  for (const entry of log) {
    const { result } = entry;
    const last = results.at(-1);
    if (result.kind !== 'skipped' || result.word === undefined) results.push(resultOf(entry));
    else if (last !== undefined) results[results.length - 1] = { ...last, word: result.word };
  }
  return results;
}

function resultOf(entry: CheckEntry): CheckReport['results'][number] {
  const { result } = entry;
  const when = { piece: entry.piece, at: isoInstant(entry.at.wall_ms, entry.at.zone), by: entry.by };
  switch (result.kind) {
    case 'measured':
      return { ...when, value_mm: result.value, passed: result.within };
    case 'yes or no':
      return { ...when, value_mm: null, passed: result.yes };
    case 'skipped':
      return { ...when, value_mm: null, passed: null };
  }
}

/** Suspect pieces still open, and those that were settled, with how and why; what was taken back is open again. */
export function suspectRows(batch: Batch): ReportModel['suspects'] {
  const open = batch.suspects.map(({ operation, lane, check, from, to }) => ({
    operation,
    lane,
    check,
    from,
    to,
    cleared: null,
  }));
  const settled = standingRemarks(batch).flatMap(({ event, by }) => {
    if (event.kind !== 'SuspectsCleared' && event.kind !== 'SuspectsSettled') return [];
    const { operation, lane, check, from, to } = event;
    const how = { measured: 'measured', owner: "at the owner's word", scrapped: 'scrapped' }[event.how];
    return [{ operation, lane, check, from, to, cleared: `${how}${by === null ? '' : ` (${by})`}: ${event.reason}` }];
  });
  return [...settled, ...open];
}

/** Corrections of targets made at the machine, those taken back marked. */
export const correctionRows = (batch: Batch): ReportModel['corrections'] =>
  batch.corrections.map((one) => ({
    operation: one.operation,
    lane: one.lane,
    axis: one.axis,
    by_mm: one.by,
    reading_mm: one.reading,
    reason: one.reason,
    at: isoInstant(one.at.wall_ms, one.at.zone),
    taken_back: one.takenBack,
    ...holeNamed(batch, one),
  }));

function holeNamed({ plan }: Batch, { operation, cut, point }: Correction): { readonly hole?: string } {
  if (point === undefined) return {};
  const cuts = plan.operations.find((one) => one.number === operation)?.cuts;
  return { hole: cuts?.[cut]?.points[point]?.name ?? `hole ${point + 1}` };
}
