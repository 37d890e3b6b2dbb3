import type { World } from '../../src/sitting/world.ts';
import { instantAt } from '../batch/playing.ts';
import { SimulatedDisk } from '../store/simulated-disk.ts';
import { BATCH } from './real-batch.ts';

// The world of a sitting on a disk in memory, with the program's own batch placed in it.

export const FOLDER = `/data/batches/${BATCH}`;
export const PATH = `${FOLDER}/journal.jsonl`;

/** A world whose disk holds `journal` as the batch's journal; every look at the clock is three seconds later. */
export function worldWith(journal: Uint8Array): World & { readonly disk: SimulatedDisk } {
  const disk = new SimulatedDisk(['/data', '/data/batches', FOLDER]);
  disk.place(PATH, Buffer.from(journal));
  let seconds = 1_000_000;
  return {
    disk,
    home: { root: '/data', batches: '/data/batches' },
    configFolder: '/data/config',
    clock: {
      now: () => {
        seconds += 3;
        return instantAt(seconds);
      },
      read: () => ({ wall_ms: 0, mono_ms: 0, boot_ms: 0 }),
    },
    self: { host: 'shop', boot: 'first', pid: 7, started: '1', startOf: () => '1', hasSockets: false },
    host: 'shop',
  };
}
