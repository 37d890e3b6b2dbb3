import { join } from 'node:path';
import { type Disk, type OpenFile, readFully, writeAll } from './disk.ts';
import { type Fault, makeFault, orFault } from './fault.ts';
import type { Stop } from './journal-reader.ts';

// Sets the bad rest of a journal aside. Keeps the repairing half of P2: the rest is copied to a side file of its own, that
// file and its name are flushed, and only then is the journal cut. It can be stopped at any call and begun again: an
// unfinished copy ends in `.part` and is thrown away, a finished one is found again and not made twice.

/** More than this is not copied; the batch can then be looked at only. */
const REST_CAP = 64 * 1024 * 1024;
const CHUNK = 256 * 1024;

/** What was wrong with a journal and where the bytes that were not counted are now. */
export interface Damage extends Stop {
  readonly file: string;
  /** The side file, when the rest was set aside; nothing when the journal was only looked at. */
  readonly keptIn: string | undefined;
}

/** Copies the rest behind `stop.offset` to a side file, flushes it, then cuts the journal there; the caller flushes that. */
export async function setRestAside(
  disk: Disk,
  folder: string,
  journal: OpenFile,
  stop: Stop,
): Promise<{ readonly kind: 'set aside'; readonly keptIn: string } | Fault> {
  if (stop.length > REST_CAP) return tooLong(folder, stop);
  const doing = { doing: 'the damaged rest of the journal could not be set aside', where: folder, code: 74 } as const;
  return orFault(doing, async () => {
    await throwAwayParts(disk, folder);
    const keptIn = (await findCopy(disk, folder, journal, stop)) ?? (await makeCopy(disk, folder, journal, stop));
    await disk.syncFolder(folder);
    await journal.truncate(stop.offset);
    return { kind: 'set aside', keptIn } as const;
  });
}

function tooLong(folder: string, stop: Stop): Fault {
  return makeFault({
    what: `the journal is damaged and ${stop.length} bytes follow the damage, too many to set aside`,
    where: `${join(folder, 'journal.jsonl')}, byte ${stop.offset}`,
    tryThis: `look at the batch; to go on with it, keep a copy of the folder and cut the journal to ${stop.offset} bytes`,
    code: 65,
  });
}

async function throwAwayParts(disk: Disk, folder: string): Promise<void> {
  for (const name of await disk.list(folder)) {
    if (/^damaged-\d+-\d+\.part$/.test(name)) await disk.unlink(join(folder, name));
  }
}

async function findCopy(disk: Disk, folder: string, journal: OpenFile, stop: Stop): Promise<string | undefined> {
  for (const name of await disk.list(folder)) {
    if (!name.startsWith(`damaged-${stop.offset}-`)) continue;
    const path = join(folder, name);
    if (await isSame(disk, path, journal, stop)) return path;
  }
  return undefined;
}

async function isSame(disk: Disk, path: string, journal: OpenFile, stop: Stop): Promise<boolean> {
  const copy = await disk.open(path, 'read');
  try {
    if ((await copy.facts()).size !== stop.length) return false;
    for (let done = 0; done < stop.length; done += CHUNK) {
      const kept = await readPart(copy, done, stop.length - done);
      const rest = await readPart(journal, stop.offset + done, stop.length - done);
      if (!kept.equals(rest)) return false;
    }
    return true;
  } finally {
    await copy.close();
  }
}

async function readPart(file: OpenFile, offset: number, left: number): Promise<Buffer> {
  const bytes = Buffer.alloc(Math.min(CHUNK, left));
  return bytes.subarray(0, await readFully(file, bytes, offset));
}

async function makeCopy(disk: Disk, folder: string, journal: OpenFile, stop: Stop): Promise<string> {
  const taken = new Set(await disk.list(folder));
  let number = 1;
  while (taken.has(copyName(stop.offset, number))) number += 1;
  const path = join(folder, copyName(stop.offset, number));
  const part = path.replace(/jsonl$/, 'part');
  const copy = await disk.open(part, 'new');
  try {
    for (let done = 0; done < stop.length; done += CHUNK) {
      await writeAll(copy, await readPart(journal, stop.offset + done, stop.length - done));
    }
    await copy.sync();
  } finally {
    await copy.close();
  }
  await disk.rename(part, path);
  return path;
}

function copyName(offset: number, number: number): string {
  return `damaged-${offset}-${number}.jsonl`;
}
