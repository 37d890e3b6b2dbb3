import type { CardAnswer, Command } from '../../src/batch/commands.ts';
import { decide } from '../../src/batch/decide.ts';
import type { BatchEvent } from '../../src/batch/events.ts';
import { foldLine } from '../../src/batch/evolve.ts';
import { inHandAt } from '../../src/batch/flow.ts';
import type { Instant } from '../../src/batch/instant.ts';
import { type Batch, type BatchState, noBatch } from '../../src/batch/state.ts';
import { batchLineForm } from '../../src/sitting/world.ts';
import type { LineDraft } from '../../src/store/journal-line.ts';
import { instantAt, openingOf } from '../batch/playing.ts';
import { twoVariantPlan } from '../batch/sample-plan.ts';
import { makeChance, pickBelow } from './chance.ts';
import type { Subject } from './sitting-script.ts';

// The program's own batch as a subject of the crash explorer: a small job of two variants whose lines come from commands
// through `decide`, with take-back, scrap, rework, pause, recount, correction and cards between the counts.

type BatchDraft = LineDraft<Command, BatchEvent>;

export const BATCH = 'k3v9x2m4p7q1';
const plan = twoVariantPlan({ threaded: 2, clearance: 2, spares: 1 });

/** The program's batch, pressed as a busy operator would; the same press in the same state is always the same line. */
export const realBatch: Subject<Command, BatchEvent, BatchState> = {
  batch: BATCH,
  form: batchLineForm,
  nothing: noBatch,
  begin: () => draftOf(noBatch, { kind: 'openBatch' }, instantAt(0)) ?? bug(),
  press: (state, number, isFirst) => pressed(state, number, isFirst),
  fold: foldLine,
  mark: (line) => `${line.at.mono_ms} ${line.command.kind}`,
  tell: (state) => JSON.stringify(seenOf(state)),
};

function bug(): never {
  throw new Error('the batch was not opened');
}

function pressed(state: BatchState, number: number, isFirst: boolean): BatchDraft {
  const at = instantAt(number * 20);
  const chance = makeChance(number);
  if (state.kind === 'none') return bug();
  if (isFirst) return draftOf(state, { kind: 'beginSitting', by: 'AB', host: 'shop' }, at) ?? bug();
  for (let attempt = 0; attempt < 6; attempt += 1) {
    const draft = draftOf(state, wish(state, chance), at);
    if (draft !== undefined) return draft;
  }
  return draftOf(state, { kind: 'note', text: 'swarf' }, at) ?? draftOf(state, { kind: 'resume' }, at) ?? bug();
}

/** The line of a command as the sitting would write it; nothing when it is refused. */
function draftOf(state: BatchState, command: Command, at: Instant): BatchDraft | undefined {
  const outcome = decide(state, command, command.kind === 'openBatch' ? { at, opening: openingOf(plan) } : { at });
  if (outcome.kind === 'refused') return undefined;
  return { by: state.kind === 'none' ? '' : (state.by ?? ''), at, command, events: outcome.events };
}

/** What an operator may want next. */
function wish(batch: Batch, chance: () => number): Command {
  if (batch.presence === 'left') return { kind: 'beginSitting', by: null, host: 'shop' };
  if (batch.presence === 'paused') return { kind: 'resume' };
  const card = batch.cards[0];
  if (card !== undefined && chance() < 0.8) {
    return { kind: 'passCard', id: card.id, shown_ms: 3000, answer: answerOf(batch, card.kind, chance) };
  }
  if (chance() < 0.6) return { kind: 'count', quick: false };
  const others: readonly Command[] = [
    { kind: 'takeBack' },
    { kind: 'takeBack' },
    { kind: 'reject', place: null, pieces: 1, counted: true, reason: 'scored' },
    { kind: 'reject', place: 1, pieces: 1, counted: false, reason: 'burr' },
    { kind: 'rework', to: 10, pieces: 1, reason: 'too long' },
    { kind: 'recount', good: pickBelow(chance, 4), reason: 'tray' },
    { kind: 'correct', axis: 'x', by: 0.1, reading: null, reason: 'reads short' },
    { kind: 'pause', reason: 'telephone' },
    { kind: 'noteSuspend', ms: 90_000 },
    { kind: 'bumped' },
  ];
  return others[pickBelow(chance, others.length)] ?? { kind: 'takeBack' };
}

function answerOf(batch: Batch, kind: string, chance: () => number): CardAnswer {
  if (kind === 'check' && chance() < 0.5) return { kind: 'value', value: 2.9 + pickBelow(chance, 15) / 100 };
  if (kind === 'check') return { kind: 'yes or no', yes: chance() < 0.7 };
  if (kind === 'parting' && chance() < 0.5) {
    return { kind: 'shares', shares: Object.fromEntries(batch.lanes.parted.map((lane) => [lane, 2])) };
  }
  return { kind: 'pass' };
}

/** What the screen would show of a state: counts of every lane, the load and the next point, cards, accounts. */
function seenOf(state: BatchState): unknown {
  if (state.kind === 'none') return null;
  const { current } = state;
  return {
    kind: state.kind,
    presence: state.presence,
    current,
    next: current === null ? null : inHandAt(state, current),
    cells: state.cells.map(({ key, good, scrap, out, reworked, load }) => ({ key, good, scrap, out, reworked, load })),
    allotted: state.allotted,
    cards: state.cards,
    corrections: state.corrections,
    suspects: state.suspects,
    machines: state.machines,
    accounts: state.accounts,
  };
}
