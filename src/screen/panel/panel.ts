/**
 * What a moment shows, before it is laid out: every screen is a panel. A panel holds words and digits already made; it
 * knows no columns. `layout.ts` gives it the room there is, the readings first.
 */
import type { DrawnCell } from '../../plan/drawing-text.ts';
import type { Role } from '../parts/lines.ts';

/** One number to be read from across the shop. `label` is short (X, Y, DEPTH); `below` is small print under it. */
export type Reading = {
  readonly label: string;
  readonly text: string;
  readonly below: string | null;
  /** Shown reversed: the number has just changed. */
  readonly fresh: boolean;
};

export type Picture = (columns: number, rows: number) => readonly (readonly DrawnCell[])[];

export type Panel = {
  /** First row: where we are; to its right, short state such as PAUSED or a clock. */
  readonly banner: { readonly left: string; readonly right: string };
  /** One or two words of what the hands do now: "WIND TO", "SET X ZERO", "CHECK". */
  readonly headline: { readonly text: string; readonly role: Role } | null;
  /** Biggest first. */
  readonly readings: readonly Reading[];
  /** Lines of the moment, the most needed first. */
  readonly facts: readonly string[];
  /** Usual cautions, with the deferring line last. */
  readonly cautions: readonly string[];
  /** Times: this piece, usual, operation end, batch end. */
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
