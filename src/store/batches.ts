import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import type { Disk } from './disk.ts';
import { type Fault, isFault, makeFault, orFault } from './fault.ts';
import type { Home } from './home.ts';
import { JOURNAL_NAME } from './journal-file.ts';
import { readSmall, writeWhole } from './whole-file.ts';

// The batches there are: a folder each, named by a random id. Part of P8: no name that a person types becomes a path, and of
// P14: which batch was worked on last is only a note, and may vanish.

/** Digits and lower-case letters without i, l, o and u, which are misread: five bits a character. */
const ID_SIGNS = '0123456789abcdefghjkmnpqrstvwxyz';
const ID_LENGTH = 12;
const ID = /^[0-9a-hjkmnp-tv-z]{12}$/;
const SHORTEST_START = 3;
const LAST_NAME = 'worked-on-last';

export interface BatchEntry {
  readonly id: string;
  readonly folder: string;
  /** When the journal was last written, by the wall clock of that time. */
  readonly changed_ms: number;
  readonly bytes: number;
  readonly workedOnLast: boolean;
}

/** A new batch's id: 60 random bits as twelve characters. */
export function makeBatchId(): string {
  return [...randomBytes(ID_LENGTH)].map((byte) => ID_SIGNS[byte & 31]).join('');
}

/** The batches in the data folder: the one worked on last first, then the newest. A missing folder has none. */
export async function listBatches(disk: Disk, home: Home): Promise<readonly BatchEntry[] | Fault> {
  return orFault({ doing: 'the batches could not be listed', where: home.batches, code: 74 }, async () => {
    if ((await disk.stat(home.batches)) === undefined) return [];
    const last = await readLast(disk, home);
    const names = (await disk.list(home.batches)).filter((name) => ID.test(name));
    const entries = await Promise.all(names.map((id) => entryOf(disk, home, id, last)));
    return entries.filter((entry) => entry !== undefined).sort(byLastWork);
  });
}

async function entryOf(disk: Disk, home: Home, id: string, last: string | undefined): Promise<BatchEntry | undefined> {
  const folder = join(home.batches, id);
  const facts = await disk.stat(join(folder, JOURNAL_NAME));
  if (facts === undefined) return undefined;
  return { id, folder, changed_ms: facts.changed_ms, bytes: facts.size, workedOnLast: id === last };
}

function byLastWork(one: BatchEntry, other: BatchEntry): number {
  if (one.workedOnLast !== other.workedOnLast) return one.workedOnLast ? -1 : 1;
  return other.changed_ms - one.changed_ms || (one.id < other.id ? -1 : 1);
}

/**
 * The batch whose id is `text` or begins with it (three characters at least). Anything else is a fault 66; the text is
 * compared with the names there are and never becomes part of a path.
 */
export async function findBatch(disk: Disk, home: Home, text: string): Promise<BatchEntry | Fault> {
  const entries = await listBatches(disk, home);
  if (isFault(entries)) return entries;
  const found = text.length < SHORTEST_START ? [] : entries.filter((entry) => entry.id.startsWith(text));
  const [one] = found;
  if (one !== undefined && found.length === 1) return one;
  const what = found.length > 1 ? `${found.length} batches begin with that` : 'there is no batch of that name';
  return makeFault({ what, where: text, tryThis: 'see the names with: millside batches', code: 66 });
}

/** Notes which batch was opened last, so that it is offered first. A fault here may be passed over: it is only a note. */
export async function noteWorkedOn(disk: Disk, home: Home, id: string): Promise<Fault | undefined> {
  const path = join(home.batches, LAST_NAME);
  return orFault({ doing: 'which batch was opened last could not be noted', where: path, code: 74 }, async () => {
    await writeWhole(disk, path, Buffer.from(`${id}\n`), 'anything');
    return undefined;
  });
}

async function readLast(disk: Disk, home: Home): Promise<string | undefined> {
  const path = join(home.batches, LAST_NAME);
  const bytes = await orFault({ doing: '', where: path, code: 74 }, () => readSmall(disk, path, 64));
  return isFault(bytes) ? undefined : bytes?.toString('latin1').trim();
}
