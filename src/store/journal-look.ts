import { basename, join } from 'node:path';
import type { Disk, FileFacts, OpenFile } from './disk.ts';
import { type Fault, isFault, makeFault, orFault } from './fault.ts';
import { closeQuietly, JOURNAL_NAME, readBack } from './journal-file.ts';
import { type JournalLimits, journalLimits } from './journal-limits.ts';
import { type LineForm, type Position, START } from './journal-line.ts';
import { type ReadEnd, readLines, type Stop, type Visit } from './journal-reader.ts';
import type { Damage } from './journal-repair.ts';

// Looking at a journal that another terminal may be writing, that is damaged, or that is newer. Keeps the promise of P2 that
// looking never writes (files are opened for reading only; nothing is set aside, cut or flushed) and that of P13.

export interface LookedJournal<C, E> {
  readonly kind: 'looked';
  readonly look: JournalLook<C, E>;
  /** What stands at the first byte that is not good. With a writer at work a torn end is a line being written. */
  readonly damage: Damage | undefined;
}

/** What a further look found: so many new lines, or that the journal was replaced and must be looked at from its beginning. */
type FurtherLook = { readonly kind: 'read'; readonly lines: number } | { readonly kind: 'replaced' };

/**
 * Reads the good lines of the journal in `folder` without writing anything. Works on damaged and newer journals, for as
 * far as they are good and within `limits`. A folder without a journal, or a pipe or device in its place, is a fault (66).
 */
export async function lookAtJournal<C, E>(
  disk: Disk,
  folder: string,
  form: LineForm<C, E>,
  visit: Visit<C, E>,
  limits: JournalLimits = journalLimits,
): Promise<LookedJournal<C, E> | Fault> {
  const path = join(folder, JOURNAL_NAME);
  const file = await orFault({ doing: 'the journal could not be opened', where: path, code: 66 }, () =>
    disk.open(path, 'read'),
  );
  if (isFault(file)) return file;
  const looked = await orFault({ doing: 'the journal could not be read', where: path, code: 74 }, async () => {
    const facts = await file.facts();
    if (facts.kind !== 'file') return notAFile(path);
    const end = await readLines(file, form, START, visit, limits);
    // What is added while this is read is new at the next look: the facts are those from before.
    const seen = { facts, end: await endBefore(file, end.position.offset) };
    const look = new JournalLook(disk, path, form, end.position, seen);
    return { kind: 'looked', look, damage: damageOf(path, end) } as const;
  });
  await closeQuietly(file);
  return looked;
}

function notAFile(path: string): Fault {
  const tryThis = `name a batch whose folder holds a file ${basename(path)}`;
  return makeFault({ what: 'the journal is not an ordinary file', where: path, tryThis, code: 66 });
}

function damageOf(file: string, end: ReadEnd): Damage | undefined {
  const stop: Stop | undefined = end.stop;
  return stop && { ...stop, file, keptIn: undefined };
}

/** How many bytes before the place up to which was read tell whether the file is still the same. */
const END_LENGTH = 512;

/** What a file was like at the last look. */
type Seen = { readonly facts: FileFacts; readonly end: Buffer };

/**
 * A journal that is being looked at: it remembers how far it has read, and holds no file open between two looks, so that
 * nothing is left open whichever way the looking ends.
 */
class JournalLook<C, E> {
  readonly #disk: Disk;
  readonly #path: string;
  readonly #form: LineForm<C, E>;
  #position: Position;
  #seen: Seen;

  constructor(disk: Disk, path: string, form: LineForm<C, E>, position: Position, seen: Seen) {
    this.#disk = disk;
    this.#path = path;
    this.#form = form;
    this.#position = position;
    this.#seen = seen;
  }

  /** Calls `visit` with the good lines that were added since; tells when the file was cut or replaced instead. */
  async readOn(visit: Visit<C, E>): Promise<FurtherLook | Fault> {
    return orFault({ doing: 'the journal could not be read', where: this.#path, code: 74 }, async () => {
      const there = await this.#disk.stat(this.#path);
      const { facts } = this.#seen;
      if (there?.identity !== facts.identity || there.size < this.#position.offset)
        return { kind: 'replaced' } as const;
      if (there.size === facts.size && there.changed_ms === facts.changed_ms)
        return { kind: 'read', lines: 0 } as const;
      return this.#readNew(visit);
    });
  }

  async #readNew(visit: Visit<C, E>): Promise<FurtherLook> {
    const file = await this.#disk.open(this.#path, 'read');
    try {
      const { seq, offset } = this.#position;
      // A new file may have the number of one that was removed: its bytes tell.
      if (!(await endBefore(file, offset)).equals(this.#seen.end)) return { kind: 'replaced' };
      const facts = await file.facts();
      this.#position = (await readLines(file, this.#form, this.#position, visit)).position;
      this.#seen = { facts, end: await endBefore(file, this.#position.offset) };
      return { kind: 'read', lines: this.#position.seq - seq };
    } finally {
      await file.close();
    }
  }
}

function endBefore(file: OpenFile, offset: number): Promise<Buffer> {
  return readBack(file, Math.max(0, offset - END_LENGTH), offset);
}
