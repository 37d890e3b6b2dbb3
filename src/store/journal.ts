import { basename, dirname, join } from 'node:path';
import { type Disk, writeAll } from './disk.ts';
import { type Fault, isFault, makeFault, orFault } from './fault.ts';
import { APPEND_CAP, closeQuietly, JOURNAL_NAME, openOrdinary, readBack } from './journal-file.ts';
import { encodeLine, type LineDraft, type LineForm, type Position, START } from './journal-line.ts';
import { readLines, type Stop, type Visit } from './journal-reader.ts';
import { type Damage, setRestAside } from './journal-repair.ts';
import { Journal } from './journal-writer.ts';

// The journal of a batch, opened to write. Format of a line: journal-line.ts.
// Keeps P1 (a new batch is not answered before its folder is flushed, nor an opening before what it shows is), P2 (damage is
// set aside before the first append) and P13 (a newer journal is never written). Appending: journal-writer.ts.

export type { Journal };

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
 * that is newer, of unknown form, impossible to follow, without a good first line, or that stands in a folder of another
 * name is a fault (65) and is not touched: look at it instead.
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

/** Lines that some program meant: they are not damage and never cut. */
const meant: readonly Stop['kind'][] = ['newer', 'unknown form', 'impossible', 'too long'];

function refusal(folder: string, position: Position, stop: Stop | undefined): Fault | undefined {
  const where = `${join(folder, JOURNAL_NAME)}, line ${position.seq + 1}, byte ${position.offset}`;
  if (stop !== undefined && meant.includes(stop.kind)) {
    const tryThis =
      'look at it with millside status and report, or go on with it in the version of the program that wrote it';
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
