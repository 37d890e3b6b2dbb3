import { describe, expect, it } from 'vitest';
import { type ForecastEvent, foldForecast } from '../../src/forecast/forecaster.ts';
import {
  bandMiss,
  estimateFrom,
  historyWeight,
  type Lesson,
  lessonOf,
  lessonSchema,
  pastTimeFrom,
  priorFrom,
} from '../../src/forecast/history.ts';
import { askForecast, quantilesOf } from '../../src/forecast/projection.ts';
import { startForecast } from '../../src/forecast/state.ts';

const job = {
  operations: [
    { key: '10', kind: 'drill', setup_s: 0, piece_s: 60, piecesPerLoad: 1, pieces: 30 },
    { key: '20', kind: 'tap', setup_s: 0, piece_s: 60, piecesPerLoad: 1, pieces: 30 },
  ],
};
const work = [{ kind: 'drill' }, { kind: 'tap', tool: 'M6 tap', material: 'mild steel' }];

function finishedBatch(drill_s: number, tap_s: number): Lesson {
  const events: ForecastEvent[] = [];
  for (let i = 0; i < 30; i += 1) events.push({ kind: 'load', operation: '10', pieces: 1, took_s: drill_s + (i % 3) });
  events.push({ kind: 'operation-finished', operation: '10' });
  for (let i = 0; i < 30; i += 1) events.push({ kind: 'load', operation: '20', pieces: 1, took_s: tap_s + (i % 3) });
  return lessonOf(foldForecast(job, events), work, [0.4, -0.2]);
}

describe('past batches', () => {
  it('weigh n / (n + 4)', () => {
    expect(historyWeight(0)).toBe(0);
    expect(historyWeight(1)).toBe(0.2);
    expect(historyWeight(12)).toBe(0.75);
  });

  it('teach nothing where there are none', () => {
    expect(priorFrom([])).toBeUndefined();
    expect(estimateFrom([], { kind: 'tap' }, 60)).toBeNull();
  });

  it('leave a lesson that can be stored and read again', () => {
    const lesson = finishedBatch(80, 90);
    expect(lessonSchema.parse(JSON.parse(JSON.stringify(lesson)))).toEqual(lesson);
    expect(lesson.operations.map((entry) => Math.round(entry.actual_s))).toEqual([81, 91]);
    expect(lesson.cycleFactor).toBeGreaterThan(0.2);
  });

  it('move the next forecast toward the truth, further the more they are', () => {
    const fresh = (lessons: readonly Lesson[]): number => {
      const prior = priorFrom(lessons);
      const state = startForecast(prior ? { ...job, prior } : job);
      return quantilesOf(
        askForecast(state, { operation: '10', sinceLastPress_s: 0, left: [{ pieces: 30 }, { pieces: 30 }] }).batch,
      ).p50;
    };
    const dear = finishedBatch(90, 90);
    const [none, one, eight] = [fresh([]), fresh([dear]), fresh(new Array<Lesson>(8).fill(dear))];
    expect(one).toBeGreaterThan(none);
    expect(eight).toBeGreaterThan(one);
    expect(priorFrom(new Array<Lesson>(8).fill(dear))?.batches).toBe(8);
  });

  it('put a kind of work right beyond what all work shares: 30 % dearer in each of four batches gives 60 x 1.3^(4/8)', () => {
    const lesson: Lesson = {
      ...finishedBatch(60, 60),
      cycleFactor: 0,
      operations: [{ kind: 'tap', planned_s: 60, actual_s: 78, loads: 30 }],
    };
    const estimate = estimateFrom(new Array<Lesson>(4).fill(lesson), { kind: 'tap' }, 60);
    expect(estimate?.piece_s).toBeCloseTo(60 * 1.3 ** 0.5, 6);
    expect(estimate).toMatchObject({ batches: 4, match: 'kind', replacesMissing: false });
  });

  it('are taken by the closest match, and stand in where the plan has no time', () => {
    const lesson = finishedBatch(60, 90);
    expect(estimateFrom([lesson], { kind: 'tap', tool: 'M6 tap', material: 'mild steel' }, 60)?.match).toBe(
      'kind, tool and material',
    );
    expect(estimateFrom([lesson], { kind: 'tap', tool: 'M6 tap', material: 'brass' }, 60)?.match).toBe('kind and tool');
    const missing = estimateFrom([lesson], { kind: 'drill' }, 0);
    expect(missing?.piece_s).toBeCloseTo(lesson.operations[0]?.actual_s ?? 0, 9);
    expect(missing?.replacesMissing).toBe(true);
  });

  const aPast = (over: Partial<Lesson['operations'][number]>, cycleFactor = 0): Lesson => ({
    ...finishedBatch(60, 60),
    cycleFactor,
    operations: [
      {
        kind: 'drill',
        tool: '5 mm drill',
        material: 'brass',
        plan: 'plates',
        operation: 40,
        planned_s: 60,
        actual_s: 90,
        loads: 30,
        ...over,
      },
    ],
  });
  const drilling = { kind: 'drill', tool: '5 mm drill', material: 'brass', plan: 'plates', operation: 40 };

  it('move the same operation of the same plan by n / (n + 1), one that is only like it by n / (n + 4)', () => {
    const two = [aPast({}), aPast({})];
    expect(estimateFrom(two, drilling, 60)).toMatchObject({ match: 'operation', batches: 2 });
    expect(estimateFrom(two, drilling, 60)?.piece_s).toBeCloseTo(60 * 1.5 ** (2 / 3), 9);
    expect(estimateFrom(two, { ...drilling, plan: 'straps' }, 60)?.piece_s).toBeCloseTo(60 * 1.5 ** (2 / 6), 9);
  });

  it('give a whole time with the factor that all work shares, from two batches on and by the kind never alone', () => {
    const slow = Math.log(1.5);
    const two = [aPast({}, slow), aPast({}, slow)];
    // 90 s where 60 s were computed, twice: 60 x 1.5^(2/3) = 78.6 s; half the size is half the time.
    expect(pastTimeFrom(two, drilling, 60)?.piece_s).toBeCloseTo(78.622, 3);
    expect(pastTimeFrom(two, drilling, 30)?.piece_s).toBeCloseTo(78.622 / 2, 3);
    expect(estimateFrom(two, drilling, 60)?.piece_s).toBeCloseTo(60, 9);
    expect(pastTimeFrom(two.slice(1), drilling, 60)).toBeNull();
    expect(pastTimeFrom(two, { ...drilling, tool: '8 mm drill' }, 60)).toBeNull();
    expect(pastTimeFrom(two, { ...drilling, plan: 'straps', material: 'steel' }, 60)?.match).toBe('kind and tool');
    expect(pastTimeFrom([], drilling, 60)).toBeNull();
  });

  it('of the same operation are passed over where they are too few, for those of its kind, tool and material', () => {
    const past = pastTimeFrom([aPast({}), aPast({ operation: 70, actual_s: 75 })], drilling, 60);
    expect(past).toMatchObject({ match: 'kind, tool and material', batches: 2 });
    expect(past?.piece_s).toBeCloseTo(60 * Math.exp((2 / 6) * ((Math.log(1.5) + Math.log(1.25)) / 2)), 9);
  });

  it('widen the band from twenty batches on when it held too few truths', () => {
    const missed = { ...finishedBatch(60, 60), bandMisses: [2.5, -2.6, 2.4] };
    expect(priorFrom(new Array<Lesson>(19).fill(missed))?.bandWidth).toBe(1);
    expect(priorFrom(new Array<Lesson>(20).fill(missed))?.bandWidth).toBeGreaterThan(1.4);
  });

  it('measure a miss in standard deviations of the band', () => {
    const said = { p10: 800, p50: 1000, p90: 1250 };
    expect(bandMiss(1000, said)).toBeCloseTo(0, 9);
    expect(bandMiss(1250, said)).toBeCloseTo(1.2815, 2);
    expect(bandMiss(0, said)).toBeNull();
  });
});
