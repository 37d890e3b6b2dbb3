/** Where work can go now, for a list to choose from. */
import { goToProblem } from '../decide/routing.ts';
import { waitingAt } from '../flow.ts';
import type { Batch } from '../state.ts';

export type GoToChoice = {
  readonly operation: number;
  readonly lane: string;
  readonly title: string;
  readonly waiting: number;
  /** Why work cannot go there; null when it can. */
  readonly problem: string | null;
};

/** Every operation in every lane, in the order of the plan, with the reason where work cannot go. */
export function goToChoices(batch: Batch): readonly GoToChoice[] {
  return batch.lanes.places.map(({ operation, lane }, at) => ({
    operation: operation.number,
    lane,
    title: operation.title,
    waiting: Math.max(0, waitingAt(batch, at)),
    problem: goToProblem(batch, at),
  }));
}
