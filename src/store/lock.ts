import { createHash } from 'node:crypto';
import { createServer, type Server } from 'node:net';
import { hostname } from 'node:os';
import { isOtherBoot, processStart, readBootId } from './boot.ts';
import type { Disk } from './disk.ts';
import { type Fault, isDiskError, isFault, makeFault, orFault } from './fault.ts';
import { claimOwnerFile, type Owner, readOwner, removeOwnFile } from './owner-file.ts';

// One writer a batch. Keeps P4: of several started together exactly one gets the lock and the others are told who has it; a
// lock left by a killed process, a reused process number or another boot never blocks; one from another computer is named and
// taken only by an explicit yes. P12: the socket is of the AF_UNIX family and nobody is ever answered on it.
//
// On Linux an abstract socket is the lock: the kernel frees it with its process. Its name comes from the folder's device and
// inode and is filled up to exactly 108 bytes, the leading zero byte included; names of other lengths collide. An owner file
// says who has it (a stopped holder could not), and is the lock itself where there are no abstract sockets.

export interface BatchLock {
  /** Frees the lock. Leaving without it is no harm: the kernel, or the next opener, sees that the owner is gone. */
  release(): Promise<void>;
}

export type LockAnswer =
  | { readonly kind: 'locked'; readonly lock: BatchLock }
  /** Somebody on this computer has it; `owner` is unknown in the moment before they have said so. */
  | { readonly kind: 'held'; readonly owner: Owner | undefined }
  /** Another computer has it or left it; ask, then lock with `takeFromOtherHost`. */
  | { readonly kind: 'held elsewhere'; readonly owner: Owner }
  | Fault;

/** Who asks for a lock, and how it finds out about others. The tests pass their own. */
export interface Self extends Owner {
  /** When a process of this computer started, `undefined` when there is none of that number. */
  startOf(pid: number): string | undefined;
  /** Whether abstract sockets are there to be used. */
  readonly hasSockets: boolean;
}

/** This process. */
export function makeSelf(): Self {
  return {
    host: hostname(),
    boot: readBootId(),
    pid: process.pid,
    started: processStart(process.pid) ?? '',
    startOf: processStart,
    hasSockets: process.platform === 'linux',
  };
}

/** Tries to become the one writer of the batch in `folder`. Waits under a second for a holder that is just coming or going. */
export async function lockBatch(
  disk: Disk,
  folder: string,
  self: Self,
  options: { readonly takeFromOtherHost: boolean } = { takeFromOtherHost: false },
): Promise<LockAnswer> {
  const identity = await identityOf(disk, folder);
  if (isFault(identity)) return identity;
  const socket = self.hasSockets ? await bindOrFindHolder(disk, folder, self, socketName(identity)) : undefined;
  if (socket !== undefined && 'kind' in socket) return socket;
  const claim = await orFault({ doing: 'the batch could not be locked', where: folder, code: 73 }, () =>
    claimOwnerFile(disk, folder, self, (owner) => judge(owner, self, options.takeFromOtherHost)),
  );
  if (claim.kind !== 'claimed') {
    socket?.close();
    return claim;
  }
  const release = async () => {
    await removeOwnFile(disk, folder, self);
    socket?.close();
  };
  return { kind: 'locked', lock: { release } };
}

/** Whether an owner still counts: `stale` when its process, boot or (with a yes) computer says so. */
function judge(owner: Owner, self: Self, takeFromOtherHost: boolean): 'stale' | 'held' | 'held elsewhere' {
  if (owner.host !== self.host) return takeFromOtherHost ? 'stale' : 'held elsewhere';
  if (isOtherBoot(owner.boot, self.boot)) return 'stale';
  return self.startOf(owner.pid) === owner.started ? 'held' : 'stale';
}

async function identityOf(disk: Disk, folder: string): Promise<string | Fault> {
  const facts = await orFault({ doing: 'the batch could not be locked', where: folder, code: 66 }, () =>
    disk.stat(folder),
  );
  if (isFault(facts)) return facts;
  if (facts?.kind === 'folder') return facts.identity;
  return makeFault({
    what: 'there is no such batch',
    where: folder,
    tryThis: 'choose one with: millside batches',
    code: 66,
  });
}

const NAME_BYTES = 108;

/** The name of the lock's socket: a zero byte, then a hash of the folder's identity, filled up to 108 bytes in all. */
export function socketName(identity: string): string {
  const hash = createHash('sha256').update(`millside ${identity}`).digest('hex');
  return `\0millside-${hash}`.padEnd(NAME_BYTES, '-');
}

async function bindSocket(name: string): Promise<Server | 'taken'> {
  const server = createServer((connection) => connection.destroy());
  server.unref();
  return new Promise((answer, fail) => {
    server.once('error', (error) => {
      if (isDiskError(error) && error.code === 'EADDRINUSE') answer('taken');
      else fail(error);
    });
    server.listen({ path: name }, () => answer(server));
  });
}

const LOOKS = 30;
const LOOK_EVERY_MS = 30;

/**
 * The socket, or who holds it. Its holder writes the owner file right after binding; until then the file may be missing or
 * of one before. A killed holder keeps the socket until the last of its threads is gone: so it is asked for again meanwhile.
 */
async function bindOrFindHolder(
  disk: Disk,
  folder: string,
  self: Self,
  name: string,
): Promise<Server | { readonly kind: 'held'; readonly owner: Owner | undefined }> {
  for (let look = 0; look < LOOKS; look += 1) {
    const socket = await bindSocket(name);
    if (socket !== 'taken') return socket;
    const owner = (await readOwner(disk, folder))?.owner;
    if (owner !== undefined && judge(owner, self, false) === 'held') return { kind: 'held', owner };
    await new Promise((go) => setTimeout(go, LOOK_EVERY_MS));
  }
  return { kind: 'held', owner: undefined };
}
