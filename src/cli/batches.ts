/**
 * `millside batches`: open and finished batches, the one worked on last first.
 *
 * `--json`: `{"format": 1, "batches": [{"batch", "job", "state", "held_by", "at", "good", "ordered", "changed"}]}`;
 * a batch whose journal cannot be read has `"state": "unreadable"` and `"fault"`.
 */

import { goodOf } from '../batch/finished-pieces.ts';
import { orderedIn } from '../batch/lanes.ts';
import { isoInstant } from '../report/time-text.ts';
import { holderOf } from '../sitting/holder.ts';
import { lookAtBatch } from '../sitting/opening.ts';
import { standingOf } from '../sitting/standing.ts';
import { makeWorld, type World } from '../sitting/world.ts';
import { type BatchEntry, listBatches } from '../store/batches.ts';
import { isFault } from '../store/fault.ts';
import { printableWords, readWords } from './arguments.ts';
import { exitCodes } from './exit-codes.ts';
import { type Io, writeJson } from './io.ts';
import { sayFault } from './say.ts';

export type BatchRow = {
  readonly batch: string;
  readonly job: string | null;
  readonly state: string;
  readonly held_by: { readonly host: string; readonly pid: number } | null;
  readonly at: { readonly operation: number; readonly variant: string | null } | null;
  readonly good: number;
  readonly ordered: number;
  readonly changed: string;
  readonly fault?: string;
};

export async function runBatches(args: readonly string[], io: Io): Promise<number> {
  const words = readWords('batches', args, [0, 0], io);
  if (typeof words === 'number') return words;
  const world = makeWorld(io.env);
  const entries = await listBatches(world.disk, world.home);
  if (isFault(entries)) return sayFault(io, entries);
  const rows: BatchRow[] = [];
  for (const entry of entries) rows.push(await batchRow(world, entry));
  if (words.has('json')) writeJson(io, { format: 1, batches: rows });
  else io.out(rows.length === 0 ? 'There is no batch yet; open a plan: millside PLAN\n' : rows.map(rowText).join(''));
  return exitCodes.done;
}

/** What the list says of one batch. */
export async function batchRow(world: World, entry: BatchEntry): Promise<BatchRow> {
  const now = world.clock.now();
  const changed = isoInstant(Math.round(entry.changed_ms), now.zone);
  const unknown = { batch: entry.id, job: null, held_by: null, at: null, good: 0, ordered: 0, changed };
  const looked = await lookAtBatch(world, entry.id);
  if (isFault(looked)) return { ...unknown, state: 'unreadable', fault: looked.what };
  const { state } = looked;
  if (state.kind === 'none')
    return { ...unknown, state: 'unreadable', fault: looked.damage?.reason ?? 'empty journal' };
  const holder = await holderOf(world.disk, entry.folder, world.self);
  const standing = standingOf(entry.id, state, now, holder);
  return {
    batch: entry.id,
    job: standing.job,
    state: standing.state,
    held_by: standing.held_by,
    at: standing.at === null ? null : { operation: standing.at.operation, variant: standing.at.variant },
    good: goodOf(state),
    ordered: orderedIn(state.plan, '*'),
    changed,
  };
}

function rowText(row: BatchRow): string {
  const at = row.at === null ? '' : `op ${row.at.operation}${row.at.variant === null ? '' : ` ${row.at.variant}`}`;
  const job = printableWords(row.job ?? row.fault ?? '');
  return `${row.batch}  ${row.state.padEnd(10)} ${`${row.good}/${row.ordered}`.padEnd(10)} ${at.padEnd(18)} ${job}\n`;
}
