import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { build } from 'esbuild';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { Disk } from '../../src/store/disk.ts';
import { type BatchLock, lockBatch, makeSelf, type Self, socketName } from '../../src/store/lock.ts';
import { realDisk } from '../../src/store/real-disk.ts';

let folder: string;
const children: ChildProcess[] = [];

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'lock-'));
});

afterEach(() => {
  for (const child of children.splice(0)) child.kill('SIGKILL');
  rmSync(folder, { recursive: true });
});

const owner = () => JSON.parse(readFileSync(join(folder, 'owner.json'), 'utf8'));
const leave = (content: unknown) => writeFileSync(join(folder, 'owner.json'), JSON.stringify(content));

async function take(self: Self = makeSelf()): Promise<BatchLock> {
  const answer = await lockBatch(realDisk, folder, self);
  if (answer.kind !== 'locked') throw new Error(JSON.stringify(answer));
  return answer.lock;
}

describe.each([
  { way: 'a socket and an owner file', hasSockets: process.platform === 'linux' },
  { way: 'an owner file alone', hasSockets: false },
])('the lock by $way', ({ hasSockets }) => {
  const self: Self = { ...makeSelf(), hasSockets };

  it('[P4] a second opener is told who has it, and gets it when it is free', async () => {
    const lock = await take(self);
    expect(await lockBatch(realDisk, folder, self)).toMatchObject({
      kind: 'held',
      owner: { pid: process.pid, host: self.host },
    });
    await lock.release();
    await (await take(self)).release();
  });

  it('[P4] of ten that start together exactly one wins', async () => {
    const answers = await Promise.all(Array.from({ length: 10 }, () => lockBatch(realDisk, folder, self)));
    expect(answers.map((answer) => answer.kind).sort()).toEqual([...Array(9).fill('held'), 'locked']);
    for (const answer of answers) if (answer.kind === 'locked') await answer.lock.release();
  });

  it('[P4] of ten that find a stale lock together exactly one wins', async () => {
    leave({ host: self.host, boot: self.boot, pid: 999_999_999, started: '5' });
    const answers = await Promise.all(Array.from({ length: 10 }, () => lockBatch(realDisk, folder, self)));
    expect(answers.filter((answer) => answer.kind === 'locked')).toHaveLength(1);
    for (const answer of answers) if (answer.kind === 'locked') await answer.lock.release();
  });

  it('[P4] a lock left by a dead process, a reused process number or another boot does not block', async () => {
    const dead = { host: self.host, boot: self.boot, pid: 999_999_999, started: '5' };
    const reused = { host: self.host, boot: self.boot, pid: process.ppid, started: 'long before' };
    const rebooted = { host: self.host, boot: 'ffffffffffff', pid: self.pid, started: self.started };
    for (const left of [dead, reused, rebooted, 'spoiled']) {
      leave(left);
      await (await take(self)).release();
    }
  });

  it('[P4] a lock of another computer is named and taken only by an explicit yes', async () => {
    const theirs = { host: 'another-bench', boot: 'ffffffffffff', pid: 7, started: '5' };
    leave(theirs);
    expect(await lockBatch(realDisk, folder, self)).toEqual({ kind: 'held elsewhere', owner: theirs });
    expect(owner()).toEqual(theirs);
    const answer = await lockBatch(realDisk, folder, self, { takeFromOtherHost: true });
    expect(answer.kind).toBe('locked');
    expect(owner()).toMatchObject({ pid: process.pid });
    if (answer.kind === 'locked') await answer.lock.release();
  });

  it('a folder that is not there is a fault', async () => {
    expect(await lockBatch(realDisk, join(folder, 'none'), self)).toMatchObject({ kind: 'fault', code: 66 });
    writeFileSync(join(folder, 'file'), '');
    expect(await lockBatch(realDisk, join(folder, 'file'), self)).toMatchObject({ kind: 'fault', code: 66 });
  });
});

describe('the lock by a socket', () => {
  it.runIf(process.platform === 'linux')('[P4] holds although its owner file was removed', async () => {
    const lock = await take();
    rmSync(join(folder, 'owner.json'));
    expect(await lockBatch(realDisk, folder, makeSelf())).toEqual({ kind: 'held', owner: undefined });
    await lock.release();
  });
});

describe('the lock by an owner file', () => {
  it('[P4] of two that find it stale, the slower one puts back what the faster one has made of it', async () => {
    const self: Self = { ...makeSelf(), hasSockets: false };
    const faster = { host: self.host, boot: self.boot, pid: process.pid, started: self.started };
    leave({ ...faster, pid: 999_999_999 });
    let isFirst = true;
    const slow: Disk = {
      ...realDisk,
      async rename(from, to) {
        if (isFirst) leave(faster);
        isFirst = false;
        await realDisk.rename(from, to);
      },
    };
    expect(await lockBatch(slow, folder, self)).toMatchObject({ kind: 'held', owner: faster });
    expect(owner()).toEqual(faster);
  });
});

describe('the lock between processes', () => {
  let work: string;
  let program: string;

  beforeAll(async () => {
    work = mkdtempSync(join(tmpdir(), 'lock-program-'));
    program = join(work, 'holder.mjs');
    await build({
      stdin: { contents: HOLDER, resolveDir: import.meta.dirname, loader: 'ts' },
      outfile: program,
      bundle: true,
      platform: 'node',
      format: 'esm',
    });
  });

  afterAll(() => rmSync(work, { recursive: true }));

  function start(hasSockets: boolean): { child: ChildProcess; said: Promise<string> } {
    const child = spawn(process.execPath, [program, folder, String(hasSockets)], {
      stdio: ['pipe', 'pipe', 'inherit'],
    });
    children.push(child);
    const said = new Promise<string>((answer) => createInterface({ input: child.stdout }).once('line', answer));
    return { child, said };
  }

  it('the name of the socket is exactly 108 bytes with its leading zero', () => {
    expect(Buffer.byteLength(socketName('1:2'))).toBe(108);
    expect(socketName('1:2')).not.toBe(socketName('1:3'));
  });

  it.each([true, false])(
    '[P4] three started together: one wins; killed, it blocks nobody (sockets: %s)',
    async (hasSockets) => {
      const three = [start(hasSockets), start(hasSockets), start(hasSockets)];
      const words = await Promise.all(three.map(({ said }) => said));
      const winner = three[words.indexOf('locked')];
      expect(words.filter((word) => word === 'locked')).toHaveLength(1);
      expect(words.filter((word) => word === `held ${winner?.child.pid}`)).toHaveLength(2);
      const ended = new Promise((answer) => winner?.child.once('exit', answer));
      winner?.child.kill('SIGKILL');
      await ended;
      await (await take({ ...makeSelf(), hasSockets })).release();
    },
  );

  it('[P4] a holder that is stopped still holds, and is named', async () => {
    const { child, said } = start(process.platform === 'linux');
    expect(await said).toBe('locked');
    child.kill('SIGSTOP');
    expect(await lockBatch(realDisk, folder, makeSelf())).toMatchObject({ kind: 'held', owner: { pid: child.pid } });
  });

  it('[P4] a folder moved to another name while it is held is still the same lock', async () => {
    const inner = join(folder, 'one');
    mkdirSync(inner);
    const answer = await lockBatch(realDisk, inner, makeSelf());
    await realDisk.rename(inner, join(folder, 'two'));
    expect((await lockBatch(realDisk, join(folder, 'two'), makeSelf())).kind).toBe('held');
    if (answer.kind === 'locked') await answer.lock.release();
  });
});

const HOLDER = `
import { lockBatch, makeSelf } from '../../src/store/lock.ts';
import { realDisk } from '../../src/store/real-disk.ts';
const answer = await lockBatch(realDisk, process.argv[2], { ...makeSelf(), hasSockets: process.argv[3] === 'true' });
console.log(answer.kind === 'held' ? 'held ' + answer.owner?.pid : answer.kind);
process.stdin.resume();
`;
