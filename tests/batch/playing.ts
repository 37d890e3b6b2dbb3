/**
 * Plays a batch in memory: commands go through `decide`, their events become lines, lines fold into the state, as the
 * live session does it, without a disk. The clock is the test's: every command may bring the seconds since the last.
 */
import type { CardAnswer, Command } from '../../src/batch/commands.ts';
import { type DecideContext, decide } from '../../src/batch/decide.ts';
import type { BatchEvent } from '../../src/batch/events.ts';
import { type BatchLine, foldLine } from '../../src/batch/evolve.ts';
import type { Instant } from '../../src/batch/instant.ts';
import { type Batch, type BatchState, noBatch } from '../../src/batch/state.ts';
import type { ResolvedPlan } from '../../src/plan/resolved.ts';

/** 2027-03-01 09:00 in Berlin, in milliseconds since 1970 UTC. */
const morning_ms = 1_803_888_000_000;

/** The instant so many seconds after the morning, in one boot. */
export function instantAt(seconds: number, boot = 'first'): Instant {
  const ms = Math.round(seconds * 1000);
  return { wall_ms: morning_ms + ms, zone: 'Europe/Berlin', mono_ms: 1_000_000 + ms, boot };
}

/** The facts for opening a batch of a plan. */
export function openingOf(plan: ResolvedPlan, planText = 'format: 1'): NonNullable<DecideContext['opening']> {
  return {
    planText,
    planSha256: '0'.repeat(64),
    planPath: null,
    plan,
    zone: 'Europe/Berlin',
    hours: null,
    rate: null,
    overrides: [],
  };
}

export type Played = {
  readonly state: () => BatchState;
  /** The open batch; a test that asks before opening fails. */
  readonly batch: () => Batch;
  readonly lines: () => readonly BatchLine[];
  /** Seconds since the morning. */
  readonly now: () => number;
  /** Lets time pass. */
  readonly wait: (seconds: number) => void;
  /** Does a command after `seconds`; returns its events, throws its reason when it is refused. */
  readonly act: (command: Command, seconds?: number, context?: Partial<DecideContext>) => readonly BatchEvent[];
  /** The reason why a command is refused; throws when it is not. */
  readonly reason: (command: Command, context?: Partial<DecideContext>) => string;
  /** Answers the card that is up; by default after reading it for three seconds. */
  readonly pass: (answer?: CardAnswer, seconds?: number) => readonly BatchEvent[];
  /** Passes cards while there are any, at most `most`. */
  readonly passAll: (most?: number) => void;
  /** Counts `times` with `seconds` before each, passing cards that come up before a count. */
  readonly count: (times?: number, seconds?: number) => void;
};

/** Opens a batch of a plan and sits down to it. */
export function play(plan: ResolvedPlan): Played {
  let state: BatchState = noBatch;
  let seconds = 0;
  const lines: BatchLine[] = [];

  const decideNow = (command: Command, context: Partial<DecideContext> = {}) =>
    decide(state, command, { at: instantAt(seconds), ...context });

  const played: Played = {
    state: () => state,
    batch: () => {
      if (state.kind === 'none') throw new Error('no batch is open');
      return state;
    },
    lines: () => lines,
    now: () => seconds,
    wait: (passing) => {
      seconds += passing;
    },
    act: (command, passing = 1, context = {}) => {
      seconds += passing;
      const decision = decideNow(command, context);
      if (decision.kind === 'refused') throw new Error(`${command.kind} refused: ${decision.reason}`);
      const line = { at: context.at ?? instantAt(seconds), events: decision.events };
      lines.push(line);
      state = foldLine(state, line);
      return decision.events;
    },
    reason: (command, context = {}) => {
      const decision = decideNow(command, context);
      if (decision.kind === 'events') throw new Error(`${command.kind} was not refused`);
      return decision.reason;
    },
    pass: (answer = { kind: 'pass' }, passing = 3) => {
      const card = played.batch().cards[0];
      if (card === undefined) throw new Error('no card is up');
      return played.act({ kind: 'passCard', id: card.id, shown_ms: passing * 1000, answer }, passing);
    },
    passAll: (most = 30) => {
      for (let i = 0; i < most && played.batch().cards.length > 0; i += 1) played.pass();
    },
    count: (times = 1, passing = 60) => {
      for (let i = 0; i < times; i += 1) {
        played.passAll();
        played.act({ kind: 'count', quick: false }, passing);
      }
    },
  };

  played.act({ kind: 'openBatch' }, 0, { opening: openingOf(plan) });
  played.act({ kind: 'beginSitting', by: null, host: 'shop' }, 0);
  return played;
}

/** Presses Enter alone, on cards and counts, until the batch is finished; returns the presses. */
export function enterAlone(played: Played, most = 10_000): number {
  for (let presses = 0; presses < most; presses += 1) {
    const batch = played.batch();
    if (batch.kind !== 'open') return presses;
    if (batch.cards.length > 0) played.pass();
    else played.act({ kind: 'count', quick: false }, 20);
  }
  throw new Error('the batch did not end');
}
