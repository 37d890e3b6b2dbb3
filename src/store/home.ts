import { dirname, isAbsolute, join, resolve } from 'node:path';
import { type Disk, writeAll } from './disk.ts';
import { type Fault, isDiskError, orFault } from './fault.ts';
import { removeQuietly } from './whole-file.ts';

// Where the data lives. Keeps P11 (folders that we make are 0700) and the part of P1 that a new name is flushed in its folder.
// Data: MILLSIDE_HOME, else the XDG data folder (XDG Base Directory Specification 0.8: a relative path there is ignored).

/** The folder of all data and the one that holds a folder for each batch. */
export interface Home {
  readonly root: string;
  readonly batches: string;
}

/** The environment's names and values, as the command line hands them down. */
export type Environment = Readonly<Record<string, string | undefined>>;

/**
 * Where the data of this user lives. Touches no disk.
 *
 * Example: `findHome({ XDG_DATA_HOME: '/x' }, '/home/a').root` is `/x/millside`; with nothing set it is
 * `/home/a/.local/share/millside`; `MILLSIDE_HOME` is taken as it is.
 */
export function findHome(env: Environment, userHome: string): Home {
  const root = env['MILLSIDE_HOME']
    ? resolve(env['MILLSIDE_HOME'])
    : xdgFolder(env['XDG_DATA_HOME'], userHome, '.local/share');
  return { root, batches: join(root, 'batches') };
}

/** The settings' folder: `MILLSIDE_CONFIG`, else `millside` in the XDG config folder. */
export function findConfigFolder(env: Environment, userHome: string): string {
  const named = env['MILLSIDE_CONFIG'];
  return named ? resolve(named) : xdgFolder(env['XDG_CONFIG_HOME'], userHome, '.config');
}

function xdgFolder(named: string | undefined, userHome: string, usual: string): string {
  return join(named && isAbsolute(named) ? named : join(userHome, usual), 'millside');
}

/**
 * Makes the data folders where they are missing and proves that a file can be written and flushed in them, before a batch
 * begins. A fault (73) says why not.
 */
export async function prepareHome(disk: Disk, home: Home): Promise<Fault | undefined> {
  return orFault({ doing: 'the data folder cannot be used', where: home.batches, code: 73 }, async () => {
    await ensureFolder(disk, home.batches);
    if (((await disk.stat(home.batches))?.mode ?? 0) & 0o077) await closeToOthers(disk, home.batches);
    await proveWritable(disk, home.batches);
    return undefined;
  });
}

/** Makes a folder and those above it that are missing, 0700, each flushed in its parent. Throws what the disk throws. */
async function ensureFolder(disk: Disk, path: string): Promise<void> {
  const there = await disk.stat(path);
  if (there?.kind === 'folder') return;
  if (there !== undefined) throw Object.assign(new Error(path), { code: 'ENOTDIR' });
  await ensureFolder(disk, dirname(path));
  try {
    await disk.mkdir(path);
  } catch (error) {
    if (!isDiskError(error) || error.code !== 'EEXIST') throw error;
  }
  await disk.syncFolder(dirname(path));
}

/** Sets 0700; a file system without permissions refuses that, and then there is nothing to close. */
async function closeToOthers(disk: Disk, path: string): Promise<void> {
  try {
    await disk.chmod(path, 0o700);
  } catch (error) {
    if (!isDiskError(error) || !['EPERM', 'ENOTSUP', 'ENOSYS'].includes(error.code)) throw error;
  }
}

const PROBE_BYTES = 4096;

async function proveWritable(disk: Disk, folder: string): Promise<void> {
  const path = join(folder, `.probe-${process.pid}`);
  await removeQuietly(disk, path);
  try {
    const file = await disk.open(path, 'new');
    try {
      await writeAll(file, Buffer.alloc(PROBE_BYTES));
      await file.sync();
    } finally {
      await file.close();
    }
  } finally {
    await removeQuietly(disk, path);
  }
}
