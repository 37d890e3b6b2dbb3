import { describe, expect, it } from 'vitest';
import { followBatch } from '../../src/forecast/batch-forecast.ts';
import { asComputed, correctionsFrom, forecastJobOf, noPastWork, pastWorkFrom } from '../../src/forecast/batch-job.ts';
import { batchLesson } from '../../src/forecast/batch-lesson.ts';
import type { Lesson } from '../../src/forecast/history.ts';
import { groundLines, outlookAt } from '../../src/forecast/outlook.ts';
import type { ResolvedOperation } from '../../src/plan/resolved.ts';
import { enterAlone, instantAt, play } from '../batch/playing.ts';
import { anOperation, aVariant, samplePlan } from '../batch/sample-plan.ts';

type Estimate = ResolvedOperation['estimate'];
const fromPast = (piece: number, computed: number): Estimate =>
  ({ setup: 0, piece, from: 'past batches', past: { batches: 3, computed } }) as Estimate;

const planOf = (estimate: Estimate) =>
  samplePlan({ variants: [aVariant('plate', 12)], operations: [anOperation(10, { kind: 'drill', estimate })] });
const computed = { setup: 0, piece: 20, from: 'computed' } as Estimate;

/** A shop in which work takes half as long again as planned, and drilling longer still. */
const lesson: Lesson = {
  cycleFactor: Math.log(1.5),
  setupFactor: 0,
  interruptions: 0,
  benchHours: 5,
  interruption_s: 600,
  hiccups: 0,
  loads: 100,
  bandMisses: [],
  operations: [{ kind: 'drill', planned_s: 20, actual_s: 45, loads: 12 }],
};
const past = pastWorkFrom(new Array<Lesson>(12).fill(lesson));

describe('a time that past batches gave at the opening', () => {
  it('is not put right by the same batches again', () => {
    const opened = play(planOf(fromPast(40, 20))).batch();
    expect(correctionsFrom(opened, past)).toEqual([null]);
    expect(correctionsFrom(play(planOf(computed)).batch(), past)[0]?.batches).toBe(12);
    for (const work of [past, noPastWork]) {
      const batch = followBatch(null, opened, work);
      const { p50 } = outlookAt(batch, opened, instantAt(0)).remaining_s;
      // 12 pieces of 40 s are 480 s; allow for interruptions, hiccups and scrap to come.
      expect(p50).toBeGreaterThan(470);
      expect(p50).toBeLessThan(650);
    }
  });

  it('follows from the plan of the batch alone when the history has vanished, and what it rests on is still said', () => {
    const batch = play(planOf(fromPast(40, 20))).batch();
    const followed = followBatch(null, batch);
    const lines = groundLines(followed, outlookAt(followed, batch, instantAt(0)), instantAt(0));
    expect(lines).toContain('Operation 10: 40 s a piece from 3 past batches at its opening, where 20 s are computed.');
    expect(lines.join(' ')).not.toContain('No past batch');
  });

  it('stands in the job before the factor between plan and truth, so that it comes out once that is applied', () => {
    const batch = play(planOf(fromPast(40, 20))).batch();
    const [operation] = forecastJobOf(batch, past, [null]).operations;
    expect((operation?.piece_s ?? 0) * Math.exp(past.prior?.cycle ?? 0)).toBeCloseTo(40, 9);
  });

  it('teaches the next batch what it would have taught had it been computed', () => {
    const [withPast, without] = [fromPast(40, 20), computed].map((estimate) => {
      const played = play(planOf(estimate));
      enterAlone(played);
      return batchLesson(played.batch(), []);
    });
    expect(withPast).toEqual(without);
    expect(withPast?.operations[0]).toMatchObject({ planned_s: 20, kind: 'drill', operation: 10 });
  });

  it('leaves a batch without any as it is', () => {
    const batch = play(planOf(computed)).batch();
    expect(asComputed(batch)).toEqual(batch);
  });
});
