import { createHash } from 'node:crypto';
import { dirname } from 'node:path';
import type { Disk, FileFacts, OpenFile, OpenHow } from '../../src/store/disk.ts';

// A disk in memory that can lose its power. What is written goes to a cache; only a flush makes it durable, a file's content
// by its own flush and a name by a flush of its folder. At a power cut each change that was not flushed may have reached the
// disk, in part, or not at all, in any order. A call can be made to fail, once or from then on, or to take part of a write.

/** Thrown by every call from the power cut on. Not an error of the operating system, so nothing below a test catches it. */
export class PowerCut extends Error {}

export interface FailPlan {
  /** Which call fails, counted from 1 over all calls that change or flush. */
  readonly atCall: number;
  readonly code: string;
  readonly forever: boolean;
  /** Only calls whose name begins so. */
  readonly only?: string;
  /** A failing write takes half of its bytes first. */
  readonly short?: boolean;
  /** The share of the unflushed changes that reaches the disk in a flush that fails; none when left out. */
  readonly reached?: number;
}

type Change =
  | { readonly kind: 'write'; readonly offset: number; readonly bytes: Uint8Array }
  | { readonly kind: 'cut'; readonly length: number };
type NameChange =
  | { readonly kind: 'put'; readonly name: string; readonly node: number }
  | { readonly kind: 'drop'; readonly name: string }
  | { readonly kind: 'rename'; readonly from: string; readonly to: string };

interface FileNode {
  readonly kind: 'file';
  cache: Uint8Array;
  durable: Uint8Array;
  pending: Change[];
}
interface FolderNode {
  readonly kind: 'folder';
  cache: Map<string, number>;
  durable: Map<string, number>;
  pending: NameChange[];
}

/** Decides the fate of each change that was not flushed: 0 lost, 1 whole, between: that share of its bytes. */
export type Fate = (change: number, length: number) => number;

export class SimulatedDisk implements Disk {
  nodes: (FileNode | FolderNode)[] = [folderNode()];
  calls = 0;
  log: string[] = [];
  /** The power goes when this many calls were made; `Infinity` never. */
  stopAfter = Number.POSITIVE_INFINITY;
  fail: FailPlan | undefined;
  #off = false;

  /** Names made at the beginning, durable. */
  constructor(folders: readonly string[] = ['/data', '/data/batches']) {
    for (const folder of folders) this.#enter(folder, this.#add(folderNode()));
    for (const node of this.nodes) if (node.kind === 'folder') settle(node);
  }

  async open(path: string, how: OpenHow): Promise<OpenFile> {
    this.#alive();
    if (how !== 'new') return this.#handle(this.#need(path), how);
    this.#change(`open new ${path}`);
    if (this.#find(path) !== undefined) throw systemError('EEXIST');
    const node = this.#add({ kind: 'file', cache: empty, durable: empty, pending: [] });
    this.#enter(path, node);
    return this.#handle(node, how);
  }

  async mkdir(path: string): Promise<void> {
    this.#change(`mkdir ${path}`);
    if (this.#find(path) !== undefined) throw systemError('EEXIST');
    this.#enter(path, this.#add(folderNode()));
  }

  async rename(from: string, to: string): Promise<void> {
    this.#change(`rename ${from} ${to}`);
    const node = this.#need(from);
    if (dirname(from) !== dirname(to)) throw systemError('EXDEV');
    const folder = this.#folder(dirname(from));
    folder.cache.delete(nameOf(from));
    folder.cache.set(nameOf(to), node);
    folder.pending.push({ kind: 'rename', from: nameOf(from), to: nameOf(to) });
  }

  async link(from: string, to: string): Promise<void> {
    this.#change(`link ${from} ${to}`);
    if (this.#find(to) !== undefined) throw systemError('EEXIST');
    this.#enter(to, this.#need(from));
  }

  async unlink(path: string): Promise<void> {
    this.#change(`unlink ${path}`);
    this.#need(path);
    const folder = this.#folder(dirname(path));
    folder.cache.delete(nameOf(path));
    folder.pending.push({ kind: 'drop', name: nameOf(path) });
  }

  async list(path: string): Promise<string[]> {
    this.#alive();
    return [...this.#folder(path).cache.keys()].sort();
  }

  async stat(path: string): Promise<FileFacts | undefined> {
    this.#alive();
    const node = this.#find(path);
    return node === undefined ? undefined : this.#facts(node);
  }

  statLink(path: string): Promise<FileFacts | undefined> {
    return this.stat(path);
  }

  async chmod(path: string): Promise<void> {
    this.#alive();
    this.#need(path);
  }

  async syncFolder(path: string): Promise<void> {
    const folder = this.#folder(path);
    this.#change(`sync folder ${path}`);
    settle(folder);
  }

  /** The bytes of a file as a program would read them now. */
  bytesOf(path: string): Buffer {
    return Buffer.from(this.#file(this.#need(path)).cache);
  }

  /** The names in a folder, without a call. */
  namesIn(path: string): string[] {
    return [...this.#folder(path).cache.keys()].sort();
  }

  /** Puts a durable file there, whatever stood there before. */
  place(path: string, bytes: Uint8Array): void {
    this.#enter(path, this.#add({ kind: 'file', cache: bytes, durable: bytes, pending: [] }));
    settle(this.#folder(dirname(path)));
  }

  /** How many changes are not flushed: the length of the list that `afterPowerCut` asks the fate of. */
  get unflushed(): number {
    return this.nodes.reduce((sum, node) => sum + node.pending.length, 0);
  }

  /** The disk after the program was killed: the cache stays, nothing becomes durable. */
  afterKill(): SimulatedDisk {
    const next = new SimulatedDisk([]);
    next.nodes = this.nodes.map(copyNode);
    return next;
  }

  /** The disk after a power cut at this moment, each unflushed change dealt with as `fate` says. */
  afterPowerCut(fate: Fate): SimulatedDisk {
    const next = new SimulatedDisk([]);
    let change = 0;
    next.nodes = this.nodes.map((node) => {
      const first = change;
      change += node.pending.length;
      return node.kind === 'file' ? fileAfter(node, first, fate) : folderAfter(node, first, fate);
    });
    return next;
  }

  /** A short text that differs when anything that a program can see differs. */
  fingerprint(): string {
    const hash = createHash('sha1');
    const walk = (path: string, node: number): void => {
      const found = this.nodes[node];
      hash.update(`\n${path}\n`);
      if (found?.kind === 'file') hash.update(found.cache);
      else for (const [name, child] of [...(found?.cache ?? [])].sort()) walk(`${path}/${name}`, child);
    };
    walk('', 0);
    return hash.digest('hex');
  }

  #handle(node: number, how: OpenHow): OpenFile {
    const disk = this;
    let open = true;
    const use = () => {
      disk.#alive();
      if (!open) throw systemError('EBADF');
      return disk.#file(node);
    };
    return {
      async write(bytes, place) {
        const file = use();
        if (how === 'read') throw systemError('EBADF');
        const taken = disk.#changeWrite(`write ${bytes.length}`, bytes);
        const offset = how === 'overwrite' && place !== undefined ? place : file.cache.length;
        file.pending.push({ kind: 'write', offset, bytes: taken });
        file.cache = written(file.cache, offset, taken);
        return taken.length;
      },
      async read(into, offset) {
        const part = use().cache.subarray(offset, offset + into.length);
        into.set(part);
        return part.length;
      },
      sync: async () => disk.#flush(use()),
      dataSync: async () => disk.#flush(use()),
      async truncate(length) {
        const file = use();
        disk.#change(`cut ${length}`);
        file.pending.push({ kind: 'cut', length });
        file.cache = cut(file.cache, length);
      },
      async facts() {
        use();
        return disk.#facts(node);
      },
      async close() {
        use();
        open = false;
      },
    };
  }

  /** A flush that fails leaves the changes in the cache, marked clean: no later flush will write them. */
  #flush(file: FileNode): void {
    try {
      this.#change('flush');
    } catch (error) {
      if (error instanceof PowerCut) throw error;
      for (const change of file.pending) file.durable = applied(file.durable, change, this.fail?.reached ?? 0);
      file.pending = [];
      throw error;
    }
    for (const change of file.pending) file.durable = applied(file.durable, change, 1);
    file.pending = [];
  }

  #changeWrite(what: string, bytes: Uint8Array): Uint8Array {
    const copy = Uint8Array.from(bytes);
    try {
      this.#change(what);
      return copy;
    } catch (error) {
      const short = this.fail?.short === true && this.calls === this.fail.atCall && bytes.length > 1;
      if (error instanceof PowerCut || !short) throw error;
      return copy.subarray(0, bytes.length >> 1);
    }
  }

  #change(what: string): void {
    this.#alive();
    if (this.calls >= this.stopAfter) {
      this.#off = true;
      throw new PowerCut(what);
    }
    this.calls += 1;
    this.log.push(what);
    const fail = this.fail;
    if (fail === undefined || !what.startsWith(fail.only ?? '')) return;
    if (fail.forever ? this.calls >= fail.atCall : this.calls === fail.atCall) throw systemError(fail.code);
  }

  #alive(): void {
    if (this.#off) throw new PowerCut('the power is off');
  }

  #facts(node: number): FileFacts {
    const found = this.nodes[node];
    const size = found?.kind === 'file' ? found.cache.length : 0;
    return {
      kind: found?.kind ?? 'other',
      size,
      identity: `1:${node}`,
      mode: found?.kind === 'file' ? 0o600 : 0o700,
      changed_ms: 0,
    };
  }

  #add(node: FileNode | FolderNode): number {
    this.nodes.push(node);
    return this.nodes.length - 1;
  }

  #enter(path: string, node: number): void {
    const folder = this.#folder(dirname(path));
    folder.cache.set(nameOf(path), node);
    folder.pending.push({ kind: 'put', name: nameOf(path), node });
  }

  #find(path: string): number | undefined {
    if (path === '/') return 0;
    const parent = this.#find(dirname(path));
    const folder = parent === undefined ? undefined : this.nodes[parent];
    return folder?.kind === 'folder' ? folder.cache.get(nameOf(path)) : undefined;
  }

  #need(path: string): number {
    this.#alive();
    const node = this.#find(path);
    if (node === undefined) throw systemError('ENOENT');
    return node;
  }

  #folder(path: string): FolderNode {
    const node = this.nodes[this.#need(path)];
    if (node?.kind !== 'folder') throw systemError('ENOTDIR');
    return node;
  }

  #file(index: number): FileNode {
    const node = this.nodes[index];
    if (node?.kind !== 'file') throw systemError('EISDIR');
    return node;
  }
}

const empty = new Uint8Array(0);

function folderNode(): FolderNode {
  return { kind: 'folder', cache: new Map(), durable: new Map(), pending: [] };
}

function nameOf(path: string): string {
  return path.slice(path.lastIndexOf('/') + 1);
}

function systemError(code: string): Error {
  return Object.assign(new Error(code), { code });
}

function settle(folder: FolderNode): void {
  folder.durable = new Map(folder.cache);
  folder.pending = [];
}

function copyNode(node: FileNode | FolderNode): FileNode | FolderNode {
  if (node.kind === 'file') return { ...node, pending: [...node.pending] };
  return { kind: 'folder', cache: new Map(node.cache), durable: new Map(node.durable), pending: [...node.pending] };
}

function fileAfter(file: FileNode, first: number, fate: Fate): FileNode {
  let bytes = file.durable;
  file.pending.forEach((change, index) => {
    const length = change.kind === 'write' ? change.bytes.length : 1;
    bytes = applied(bytes, change, fate(first + index, length));
  });
  return { kind: 'file', cache: bytes, durable: bytes, pending: [] };
}

function folderAfter(folder: FolderNode, first: number, fate: Fate): FolderNode {
  const names = new Map(folder.durable);
  folder.pending.forEach((change, index) => {
    if (fate(first + index, 1) < 0.5) return;
    if (change.kind === 'put') names.set(change.name, change.node);
    if (change.kind === 'drop') names.delete(change.name);
    if (change.kind === 'rename') {
      const node = names.get(change.from) ?? folder.cache.get(change.to);
      names.delete(change.from);
      if (node !== undefined) names.set(change.to, node);
    }
  });
  return { kind: 'folder', cache: names, durable: new Map(names), pending: [] };
}

function applied(bytes: Uint8Array, change: Change, share: number): Uint8Array {
  if (share <= 0) return bytes;
  if (change.kind === 'cut') return share >= 0.5 ? cut(bytes, change.length) : bytes;
  return written(bytes, change.offset, change.bytes.subarray(0, Math.ceil(change.bytes.length * Math.min(1, share))));
}

function written(bytes: Uint8Array, offset: number, more: Uint8Array): Uint8Array {
  const next = new Uint8Array(Math.max(bytes.length, offset + more.length));
  next.set(bytes);
  next.set(more, offset);
  return next;
}

function cut(bytes: Uint8Array, length: number): Uint8Array {
  return length <= bytes.length ? bytes.slice(0, length) : written(bytes, length, empty);
}
