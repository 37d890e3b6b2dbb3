import { basename, join } from 'node:path';
import type { Disk, OpenFile } from './disk.ts';
import { type Fault, isFault, makeFault, orFault } from './fault.ts';
import { JOURNAL_NAME } from './journal-file.ts';
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
    if ((await file.facts()).kind !== 'file') return notAFile(path);
    const end = await readLines(file, form, START, visit, limits);
    const look = new JournalLook(disk, path, form, file, end.position);
    return { kind: 'looked', look, damage: damageOf(path, end) } as const;
  });
  if (isFault(looked)) await file.close();
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

/** A journal that is being looked at: it remembers how far it has read. Owns an open file. */
class JournalLook<C, E> {
  readonly #disk: Disk;
  readonly #path: string;
  readonly #form: LineForm<C, E>;
  readonly #file: OpenFile;
  #position: Position;

  constructor(disk: Disk, path: string, form: LineForm<C, E>, file: OpenFile, position: Position) {
    this.#disk = disk;
    this.#path = path;
    this.#form = form;
    this.#file = file;
    this.#position = position;
  }

  /** The number of the last good line that was read. */
  get seq(): number {
    return this.#position.seq;
  }

  /** Calls `visit` with the good lines that were added since; tells when the file was cut or replaced instead. */
  async readOn(visit: Visit<C, E>): Promise<FurtherLook | Fault> {
    return orFault({ doing: 'the journal could not be read', where: this.#path, code: 74 }, async () => {
      const [ours, there] = [await this.#file.facts(), await this.#disk.stat(this.#path)];
      if (there?.identity !== ours.identity || ours.size < this.#position.offset) return { kind: 'replaced' } as const;
      const before = this.#position.seq;
      if (ours.size > this.#position.offset) {
        this.#position = (await readLines(this.#file, this.#form, this.#position, visit)).position;
      }
      return { kind: 'read', lines: this.#position.seq - before } as const;
    });
  }

  /**
   * Looks every `everyMs` milliseconds and calls `tell` when lines came (they went to `visit` first), when the journal was
   * replaced, or when it cannot be read. Answers a function that ends it. Does not keep the program alive.
   */
  watch(everyMs: number, visit: Visit<C, E>, tell: (found: FurtherLook | Fault) => void): () => void {
    let busy = false;
    const timer = setInterval(async () => {
      if (busy) return;
      busy = true;
      const found = await this.readOn(visit);
      busy = false;
      if (found.kind !== 'read' || found.lines > 0) tell(found);
    }, everyMs);
    timer.unref();
    return () => clearInterval(timer);
  }

  close(): Promise<void> {
    return this.#file.close();
  }
}
