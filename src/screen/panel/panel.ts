/**
 * What a moment shows, before it is laid out: every screen is a panel. A panel holds words and digits already made; it
 * knows no columns. `layout.ts` gives it the room there is: digits first where the hands need a number, words first where
 * they need to be told something.
 */
import type { DrawnCell } from '../../plan/drawing-text.ts';
import type { Role } from '../parts/lines.ts';

/**
 * One number or word to be read from across the shop. `label` is short (X, Y, STOP); `below` is small print under it.
 * A main reading is what the hands need now; a second one gives way to it.
 */
export type Reading = {
  readonly rank: 'main' | 'second';
  readonly label: string;
  readonly text: string;
  readonly below: string | null;
  /** Shown reversed: the number has just changed. */
  readonly fresh: boolean;
};

export type Picture = (columns: number, rows: number) => readonly (readonly DrawnCell[])[];

/** A headline that also says what must not be missed, in the fewest words, where no row is left for `insteadOf`. */
export type Brief = { readonly text: string; readonly insteadOf: readonly string[] };

/** First row. `place` says where we are in fewer and fewer words, the longest first; the title gives way to all else. */
export type Banner = {
  readonly place: readonly string[];
  readonly title: string;
  readonly counts: string;
  /** Short state such as PAUSED, or a clock. */
  readonly right: string;
};

export type Panel = {
  readonly banner: Banner;
  /** One or two words of what the hands do now: "WIND TO", "SET X ZERO", "CHECK". */
  readonly headline: {
    readonly text: string;
    readonly role: Role;
    readonly brief?: Brief;
  } | null;
  /** Which gives way where room is short. */
  readonly weight: 'digits' | 'words';
  /** Biggest first. */
  readonly readings: readonly Reading[];
  /** Lines of the moment, the most needed first. */
  readonly facts: readonly string[];
  /** Usual cautions, injury first; the line that defers to the manual is put behind them. */
  readonly cautions: readonly string[];
  /**
   * The first caution comes before all facts but so many: beside digits at the first stop of the first piece, and on a card
   * on which nothing helps before it is known what to do.
   */
  readonly warnsAfter?: number;
  /** Times: this piece, operation end, batch end. */
  readonly pace: readonly string[];
  /** What was last said: refused, counted, taken back, a fault. */
  readonly message: { readonly text: string; readonly role: Role } | null;
  /** The keys that work now. */
  readonly hints: readonly string[];
  readonly picture: Picture | null;
};

export type Room = {
  readonly columns: number;
  readonly rows: number;
  /** Rows that a digit should have to be read from where the user stands. */
  readonly digitRows: number;
  readonly ascii: boolean;
};

/** A main reading. */
export function mainReading(text: string, label = '', below: string | null = null): Reading {
  return { rank: 'main', label, text, below, fresh: false };
}

/** A reading that stands beside or under the main one, smaller where room is short. */
export function secondReading(text: string, label = '', below: string | null = null): Reading {
  return { rank: 'second', label, text, below, fresh: false };
}
