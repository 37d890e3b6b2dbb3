import { constants } from 'node:fs';
import { chmod, type FileHandle, link, lstat, mkdir, open, readdir, rename, stat, unlink } from 'node:fs/promises';
import type { Disk, FileFacts, OpenFile } from './disk.ts';

// The disk of the computer. Keeps P11: files are made 0600 and folders 0700, whatever the umask. Nothing here waits for
// a pipe or device (P8): files are opened without blocking.

const FILE_MODE = 0o600;
const FOLDER_MODE = 0o700;
const careful = constants.O_NONBLOCK | constants.O_NOCTTY;
const flags = {
  read: constants.O_RDONLY | careful,
  append: constants.O_RDWR | constants.O_APPEND | careful,
  overwrite: constants.O_RDWR | careful,
  new: constants.O_RDWR | constants.O_APPEND | constants.O_CREAT | constants.O_EXCL | careful,
} as const;

/** The disk of the computer, by Node's own calls, one system call each. */
export const realDisk: Disk = {
  async open(path, how) {
    const handle = await open(path, flags[how], FILE_MODE);
    if (how === 'new') await handle.chmod(FILE_MODE);
    return openFile(handle);
  },
  async mkdir(path) {
    await mkdir(path, FOLDER_MODE);
    await chmod(path, FOLDER_MODE);
  },
  rename,
  link,
  unlink,
  async list(path) {
    return (await readdir(path)).sort();
  },
  async stat(path) {
    return factsOrNothing(stat(path, { bigint: true }));
  },
  async statLink(path) {
    return factsOrNothing(lstat(path, { bigint: true }));
  },
  chmod,
  async syncFolder(path) {
    const handle = await open(path, constants.O_RDONLY);
    try {
      await handle.sync();
    } finally {
      await handle.close();
    }
  },
};

function openFile(handle: FileHandle): OpenFile {
  return {
    async write(bytes, offset) {
      return (await handle.write(bytes, 0, bytes.length, offset ?? null)).bytesWritten;
    },
    async read(into, offset) {
      return (await handle.read(into, 0, into.length, offset)).bytesRead;
    },
    sync: () => handle.sync(),
    dataSync: () => handle.datasync(),
    truncate: (length) => handle.truncate(length),
    async facts() {
      return factsOf(await handle.stat({ bigint: true }));
    },
    close: () => handle.close(),
  };
}

type Stats = Awaited<ReturnType<typeof lstat>> & { dev: bigint; ino: bigint; mode: bigint; size: bigint };

async function factsOrNothing(found: Promise<unknown>): Promise<FileFacts | undefined> {
  try {
    return factsOf(await found);
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return undefined;
    throw error;
  }
}

function factsOf(found: unknown): FileFacts {
  const stats = found as Stats;
  return {
    kind: stats.isFile() ? 'file' : stats.isDirectory() ? 'folder' : stats.isSymbolicLink() ? 'link' : 'other',
    size: Number(stats.size),
    identity: `${stats.dev}:${stats.ino}`,
    mode: Number(stats.mode) & 0o777,
    changed_ms: Number(stats.mtimeMs),
  };
}
