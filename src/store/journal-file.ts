import { type Disk, type OpenFile, readFully } from './disk.ts';
import { isDiskError } from './fault.ts';

// The journal as a file: its name, and the few ways in which it is opened, read back and closed.

/** The journal's name in a batch's folder. */
export const JOURNAL_NAME = 'journal.jsonl';

/** The most that several lines of one append may have together, in bytes; a single line may have more. */
export const APPEND_CAP = 64 * 1024;

/** Opens a file for appending, but no pipe, device or folder. */
export async function openOrdinary(disk: Disk, path: string): Promise<OpenFile> {
  if ((await disk.stat(path))?.kind === 'other') throw Object.assign(new Error(path), { code: 'ENXIO' });
  return disk.open(path, 'append');
}

/** The bytes from `from` to `to`, or fewer when the file ends before. */
export async function readBack(file: OpenFile, from: number, to: number): Promise<Buffer> {
  const bytes = Buffer.alloc(to - from);
  return bytes.subarray(0, await readFully(file, bytes, from));
}

/** Closes a file that may be closed already or stand on a disk that is gone; what it held was flushed or given up. */
export async function closeQuietly(file: OpenFile): Promise<void> {
  try {
    await file.close();
  } catch (error) {
    if (!isDiskError(error)) throw error;
  }
}
