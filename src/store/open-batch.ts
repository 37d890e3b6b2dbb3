import type { Disk } from './disk.ts';
import { type Fault, isFault } from './fault.ts';
import { type Journal, openJournal } from './journal.ts';
import type { LineForm } from './journal-line.ts';
import type { Visit } from './journal-reader.ts';
import type { Damage } from './journal-repair.ts';
import { type BatchLock, type LockAnswer, lockBatch, type Self } from './lock.ts';

// Opens a batch to work on: the lock first, the journal under it (P4 before P2).

export type OpenedBatch<C, E> =
  | {
      readonly kind: 'opened';
      readonly journal: Journal<C, E>;
      readonly damage: Damage | undefined;
      readonly lock: BatchLock;
    }
  | Exclude<LockAnswer, { kind: 'locked' }>;

/**
 * Locks the batch in `folder` and opens its journal, calling `visit` with each good line. When somebody else has it nothing is
 * read: look at it instead. A journal that cannot be opened frees the lock again.
 */
export async function openBatch<C, E>(
  disk: Disk,
  folder: string,
  form: LineForm<C, E>,
  visit: Visit<C, E>,
  who: { readonly self: Self; readonly takeFromOtherHost: boolean },
): Promise<OpenedBatch<C, E>> {
  const answer = await lockBatch(disk, folder, who.self, who);
  if (answer.kind !== 'locked') return answer;
  const opened = await openJournal(disk, folder, form, visit);
  if (isFault(opened)) {
    await answer.lock.release();
    return opened satisfies Fault;
  }
  return { ...opened, lock: answer.lock };
}
