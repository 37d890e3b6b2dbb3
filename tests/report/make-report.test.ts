import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { accountNames, type Batch } from '../../src/batch/state.ts';
import { formatReportHtml } from '../../src/report/forms/page.ts';
import { formatReportText } from '../../src/report/forms/text.ts';
import { makeReport } from '../../src/report/make-report.ts';
import { type ReportModel, reportSchema } from '../../src/report/model.ts';
import { makeReportSettings } from '../../src/report/settings.ts';
import { anOperation, aVariant, samplePlan, twoVariantPlan } from '../batch/sample-plan.ts';
import {
  atCell,
  countedLoad,
  finished,
  happened,
  hereIn,
  later,
  left,
  openedBatch,
  satDown,
  spent,
} from './live-batch.ts';
import { readMarkup } from './read-markup.ts';

const context = { batch: 'k3v9f2' };
const plan = samplePlan({ variants: [aVariant('plate', 5)], operations: [anOperation(10), anOperation(20)] });
const sumOf = (model: ReportModel) =>
  accountNames.reduce((sum, name) => sum + Math.round(model.elapsed_s[name] * 1000), 0);

/** Every form can be made, and the model holds to its schema. */
function sound(model: ReportModel): ReportModel {
  expect(reportSchema.safeParse(model).error).toBeUndefined();
  readMarkup(formatReportHtml(model));
  expect(formatReportText(model)).not.toMatch(/NaN|undefined|Infinity/);
  return model;
}

/** Two operations of three pieces each, a minute a piece, with a setup before and a night between. */
function threePieces(): Batch {
  let batch = satDown(openedBatch(plan), later(10_000));
  batch = spent(batch, later(310_000), 'setup');
  for (const piece of [1, 2, 3]) batch = countedLoad(batch, later(310_000 + piece * 60_000), 1);
  batch = left(batch, later(500_000));
  batch = atCell(satDown(batch, later(500_000 + 86_400_000)), 1);
  for (const piece of [1, 2, 3]) batch = countedLoad(batch, later(86_900_000 + piece * 45_000), 1);
  return batch;
}

describe('the report of a batch', () => {
  it('tells set-up, run and away apart, by operation and in all', () => {
    const model = sound(makeReport(threePieces(), later(87_035_000), context));
    expect(model.elapsed_s).toMatchObject({ setup: 300, run: 60 * 3 + 10 + 45 * 3, away: 10 + 86_400 });
    expect(model.operations.map((row) => row.elapsed_s.run)).toEqual([190, 135]);
    expect(model.operations[0]).toMatchObject({ good: 3, ordered: 5, piece: { median_s: 60, timed_pieces: 3 } });
    expect(model.total_s).toBe(87_035);
    expect(model).toMatchObject({
      state: 'running',
      good: 3,
      started: 5,
      closed: null,
      opened: '2027-03-01T18:30:00+01:00',
    });
  });

  it('parts work by the days of the calendar and numbers the loads in the order counted', () => {
    const model = makeReport(threePieces(), later(87_035_000), context);
    expect(model.days).toEqual([
      { date: '2027-03-01', worked_s: 490, pieces: 3 },
      { date: '2027-03-02', worked_s: 135, pieces: 3 },
    ]);
    expect(model.loads.map((load) => [load.operation, load.first_piece])).toEqual([
      [10, 1],
      [10, 2],
      [10, 3],
      [20, 1],
      [20, 2],
      [20, 3],
    ]);
    expect(model.sittings.map((one) => [one.length_s, one.why])).toEqual([
      [490, 'left'],
      [135, null],
    ]);
  });

  it('parts work at midnight', () => {
    // 18:30 and 5 h 30 min is midnight: half an hour of run on either side.
    let batch = left(satDown(openedBatch(plan), later(0)), later(0));
    batch = countedLoad(satDown(batch, later(5 * 3_600_000)), later(6 * 3_600_000), 1);
    expect(makeReport(batch, later(6 * 3_600_000), context).days).toEqual([
      { date: '2027-03-01', worked_s: 1800, pieces: 0 },
      { date: '2027-03-02', worked_s: 1800, pieces: 1 },
    ]);
  });

  it('is taken at the closing of a batch that is over, whenever it is asked for', () => {
    const batch = finished(threePieces(), later(87_100_000), 'customer asked for three');
    const model = sound(makeReport(batch, later(200_000_000), context));
    expect(model).toMatchObject({ state: 'finished', total_s: 87_100, because: 'customer asked for three' });
    expect(model.closed).toBe(model.at);
  });

  it('names every loss with its reason, and counts what was scrapped after its count', () => {
    let batch = satDown(openedBatch(plan), later(0));
    batch = countedLoad(batch, later(60_000), 1);
    batch = happened(batch, later(70_000), { kind: 'PieceRejected', ...hereIn(batch), place: null, reason: 'bar end' });
    batch = happened(batch, later(80_000), { kind: 'CountedScrapped', ...hereIn(batch), pieces: 1, reason: 'short' });
    const model = sound(makeReport(batch, later(90_000), context));
    expect(model.losses.map((loss) => [loss.operation, loss.pieces, loss.reason])).toEqual([
      [10, 1, 'bar end'],
      [10, 1, 'short'],
    ]);
    expect(model).toMatchObject({ good: 0, scrap: 2 });
  });

  it('forgets a loss that was taken back, and keeps those of other operations', () => {
    let batch = satDown(openedBatch(plan), later(0));
    batch = countedLoad(batch, later(50_000), 0, ['burr']);
    batch = happened(batch, later(60_000), { kind: 'PieceRejected', ...hereIn(batch), place: null, reason: 'bar end' });
    batch = happened(batch, later(70_000), { kind: 'TakenBack', entry: batch.nextEntry - 1, what: 'PieceRejected' });
    const model = sound(makeReport(batch, later(90_000), context));
    expect(model.losses.map((loss) => loss.reason)).toEqual(['burr']);
    expect(model.scrap).toBe(1);
  });

  it('lists pauses with their reasons, and sleep of the computer as one', () => {
    let batch = satDown(openedBatch(plan), later(0));
    batch = happened(batch, later(10_000), { kind: 'Paused', reason: 'tea' });
    batch = happened(batch, later(310_000), { kind: 'Resumed' });
    batch = happened(batch, later(320_000), { kind: 'SuspendNoticed', ms: 60_000 });
    batch = countedLoad(batch, later(350_000), 1);
    const model = sound(makeReport(batch, later(350_000), context));
    expect(model.pauses.map((pause) => [pause.length_s, pause.reason])).toEqual([
      [300, 'tea'],
      [60, 'the computer slept'],
    ]);
    expect(model.total_s).toBe(410);
    expect(model.operations[0]).toMatchObject({ piece: null, left_out: [{ reason: 'suspended', loads: 1 }] });
    expect(model.remarks).toContain('The computer slept for 1 min 0 s; that time is in no piece.');
  });

  it('gives a bump, a counting, more pieces and everybody who gave initials a line each', () => {
    let batch = satDown(openedBatch(plan), later(0));
    const here = hereIn(batch);
    batch = happened(batch, later(1_000), { kind: 'InitialsGiven', by: 'AB' });
    batch = happened(batch, later(2_000), { kind: 'Bumped', ...here });
    batch = happened(batch, later(3_000), { kind: 'CountingChanged', ...here, counting: 'piece' });
    batch = happened(batch, later(4_000), {
      kind: 'MoreStarted',
      operation: here.operation,
      lane: '*',
      pieces: 2,
      reason: 'one to show',
    });
    batch = happened(batch, later(5_000), { kind: 'InitialsGiven', by: 'jo' });
    const model = sound(makeReport(batch, later(6_000), context));
    expect(model.sittings.map((sitting) => sitting.by)).toEqual(['AB, jo']);
    expect(model.remarks).toEqual([
      'Something was bumped at operation 10; the zero had to be proved again.',
      'Operation 10 was counted by the piece from then on.',
      '2 pieces started beyond the plan: one to show.',
    ]);
  });

  it('shows checks, suspects and corrections with what became of them', () => {
    const check = { id: 'width', title: 'Width', gauge: null, firstOff: true, every: null, last: false };
    const checkedPlan = samplePlan({
      operations: [
        anOperation(10, { checks: [{ ...check, what: { kind: 'measured', nominal: 30, lower: 29.9, upper: 30.1 } }] }),
      ],
    });
    let batch = satDown(openedBatch(checkedPlan), later(0));
    batch = countedLoad(batch, later(60_000), 1);
    const here = hereIn(batch);
    const measured = { kind: 'measured', value: 30.2, within: false } as const;
    batch = happened(batch, later(61_000), { kind: 'Checked', ...here, check: 'width', piece: 1, result: measured });
    batch = happened(batch, later(61_000), { kind: 'PiecesSuspected', ...here, check: 'width', from: 1, to: 1 });
    batch = happened(batch, later(62_000), {
      kind: 'TargetCorrected',
      ...here,
      cut: 0,
      axis: 'stop',
      by: -0.2,
      reading: 30.2,
      reason: 'long',
    });
    const suspect = makeReport(batch, later(62_000), context);
    expect(suspect.suspects).toMatchObject([{ from: 1, to: 1, cleared: null }]);
    batch = happened(batch, later(63_000), {
      kind: 'SuspectsCleared',
      ...here,
      check: 'width',
      from: 1,
      to: 1,
      how: 'owner',
      reason: 'goes to the back of the gate',
    });
    const model = sound(makeReport(batch, later(64_000), context));
    expect(model.suspects).toMatchObject([{ cleared: "at the owner's word (AB): goes to the back of the gate" }]);
    expect(model.checks).toMatchObject([
      { done: 1, failed: 1, says: expect.stringMatching(/outside the limits; too few/) },
    ]);
    expect(model.corrections).toMatchObject([{ axis: 'stop', by_mm: -0.2, reading_mm: 30.2, taken_back: false }]);
  });

  it('tells of suspects that were scrapped, as a loss too, and has them open again when that is taken back', () => {
    let batch = satDown(openedBatch(plan), later(0));
    batch = countedLoad(batch, later(60_000), 1);
    const here = hereIn(batch);
    batch = happened(batch, later(61_000), { kind: 'PiecesSuspected', ...here, check: 'width', from: 1, to: 1 });
    batch = happened(batch, later(62_000), {
      kind: 'SuspectsSettled',
      ...here,
      check: 'width',
      from: 1,
      to: 1,
      how: 'scrapped',
      scrapAt: here,
      reason: 'size out',
    });
    const settled = sound(makeReport(batch, later(64_000), context));
    expect(settled.suspects).toMatchObject([
      { from: 1, to: 1, cleared: expect.stringMatching(/^scrapped.*: size out$/) },
    ]);
    expect(settled.losses).toMatchObject([{ operation: 10, what: 'scrap', pieces: 1, reason: 'size out' }]);
    batch = happened(batch, later(65_000), { kind: 'TakenBack', entry: batch.nextEntry - 1, what: 'SuspectsSettled' });
    const open = sound(makeReport(batch, later(66_000), context));
    expect(open.suspects).toMatchObject([{ from: 1, to: 1, cleared: null }]);
    expect(open.losses).toEqual([]);
  });

  it('tells of pieces lost away with what became of them', () => {
    let batch = satDown(openedBatch(plan), later(0));
    batch = countedLoad(batch, later(60_000), 2);
    batch = happened(batch, later(70_000), { kind: 'SentAway', ...hereIn(batch), pieces: 1, to: 'the plater' });
    batch = happened(batch, later(80_000), {
      kind: 'CameBack',
      ...hereIn(batch),
      pieces: 0,
      lost: 1,
      reason: 'lost there',
    });
    const model = sound(makeReport(batch, later(90_000), context));
    expect(model.losses).toMatchObject([{ what: 'lost away', pieces: 1, reason: 'lost there' }]);
    expect(model.remarks).toContain('0 pieces came back, 1 lost: lost there.');
  });

  it('with no pieces, one piece, or all scrap has no statistics that are not there', () => {
    sound(makeReport(openedBatch(plan), later(0), context));
    const none = sound(makeReport(openedBatch(plan), later(60_000), context));
    expect(none.operations.map((row) => [row.piece, row.pieces_per_hour])).toEqual([
      [null, null],
      [null, null],
    ]);
    expect(none.elapsed_s.away).toBe(60);
    const one = sound(
      makeReport(countedLoad(satDown(openedBatch(plan), later(0)), later(5000), 1), later(5000), context),
    );
    expect(one.operations[0]?.piece).toMatchObject({ deviation_s: null, first_five_s: null, trend: null, median_s: 5 });
    let scrap = satDown(openedBatch(plan, { rate: { amount: 40, currency: '' } }), later(0));
    scrap = countedLoad(scrap, later(5000), 0, ['burr']);
    const model = sound(makeReport(scrap, later(5000), context));
    expect(model.money).toMatchObject({ currency: '', per_good_piece: null });
  });

  it('[P5] is not moved by a wall clock that is set by years, either way', () => {
    let batch = satDown(openedBatch(plan), later(0));
    batch = countedLoad(batch, later(60_000, -3e11), 1);
    batch = countedLoad(batch, later(100_000, 3e11), 1);
    const model = sound(makeReport(batch, later(110_000), context));
    expect(model.total_s).toBe(110);
    expect(model.loads.map((load) => load.time_s)).toEqual([60, 40]);
    expect(model.days.reduce((sum, day) => sum + day.worked_s, 0)).toBeCloseTo(110, 6);
  });

  it('takes the rate of its opening unless the settings name one', () => {
    const batch = openedBatch(plan, { rate: { amount: 40, currency: 'EUR' } });
    expect(makeReport(batch, later(0), context).money?.rate_per_hour).toBe(40);
    const settings = makeReportSettings({ rate: { amount: 55, currency: 'EUR' } });
    expect(makeReport(batch, later(0), { ...context, settings }).money?.rate_per_hour).toBe(55);
    expect(makeReport(openedBatch(plan), later(0), context).money).toBeNull();
  });

  it('gives each variant its own good pieces, from the operation where the lanes part', () => {
    const batch = openedBatch(twoVariantPlan({ threaded: 3, clearance: 2 }));
    const cells = batch.cells.map((cell) => (cell.lane === 'threaded' ? { ...cell, good: 2 } : { ...cell, good: 3 }));
    const model = makeReport({ ...batch, cells, allotted: { threaded: 3, clearance: 2 } }, later(0), context);
    expect(model.variants).toEqual([
      { id: 'threaded', title: 'threaded', ordered: 3, good: 2, short: 1 },
      { id: 'clearance', title: 'clearance', ordered: 2, good: 3, short: 0 },
    ]);
    expect(model.good).toBe(5);
  });
});

describe('the accounts of a report', () => {
  const step = fc.record({
    ms: fc.integer({ min: 0, max: 50_000_000 }),
    what: fc.constantFrom('count', 'scrap', 'check', 'pause', 'setup', 'unknown', 'delay', 'leave', 'sit', 'move'),
    clock_ms: fc.integer({ min: -1e9, max: 1e9 }),
  });

  it('add up exactly to closing less opening, whatever happened and whatever the wall clock did', () => {
    fc.assert(
      fc.property(fc.array(step, { maxLength: 25 }), (steps) => {
        let batch = satDown(openedBatch(plan), later(0));
        let now = 0;
        for (const { ms, what, clock_ms } of steps) {
          now += ms;
          batch = stepped(batch, what, later(now, clock_ms));
        }
        const model = makeReport(finished(batch, later(now + 1234)), later(now + 99_999), context);
        expect(sumOf(model)).toBe(now + 1234);
        expect(Math.round(model.total_s * 1000)).toBe(now + 1234);
        const worked = model.elapsed_s.setup + model.elapsed_s.run + model.elapsed_s.check + model.elapsed_s.delay;
        expect(model.days.reduce((sum, day) => sum + day.worked_s, 0)).toBeCloseTo(worked, 5);
        expect(reportSchema.safeParse(model).error).toBeUndefined();
      }),
      { numRuns: 150 },
    );
  });
});

function stepped(batch: Batch, what: string, at: ReturnType<typeof later>): Batch {
  switch (what) {
    case 'count':
      return countedLoad(batch, at, 1);
    case 'scrap':
      return countedLoad(batch, at, 0, ['burr']);
    case 'leave':
      return left(batch, at);
    case 'sit':
      return satDown(batch, at);
    case 'move':
      return atCell(spent(batch, at, 'run'), 1);
    case 'check':
    case 'pause':
    case 'setup':
    case 'unknown':
    case 'delay':
      return spent(batch, at, what);
    default:
      throw new Error(what);
  }
}
