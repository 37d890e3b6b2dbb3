/**
 * What the screen remembers that may be lost in a power cut: which page is open, what is typed, where one looks. Everything
 * else is an event of the batch.
 */
import type { BatchState } from '../../batch/state.ts';
import type { Guard } from '../../sitting/guard.ts';
import type { Opened } from '../../sitting/opening.ts';
import type { Fault } from '../../store/fault.ts';
import type { FlowState } from '../flow/flow.ts';
import type { BindingTable, OwnKeys } from '../keys/binding-table.ts';
import type { KeyCommand, Moment } from '../keys/key-map.ts';
import type { Offer } from './services.ts';

export type Stage =
  | { readonly kind: 'loading'; readonly about: string }
  | { readonly kind: 'choose'; readonly offers: readonly Offer[]; readonly chosen: number }
  | { readonly kind: 'batch'; readonly opened: Opened }
  /** Another terminal has the batch: it can be looked at, not counted. */
  | { readonly kind: 'look'; readonly id: string; readonly who: string; readonly state: BatchState | null }
  /** Another computer has it: taken only by an explicit yes. */
  | { readonly kind: 'ask to take'; readonly id: string; readonly who: string }
  /** A plan with problems; `canBeTaken` is its path when a word of the operator opens it all the same. */
  | {
      readonly kind: 'stopped';
      readonly title: string;
      readonly lines: readonly string[];
      readonly canBeTaken: string | null;
    }
  | { readonly kind: 'fault'; readonly fault: Fault };

/** A page over the stage: keys, cautions, finish, report; `from` is its first line shown. */
export type Page = { readonly title: string; readonly lines: readonly string[]; readonly from: number };

export type AppState = {
  readonly stage: Stage;
  readonly flow: FlowState | null;
  readonly page: Page | null;
  /** The distance trial stands before everything else, once in the life of the settings. */
  readonly isTrial: boolean;
  /** Typed at a card that takes a value. */
  readonly typed: string;
  readonly wrong: string | null;
  /** What was refused last and when, so that the answer to an earlier key, still being saved, does not cover it. */
  readonly refusal: { readonly reason: string; readonly mono_ms: number } | null;
  /** When the last key came that was taken without a word: what was said to the keys before it is over. */
  readonly heard_ms: number | null;
  /** Stops looked ahead from the live one; at a card, its facts leafed over. */
  readonly ahead: number;
  /** Position of another cell that is looked at; null: the one in hand. */
  readonly lookAt: number | null;
  readonly guard: Guard;
  readonly card: { readonly id: string; readonly since_ms: number } | null;
  readonly digitRows: number;
  readonly bell: boolean;
  readonly table: BindingTable<Moment, KeyCommand>;
  readonly ownKeys: OwnKeys;
};
