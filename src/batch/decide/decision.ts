/** What `decide` answers, and the reasons that many commands share. */
import type { BatchEvent } from '../events.ts';
import { cellAt, placeAt } from '../flow.ts';
import type { Batch } from '../state.ts';

/** Events to be made durable, all or none; or why not now, in words for the screen. */
export type Decision =
  | { readonly kind: 'events'; readonly events: readonly BatchEvent[] }
  | { readonly kind: 'refused'; readonly reason: string };

export const events = (...happened: readonly BatchEvent[]): Decision => ({ kind: 'events', events: happened });
export const refused = (reason: string): Decision => ({ kind: 'refused', reason });

/** The most pieces that a batch may hold, the most variants, operations and points (decisions: bounds). */
export const bounds = { pieces: 10_000, variants: 20, operations: 99, points: 2_000 } as const;

/** Longest reason, note or name that is kept: what fits on two lines of a wide screen. */
const longestText = 300;

/** Runs a decision that needs somebody there, paused or not; refuses when the batch is left or over. */
export function whenOpen(batch: Batch, then: () => Decision): Decision {
  if (batch.kind === 'finished') return refused('the batch is finished; its report stays');
  if (batch.kind === 'given up') return refused('the batch was given up; its report stays');
  if (batch.presence === 'left') return refused('nobody is at the batch; go on with it first');
  return then();
}

/** Runs a decision that needs somebody working: refuses when paused as well. */
export function whenHere(batch: Batch, then: () => Decision): Decision {
  return whenOpen(batch, () =>
    batch.presence === 'paused' ? refused('the batch is paused; end the pause first') : then(),
  );
}

/** The operation at hand, as commands that act in it see it. */
export type AtHand = {
  readonly at: number;
  readonly cell: ReturnType<typeof cellAt>;
  readonly place: ReturnType<typeof placeAt>;
  /** Fields that name the cell in an event. */
  readonly named: { readonly operation: number; readonly lane: string };
};

/** Runs a decision in the operation at hand; refuses when there is none. Cards may be up. */
export function atHand(batch: Batch, then: (hand: AtHand) => Decision): Decision {
  return whenHere(batch, () => {
    const at = batch.current;
    if (at === null) return refused('no operation is begun yet');
    const cell = cellAt(batch, at);
    return then({ at, cell, place: placeAt(batch, at), named: { operation: cell.operation, lane: cell.lane } });
  });
}

/** Why a reason or note does not do, or null: it must say something, in at most 300 characters. */
export function textProblem(text: string, what: string): string | null {
  if (text.trim() === '') return `${what} is empty; say it in a few words`;
  return text.length > longestText ? `${what} is longer than ${longestText} characters; shorten it` : null;
}

/** "1 piece", "3 pieces". */
export function formatPieces(count: number): string {
  return count === 1 ? '1 piece' : `${count} pieces`;
}

/** "operation 40 Tap", with the variant when the lane is one: "operation 40 Tap, threaded". */
export function formatCell(batch: Batch, at: number): string {
  const { operation, lane } = placeAt(batch, at);
  const variant = batch.plan.variants.find((candidate) => candidate.id === lane);
  return `operation ${operation.number} ${operation.title}${variant === undefined ? '' : `, ${variant.title}`}`;
}
