/** Looking on at a batch that another terminal has: read once, then only what was added. Takes no lock, writes nothing (P2, P4). */
import { join } from 'node:path';
import type { Command } from '../batch/commands.ts';
import type { BatchEvent } from '../batch/events.ts';
import { type BatchState, noBatch } from '../batch/state.ts';
import { type Fault, isFault } from '../store/fault.ts';
import type { JournalLine } from '../store/journal-line.ts';
import { type LookedJournal, lookAtJournal } from '../store/journal-look.ts';
import { followLine } from './following.ts';
import { batchLineForm, type World } from './world.ts';

/**
 * Answers with the state of a batch as its journal tells it now; asked again for the same batch it reads on from where it
 * was, so that asking each second costs nothing while nothing happens. A journal that was replaced is read from its start.
 */
export function makeLookingOn(world: World): (id: string) => Promise<BatchState | Fault> {
  let state: BatchState = noBatch;
  let known: { readonly id: string; readonly look: LookedJournal<Command, BatchEvent>['look'] } | null = null;
  const visit = (line: JournalLine<Command, BatchEvent>): void => {
    state = followLine(state, line);
  };
  return async (id) => {
    if (known?.id === id) {
      const found = await known.look.readOn(visit);
      if (isFault(found)) return found;
      if (found.kind === 'read') return state;
    }
    known = null;
    state = noBatch;
    const looked = await lookAtJournal(world.disk, join(world.home.batches, id), batchLineForm, visit);
    if (isFault(looked)) return looked;
    known = { id, look: looked.look };
    return state;
  };
}
