import { describe, expect, it } from 'vitest';
import { formatHistoryText } from '../../src/report/describe-history.ts';
import { batchEndLine, operationEndLine } from '../../src/report/end-lines.ts';
import { comparePlan, isWanted, workEstimates } from '../../src/report/history.ts';
import { type BatchSummary, batchSummarySchema, summaryOf } from '../../src/report/summary.ts';
import { aLoad, aRow, emptyReport, sampleReport } from './sample-report.ts';

/** The sample batch again, opened on another day, with a drill that takes so many seconds a piece. */
function aSummary(batch: string, opened: string, drill_s: number, good = 16): BatchSummary {
  const report = sampleReport();
  const loads = [1, 2, 3, 4, 5].map((piece) => aLoad(piece, drill_s));
  const elapsed_s = { ...report.elapsed_s, run: drill_s * 100 };
  const operations = [report.operations[0]!, aRow(loads)];
  return summaryOf({ ...report, batch, opened, good, elapsed_s, operations }, null)!;
}

const three = [
  aSummary('c', '2027-03-01T18:00:00+01:00', 110.1),
  aSummary('a', '2027-01-01T18:00:00+01:00', 130),
  aSummary('b', '2027-02-01T18:00:00+01:00', 120),
];

describe('the summary of a batch', () => {
  it('holds to its schema, and is not made while the batch runs', () => {
    expect(batchSummarySchema.safeParse(three[0]).error).toBeUndefined();
    expect(summaryOf(emptyReport(), null)).toBeNull();
  });
});

describe('the batches of one plan', () => {
  it('stand side by side from the oldest on, with a trend that is beyond chance', () => {
    const found = comparePlan(three, 'keeper-plates')!;
    expect(found.batches.map((one) => one.batch)).toEqual(['a', 'b', 'c']);
    const drill = found.operations.find((row) => row.operation === 40)!;
    expect(drill.medians_s).toEqual([130, 120, 110.1]);
    expect(drill.trend).toBe('quicker');
    expect(found.operations.find((row) => row.operation === 10)?.trend).toBe('steady');
  });

  it('have no trend when there are two, no time a piece when nothing came out good, and are none for another plan', () => {
    const two = comparePlan([three[0]!, aSummary('d', '2027-04-01T18:00:00+01:00', 90, 0)], 'keeper-plates')!;
    expect(two.per_good_trend).toBe('too few');
    expect(two.batches[1]?.per_good_s).toBeNull();
    expect(comparePlan(three, 'latch-bars')).toBeNull();
  });

  it('are written for a terminal within 80 columns', () => {
    const text = formatHistoryText(comparePlan(three, 'keeper-plates'), workEstimates(three));
    expect(text.split('\n').filter((line) => line.length > 80)).toEqual([]);
    expect(text).toContain('The time for a good piece is falling.');
    expect(formatHistoryText(null, [])).toContain('Past batches');
  });
});

describe('estimates by kind of work', () => {
  it('say on how many batches they rest and how the plan did', () => {
    const drill = workEstimates(three).find((one) => one.kind === 'drill')!;
    expect(drill).toMatchObject({
      tools: 'drill 5 mm',
      material: 'mild steel',
      batches: 3,
      timed_pieces: 15,
      piece_s: 120,
    });
    expect(drill.over_plan).toBeCloseTo(120 / 95, 10);
    expect([drill.least_s, drill.greatest_s]).toEqual([110.1, 130]);
  });

  it('are none without timed pieces', () => {
    expect(workEstimates([])).toEqual([]);
  });
});

describe('the filter of batches', () => {
  it('takes plan, state, time of opening and part of the job, in either case', () => {
    const batch = {
      plan: 'keeper-plates',
      state: 'finished',
      opened: '2027-03-01T18:00:00+01:00',
      job: 'Keeper plates',
    };
    expect(isWanted(batch, {})).toBe(true);
    expect(
      isWanted(batch, { plan: 'keeper-plates', state: 'finished', since: '2027-03-01', before: '2027-03-02' }),
    ).toBe(true);
    expect(isWanted(batch, { job: 'KEEPER' })).toBe(true);
    expect(isWanted(batch, { state: 'running' })).toBe(false);
    expect(isWanted(batch, { before: '2027-03-01' })).toBe(false);
  });
});

describe('the line at the end', () => {
  const row = aRow([130, 130, 130].map((time, index) => aLoad(index + 1, time)));

  it('of an operation says the time a piece against last time, else against the plan', () => {
    expect(operationEndLine(row, 148)).toBe('2 min 10 s a piece; 18.0 s quicker than last time');
    expect(operationEndLine(row, null)).toBe('2 min 10 s a piece; 35.0 s slower than the plan');
    expect(operationEndLine(row, 130)).toBe('2 min 10 s a piece; the same as last time');
    expect(operationEndLine(aRow([]), 148)).toBe('0 pieces, none of them timed');
  });

  it('of a batch says pieces, hours and work a piece', () => {
    expect(batchEndLine(sampleReport(), null)).toBe('16 good of 20 in 23 h 20 min; 4 min 40 s of work a piece');
    expect(batchEndLine(sampleReport({ good: 0 }), 100)).toBe('0 good of 20 in 23 h 20 min');
  });
});
