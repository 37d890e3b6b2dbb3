import { randomBytes } from 'node:crypto';
import { dirname, join } from 'node:path';
import { type Disk, readFully, writeAll } from './disk.ts';
import { isDiskError } from './fault.ts';

// Writes a file whole or not at all (P9): aside, flushed, then given its name at one stroke, then the folder is flushed.
// Reads a small file within a bound, and no pipe or device (P8). Both throw what the disk throws.

/** Writes `bytes` under `path`. With `over: 'nothing'` a taken name, be it a dangling link, is EEXIST; else it is replaced. */
export async function writeWhole(
  disk: Disk,
  path: string,
  bytes: Uint8Array,
  over: 'nothing' | 'anything',
): Promise<void> {
  const folder = dirname(path);
  const part = join(folder, `.millside-${randomBytes(6).toString('hex')}.part`);
  try {
    await writeFlushed(disk, part, bytes);
    if (over === 'anything') await disk.rename(part, path);
    else await linkOrRename(disk, part, path);
  } finally {
    await removeQuietly(disk, part);
  }
  await disk.syncFolder(folder);
}

async function writeFlushed(disk: Disk, path: string, bytes: Uint8Array): Promise<void> {
  const file = await disk.open(path, 'new');
  try {
    await writeAll(file, bytes);
    await file.sync();
  } finally {
    await file.close();
  }
}

/**
 * Gives the file `part` the name `path` unless that is taken (EEXIST). A link cannot replace anything, a rename can: so a link
 * where the file system has them (`part` then stays, as a second name), else a look and a rename.
 */
export async function linkOrRename(disk: Disk, part: string, path: string): Promise<void> {
  try {
    await disk.link(part, path);
  } catch (error) {
    if (!isDiskError(error) || !NO_LINKS.includes(error.code)) throw error;
    if ((await disk.statLink(path)) !== undefined) throw Object.assign(new Error(path), { code: 'EEXIST' });
    await disk.rename(part, path);
  }
}

/** What file systems without hard links (FAT, some network disks) answer. */
const NO_LINKS: readonly string[] = ['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK'];

/** Removes a file that may be missing, or on a disk that fails: what is left behind is only litter. */
export async function removeQuietly(disk: Disk, path: string): Promise<void> {
  try {
    await disk.unlink(path);
  } catch (error) {
    if (!isDiskError(error)) throw error;
  }
}

/** The bytes of an ordinary file of at most `cap` bytes; `undefined` when it is missing; EFBIG or ENXIO when it is neither. */
export async function readSmall(disk: Disk, path: string, cap: number): Promise<Buffer | undefined> {
  const there = await disk.stat(path);
  if (there === undefined) return undefined;
  if (there.kind === 'folder') throw Object.assign(new Error(path), { code: 'EISDIR' });
  if (there.kind !== 'file') throw Object.assign(new Error(path), { code: 'ENXIO' });
  const file = await disk.open(path, 'read');
  try {
    const bytes = Buffer.alloc(Math.min(cap, (await file.facts()).size) + 1);
    const got = await readFully(file, bytes, 0);
    if (got > cap) throw Object.assign(new Error(path), { code: 'EFBIG' });
    return bytes.subarray(0, got);
  } finally {
    await file.close();
  }
}
