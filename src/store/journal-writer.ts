import { join } from 'node:path';
import { type Disk, type OpenFile, writeAll } from './disk.ts';
import { type Fault, faultOf, isFault, makeFault, orFault } from './fault.ts';
import { APPEND_CAP, closeQuietly, JOURNAL_NAME, openOrdinary, readBack } from './journal-file.ts';
import { beyondLimits, type Fill, fillAt } from './journal-limits.ts';
import { encodeLine, type LineDraft, type LineForm, type Position, START } from './journal-line.ts';
import { readLines, type Stop, type Visit } from './journal-reader.ts';
import { setRestAside } from './journal-repair.ts';

// Appends to an open journal. Keeps P1 (nothing is answered as appended before it is flushed) and P3 (after a failed write or
// flush the handle is given up; the file is opened again, its end compared with what was flushed, the unfinished line cut,
// and only then does counting go on) and P8 (no line is written beyond what is read again). That nobody else writes is the lock's work (P4); it is checked here all the same.

export interface Appended {
  readonly kind: 'appended';
  readonly seq: number;
}

/** The journal had gone on past what the caller had read. Read from there and decide again. */
export interface Conflict {
  readonly kind: 'conflict';
  readonly seq: number;
}

/** How many of the last bytes are compared after a failure. */
const END_LENGTH = 4096;
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

  /** How full it is. */
  get fill(): Fill {
    return fillAt(this.#position);
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
        const { stop } = await readLines(this.#file, this.#form, START, wanted);
        return stop?.kind === 'impossible' ? this.#cannotFollow(stop) : undefined;
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
    const beyond = beyondLimits(position);
    if (beyond !== undefined) return this.#tooLong(beyond);
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

  #cannotFollow({ reason, offset }: Stop): Fault {
    return makeFault({
      what: `not counted: a line that something else wrote into the journal makes no sense behind the others: ${reason}`,
      where: `${this.#path}, byte ${offset}`,
      tryThis: 'leave, and look at the batch',
      code: 65,
    });
  }

  #tooLong(reason: string): Fault {
    return makeFault({
      what: `not counted: the journal is full: with one more line ${reason}, and could not be read again`,
      where: this.#path,
      tryThis: 'open another batch for what is left; the report of this one stays',
      code: 65,
    });
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
