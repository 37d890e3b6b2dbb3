/** The batch that a command line speaks of: the one named, by id or its beginning, else the one worked on last. */

import type { World } from '../sitting/world.ts';
import { type BatchEntry, findBatch, listBatches } from '../store/batches.ts';
import { type Fault, isFault, makeFault } from '../store/fault.ts';

export async function batchNamed(world: World, name: string | undefined): Promise<BatchEntry | Fault> {
  if (name !== undefined) return findBatch(world.disk, world.home, name);
  const entries = await listBatches(world.disk, world.home);
  if (isFault(entries)) return entries;
  return (
    entries[0] ??
    makeFault({
      what: 'there is no batch yet',
      where: world.home.batches,
      tryThis: 'open a plan: millside PLAN',
      code: 66,
    })
  );
}
