import { basename, dirname, join } from 'node:path';
import { type Disk, type OpenFile, readFully, writeAll } from './disk.ts';
import { type Fault, faultOf, isDiskError, isFault, makeFault, orFault } from './fault.ts';
import { encodeLine, type LineDraft, type LineForm, type Position, START } from './journal-line.ts';
import { readLines, type Stop, type Visit } from './journal-reader.ts';
import { type Damage, setRestAside } from './journal-repair.ts';

// The journal of a batch, opened to write. Format of a line: journal-line.ts.
// Keeps P1 (nothing is answered as appended before it is flushed, a new batch not before its folder is), P2 (damage is set
// aside before the first append), P3 (after a failed write or flush the handle is given up; the file is opened again, its
// end compared with what was flushed, the unfinished line cut, and only then does counting go on) and P13 (a newer journal
// is never written). One writer a batch is the lock's work; that nobody else wrote is checked here all the same.

/** The journal's name in a batch's folder. */
export const JOURNAL_NAME = 'journal.jsonl';

export interface Appended {
  readonly kind: 'appended';
  readonly seq: number;
}

/** The journal had gone on past what the caller had read. Read from there and decide again. */
export interface Conflict {
  readonly kind: 'conflict';
  readonly seq: number;
}

export interface OpenedJournal<C, E> {
  readonly kind: 'opened';
  readonly journal: Journal<C, E>;
  /** What was set aside on opening, if anything was. */
  readonly damage: Damage | undefined;
}

/**
 * Makes the folder of a new batch with its journal's first line in it, all flushed, under the name `id` in `batches`.
 *
 * It is made aside and renamed, so a folder with a batch's name always holds a whole first line. Answers the folder.
 */
export async function createBatch<C, E>(
  disk: Disk,
  batches: string,
  id: string,
  form: LineForm<C, E>,
  first: LineDraft<C, E>,
): Promise<{ readonly kind: 'created'; readonly folder: string } | Fault> {
  const { bytes } = encodeLine(form, first, START, id);
  const aside = join(batches, `.making-${id}`);
  const folder = join(batches, id);
  return orFault({ doing: 'the batch could not be begun', where: folder, code: 73 }, async () => {
    if ((await disk.statLink(folder)) !== undefined) throw Object.assign(new Error(folder), { code: 'EEXIST' });
    await disk.mkdir(aside);
    const file = await disk.open(join(aside, JOURNAL_NAME), 'new');
    try {
      await writeAll(file, bytes);
      await file.sync();
    } finally {
      await file.close();
    }
    await disk.syncFolder(aside);
    await disk.rename(aside, folder);
    await disk.syncFolder(batches);
    return { kind: 'created', folder } as const;
  });
}

/**
 * Opens the journal in `folder` to go on writing; the caller holds the lock. `visit` is called with each good line.
 *
 * A damaged or torn rest is set aside (`damage` says where). Everything visited is flushed before this answers. A journal
 * that is newer, of unknown form, without a good first line, or that stands in a folder of another name is a fault (65)
 * and is not touched: look at it instead.
 */
export async function openJournal<C, E>(
  disk: Disk,
  folder: string,
  form: LineForm<C, E>,
  visit: Visit<C, E>,
): Promise<OpenedJournal<C, E> | Fault> {
  const path = join(folder, JOURNAL_NAME);
  const file = await orFault({ doing: 'the journal could not be opened', where: path, code: 66 }, () =>
    openOrdinary(disk, path),
  );
  if (isFault(file)) return file;
  const opened = await orFault({ doing: 'the journal could not be read', where: path, code: 74 }, async () => {
    const { position, lastLineAt, stop } = await readLines(file, form, START, visit);
    const refused = refusal(folder, position, stop);
    if (refused !== undefined) return refused;
    const aside = stop === undefined ? undefined : await setRestAside(disk, folder, file, stop);
    if (isFault(aside)) return aside;
    await rewriteEnd(disk, path, Math.min(lastLineAt, position.offset - APPEND_CAP), position.offset);
    await disk.syncFolder(folder);
    await disk.syncFolder(dirname(folder));
    const damage = stop && { ...stop, file: path, keptIn: aside?.keptIn };
    const journal = new Journal(disk, folder, form, file, position);
    await journal.rememberEnd();
    return { kind: 'opened', journal, damage } as const;
  });
  if (isFault(opened)) await closeQuietly(file);
  return opened;
}

/**
 * Writes the end of the journal over itself and flushes it. After a flush that failed, the system may show bytes that are not
 * on the disk and count them as flushed: a program that was killed then leaves a line behind that only seems safe. The same
 * bytes written again are flushed again, and where they were on the disk already nothing changes.
 */
async function rewriteEnd(disk: Disk, path: string, from: number, to: number): Promise<void> {
  const file = await disk.open(path, 'overwrite');
  try {
    const start = Math.max(0, from);
    await writeAll(file, await readBack(file, start, to), start);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** Opens a file for appending, but no pipe, device or folder. */
async function openOrdinary(disk: Disk, path: string): Promise<OpenFile> {
  if ((await disk.stat(path))?.kind === 'other') throw Object.assign(new Error(path), { code: 'ENXIO' });
  return disk.open(path, 'append');
}

function refusal(folder: string, position: Position, stop: Stop | undefined): Fault | undefined {
  const where = `${join(folder, JOURNAL_NAME)}, line ${position.seq + 1}, byte ${position.offset}`;
  if (stop?.kind === 'newer' || stop?.kind === 'unknown form' || stop?.kind === 'too long') {
    const tryThis = 'look at the batch, or go on with it in the version of the program that wrote it';
    return makeFault({ what: `the journal can only be looked at: ${stop.reason}`, where, tryThis, code: 65 });
  }
  if (position.seq === 0) {
    const what = `the journal has no good first line: ${stop?.reason ?? 'it is empty'}`;
    return makeFault({ what, where, tryThis: 'restore the folder from a copy; nothing in it was changed', code: 65 });
  }
  if (position.batch !== basename(folder)) {
    const what = `the folder is named ${basename(folder)} but its journal belongs to batch ${position.batch}`;
    return makeFault({
      what,
      where,
      tryThis: 'give the folder its own name back; nothing in it was changed',
      code: 65,
    });
  }
  return undefined;
}

/** An open journal: the one resource of the store that is owned over time. Appends are taken one after another. */
export class Journal<C, E> {
  readonly folder: string;
  readonly #disk: Disk;
  readonly #path: string;
  readonly #form: LineForm<C, E>;
  #file: OpenFile;
  #position: Position;
  /** The last bytes that were flushed, to compare after a failure. */
  #end: Buffer = Buffer.alloc(0);
  /** What the last, failed append may have left behind the end. */
  #attempted: Buffer = Buffer.alloc(0);
  #trusted = true;
  #turn: Promise<unknown> = Promise.resolve();

  constructor(disk: Disk, folder: string, form: LineForm<C, E>, file: OpenFile, position: Position) {
    this.folder = folder;
    this.#disk = disk;
    this.#path = join(folder, JOURNAL_NAME);
    this.#form = form;
    this.#file = file;
    this.#position = position;
  }

  /** The number of the last line that is flushed. */
  get seq(): number {
    return this.#position.seq;
  }

  /**
   * Writes the drafts behind line `expectedSeq`, one line each, and flushes them before it answers.
   *
   * A conflict when the journal stands elsewhere; a fault when they could not be written or flushed: then none of them
   * counts, the next call tries again from the last good line, and what is on the disk stays as it was answered before.
   */
  append(expectedSeq: number, drafts: readonly LineDraft<C, E>[]): Promise<Appended | Conflict | Fault> {
    return this.#inTurn(() => this.#append(expectedSeq, drafts));
  }

  /** Calls `visit` with every flushed line from number `from` on. */
  read(from: number, visit: Visit<C, E>): Promise<Fault | undefined> {
    return this.#inTurn(() =>
      orFault({ doing: 'the journal could not be read', where: this.#path, code: 74 }, async () => {
        const until = this.#position.seq;
        const wanted: Visit<C, E> = (line) => {
          if (line.seq >= from && line.seq <= until) visit(line);
        };
        await readLines(this.#file, this.#form, START, wanted);
        return undefined;
      }),
    );
  }

  /** Waits for an append under way, then closes the file. */
  close(): Promise<void> {
    return this.#inTurn(() => closeQuietly(this.#file));
  }

  /** Notes the last bytes of the file as flushed. Part of opening. */
  async rememberEnd(): Promise<void> {
    this.#end = await readBack(this.#file, Math.max(0, this.#position.offset - END_LENGTH), this.#position.offset);
  }

  #inTurn<T>(act: () => Promise<T>): Promise<T> {
    const answer = this.#turn.then(act);
    this.#turn = answer.then(
      () => undefined,
      () => undefined,
    );
    return answer;
  }

  async #append(expectedSeq: number, drafts: readonly LineDraft<C, E>[]): Promise<Appended | Conflict | Fault> {
    const lost = this.#trusted ? await this.#checkPlace() : await this.#regain();
    if (lost !== undefined) return lost;
    if (expectedSeq !== this.#position.seq) return { kind: 'conflict', seq: this.#position.seq };
    const { bytes, position } = this.#encode(drafts);
    this.#attempted = bytes;
    this.#trusted = false;
    const failed = await this.#write(bytes);
    if (failed !== undefined) {
      await this.#regain();
      return failed;
    }
    this.#position = position;
    this.#end = Buffer.concat([this.#end, bytes]).subarray(-END_LENGTH);
    this.#attempted = Buffer.alloc(0);
    this.#trusted = true;
    return { kind: 'appended', seq: position.seq };
  }

  #encode(drafts: readonly LineDraft<C, E>[]): { bytes: Buffer; position: Position } {
    const parts: Buffer[] = [];
    let position = this.#position;
    for (const draft of drafts) {
      const line = encodeLine(this.#form, draft, position, position.batch ?? '');
      parts.push(line.bytes);
      position = line.position;
    }
    const bytes = Buffer.concat(parts);
    if (parts.length > 1 && bytes.length > APPEND_CAP)
      throw new Error(`${bytes.length} bytes in one append of several lines`);
    return { bytes, position };
  }

  async #write(bytes: Buffer): Promise<Fault | undefined> {
    try {
      await writeAll(this.#file, bytes);
      await this.#file.dataSync();
      return undefined;
    } catch (error) {
      return faultOf(error, { doing: 'not counted', where: this.#path, code: 74 });
    }
  }

  /** That the path still leads to our file and nobody wrote or cut it since. */
  async #checkPlace(): Promise<Fault | undefined> {
    return orFault({ doing: 'not counted, the journal cannot be reached', where: this.#path, code: 74 }, async () => {
      const [ours, there] = [await this.#file.facts(), await this.#disk.stat(this.#path)];
      if (there?.identity === ours.identity && ours.size === this.#position.offset) return undefined;
      this.#trusted = false;
      return this.#regain();
    });
  }

  /** Gives the handle up, opens the file again and makes its end what was flushed last. */
  async #regain(): Promise<Fault | undefined> {
    await closeQuietly(this.#file);
    return orFault(
      { doing: 'not counted, the journal cannot be trusted yet', where: this.#path, code: 74 },
      async () => {
        this.#file = await openOrdinary(this.#disk, this.#path);
        const offset = this.#position.offset;
        const end = await readBack(this.#file, offset - this.#end.length, offset);
        if (!end.equals(this.#end)) return this.#changedUnderneath();
        const unfinished = await this.#removeUnfinished();
        if (unfinished !== undefined) return unfinished;
        await this.#file.sync();
        await this.#disk.syncFolder(this.folder);
        this.#trusted = true;
        return undefined;
      },
    );
  }

  #changedUnderneath(): Fault {
    return makeFault({
      what: 'not counted: the journal no longer ends as it was written; it was changed, replaced or cut by something else',
      where: this.#path,
      tryThis: 'leave, and open the batch again',
      code: 74,
    });
  }

  /** Cuts what a failed append left; takes up whole lines that somebody else wrote; sets anything else aside. */
  async #removeUnfinished(): Promise<Fault | undefined> {
    const { size } = await this.#file.facts();
    const left = await readBack(
      this.#file,
      this.#position.offset,
      Math.min(size, this.#position.offset + this.#attempted.length),
    );
    if (size === this.#position.offset) return undefined;
    if (size - this.#position.offset === left.length && this.#attempted.subarray(0, left.length).equals(left)) {
      await this.#file.truncate(this.#position.offset);
      return undefined;
    }
    const { position, stop } = await readLines(this.#file, this.#form, this.#position, () => undefined);
    const aside = stop && (await setRestAside(this.#disk, this.folder, this.#file, stop));
    if (isFault(aside)) return aside;
    this.#position = position;
    await this.rememberEnd();
    return undefined;
  }
}

/** How many of the last bytes are compared after a failure. */
const END_LENGTH = 4096;
/** The most that several lines of one append may have together, in bytes; a single line may have more. */
const APPEND_CAP = 64 * 1024;

async function readBack(file: OpenFile, from: number, to: number): Promise<Buffer> {
  const bytes = Buffer.alloc(to - from);
  return bytes.subarray(0, await readFully(file, bytes, from));
}

/** Closes a file that may be closed already or stand on a disk that is gone; what it held was flushed or given up. */
async function closeQuietly(file: OpenFile): Promise<void> {
  try {
    await file.close();
  } catch (error) {
    if (!isDiskError(error)) throw error;
  }
}
