/** What the screen may ask of the floors below, made by `cli`: the list to choose from, and opening what is chosen. */
import type { Instant } from '../../batch/instant.ts';
import type { BatchState } from '../../batch/state.ts';
import type { Supposition } from '../../forecast/suppose.ts';
import type { OpenAnswer } from '../../sitting/opening.ts';
import type { Fault } from '../../store/fault.ts';
import type { OwnKeys } from '../keys/binding-table.ts';

/** One line of the first screen. */
export type Offer =
  | { readonly kind: 'batch'; readonly id: string; readonly title: string; readonly about: string }
  | { readonly kind: 'plan'; readonly path: string; readonly title: string; readonly about: string };

/** What the screen begins with. */
export type Target =
  | { readonly kind: 'choose' }
  | { readonly kind: 'batch'; readonly id: string }
  | { readonly kind: 'plan'; readonly path: string };

export type Begun =
  | { readonly kind: 'begun'; readonly id: string }
  /** The plan has problems or findings that stop it; `canBeTaken` when a word of the operator may open it all the same. */
  | { readonly kind: 'stopped'; readonly lines: readonly string[]; readonly canBeTaken: boolean };

/** Settings that the screen itself changes. */
export type ScreenPatch = {
  readonly digit_rows?: number;
  readonly sound?: boolean;
  readonly hand?: 'right' | 'left';
};

export type Services = {
  readonly now: () => Instant;
  readonly offers: () => Promise<readonly Offer[] | Fault>;
  /** Goes on with a batch; takes it from another computer only when told so. */
  readonly open: (id: string, takeFromOtherHost: boolean) => Promise<OpenAnswer>;
  /**
   * Makes a batch of the plan at `path`: its id, or why not. A plan with a finding that stops is begun only with `word`:
   * the operator's reason for taking it all the same, which enters the journal.
   */
  readonly begin: (path: string, word: string | null) => Promise<Begun | Fault>;
  /** What is to be said of the plan file while the batch runs (changed, spoiled, gone), or null. */
  readonly planNote: () => string | null;
  /** What the changed plan file would change in the batch, one sentence each; null when it has not changed or cannot be read. */
  readonly planChange: (state: BatchState) => PlanChange | null;
  /** Warnings and notes of the plan's checks for one operation, for its setup card. */
  readonly warnings: (state: BatchState, operation: number) => readonly string[];
  /** A batch that another terminal has, as it stands now. */
  readonly look: (id: string) => Promise<BatchState | Fault>;
  /** The report of the batch `id` as text lines of at most `columns`. */
  readonly report: (state: BatchState, id: string, columns: number) => readonly string[];
  /** The one line that an operation in a lane comes to, or the whole batch for null; '' when nothing can be said. */
  readonly endLine: (
    state: BatchState,
    cell: { readonly operation: number; readonly lane: string } | null,
    now: Instant,
  ) => string;
  /** Keeps settings of the screen for next time; a fault when they cannot be kept. */
  readonly saveScreenSettings: (patch: ScreenPatch) => Promise<Fault | null>;
  /** Keeps the user's own keys. */
  readonly saveKeys: (ownKeys: OwnKeys) => Promise<Fault | null>;
  /** Words about the finish; recomputed by the caller when it wants them. */
  readonly outlook: (state: BatchState, now: Instant) => Outlook;
  /**
   * Answers in words to "if I stop at 21:30", "if I make n more", "with so many loads"; the three may be asked together.
   * `until` must be a time of day (isTimeOfDay in src/forecast/suppose.ts says whether it is).
   */
  readonly suppose: (state: BatchState, now: Instant, question: Supposition) => readonly string[];
  /** Wall time as a clock shows it in the batch's zone: "21:05". */
  readonly clockText: (now: Instant) => string;
};

/** A changed plan file: its fingerprint, and what taking it up would change. */
export type PlanChange = { readonly sha256: string; readonly changes: readonly string[] };

/** When it ends, in words ready to be shown. */
export type Outlook = {
  /** "op ends 21:05, batch Thu 20:10 (19:50 to 20:40)"; one or two lines. */
  readonly pace: readonly string[];
  /** What it rests on, for the page behind a key. */
  readonly grounds: readonly string[];
};
