import type * as z from 'zod';
import { type BatchEntry, listBatches } from './batches.ts';
import type { Disk } from './disk.ts';
import { type Fault, isFault } from './fault.ts';
import type { Home } from './home.ts';
import { readSummary, writeSummary } from './summary.ts';

// The history of finished batches: one reader for estimates and for the forecast. Part of P14: a summary that is missing,
// damaged, or older than its journal is made again from the journal, and whether it can be kept does not matter.

/** What a batch's journal says about it: its summary when the batch is finished, nothing when it is still open. */
export type Rebuild<T> = (
  entry: BatchEntry,
) => Promise<{ readonly kind: 'finished'; readonly summary: T } | { readonly kind: 'open' } | Fault>;

export interface History<T> {
  readonly finished: readonly { readonly id: string; readonly summary: T }[];
  /** Batches whose summary was made again. */
  readonly rebuilt: readonly string[];
  /** Batches that are not part of the history because their journal cannot be read. */
  readonly faults: readonly Fault[];
}

const AT_ONCE = 16;

/** Reads the summaries of all finished batches, in the order of their ids, making again those that do not hold. */
export async function readHistory<T>(
  disk: Disk,
  home: Home,
  schema: z.ZodType<T>,
  rebuild: Rebuild<T>,
): Promise<History<T> | Fault> {
  const entries = await listBatches(disk, home);
  if (isFault(entries)) return entries;
  const sorted = [...entries].sort((one, other) => (one.id < other.id ? -1 : 1));
  const finished: { id: string; summary: T }[] = [];
  const rebuilt: string[] = [];
  const faults: Fault[] = [];
  for (let first = 0; first < sorted.length; first += AT_ONCE) {
    const group = sorted.slice(first, first + AT_ONCE);
    const kept = await Promise.all(group.map((entry) => readSummary(disk, entry.folder, entry.id, schema)));
    for (const [index, entry] of group.entries()) {
      // One after another: made side by side, the states of several long journals would be in memory together.
      const found = await summaryOf(disk, entry, kept[index], rebuild);
      if (found.kind === 'fault') faults.push(found);
      if (found.kind !== 'finished') continue;
      finished.push({ id: found.id, summary: found.summary });
      if (found.wasRebuilt) rebuilt.push(found.id);
    }
  }
  return { finished, rebuilt, faults };
}

async function summaryOf<T>(disk: Disk, entry: BatchEntry, kept: T | undefined, rebuild: Rebuild<T>) {
  if (kept !== undefined) return { kind: 'finished', id: entry.id, summary: kept, wasRebuilt: false } as const;
  const made = await rebuild(entry);
  if (made.kind !== 'finished') return made;
  await writeSummary(disk, entry.folder, entry.id, entry.bytes, made.summary);
  return { kind: 'finished', id: entry.id, summary: made.summary, wasRebuilt: true } as const;
}
