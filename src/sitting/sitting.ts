/**
 * The live session on one batch: a command comes in, `decide` answers, its events are appended and flushed, only then is
 * the state folded on and the screen told. One command at a time, in the order of the keys; the moment of a command is the
 * moment of its key.
 *
 * P1: a number is told to listeners only after its line is flushed. P3: a fault is told at once, nothing is counted, and no
 * press is passed over in silence. P6: the guard (guard.ts) stands before every count and every card.
 * It draws nothing and reads no key.
 */

import type { Command } from '../batch/commands.ts';
import type { Amendment } from '../batch/decide/amending.ts';
import { type DecideContext, decide } from '../batch/decide.ts';
import type { BatchEvent } from '../batch/events.ts';
import { foldLine } from '../batch/evolve.ts';
import type { Instant } from '../batch/instant.ts';
import type { BatchState } from '../batch/state.ts';
import { type Fault, isFault } from '../store/fault.ts';
import type { Journal } from '../store/journal.ts';
import { heldProblem } from './bounds.ts';
import { followLine } from './following.ts';
import { roomNote, roomProblem } from './room.ts';

/** What was last said to the person at the machine. */
export type Said =
  | { readonly kind: 'counted'; readonly events: readonly BatchEvent[]; readonly mono_ms: number }
  | { readonly kind: 'done'; readonly command: Command['kind']; readonly mono_ms: number }
  | { readonly kind: 'refused'; readonly reason: string; readonly mono_ms: number }
  | { readonly kind: 'fault'; readonly fault: Fault; readonly mono_ms: number };

export type SittingView = {
  readonly state: BatchState;
  readonly said: Said | null;
  /** Monotonic time since when the oldest command waits for its flush; null when none does. */
  readonly savingSince: number | null;
  /** What is to be said of the room that is left in the journal; null or nothing while there is enough. */
  readonly roomNote?: string | null;
};

export type Sitting = {
  readonly read: () => SittingView;
  /** Called after every change of the view; answers how to stop listening. */
  readonly subscribe: (listener: () => void) => () => void;
  /** Takes a command, given at `at` (now when left out). Answers when it is flushed, refused or failed. */
  readonly send: (command: Command, at?: Instant) => Promise<Said>;
  /** Shows a refusal that came from before `decide`: the guard, or a key that means nothing here. */
  readonly refuse: (reason: string) => void;
  /** Ends the sitting with its event, waits for what is under way, closes the journal. Answers why the event could not be saved. */
  readonly close: (why: 'left' | 'signal' | 'hang-up' | 'fault') => Promise<Fault | undefined>;
};

export type SittingOptions = {
  readonly journal: Journal<Command, BatchEvent>;
  readonly state: BatchState;
  readonly now: () => Instant;
  readonly by: string | null;
  /** Facts of a changed plan file for the `amend` command; asked when it is given. */
  readonly amendment: () => Amendment | null;
};

function contextAt(at: Instant, amendment: Amendment | null): DecideContext {
  return amendment === null ? { at } : { at, amendment };
}

type Waiting = { readonly command: Command; readonly at: Instant; readonly answer: (said: Said) => void };

/** Starts a session over an open journal whose lines are already folded into `state`. */
export function startSitting(options: SittingOptions): Sitting {
  const { journal, now } = options;
  let view: SittingView = { state: options.state, said: null, savingSince: null, roomNote: roomNote(journal.fill) };
  // The line up to which the state is folded: what the next append is decided on.
  let folded = journal.seq;
  let isWorking = false;
  let isClosed = false;
  const listeners = new Set<() => void>();
  const waiting: Waiting[] = [];

  const tell = (change: Partial<SittingView>): void => {
    view = { ...view, ...change };
    for (const listener of listeners) listener();
  };

  const work = async (): Promise<void> => {
    if (isWorking) return;
    isWorking = true;
    for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) {
      const said = await carryOut(next);
      const saving = waiting[0]?.at.mono_ms ?? null;
      tell({ said, savingSince: saving });
      next.answer(said);
    }
    isWorking = false;
  };

  const carryOut = async ({ command, at }: Waiting): Promise<Said> => {
    for (;;) {
      const full = roomProblem(journal.fill, command);
      if (full !== null) return { kind: 'refused', reason: full, mono_ms: at.mono_ms };
      const outcome = decide(view.state, command, contextAt(at, options.amendment()));
      if (outcome.kind === 'refused') return { kind: 'refused', reason: outcome.reason, mono_ms: at.mono_ms };
      const next = foldLine(view.state, { at, events: outcome.events });
      const tooMuch = next.kind === 'none' ? null : heldProblem(view.state, next);
      if (tooMuch !== null) return { kind: 'refused', reason: `not taken: ${tooMuch}`, mono_ms: at.mono_ms };
      const by = view.state.kind === 'none' ? (options.by ?? '') : (view.state.by ?? options.by ?? '');
      const appended = await journal.append(folded, [{ by, at, command, events: outcome.events }]);
      if (isFault(appended)) return { kind: 'fault', fault: appended, mono_ms: at.mono_ms };
      if (appended.kind === 'conflict') {
        const unread = await readOn();
        if (unread !== undefined) return { kind: 'fault', fault: unread, mono_ms: at.mono_ms };
        continue;
      }
      folded = appended.seq;
      view = { ...view, state: next, roomNote: roomNote(journal.fill) };
      const counted = outcome.events.some((event) => event.kind === 'LoadCounted');
      return counted
        ? { kind: 'counted', events: outcome.events, mono_ms: at.mono_ms }
        : { kind: 'done', command: command.kind, mono_ms: at.mono_ms };
    }
  };

  /** Takes in the lines that somebody else wrote since. */
  const readOn = async (): Promise<Fault | undefined> =>
    journal.read(folded + 1, (line) => {
      view = { ...view, state: followLine(view.state, line) };
      folded = line.seq;
    });

  const send = (command: Command, at: Instant = now()): Promise<Said> =>
    new Promise((answer) => {
      if (isClosed) return answer({ kind: 'refused', reason: 'the batch is being left', mono_ms: at.mono_ms });
      waiting.push({ command, at, answer });
      if (view.savingSince === null) view = { ...view, savingSince: at.mono_ms };
      void work();
    });

  return {
    read: () => view,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    send,
    refuse: (reason) => tell({ said: { kind: 'refused', reason, mono_ms: now().mono_ms } }),
    close: async (why) => {
      if (isClosed) return undefined;
      const ending = send({ kind: 'endSitting', why });
      isClosed = true;
      const said = await ending;
      await journal.close();
      return said.kind === 'fault' ? said.fault : undefined;
    },
  };
}
