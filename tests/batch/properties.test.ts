import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Command } from '../../src/batch/commands.ts';
import { dueCards } from '../../src/batch/decide/gates.ts';
import { decide } from '../../src/batch/decide.ts';
import { eventSchema } from '../../src/batch/events.ts';
import { type BatchLine, foldJournal, foldLine } from '../../src/batch/evolve.ts';
import { goodOf } from '../../src/batch/finished-pieces.ts';
import { inHandAt, throughAt, unallotted, unsoundCell, waitingAt } from '../../src/batch/flow.ts';
import { durationBetween } from '../../src/batch/instant.ts';
import { startQuantity } from '../../src/batch/lanes.ts';
import { type Batch, type BatchState, noBatch } from '../../src/batch/state.ts';
import type { ResolvedPlan } from '../../src/plan/resolved.ts';
import { instantAt, openingOf } from './playing.ts';
import { commandOf, type Press, presses } from './random-commands.ts';
import { aCheck, aCut, anOperation, aTool, aVariant, samplePlan, somePoints, twoVariantPlan } from './sample-plan.ts';

const away = anOperation(20, { title: 'Plate', kind: 'away', away: { to: 'the plater', changes: [] } });
const plans: readonly ResolvedPlan[] = [
  twoVariantPlan({ threaded: 4, clearance: 3, spares: 1 }),
  samplePlan({
    variants: [aVariant('plate', 5)],
    operations: [anOperation(10, { loadSize: 3, counting: 'load' }), away],
  }),
  samplePlan({
    variants: [aVariant('left', 2), aVariant('right', 2), aVariant('plain', 2)],
    tools: [aTool('a'), aTool('b', { restore: 'oil' })],
    operations: [
      anOperation(10, {
        variants: ['left', 'right'],
        loadSize: 2,
        counting: 'point',
        cuts: [aCut('a', null, { points: somePoints(2) }), aCut('b', null, { points: somePoints(1) })],
        checks: [aCheck('c', { every: 2, last: true })],
      }),
      anOperation(20),
      { ...away, number: 30, variants: ['left'] },
    ],
  }),
];

const anyPlan = fc.nat(plans.length - 1).map((i) => plans[i] as ResolvedPlan);

type Step = {
  readonly before: BatchState;
  readonly command: Command;
  readonly line: BatchLine | null;
  readonly after: BatchState;
};

/** Runs the presses and calls `look` after each command, refused ones included. */
function run(plan: ResolvedPlan, sequence: readonly Press[], look: (step: Step) => void = () => {}) {
  let state: BatchState = noBatch;
  let seconds = 0;
  const lines: BatchLine[] = [];
  const act = (command: Command): void => {
    const at = instantAt(seconds);
    const amendment = { planText: '', planSha256: '1'.repeat(64), plan };
    const decision = decide(state, command, { at, opening: openingOf(plan), amendment });
    const line = decision.kind === 'events' ? { at, events: decision.events } : null;
    const after: BatchState = line === null ? state : foldLine(state, line);
    if (line !== null) lines.push(line);
    look({ before: state, command, line, after });
    state = after;
  };
  act({ kind: 'openBatch' });
  act({ kind: 'beginSitting', by: null, host: 'shop' });
  for (const one of sequence) {
    seconds += one.seconds;
    act(commandOf(state, one));
  }
  return { state: state as BatchState, lines, act, now: () => seconds };
}

const opened = (state: BatchState): Batch => {
  if (state.kind === 'none') throw new Error('no batch');
  return state;
};

const counts = (batch: Batch) => ({
  cells: batch.cells.map((cell, at) => ({
    good: cell.good,
    scrap: cell.scrap,
    out: cell.out,
    reworked: cell.reworked,
    lastGood: cell.lastGood,
    waiting: waitingAt(batch, at),
    stop: inHandAt(batch, at).stop,
    pieces: inHandAt(batch, at).pieces,
    loads: cell.loads?.length ?? 0,
  })),
  allotted: Object.fromEntries(Object.entries(batch.allotted).filter(([, pieces]) => pieces !== 0)),
  more: batch.more,
  inForce: batch.corrections.filter((one) => !one.takenBack),
});

const sum = (numbers: readonly number[]) => numbers.reduce((total, number) => total + number, 0);

describe('any sequence of commands', () => {
  it('keeps every count possible and loses or invents no piece', () => {
    fc.assert(
      fc.property(anyPlan, presses, (plan, sequence) => {
        run(plan, sequence, ({ after }) => {
          const batch = opened(after);
          expect(unsoundCell(batch)).toBeNull();
          const somewhere =
            sum(batch.cells.map((cell, at) => waitingAt(batch, at) + cell.scrap + cell.out)) +
            unallotted(batch) +
            goodOf(batch);
          expect(somewhere).toBe(startQuantity(plan) + batch.more);
        });
      }),
      { numRuns: 150 },
    );
  });

  it('books every millisecond between opening and now to exactly one account, of the batch and of its cells', () => {
    fc.assert(
      fc.property(anyPlan, presses, (plan, sequence) => {
        const { state, lines } = run(plan, sequence);
        const batch = opened(state);
        const slept = lines.flatMap((line) => line.events.flatMap((e) => (e.kind === 'SuspendNoticed' ? [e.ms] : [])));
        const passed = durationBetween(batch.opened, batch.closed ?? batch.last).ms + sum(slept);
        expect(sum(Object.values(batch.accounts))).toBe(passed);
        expect(sum(batch.cells.flatMap((cell) => Object.values(cell.accounts)))).toBe(passed);
        expect(sum(spanTimes(batch))).toBe(passed);
      }),
      { numRuns: 100 },
    );
  });

  it('folds to the same state from the journal, read back from text, restarted at any line', () => {
    fc.assert(
      fc.property(anyPlan, presses, fc.nat(200), (plan, sequence, cut) => {
        const { state, lines } = run(plan, sequence);
        const text = lines.map((line) => JSON.stringify(line));
        const again = text.map((line): BatchLine => {
          const { at, events } = JSON.parse(line) as BatchLine;
          return { at, events: events.map((event) => eventSchema.parse(event)) };
        });
        const half = cut % (again.length + 1);
        expect(foldJournal(again)).toEqual(state);
        expect(foldJournal(again.slice(half), foldJournal(again.slice(0, half)))).toEqual(state);
      }),
      { numRuns: 60 },
    );
  });

  it('leaves exactly the cards up that are due', () => {
    fc.assert(
      fc.property(anyPlan, presses, (plan, sequence) => {
        run(plan, sequence, ({ after }) => {
          const batch = opened(after);
          const up = batch.cards.map(({ id: _, ...draft }) => draft);
          if (batch.presence !== 'left') expect(new Set(up.map(asText))).toEqual(new Set(dueCards(batch).map(asText)));
          expect(new Set(batch.cards.map((card) => card.id)).size).toBe(batch.cards.length);
        });
      }),
      { numRuns: 100 },
    );
  });

  it('take-back restores counts, lanes and the next point, and never gives time back', () => {
    let undone = 0;
    fc.assert(
      fc.property(anyPlan, presses, (plan, sequence) => {
        run(plan, sequence, ({ before, line, after }) => {
          const entries = line?.events.filter((event) => undoable.has(event.kind)) ?? [];
          const grew = line !== null && opened(after).nextEntry - (before.kind === 'none' ? 0 : before.nextEntry);
          if (grew !== 1 || entries.length === 0) return;
          const taken = decide(after, { kind: 'takeBack' }, { at: opened(after).last });
          if (taken.kind === 'refused') return;
          const back = opened(foldLine(after, { at: opened(after).last, events: taken.events }));
          const newest = taken.events[0];
          if (newest?.kind !== 'TakenBack' || newest.entry !== opened(after).nextEntry - 1) return;
          undone += 1;
          expect(counts(back)).toEqual(counts(opened(before)));
          expect(back.accounts).toEqual(opened(after).accounts);
        });
      }),
      { numRuns: 150 },
    );
    expect(undone).toBeGreaterThan(1000);
  });

  it('can always be taken back to the first count or ends in a reason', () => {
    fc.assert(
      fc.property(anyPlan, presses, (plan, sequence) => {
        const { act, state } = run(plan, sequence);
        expect(() => act({ kind: 'takeBack' })).not.toThrow();
        expect(opened(state).cells.every((cell) => throughAt(cell) >= 0)).toBe(true);
      }),
      { numRuns: 30 },
    );
  });

  it('leaves a batch that Enter alone can bring to its end', () => {
    fc.assert(
      fc.property(anyPlan, presses, (plan, sequence) => {
        const { state, now } = run(plan, sequence);
        expect(broughtToEnd(state, now())).toBe(true);
      }),
      { numRuns: 100 },
    );
  });
});

const undoable: ReadonlySet<string> = new Set([
  'PointDone',
  'LoadCounted',
  'PieceRejected',
  'CountedScrapped',
  'SuspectsSettled',
  'SentToRework',
  'Recounted',
  'TargetCorrected',
  'SentAway',
  'CameBack',
  'MoreStarted',
  'PoolAllotted',
]);

/** A card as text, whatever the order of its fields. */
const asText = (card: object): string => JSON.stringify(Object.entries(card).sort(([a], [b]) => (a < b ? -1 : 1)));

function spanTimes(batch: Batch): number[] {
  const times: number[] = [];
  for (let link = batch.spans; link !== null; link = link.older) times.push(link.item.ms);
  return times;
}

function broughtToEnd(start: BatchState, from: number): boolean {
  let state = opened(start);
  let seconds = from;
  const act = (command: Command) => {
    seconds += 3;
    const at = instantAt(seconds);
    const decision = decide(state, command, { at });
    if (decision.kind === 'refused') throw new Error(`${command.kind}: ${decision.reason}`);
    state = opened(foldLine(state, { at, events: decision.events }));
  };
  if (state.kind === 'open' && state.presence === 'left') act({ kind: 'beginSitting', by: null, host: 'shop' });
  if (state.kind === 'open' && state.presence === 'paused') act({ kind: 'resume' });
  for (let presses = 0; presses < 2000 && state.kind === 'open'; presses += 1) {
    const card = state.cards[0];
    const suspect = state.suspects[0];
    if (suspect !== undefined) {
      const { check, from: first, to } = suspect;
      act({ kind: 'clearSuspects', check, from: first, to, how: 'measured', reason: 'measured' });
    } else if (card === undefined) act({ kind: 'count', quick: false });
    else act({ kind: 'passCard', id: card.id, shown_ms: 3000, answer: { kind: 'pass' } });
  }
  return state.kind !== 'open';
}
