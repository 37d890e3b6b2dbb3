// The store: everything that touches the disk. Its promises (P1 to P4, P7 to P9, P11, P13, P14) stand in the headers of
// the modules that keep them. It knows no events: a line's command and events are validated by schemas passed in.
// This file is the seam: the few calls the store makes, so that the tests can stop, fail or tear each of them.
// A call that fails throws an error of the operating system (with its `code`); fault.ts turns it into a value.

/** The calls that the store makes on a file system. The tests have one of their own in memory. */
export interface Disk {
  /** Opens a file: `read` an existing one, `append` to an existing one (reading too), or make a `new` one (0600, EEXIST). */
  open(path: string, how: OpenHow): Promise<OpenFile>;
  /** Makes one folder (0700 whatever the umask); EEXIST when the name is taken. */
  mkdir(path: string): Promise<void>;
  /** Renames within a folder, replacing a file of the new name at one stroke. */
  rename(from: string, to: string): Promise<void>;
  /** Gives a file a second name; EEXIST when that is taken, a dangling link included. */
  link(from: string, to: string): Promise<void>;
  unlink(path: string): Promise<void>;
  /** Names in a folder, sorted. */
  list(path: string): Promise<string[]>;
  /** Facts of what the path leads to; `undefined` when there is nothing. */
  stat(path: string): Promise<FileFacts | undefined>;
  /** As `stat`, but of a link itself. */
  statLink(path: string): Promise<FileFacts | undefined>;
  /** Sets the permission bits. */
  chmod(path: string, mode: number): Promise<void>;
  /** Flushes a folder: the names in it are then durable. */
  syncFolder(path: string): Promise<void>;
}

/** With `overwrite` writes go to the place given, otherwise to the end. */
export type OpenHow = 'read' | 'append' | 'overwrite' | 'new';

/** A file that is open. */
export interface OpenFile {
  /** Writes; answers how many bytes were taken, which may be fewer than given when the disk fills up. */
  write(bytes: Uint8Array, offset?: number): Promise<number>;
  /** Reads into `into` from `offset`; answers how many bytes came, 0 at the end. */
  read(into: Uint8Array, offset: number): Promise<number>;
  /** Flushes content and all facts. */
  sync(): Promise<void>;
  /** Flushes content and size. */
  dataSync(): Promise<void>;
  /** Cuts to `length` bytes. */
  truncate(length: number): Promise<void>;
  facts(): Promise<FileFacts>;
  close(): Promise<void>;
}

/** What the store needs to know of a file or folder. `identity` is its device and inode. */
export interface FileFacts {
  readonly kind: 'file' | 'folder' | 'link' | 'other';
  readonly size: number;
  readonly identity: string;
  readonly mode: number;
  readonly changed_ms: number;
}

/**
 * Writes all of `bytes`, however many calls it takes: at the end, or from `offset` on in a file opened to overwrite. Throws
 * what the disk throws; a call that takes nothing is ENOSPC.
 */
export async function writeAll(file: OpenFile, bytes: Uint8Array, offset?: number): Promise<void> {
  let done = 0;
  while (done < bytes.length) {
    const taken = await file.write(bytes.subarray(done), offset === undefined ? undefined : offset + done);
    if (taken <= 0) throw Object.assign(new Error('the disk takes no more'), { code: 'ENOSPC' });
    done += taken;
  }
}

/** Reads the bytes from `offset` to the end or until `into` is full; answers how many came. */
export async function readFully(file: OpenFile, into: Uint8Array, offset: number): Promise<number> {
  let done = 0;
  while (done < into.length) {
    const got = await file.read(into.subarray(done), offset + done);
    if (got === 0) return done;
    done += got;
  }
  return done;
}
