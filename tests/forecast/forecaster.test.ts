import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { explainForecast } from '../../src/forecast/explain.ts';
import { type ForecastEvent, foldForecast, takeEvent } from '../../src/forecast/forecaster.ts';
import type { ForecastJob } from '../../src/forecast/job.ts';
import { askForecast, type ForecastAsk, type Quantiles, quantilesOf } from '../../src/forecast/projection.ts';
import { type ForecastState, startForecast } from '../../src/forecast/state.ts';
import { seededRandom } from '../bench/random.ts';

function job(count: number, piece_s: number, pieces: number, setup_s = 0): ForecastJob {
  return {
    operations: Array.from({ length: count }, (_, i) => ({
      key: String(10 * (i + 1)),
      setup_s,
      piece_s,
      piecesPerLoad: 1,
      pieces,
    })),
  };
}

function load(took_s: number | null, operation = '10', pieces = 1): ForecastEvent {
  return { kind: 'load', operation, pieces, took_s };
}

function batchOf(state: ForecastState, left: readonly number[], since_s = 0, operation = '10'): Quantiles {
  const ask: ForecastAsk = { operation, sinceLastPress_s: since_s, left: left.map((pieces) => ({ pieces })) };
  return quantilesOf(askForecast(state, ask).batch);
}

function expectHonest({ p10, p50, p90 }: Quantiles): void {
  expect(Number.isFinite(p10) && Number.isFinite(p50) && Number.isFinite(p90)).toBe(true);
  expect(p10).toBeGreaterThanOrEqual(0);
  expect(p50).toBeGreaterThanOrEqual(p10);
  expect(p90).toBeGreaterThanOrEqual(p50);
}

/** Loads around `piece_s` with 10 % scatter, always the same. */
function steadyTimes(count: number, piece_s: number): number[] {
  const random = seededRandom(4);
  return Array.from({ length: count }, () => piece_s * Math.exp(0.1 * random.normal()));
}

const anyTime = fc.oneof(
  fc.double({ min: 20, max: 120, noNaN: true }),
  fc.double({ min: 0, max: 40_000, noNaN: true }),
  fc.constant(null),
);
const anyEvent: fc.Arbitrary<ForecastEvent> = fc.oneof(
  {
    weight: 8,
    arbitrary: fc.record({
      kind: fc.constant('load' as const),
      operation: fc.constantFrom('10', '20'),
      pieces: fc.integer({ min: 1, max: 4 }),
      took_s: anyTime,
      afterBreak: fc.boolean(),
    }),
  },
  fc.record({
    kind: fc.constant('scrap' as const),
    operation: fc.constantFrom('10', '20'),
    pieces: fc.integer({ min: 1, max: 3 }),
    took_s: anyTime,
  }),
  fc.record({ kind: fc.constant('setup-started' as const), operation: fc.constantFrom('10', '20') }),
  fc.record({ kind: fc.constant('setup-done' as const), operation: fc.constantFrom('10', '20'), took_s: anyTime }),
  fc.record({ kind: fc.constant('operation-finished' as const), operation: fc.constantFrom('10', '20') }),
);

describe('the forecast, whatever happens', () => {
  const anyEstimate = fc.oneof(fc.constantFrom(0, 0.001, 1e9, -5), fc.double({ min: 0.1, max: 10_000, noNaN: true }));

  it('is finite, in order and not below zero', () => {
    const property = fc.property(
      fc.tuple(anyEstimate, anyEstimate, anyEstimate),
      fc.array(anyEvent, { maxLength: 40 }),
      fc.integer({ min: 0, max: 10_000 }),
      fc.double({ min: 0, max: 1e6, noNaN: true }),
      ([setup_s, one_s, other_s], events, pieces, since_s) => {
        const plan: ForecastJob = {
          operations: [
            { key: '10', setup_s, piece_s: one_s, piecesPerLoad: 3, pieces: 12 },
            { key: '20', setup_s: 0, piece_s: other_s, piecesPerLoad: 1, pieces: 12 },
          ],
        };
        const state = foldForecast(plan, events);
        expectHonest(batchOf(state, [pieces, 4], since_s));
        expectHonest(batchOf(state, [0, 1], since_s, '20'));
      },
    );
    fc.assert(property, { numRuns: 400, seed: 21 });
  });

  it('never finishes later for fewer pieces', () => {
    const property = fc.property(
      fc.array(anyEvent, { maxLength: 30 }),
      fc.integer({ min: 0, max: 400 }),
      fc.integer({ min: 1, max: 200 }),
      (events, pieces, more) => {
        const state = foldForecast(job(2, 60, 400), events);
        const few = batchOf(state, [pieces, 20]);
        const many = batchOf(state, [pieces + more, 20]);
        expect(many.p50).toBeGreaterThan(few.p50);
        expect(many.p90).toBeGreaterThan(few.p90);
      },
    );
    fc.assert(property, { numRuns: 300, seed: 22 });
  });

  it('forgets what was taken back: an earlier state and a shorter history are the same', () => {
    const property = fc.property(
      fc.array(anyEvent, { maxLength: 20 }),
      fc.array(anyEvent, { maxLength: 5 }),
      (events, undone) => {
        const kept = foldForecast(job(2, 60, 40), events);
        const copy = structuredClone(kept);
        undone.reduce(takeEvent, kept);
        expect(kept).toEqual(copy);
        expect(kept).toEqual(foldForecast(job(2, 60, 40), events));
      },
    );
    fc.assert(property, { numRuns: 100, seed: 23 });
  });

  it('scales with time where nothing was interrupted', () => {
    // Interruptions have a length of their own, so the whole scales only nearly: within 12 % at twice the pace.
    const ask = (scale: number): Quantiles =>
      batchOf(
        foldForecast(
          job(2, 60 * scale, 40),
          steadyTimes(20, 66).map((time) => load(time * scale)),
        ),
        [20, 40],
      );
    const one = ask(1);
    const two = ask(2);
    for (const point of ['p10', 'p50', 'p90'] as const)
      expect(Math.abs(two[point] / one[point] / 2 - 1)).toBeLessThan(0.12);
  });

  it('narrows on steady data', () => {
    let state = startForecast(job(1, 60, 200));
    let last = Number.POSITIVE_INFINITY;
    steadyTimes(120, 66).forEach((time, i) => {
      state = takeEvent(state, load(time));
      if (![2, 8, 30, 119].includes(i)) return;
      const { p10, p50, p90 } = batchOf(state, [50]);
      expect((p90 - p10) / p50).toBeLessThan(last);
      last = (p90 - p10) / p50;
    });
    expect(last).toBeLessThan(0.25);
  });

  it('holds a state of the same size after ten and after ten thousand pieces', () => {
    const size = (count: number): number =>
      JSON.stringify(
        foldForecast(
          job(2, 60, 20_000),
          steadyTimes(count, 66).map((time) => load(time)),
        ),
      ).length;
    expect(size(10_000)).toBeLessThan(1.2 * size(10));
  });
});

describe('the forecast on bad input', () => {
  it('says so when the plan has no time, and takes a default of the kind', () => {
    const plan: ForecastJob = {
      operations: [{ key: '10', kind: 'tap', setup_s: 0, piece_s: 0, piecesPerLoad: 1, pieces: 20 }],
    };
    const state = startForecast(plan);
    expect(explainForecast(state).operations[0]?.isDefault).toBe(true);
    const { p10, p50, p90 } = batchOf(state, [20]);
    expect(p50).toBeGreaterThan(20 * 75 * 0.7);
    expect(p90 / p10).toBeGreaterThan(4);
    const known = foldForecast(
      plan,
      steadyTimes(10, 40).map((time) => load(time)),
    );
    expect(batchOf(known, [10]).p50 / 400).toBeGreaterThan(0.9);
    expect(batchOf(known, [10]).p50 / 400).toBeLessThan(1.25);
  });

  it.each([6000, 0.6])(
    'an estimate wrong by a hundred times is overruled by a few pieces: plan %d s, truth 60 s',
    (piece_s) => {
      const state = foldForecast(
        job(1, piece_s, 40),
        steadyTimes(5, 60).map((time) => load(time)),
      );
      const { p10, p50, p90 } = batchOf(state, [35]);
      expect(p10).toBeLessThan(2100);
      expect(p90).toBeGreaterThan(2100);
      expect(p50 / 2100).toBeGreaterThan(0.8);
      expect(p50 / 2100).toBeLessThan(1.4);
    },
  );

  it.each([6000, 0.6])('and leaves the operations to come wide enough for either: plan %d s, truth 60 s', (piece_s) => {
    const first = steadyTimes(40, 60).map((time) => load(time));
    const { p10, p90 } = batchOf(foldForecast(job(2, piece_s, 40), first), [0, 40], 0, '20');
    expect(p90 / p10).toBeGreaterThan(10);
  });

  it('takes a piece of nine hours for what it is', () => {
    const events = [...steadyTimes(10, 60), 9 * 3600, ...steadyTimes(3, 60)].map((time) => load(time));
    const state = foldForecast(job(1, 60, 40), events);
    const { p50, p90 } = batchOf(state, [26]);
    expect(p50).toBeLessThan(3 * 26 * 60);
    expect(p90).toBeGreaterThan(26 * 60);
    expect(explainForecast(state).operations[0]?.tally.interruptions).toBe(1);
  });

  it('counts a piece without a usable time and leaves it out of the timing', () => {
    for (const took_s of [null, Number.NaN, -40, Number.POSITIVE_INFINITY]) {
      const state = takeEvent(
        foldForecast(
          job(1, 60, 40),
          steadyTimes(5, 60).map((time) => load(time)),
        ),
        load(took_s),
      );
      expectHonest(batchOf(state, [34]));
      expect(explainForecast(state).operations[0]?.tally).toMatchObject({ timed: 5, piecesUntimed: 1 });
    }
  });

  it('an operation that it does not know is a bug of the caller', () => {
    expect(() => takeEvent(startForecast(job(1, 60, 4)), load(60, '99'))).toThrow('99');
  });
});

describe('between presses', () => {
  const state = foldForecast(
    job(1, 300, 11),
    steadyTimes(10, 300).map((time) => load(time)),
  );

  it('the rest of the running piece shrinks as it goes on, without a jump, and grows again when it overruns', () => {
    let last = batchOf(state, [1], 0).p50;
    for (let since_s = 5; since_s <= 240; since_s += 5) {
      const now = batchOf(state, [1], since_s).p50;
      expect(now).toBeLessThan(last);
      expect(last - now).toBeLessThan(20);
      last = now;
    }
    expect(batchOf(state, [1], 3000).p50).toBeGreaterThan(batchOf(state, [1], 300).p50);
  });

  it('a running setup has its time behind it', () => {
    const started = takeEvent(startForecast(job(1, 60, 5, 1200)), { kind: 'setup-started', operation: '10' });
    expect(batchOf(started, [5], 600).p50).toBeLessThan(batchOf(started, [5], 0).p50 - 300);
    expect(Math.abs(batchOf(started, [5], 1).p90 - batchOf(started, [5], 0).p90)).toBeLessThan(5);
    expectHonest(batchOf(started, [5], 40_000));
  });

  it('nothing is left when nothing is left', () => {
    expect(batchOf(state, [0], 100)).toEqual({ p10: 0, p50: 0, p90: 0 });
  });
});

describe('the truth of the batch reaches the forecast', () => {
  it('work that jumps between operations keeps a bank for each', () => {
    const events: ForecastEvent[] = [];
    for (let i = 0; i < 12; i += 1) events.push(load(40 + (i % 3), '10'), load(150 + (i % 5), '20'));
    const { operations } = explainForecast(foldForecast(job(2, 60, 40), events));
    expect(operations[0]?.load_s).toBeGreaterThan(38);
    expect(operations[0]?.load_s).toBeLessThan(46);
    expect(operations[1]?.load_s).toBeGreaterThan(142);
    expect(operations[1]?.load_s).toBeLessThan(165);
  });

  it('a finished operation that came out dear makes those to come dearer', () => {
    const plain = startForecast(job(2, 60, 40));
    const dear = foldForecast(
      job(2, 60, 40),
      steadyTimes(40, 90).map((time) => load(time)),
    );
    expect(batchOf(dear, [0, 40], 0, '20').p50 / batchOf(plain, [0, 40], 0, '20').p50).toBeGreaterThan(1.12);
  });

  it('scrap costs pieces to come', () => {
    const good = foldForecast(
      job(1, 60, 60),
      steadyTimes(20, 60).map((time) => load(time)),
    );
    const scrapped = [1, 2, 3, 4].reduce(
      (state) => takeEvent(state, { kind: 'scrap', operation: '10', pieces: 1, took_s: 60 }),
      good,
    );
    expect(batchOf(scrapped, [40]).p50).toBeGreaterThan(batchOf(good, [40]).p50 + 30);
  });

  it('three forgotten presses made up for are four even pieces', () => {
    const events = [...steadyTimes(6, 60), 240, 1, 1, 1].map((time) => load(time));
    const state = foldForecast(job(1, 60, 60), events);
    expect(explainForecast(state).operations[0]).toMatchObject({ tally: { timed: 10, slips: 0, hiccups: 0 } });
    expect(explainForecast(state).operations[0]?.load_s).toBeLessThan(66);
  });

  it('a changed plan keeps what the operations that stay have taught', () => {
    const timed = foldForecast(
      job(2, 60, 40),
      steadyTimes(20, 90).map((time) => load(time)),
    );
    const changed = takeEvent(timed, { kind: 'plan-changed', job: job(3, 60, 60) });
    expect(explainForecast(changed).operations.map((operation) => operation.tally.timed)).toEqual([20, 0, 0]);
    expect(batchOf(changed, [40, 60, 60]).p50).toBeGreaterThan(batchOf(timed, [20, 40]).p50);
  });

  it('says what it rests on: the plan before the first piece, then the loads and the plan', () => {
    expect(explainForecast(startForecast(job(1, 60, 5))).restsOn).toBe('plan');
    const timed = takeEvent(startForecast(job(1, 60, 5)), load(61));
    expect(explainForecast(timed)).toMatchObject({ restsOn: 'plan and timed loads', loadsTimed: 1 });
  });
});
