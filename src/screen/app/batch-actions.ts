/** Ends of flows that need the batch as it is then: answers to "what if", other hours, a handover, a changed plan. */
import { openUntil } from '../../forecast/batch-hours.ts';
import type { Action } from '../flow/flow.ts';
import { changedPlanStep } from './changed-plan-step.ts';
import type { Desk } from './desk.ts';
import { handoverLines } from './handover.ts';
import { batchOf } from './key-moments.ts';

type BatchAction = Extract<
  Action,
  { kind: 'lines' | 'suppose' | 'open until' | 'hand over' | 'changed plan' | 'amend' }
>;

/** Carries out such an end; without an open batch it does nothing. */
export function makeBatchActions(desk: Desk): (action: BatchAction) => void {
  const { set, read, send, refuse, options } = desk;
  const { services } = options;
  const show = (title: string, lines: readonly string[]): void => set({ page: { title, lines, from: 0 } });

  const handOver = async (by: string | null): Promise<void> => {
    const before = batchOf(read());
    await send({ kind: 'giveInitials', by });
    const after = batchOf(read());
    // Refused, or the same person: then there is nothing to hand over.
    if (before === null || after === null || after.by === before.by || by === null) return;
    show(`${by} CARRIES ON`, handoverLines(after));
  };

  return (action) => {
    const batch = batchOf(read());
    if (batch === null) return;
    const now = services.now();
    switch (action.kind) {
      case 'lines':
        return show(action.title, action.lines);
      case 'suppose':
        return show('WHAT IF', services.suppose(batch, now, action.question));
      case 'open until':
        return void send(openUntil(batch, now.wall_ms, action.minutes));
      case 'hand over':
        return void handOver(action.by);
      case 'changed plan': {
        const change = services.planChange(batch);
        if (change === null) return refuse('the plan file has not changed, or cannot be used as it is');
        return desk.ask(changedPlanStep(change));
      }
      case 'amend':
        if (services.planChange(batch)?.sha256 === action.sha256) return void send({ kind: 'amend' });
        return refuse('the plan file has changed once more: look at the list again');
      default:
        return action satisfies never;
    }
  };
}
