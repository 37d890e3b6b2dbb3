/** Invented reports for tests of the forms: a small batch with everything in it, and the awkward ones. */
import { judgeCheck } from '../../src/report/check-verdict.ts';
import type { LoadRow, OperationRow, ReportModel } from '../../src/report/model.ts';
import { estimateChanges } from '../../src/report/next-time.ts';
import { costOf } from '../../src/report/piece-cost.ts';
import { leftOutOf, pieceTimesOf } from '../../src/report/piece-times.ts';
import { makeReportSettings } from '../../src/report/settings.ts';
import { standardTime } from '../../src/report/standard-time.ts';

const settings = makeReportSettings({ margin_pct: 20, material_per_piece: 0.85 });

/** A load of one piece, timed unless it says otherwise. */
export function aLoad(first_piece: number, time_s: number, parts: Partial<LoadRow> = {}): LoadRow {
  return {
    operation: 40,
    lane: 'threaded',
    first_piece,
    pieces: 1,
    good: 1,
    scrap: 0,
    time_s,
    left_out: null,
    quick: false,
    at: '2027-03-01T19:05:00+01:00',
    by: 'AB',
    ...parts,
  };
}

const drillTimes = [141.2, 137.9, 133.4, 131, 130.2, 128.8, 126.4, 127.1, 125.9, 124.8, 125.3, 124.1];
const drillLoads = [
  ...drillTimes.map((time, index) => aLoad(index + 1, time)),
  aLoad(13, 901.5, { left_out: 'suspended' }),
];
const sawLoads = [52.1, 49.8, 51.3, 50.2].map((time, index) => aLoad(index + 1, time, { operation: 10, lane: '*' }));

/** An operation row with its statistics made from the loads. */
export function aRow(loads: readonly LoadRow[], parts: Partial<OperationRow> = {}): OperationRow {
  const piece = pieceTimesOf(loads);
  const run = loads.reduce((sum, load) => sum + (load.time_s ?? 0), 0);
  const made = loads.reduce((sum, load) => sum + load.pieces, 0);
  return {
    operation: 40,
    lane: 'threaded',
    title: 'Drill',
    variant: 'Threaded M6',
    kind: 'drill',
    station: 'mill',
    tools: ['drill 5 mm'],
    load_size: 1,
    begun: true,
    ordered: 20,
    good: loads.reduce((sum, load) => sum + load.good, 0),
    scrap: loads.reduce((sum, load) => sum + load.scrap, 0),
    rework: 0,
    elapsed_s: { setup: 1260.5, run, check: 95.25, delay: 40, pause: 300, away: 0, unknown: 0 },
    piece,
    left_out: leftOutOf(loads),
    pieces_per_hour: run > 0 ? made / (run / 3600) : null,
    plan: { setup_s: 900, piece_s: 95, from: 'plan', batches: null, total_s: 900 + 95 * made },
    actual_s: 1260.5 + run,
    standard: piece === null ? null : standardTime(piece.mean_s, settings),
    ...parts,
  };
}

const widthResults = [29.98, 30.01, 30.02, 29.99, 30.03, 30, 30.01, 30.02, 30.04, 29.97, 30.36].map((value, index) => ({
  piece: index * 5 + 1,
  value_mm: value,
  passed: value <= 30.3,
  at: '2027-03-01T19:30:00+01:00',
  by: 'AB',
}));
const widthLimits = { nominal_mm: 30, lower_mm: 29.7, upper_mm: 30.3 };

/** A batch with something in every section. */
export function sampleReport(parts: Partial<ReportModel> = {}): ReportModel {
  const saw = aRow(sawLoads, {
    operation: 10,
    lane: '*',
    title: 'Saw blanks',
    variant: null,
    kind: 'saw',
    station: 'saw',
    tools: [],
    plan: { setup_s: 300, piece_s: 50, from: 'computed', batches: null, total_s: 500 },
    elapsed_s: { setup: 310.2, run: 203.4, check: 12, delay: 0, pause: 0, away: 0, unknown: 0 },
    actual_s: 513.6,
  });
  const drill = aRow(drillLoads);
  const operations = [saw, drill];
  const loads = [...sawLoads, ...drillLoads];
  const elapsed_s = {
    setup: 1570.7,
    run: 2760.999,
    check: 107.25,
    delay: 40,
    pause: 300,
    away: 79_200.4,
    unknown: 12.3,
  };
  return {
    format: 1,
    batch: 'k3v9f2',
    plan: { id: 'keeper-plates', sha256: 'ab'.repeat(32), path: 'jobs/keeper-plates.yaml' },
    job: 'Keeper plates',
    drawing: 'GG-014',
    revision: 'B',
    material: 'mild steel',
    units: 'mm',
    zone: 'Europe/Berlin',
    state: 'finished',
    because: null,
    opened: '2027-03-01T18:32:10+01:00',
    closed: '2027-03-02T17:53:02+01:00',
    at: '2027-03-02T17:53:02+01:00',
    elapsed_s,
    total_s: 83_991.649,
    ordered: 20,
    started: 22,
    good: 16,
    scrap: 1,
    variants: [
      { id: 'threaded', title: 'Threaded M6', ordered: 10, good: 10, short: 0 },
      { id: 'clearance', title: 'Clearance', ordered: 10, good: 6, short: 4 },
    ],
    operations,
    losses: [
      {
        operation: 40,
        lane: 'threaded',
        what: 'scrap',
        pieces: 1,
        reason: 'tap broken',
        at: '2027-03-01T20:00:00+01:00',
      },
    ],
    loads,
    checks: [
      {
        operation: 40,
        lane: 'threaded',
        check: 'width',
        title: 'Width',
        gauge: 'calliper',
        limits: widthLimits,
        results: widthResults,
        ...judgeCheck({ limits: widthLimits, results: widthResults }),
      },
    ],
    suspects: [{ operation: 40, lane: 'threaded', check: 'width', from: 46, to: 51, cleared: null }],
    corrections: [
      {
        operation: 40,
        lane: 'threaded',
        axis: 'x',
        by_mm: -0.06,
        reading_mm: 3.06,
        reason: 'reads over',
        at: '2027-03-01T19:40:00+01:00',
        taken_back: false,
      },
    ],
    overrides: [{ code: 'wall-thin', message: 'wall of 1.9 mm', reason: 'seen on the drawing' }],
    sittings: [
      {
        began: '2027-03-01T18:32:10+01:00',
        ended: '2027-03-01T19:50:00+01:00',
        why: 'left',
        by: 'AB',
        length_s: 4670,
      },
    ],
    days: [{ date: '2027-03-01', worked_s: 4370, pieces: 17 }],
    pauses: [{ began: '2027-03-01T19:10:00+01:00', length_s: 300, reason: 'tea' }],
    notes: [{ operation: 40, lane: 'threaded', text: 'drill squeals', at: '2027-03-01T19:41:00+01:00' }],
    money: costOf(elapsed_s, { good: 16, scrap: 1 }, { amount: 48, currency: 'EUR' }, settings),
    next_time: estimateChanges(operations, loads),
    remarks: ['1 card passed without being proved (within two seconds, or skipped).'],
    ...parts,
  };
}

const nothing = { setup: 0, run: 0, check: 0, delay: 0, pause: 0, away: 0, unknown: 0 };

/** A batch that was opened and nothing more. */
export const emptyReport = (): ReportModel =>
  sampleReport({
    state: 'running',
    closed: null,
    elapsed_s: nothing,
    total_s: 0,
    good: 0,
    scrap: 0,
    operations: [
      aRow([], {
        begun: false,
        elapsed_s: nothing,
        plan: { setup_s: 0, piece_s: 0, from: 'plan', batches: null, total_s: 0 },
        actual_s: 0,
      }),
    ],
    losses: [],
    loads: [],
    checks: [],
    suspects: [],
    corrections: [],
    overrides: [],
    sittings: [],
    days: [],
    pauses: [],
    notes: [],
    money: null,
    next_time: [],
    remarks: [],
  });
