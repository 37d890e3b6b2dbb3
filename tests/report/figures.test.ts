import fc from 'fast-check';
import { median as otherMedian, quantile as otherQuantile } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { judgeCheck } from '../../src/report/check-verdict.ts';
import { estimateChanges } from '../../src/report/next-time.ts';
import { costOf } from '../../src/report/piece-cost.ts';
import { leftOutOf, pieceTimesOf } from '../../src/report/piece-times.ts';
import { makeReportSettings } from '../../src/report/settings.ts';
import { standardTime } from '../../src/report/standard-time.ts';
import { aLoad, aRow } from './sample-report.ts';

describe('piece times', () => {
  it('share a load among its pieces: 2 in 80 s and 1 in 50 s have median 45 and mean 43.33', () => {
    const found = pieceTimesOf([aLoad(1, 80, { pieces: 2 }), aLoad(3, 50)])!;
    expect(found.median_s).toBe(45);
    expect(found.mean_s).toBeCloseTo(130 / 3, 10);
    expect(found.timed_pieces).toBe(3);
  });

  it('have the median of an independent library and leave out what is left out', () => {
    const times = fc.array(fc.integer({ min: 1, max: 100_000 }), { minLength: 1, maxLength: 40 });
    fc.assert(
      fc.property(times, (all) => {
        const loads = all.map((ms, index) => aLoad(index + 1, ms / 100));
        const found = pieceTimesOf([...loads, aLoad(99, 1e6, { left_out: 'cut' })])!;
        expect(found.median_s).toBeCloseTo(otherMedian(all) / 100, 9);
        expect(found.timed_loads).toBe(all.length);
        expect(found.p10_s).toBeLessThanOrEqual(found.median_s);
        expect(found.p90_s).toBeGreaterThanOrEqual(found.median_s);
      }),
    );
  });

  it('take quantiles by type 7: P10 of 1 to 11 is 2, P90 is 10 (position 1 + (n - 1) p)', () => {
    const found = pieceTimesOf(Array.from({ length: 11 }, (_, index) => aLoad(index + 1, index + 1)))!;
    expect([found.p10_s, found.p90_s]).toEqual([2, 10]);
    expect(otherQuantile([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11], 0.5)).toBe(found.median_s);
  });

  it('compare the first five with the last five from ten loads on', () => {
    const loads = [9, 8, 7, 6, 5, 5, 4, 4, 3, 3].map((time, index) => aLoad(index + 1, time));
    expect(pieceTimesOf(loads)).toMatchObject({ first_five_s: 7, last_five_s: 4, trend: { verdict: 'quicker' } });
    expect(pieceTimesOf(loads.slice(1))).toMatchObject({ first_five_s: null, last_five_s: null });
  });

  it('are not there when nothing was timed, and the left-out loads are gathered by reason', () => {
    const loads = [aLoad(1, 10, { left_out: 'quick' }), aLoad(2, 20, { left_out: 'quick', pieces: 2 })];
    expect(pieceTimesOf(loads)).toBeNull();
    expect(leftOutOf(loads)).toEqual([{ reason: 'quick', loads: 2, pieces: 3, total_s: 30 }]);
    expect(pieceTimesOf([])).toBeNull();
  });
});

describe('standard time', () => {
  it('of 18.75 min at 96 % and 15 % of the working day is 18.00 and 21.1765 min (Stevenson, chapter 7, solved problem 1)', () => {
    const found = standardTime(18.75 * 60, { rating_pct: 96, allowance_pct: 15, allowance_of: 'working day' });
    expect(found.normal_s / 60).toBeCloseTo(18, 10);
    expect(found.standard_s / 60).toBeCloseTo(21.1765, 4);
  });

  it('of four elements with 13 % of the job time agrees with Stevenson, chapter 7', () => {
    const given = [
      [0.452, 90, 0.4068, 0.459684],
      [1.508, 85, 1.2818, 1.448434],
      [0.833, 110, 0.9163, 1.035419],
      [1.15, 100, 1.15, 1.2995],
    ] as const;
    for (const [observed, rating_pct, normal, standard] of given) {
      const found = standardTime(observed, { rating_pct, allowance_pct: 13, allowance_of: 'job time' });
      expect(found.normal_s).toBeCloseTo(normal, 4);
      expect(found.standard_s).toBeCloseTo(standard, 4);
    }
  });

  it('has rating 100 % and allowance 5 % of the job time unless told otherwise', () => {
    expect(standardTime(100, makeReportSettings())).toMatchObject({ normal_s: 100, standard_s: 105 });
  });
});

const elapsed = { setup: 3600, run: 7200, check: 0, delay: 0, pause: 500, away: 500, unknown: 500 };
const plain = { material_per_piece: null, margin_pct: null };

describe('cost', () => {
  it('shares set-up, work and scrap so that they add up: 60 an hour, 1 h and 2 h, 9 good and 1 scrap cost 20.00', () => {
    const found = costOf(elapsed, { good: 9, scrap: 1 }, { amount: 60, currency: 'EUR' }, plain)!;
    expect(found.total).toBe(180);
    expect(found.charged_s).toBe(10_800);
    const each = found.per_good_piece!;
    expect(each.setup).toBeCloseTo(6.6667, 4);
    expect(each.work).toBe(12);
    expect(each.scrap).toBeCloseTo(1.3333, 4);
    expect(each.cost).toBe(20);
  });

  it('adds up for any batch, and the price adds the margin', () => {
    const pieces = fc.integer({ min: 0, max: 300 });
    fc.assert(
      fc.property(pieces, pieces, fc.integer({ min: 0, max: 90 }), (good, scrap, material) => {
        const settings = { material_per_piece: material / 10, margin_pct: 25 };
        const each = costOf(elapsed, { good, scrap }, { amount: 47.5, currency: '' }, settings)?.per_good_piece;
        if (good === 0) {
          expect(each).toBeNull();
          return;
        }
        expect(each!.setup + each!.work + each!.material + each!.scrap).toBeCloseTo(each!.cost, 9);
        expect(each!.price).toBeCloseTo(each!.cost * 1.25, 9);
      }),
    );
  });

  it('is not given without a rate; a rate without a currency is a rate', () => {
    expect(costOf(elapsed, { good: 1, scrap: 0 }, null, plain)).toBeNull();
    expect(costOf(elapsed, { good: 1, scrap: 0 }, { amount: 10, currency: ' ' }, plain)?.currency).toBe('');
  });
});

const results = (values: readonly number[]) =>
  values.map((value_mm, index) => ({ piece: index + 1, value_mm, passed: value_mm <= 11, at: '', by: null }));
const limits = { nominal_mm: 10, lower_mm: 9, upper_mm: 11 };

describe('the verdict on a check', () => {
  it('says in a plain sentence that three values are too few for a capability', () => {
    const found = judgeCheck({ limits, results: results([10, 10.1, 9.9]) });
    expect(found.capability).toBeNull();
    expect(found.says).toBe('all 3 within the limits; too few for a capability (10 are needed).');
  });

  it('warns below 25 values and names the interval', () => {
    const found = judgeCheck({ limits, results: results([10, 10.1, 9.9, 10, 10.1, 9.9, 10, 10.1, 9.9, 10]) });
    expect(found.says).toMatch(/C_pk \d\.\d\d, between .* from 10 values only, so take the lower figure/);
  });

  it('says that equal values have no capability', () => {
    const found = judgeCheck({ limits, results: results(Array.from({ length: 30 }, () => 10)) });
    expect(found.says).toContain('no spread between the values');
  });

  it('counts skipped checks apart from failed ones', () => {
    const skipped = { piece: 9, value_mm: null, passed: null, at: '', by: null };
    const found = judgeCheck({ limits, results: [...results([10, 12]), skipped] });
    expect(found).toMatchObject({ done: 2, failed: 1, skipped: 1 });
    expect(found.says).toMatch(/^1 of 2 results outside the limits; 1 skipped/);
    expect(judgeCheck({ limits: null, results: [] }).says).toBe('never done.');
  });
});

describe('better estimates', () => {
  const loads = [131, 130, 132, 131.5, 130.8].map((time, index) => aLoad(index + 1, time));

  it('suggest the median of five timed pieces or more, with what it rests on', () => {
    const row = aRow(loads, { elapsed_s: { ...elapsed, setup: 900 } });
    expect(estimateChanges([row], loads)).toEqual([
      {
        operation: 40,
        field: 'piece',
        planned_s: 95,
        suggested_s: 130,
        evidence: '5 pieces timed, median 2 min 11 s, P10 2 min 10 s to P90 2 min 12 s (+37 %)',
      },
    ]);
    expect(estimateChanges([aRow(loads.slice(1), { elapsed_s: { ...elapsed, setup: 900 } })], loads.slice(1))).toEqual(
      [],
    );
  });

  it('take the lanes of an operation together, because its estimate is one', () => {
    const lanes = loads.map((load, index) => ({ ...load, lane: index % 2 === 0 ? 'threaded' : 'clearance' }));
    const rows = ['threaded', 'clearance'].map((lane) => aRow(loads, { lane, elapsed_s: { ...elapsed, setup: 450 } }));
    expect(estimateChanges(rows, lanes).map((change) => change.field)).toEqual(['piece']);
  });

  it('suggest a set-up time only when it is off by a fifth and a minute', () => {
    const off = (setup: number) =>
      estimateChanges([aRow([], { good: 1, elapsed_s: { ...elapsed, setup } })], []).map(
        (change) => change.suggested_s,
      );
    expect(off(950)).toEqual([]);
    expect(off(1200)).toEqual([1200]);
  });
});
