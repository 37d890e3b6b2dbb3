import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import * as z from 'zod';
import type { Disk } from './disk.ts';
import { writeAll } from './disk.ts';
import { isDiskError } from './fault.ts';
import { linkOrRename, readSmall, removeQuietly } from './whole-file.ts';

// The file in a batch's folder that says who writes it. Part of P4. It appears whole and at one stroke (a link cannot replace
// another), and a stale one is moved away first and looked at again, so that of two who find it stale only one gets it.
// It is not flushed: after a power cut it is stale in any case, and a spoiled one counts as stale.

const NAME = 'owner.json';
const OWNER_CAP = 4096;
const ATTEMPTS = 5;

const ownerSchema = z.object({ host: z.string(), boot: z.string(), pid: z.int(), started: z.string() });

/** Who has a batch: computer, its boot, the process and when it started. */
export type Owner = Readonly<z.infer<typeof ownerSchema>>;

export type Claim =
  | { readonly kind: 'claimed' }
  | { readonly kind: 'held'; readonly owner: Owner | undefined }
  | { readonly kind: 'held elsewhere'; readonly owner: Owner };

/** What the file says now, and its text; `undefined` when there is none. An owner that cannot be read is `undefined`. */
export async function readOwner(
  disk: Disk,
  folder: string,
): Promise<{ owner: Owner | undefined; text: string } | undefined> {
  return readOwnerAt(disk, join(folder, NAME));
}

/** Makes the file ours, unless `judge` says that the one who is named in it still has it. Throws what the disk throws. */
export async function claimOwnerFile(
  disk: Disk,
  folder: string,
  self: Owner,
  judge: (owner: Owner) => 'stale' | 'held' | 'held elsewhere',
): Promise<Claim> {
  const { host, boot, pid, started } = self;
  const text = JSON.stringify({ host, boot, pid, started });
  for (let attempt = 0; attempt < ATTEMPTS; attempt += 1) {
    if (await appear(disk, folder, text)) return { kind: 'claimed' };
    const found = await readOwner(disk, folder);
    if (found === undefined) continue;
    const verdict = found.owner === undefined ? 'stale' : judge(found.owner);
    if (verdict === 'held') return { kind: 'held', owner: found.owner };
    if (verdict === 'held elsewhere' && found.owner) return { kind: 'held elsewhere', owner: found.owner };
    await removeStale(disk, folder, found.text);
  }
  return { kind: 'held', owner: undefined };
}

/** Removes the file if it is still ours. */
export async function removeOwnFile(disk: Disk, folder: string, self: Owner): Promise<void> {
  const owner = (await readOwner(disk, folder))?.owner;
  const isOurs = owner?.pid === self.pid && owner.started === self.started && owner.host === self.host;
  if (isOurs) await removeQuietly(disk, join(folder, NAME));
}

/** Puts the file there whole, unless there is one. */
async function appear(disk: Disk, folder: string, text: string): Promise<boolean> {
  const part = join(folder, `.owner-${randomBytes(6).toString('hex')}.part`);
  const file = await disk.open(part, 'new');
  try {
    await writeAll(file, Buffer.from(text));
  } finally {
    await file.close();
  }
  try {
    await linkOrRename(disk, part, join(folder, NAME));
    return true;
  } catch (error) {
    if (isDiskError(error) && error.code === 'EEXIST') return false;
    throw error;
  } finally {
    await removeQuietly(disk, part);
  }
}

async function removeStale(disk: Disk, folder: string, text: string): Promise<void> {
  const away = join(folder, `.owner-${randomBytes(6).toString('hex')}.part`);
  try {
    await disk.rename(join(folder, NAME), away);
  } catch (error) {
    if (isDiskError(error) && error.code === 'ENOENT') return;
    throw error;
  }
  const moved = await readOwnerAt(disk, away);
  if (moved !== undefined && moved.text !== text) await putBack(disk, away, join(folder, NAME));
  await removeQuietly(disk, away);
}

async function putBack(disk: Disk, away: string, path: string): Promise<void> {
  try {
    await linkOrRename(disk, away, path);
  } catch (error) {
    if (!isDiskError(error) || error.code !== 'EEXIST') throw error;
  }
}

async function readOwnerAt(disk: Disk, path: string): Promise<{ owner: Owner | undefined; text: string } | undefined> {
  const bytes = await readSmall(disk, path, OWNER_CAP).catch((error: unknown) => {
    if (!isDiskError(error)) throw error;
    return error.code === 'ENOENT' ? undefined : Buffer.alloc(0);
  });
  if (bytes === undefined) return undefined;
  const text = bytes.toString('utf8');
  return { owner: parseOwner(text), text };
}

function parseOwner(text: string): Owner | undefined {
  try {
    return ownerSchema.safeParse(JSON.parse(text)).data;
  } catch (error) {
    if (error instanceof SyntaxError) return undefined;
    throw error;
  }
}
