/** What every part of the controller works with: the screen's state, the batch behind it, and the ways to say something. */
import type { Command } from '../../batch/commands.ts';
import { cardAppeared, guardAct, restingGuard, type Verdict } from '../../sitting/guard.ts';
import { type Step, startFlow } from '../flow/flow.ts';
import { type OwnKeys, withOwnKeys } from '../keys/binding-table.ts';
import { keyMapFor } from '../keys/key-map.ts';
import { type Key, keyId } from '../terminal/key.ts';
import { cardOf } from './key-moments.ts';
import { hasGood } from './message.ts';
import type { Services } from './services.ts';
import type { AppState } from './state.ts';

export type ControllerOptions = {
  readonly services: Services;
  readonly hand: 'right' | 'left';
  readonly ownKeys: OwnKeys;
  readonly guardMs: number;
  /** Null when nobody has chosen yet. */
  readonly digitRows: number | null;
  /** Whether the distance trial may stand before the first screen. */
  readonly mayTry: boolean;
  readonly isBellOn: boolean;
  readonly bell: () => void;
  readonly columns: () => number;
  /** Leaves the program with an exit code. */
  readonly leave: (code: number) => void;
};

export type Desk = {
  readonly options: ControllerOptions;
  readonly read: () => AppState;
  readonly set: (change: Partial<AppState>) => void;
  readonly subscribe: (listener: () => void) => () => void;
  readonly send: (command: Command) => Promise<void>;
  /** Shows why a press does nothing. */
  readonly refuse: (reason: string) => void;
  /** Shows what is wrong with what was typed, beside it, until the next key. */
  readonly wrong: (reason: string) => void;
  /** How often something was said so far: a key that did not add to it was taken without a word. */
  readonly timesSaid: () => number;
  readonly ask: (step: Step) => void;
  /** Whether a press that acts passes the guard; one that does not is told why. */
  readonly acts: (key: Key) => boolean;
  /** Takes a verdict of the guard: whether the press passes; a suppressed one says so. */
  readonly passes: (verdict: Verdict) => boolean;
  readonly pressOf: (key: Key) => { readonly key: string; readonly atMs: number };
  /** Notices a new card. */
  readonly batchChanged: () => void;
};

/** Rows of a digit until somebody has chosen: what the middle of the trial gives. */
const usualDigitRows = 7;

const suppressedWords = {
  held: 'the key is held: let it rest',
  'too soon': 'too soon after the last press',
  'card is new': 'read the card first',
} as const;

/** A desk before its first stage. */
export function makeDesk(options: ControllerOptions): Desk {
  const { services } = options;
  let app = firstState(options);
  const listeners = new Set<() => void>();
  const set = (change: Partial<AppState>): void => {
    app = { ...app, ...change };
    for (const listener of listeners) listener();
  };
  const batchChanged = (): void => {
    const card = cardOf(app);
    if (card?.id === app.card?.id) return;
    const since_ms = services.now().mono_ms;
    const shown = card === undefined ? null : { id: card.id, since_ms };
    const guard = card === undefined ? app.guard : cardAppeared(app.guard, since_ms);
    set({ card: shown, typed: '', wrong: null, ahead: 0, guard });
  };
  let said = 0;
  const wrong = (reason: string): void => {
    said += 1;
    set({ wrong: reason });
  };
  const refuse = (reason: string): void => {
    const { stage } = app;
    if (stage.kind !== 'batch') return wrong(reason);
    said += 1;
    app = { ...app, refusal: { reason, mono_ms: services.now().mono_ms } };
    stage.opened.sitting.refuse(reason);
  };
  const passes = (verdict: Verdict): boolean => {
    if (verdict.kind !== 'suppressed') return true;
    refuse(`not taken: ${suppressedWords[verdict.why]}`);
    return false;
  };
  const pressOf = (key: Key) => ({ key: keyId(key), atMs: services.now().mono_ms });
  return {
    options,
    read: () => app,
    set,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    send: async (command) => {
      if (app.stage.kind !== 'batch') return;
      set({ wrong: null, ahead: 0, lookAt: null });
      const answer = await app.stage.opened.sitting.send(command, services.now());
      if (hasGood(answer) && app.bell) options.bell();
      batchChanged();
    },
    refuse,
    wrong,
    timesSaid: () => said,
    ask: (step) => set({ flow: startFlow(step), page: null }),
    acts: (key) => {
      const { guard, verdict } = guardAct(app.guard, { guardMs: options.guardMs }, pressOf(key));
      app = { ...app, guard };
      return passes(verdict);
    },
    passes,
    pressOf,
    batchChanged,
  };
}

function firstState(options: ControllerOptions): AppState {
  return {
    stage: { kind: 'loading', about: 'millside' },
    flow: null,
    page: null,
    isTrial: options.digitRows === null && options.mayTry,
    typed: '',
    wrong: null,
    refusal: null,
    heard_ms: null,
    ahead: 0,
    lookAt: null,
    guard: restingGuard,
    card: null,
    digitRows: options.digitRows ?? usualDigitRows,
    bell: options.isBellOn,
    table: withOwnKeys(keyMapFor(options.hand), options.ownKeys),
    ownKeys: options.ownKeys,
  };
}
