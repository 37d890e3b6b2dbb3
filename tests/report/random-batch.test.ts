import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Command } from '../../src/batch/commands.ts';
import { decide } from '../../src/batch/decide.ts';
import { foldLine } from '../../src/batch/evolve.ts';
import { accountNames, type Batch } from '../../src/batch/state.ts';
import { formatLoadsCsv, formatReportCsv } from '../../src/report/forms/csv.ts';
import { formatReportHtml } from '../../src/report/forms/page.ts';
import { formatReportText } from '../../src/report/forms/text.ts';
import { makeReport } from '../../src/report/make-report.ts';
import { reportSchema } from '../../src/report/model.ts';
import { makeReportSettings } from '../../src/report/settings.ts';
import { twoVariantPlan } from '../batch/sample-plan.ts';
import { later, openedBatch } from './live-batch.ts';
import { readCsv } from './read-csv.ts';
import { readMarkup } from './read-markup.ts';

const plan = twoVariantPlan({ threaded: 3, clearance: 2, spares: 1 });
const reason = 'invented';

/** What the hands may do next; cards are answered by the bare Enter. */
const order = fc.oneof(
  { weight: 12, arbitrary: fc.constant<Command>({ kind: 'count', quick: false }) },
  { weight: 1, arbitrary: fc.constant<Command>({ kind: 'count', quick: true }) },
  { weight: 2, arbitrary: fc.constant<Command>({ kind: 'takeBack' }) },
  { weight: 1, arbitrary: fc.constant<Command>({ kind: 'reject', place: null, pieces: 1, counted: false, reason }) },
  { weight: 1, arbitrary: fc.constant<Command>({ kind: 'reject', place: null, pieces: 1, counted: true, reason }) },
  { weight: 1, arbitrary: fc.constant<Command>({ kind: 'pause', reason: 'tea' }) },
  { weight: 2, arbitrary: fc.constant<Command>({ kind: 'resume' }) },
  { weight: 1, arbitrary: fc.constant<Command>({ kind: 'bumped' }) },
  { weight: 1, arbitrary: fc.constant<Command>({ kind: 'endSitting', why: 'left' }) },
  { weight: 2, arbitrary: fc.constant<Command>({ kind: 'beginSitting', by: 'AB', host: 'bench' }) },
  { weight: 1, arbitrary: fc.constant<Command>({ kind: 'rework', to: 10, pieces: 1, reason }) },
  { weight: 1, arbitrary: fc.constant<Command>({ kind: 'recount', good: 1, reason }) },
  { weight: 1, arbitrary: fc.constant<Command>({ kind: 'trial', note: null }) },
);
const steps = fc.array(
  fc.record({ command: order, ms: fc.integer({ min: 0, max: 9e6 }), step_ms: fc.integer({ min: -1e8, max: 1e8 }) }),
  {
    minLength: 25,
    maxLength: 60,
  },
);

function ordered(batch: Batch, command: Command, at: ReturnType<typeof later>): Batch {
  const decision = decide(batch, command, { at });
  if (decision.kind === 'refused') return batch;
  const next = foldLine(batch, { at, events: decision.events });
  return next.kind === 'none' ? batch : next;
}

describe('the report of a random batch', () => {
  it('adds up in time and in pieces, holds to its schema, and can be written in every form', () => {
    let counted = 0;
    fc.assert(
      fc.property(steps, (all) => {
        let batch = ordered(openedBatch(plan), { kind: 'beginSitting', by: 'AB', host: 'bench' }, later(0));
        let now = 0;
        for (const { command, ms, step_ms } of all) {
          for (let card = batch.cards[0]; card !== undefined; card = batch.cards[0]) {
            now += 3000;
            const pass: Command = { kind: 'passCard', id: card.id, shown_ms: 3000, answer: { kind: 'pass' } };
            const passed = ordered(batch, pass, later(now));
            if (passed === batch || passed.kind !== 'open') break;
            batch = passed;
          }
          now += ms;
          batch = ordered(batch, command, later(now, step_ms));
        }
        const settings = makeReportSettings({ rate: { amount: 40, currency: 'EUR' } });
        const model = makeReport(batch, later(now + 500), { batch: 'random', settings });
        expect(reportSchema.safeParse(model).error).toBeUndefined();
        const until = batch.closed === null ? now + 500 : batch.closed.mono_ms - batch.opened.mono_ms;
        expect(accountNames.reduce((sum, name) => sum + Math.round(model.elapsed_s[name] * 1000), 0)).toBe(until);
        const lost = model.losses.filter((loss) => loss.what !== 'rework');
        expect(lost.reduce((sum, loss) => sum + loss.pieces, 0)).toBe(model.scrap);
        expect(readCsv(formatReportCsv(model))).toHaveLength(1 + model.operations.length);
        expect(readCsv(formatLoadsCsv(model))).toHaveLength(1 + model.loads.length);
        readMarkup(formatReportHtml(model));
        expect(formatReportText(model)).not.toMatch(/NaN|undefined|Infinity/);
        counted += model.loads.length;
      }),
      { numRuns: 60 },
    );
    expect(counted).toBeGreaterThan(100);
  });
});
