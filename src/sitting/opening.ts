/**
 * Beginning a batch, going on with one, and looking at one. A batch that is opened to write is locked first (P4); its
 * journal is folded into a state, what was damaged is named (P2), and a sitting begins with an event of its own. Looking
 * takes no lock and writes nothing. A journal of a newer version, or one whose lines make no sense, is only looked at (P13).
 */
import { basename, join } from 'node:path';
import type { Command } from '../batch/commands.ts';
import type { Amendment } from '../batch/decide/amending.ts';
import type { BatchEvent } from '../batch/events.ts';
import { type BatchState, noBatch } from '../batch/state.ts';
import { noteWorkedOn } from '../store/batches.ts';
import { type Fault, isFault } from '../store/fault.ts';
import { prepareHome } from '../store/home.ts';
import { createBatch } from '../store/journal.ts';
import { lookAtJournal } from '../store/journal-look.ts';
import type { Damage } from '../store/journal-repair.ts';
import { openBatch as openStored } from '../store/open-batch.ts';
import type { Owner } from '../store/owner-file.ts';
import { followLine } from './following.ts';
import { keepSummary } from './history.ts';
import { type Sitting, startSitting } from './sitting.ts';
import { batchLineForm, type World } from './world.ts';

/** Shorter than the longest note that the batch takes. */
const noteLength = 200;

export type Opened = {
  readonly kind: 'opened';
  readonly id: string;
  readonly sitting: Sitting;
  readonly damage: Damage | undefined;
  /** Ends the sitting, closes the journal, frees the lock. Answers why the end could not be saved. */
  readonly leave: (why: 'left' | 'signal' | 'hang-up' | 'fault') => Promise<Fault | undefined>;
};

export type OpenAnswer =
  | Opened
  | { readonly kind: 'held'; readonly id: string; readonly owner: Owner | undefined }
  | { readonly kind: 'held elsewhere'; readonly id: string; readonly owner: Owner }
  | Fault;

export type OpenOptions = {
  readonly takeFromOtherHost: boolean;
  readonly by: string | null;
  readonly amendment: () => Amendment | null;
};

/** Goes on with batch `id`: lock, journal, state, then a sitting that has begun. */
export async function openBatch(world: World, id: string, options: OpenOptions): Promise<OpenAnswer> {
  const folder = join(world.home.batches, id);
  let state: BatchState = noBatch;
  const opened = await openStored(
    world.disk,
    folder,
    batchLineForm,
    (line) => {
      state = followLine(state, line);
    },
    { self: world.self, takeFromOtherHost: options.takeFromOtherHost },
  );
  if (isFault(opened)) return opened;
  if (opened.kind !== 'opened') return { ...opened, id };
  await noteWorkedOn(world.disk, world.home, id);
  const release = opened.lock.release;
  const sitting = startSitting({
    journal: opened.journal,
    state,
    now: () => world.clock.now(),
    by: options.by,
    amendment: options.amendment,
  });
  const begun = await sitting.send({ kind: 'beginSitting', by: options.by, host: world.host });
  if (begun.kind === 'fault') {
    await sitting.close('fault');
    await release();
    return begun.fault;
  }
  if (opened.damage !== undefined) await sitting.send({ kind: 'note', text: damageNote(opened.damage) });
  const leave: Opened['leave'] = async (why) => {
    const unsaved = await sitting.close(why);
    await release();
    const ended = sitting.read().state.kind;
    if (ended === 'finished' || ended === 'given up') await keepSummary(world, id);
    return unsaved;
  };
  return { kind: 'opened', id, sitting, damage: opened.damage, leave };
}

/** What the batch's own record says of its damage, so that the report tells it too; place and length say which file it is. */
function damageNote({ offset, length, reason, keptIn }: Damage): string {
  const kept = keptIn === undefined ? '' : `, kept in ${basename(keptIn)}`;
  return `journal damaged at byte ${offset}: ${length} bytes not used${kept} (${reason})`.slice(0, noteLength);
}

/** Makes a new batch with its first line on the disk; it is not opened yet. A fault 73 when the folder cannot be written. */
export async function beginBatch(
  world: World,
  id: string,
  by: string | null,
  opening: BatchEvent & { readonly kind: 'BatchOpened' },
): Promise<Fault | undefined> {
  const unwritable = await prepareHome(world.disk, world.home);
  if (unwritable !== undefined) return unwritable;
  const command: Command = { kind: 'openBatch' };
  const first = { by: by ?? '', at: world.clock.now(), command, events: [opening] };
  const made = await createBatch(world.disk, world.home.batches, id, batchLineForm, first);
  return isFault(made) ? made : undefined;
}

export type Looked = {
  readonly kind: 'looked';
  readonly id: string;
  readonly state: BatchState;
  readonly damage: Damage | undefined;
};

/** The state of batch `id` as its journal tells it now. Writes nothing, takes no lock. */
export async function lookAtBatch(world: World, id: string): Promise<Looked | Fault> {
  let state: BatchState = noBatch;
  const looked = await lookAtJournal(world.disk, join(world.home.batches, id), batchLineForm, (line) => {
    state = followLine(state, line);
  });
  if (isFault(looked)) return looked;
  return { kind: 'looked', id, state, damage: looked.damage };
}
