import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decide } from '../../src/batch/decide.ts';
import { foldLine } from '../../src/batch/evolve.ts';
import { type Batch, type BatchState, noBatch } from '../../src/batch/state.ts';
import { forecastAskOf } from '../../src/forecast/batch-ask.ts';
import { type Followed, followBatch } from '../../src/forecast/batch-forecast.ts';
import { groundLines, outlookAt, paceLines } from '../../src/forecast/outlook.ts';
import type { ResolvedPlan } from '../../src/plan/resolved.ts';
import { instantAt, openingOf } from '../batch/playing.ts';
import { commandOf, presses } from '../batch/random-commands.ts';
import {
  aCheck,
  aCut,
  anOperation,
  aTool,
  aVariant,
  samplePlan,
  somePoints,
  twoVariantPlan,
} from '../batch/sample-plan.ts';

const plans: readonly ResolvedPlan[] = [
  twoVariantPlan({ threaded: 4, clearance: 3, spares: 1 }),
  samplePlan({
    variants: [aVariant('plate', 5)],
    tools: [aTool('a'), aTool('b')],
    operations: [
      anOperation(10, { loadSize: 3, counting: 'load', estimate: { setup: 600, piece: 40, from: 'plan' } }),
      anOperation(20, { title: 'Plate', kind: 'away', away: { to: 'the plater', changes: [] } }),
      anOperation(30, {
        loadSize: 2,
        counting: 'point',
        cuts: [aCut('a', null, { points: somePoints(2) }), aCut('b', null, { points: somePoints(1) })],
        checks: [aCheck('c', { every: 2, last: true })],
      }),
    ],
  }),
];

type Keys = readonly { readonly pick: number; readonly a: number; readonly b: number; readonly seconds: number }[];

/** Plays random presses; calls back with every state of the batch. */
function playRandomly(plan: ResolvedPlan, keys: Keys, see: (batch: Batch, seconds: number) => void): void {
  let state: BatchState = noBatch;
  let seconds = 0;
  const amended = { ...plan, spares: plan.spares + 1 };
  const amendment = { planText: '', planSha256: '1'.repeat(64), plan: amended };
  for (const key of [openKey, openKey, ...keys]) {
    seconds += key.seconds;
    const at = instantAt(seconds);
    const decision = decide(state, commandOf(state, key), { at, opening: openingOf(plan), amendment });
    if (decision.kind === 'refused') continue;
    state = foldLine(state, { at, events: decision.events });
    if (state.kind !== 'none') see(state, seconds);
  }
}

const openKey = { pick: 0, a: 0, b: 0, seconds: 1 };
const anyPlan = fc.constantFrom(...plans);

describe('the forecast of a batch led by random commands', () => {
  it('followed from state to state is the same as folded anew', () => {
    fc.assert(
      fc.property(anyPlan, presses, (plan, keys) => {
        let followed: Followed | null = null;
        playRandomly(plan, keys, (batch) => {
          followed = followBatch(followed, batch);
          expect(followed.forecast).toEqual(followBatch(null, batch).forecast);
        });
      }),
      { numRuns: 60 },
    );
  });

  it('gives finite finishes in order, none of them before now, and finite words', () => {
    fc.assert(
      fc.property(anyPlan, presses, fc.nat(20_000), (plan, keys, later) => {
        let followed: Followed | null = null;
        playRandomly(plan, keys, (batch, seconds) => {
          if (batch.kind !== 'open') return;
          followed = followBatch(followed, batch);
          const now = instantAt(seconds + later);
          const outlook = outlookAt(followed, batch, now);
          for (const finish of [outlook.operation, outlook.batch]) {
            if (finish === null) continue;
            expect(finish.p10_ms).toBeGreaterThanOrEqual(now.wall_ms);
            expect(finish.p50_ms).toBeGreaterThanOrEqual(finish.p10_ms);
            expect(finish.p90_ms).toBeGreaterThanOrEqual(finish.p50_ms);
          }
          expect(Number.isFinite(outlook.ahead_s)).toBe(true);
          expect([...paceLines(outlook, now), ...groundLines(followed, outlook, now)].join()).not.toMatch(
            /NaN|Infin|undefined/,
          );
        });
      }),
      { numRuns: 25 },
    );
  });

  it('is what it was before a count that is taken back, but for the time that was spent', () => {
    fc.assert(
      fc.property(anyPlan, presses, (plan, keys) => {
        playRandomly(plan, keys, (batch, seconds) => {
          if (batch.kind !== 'open') return;
          const counted = decide(batch, { kind: 'count', quick: false }, { at: instantAt(seconds + 60) });
          if (counted.kind === 'refused') return;
          const after = foldLine(batch, { at: instantAt(seconds + 60), events: counted.events });
          const back = decide(after, { kind: 'takeBack' }, { at: instantAt(seconds + 70) });
          if (back.kind === 'refused' || after.kind === 'none') return;
          const again = foldLine(after, { at: instantAt(seconds + 70), events: back.events });
          if (again.kind === 'none') return;
          const [before, then] = [followBatch(null, batch), followBatch(null, again)];
          expect(then.taken).toEqual(before.taken);
          const pieces = (one: Batch): number[] => forecastAskOf(one, one.last).left.map((entry) => entry.pieces);
          expect(pieces(again)).toEqual(pieces(batch));
        });
      }),
      { numRuns: 25 },
    );
  });
});
