import { beforeEach, describe, expect, it } from 'vitest';
import { isFault } from '../../src/store/fault.ts';
import { createBatch, type Journal, openJournal } from '../../src/store/journal.ts';
import type { JournalLimits } from '../../src/store/journal-limits.ts';
import { encodeLine, START } from '../../src/store/journal-line.ts';
import { lookAtJournal } from '../../src/store/journal-look.ts';
import { readLines } from '../../src/store/journal-reader.ts';
import {
  BATCH,
  beginDraft,
  type Command,
  countDraft,
  countOf,
  type Event,
  FOLDER,
  form,
  type Line,
} from './counting.ts';
import { SimulatedDisk } from './simulated-disk.ts';

const PATH = `${FOLDER}/journal.jsonl`;
let disk: SimulatedDisk;

beforeEach(async () => {
  disk = new SimulatedDisk();
  expect(await createBatch(disk, '/data/batches', BATCH, form, beginDraft())).toMatchObject({ kind: 'created' });
});

async function open(on = disk) {
  const lines: Line[] = [];
  const opened = await openJournal(on, FOLDER, form, (line) => lines.push(line));
  if (isFault(opened)) throw new Error(JSON.stringify(opened));
  return { ...opened, lines };
}

async function count(journal: Journal<Command, Event>, pieces: number) {
  for (let piece = 1; piece <= pieces; piece += 1) await journal.append(journal.seq, [countDraft(piece)]);
}

async function look(on = disk) {
  const lines: Line[] = [];
  const looked = await lookAtJournal(on, FOLDER, form, (line) => lines.push(line));
  if (isFault(looked)) throw new Error(JSON.stringify(looked));
  return { ...looked, lines };
}

describe('a journal', () => {
  it('[P1] what was answered as appended is there after a power cut that loses all that was not flushed', async () => {
    const { journal } = await open();
    await count(journal, 3);
    const { lines, damage } = await open(disk.afterPowerCut(() => 0));
    expect(countOf(lines)).toBe(3);
    expect(damage).toBeUndefined();
  });

  it('[P1] what opening showed is there after a power cut, although the program that wrote it was killed before its flush', async () => {
    const { journal } = await open();
    const pending = journal.append(1, [countDraft(1)]);
    disk.stopAfter = disk.calls + 1;
    await expect(pending).rejects.toThrow();
    const killed = disk.afterKill();
    expect(countOf((await open(killed)).lines)).toBe(1);
    expect(countOf((await open(killed.afterPowerCut(() => 0))).lines)).toBe(1);
  });

  it('[P1] what opening showed is there after a power cut, although the folder was put back by hand and never flushed', async () => {
    const restored = new SimulatedDisk(['/data']);
    await restored.mkdir('/data/batches');
    await restored.mkdir(FOLDER);
    const file = await restored.open(PATH, 'new');
    await file.write(disk.bytesOf(PATH));
    await restored.syncFolder('/data');
    expect((await open(restored)).lines).toHaveLength(1);
    expect((await open(restored.afterPowerCut(() => 0))).lines).toHaveLength(1);
  });

  it('takes several lines at one stroke and reads them again from any number', async () => {
    const { journal } = await open();
    expect(await journal.append(1, [countDraft(1), countDraft(2), countDraft(3)])).toEqual({
      kind: 'appended',
      seq: 4,
    });
    const seen: number[] = [];
    expect(await journal.read(3, (line) => seen.push(line.seq))).toBeUndefined();
    expect(seen).toEqual([3, 4]);
  });

  it('[P4] an append behind an outdated number is a conflict and writes nothing', async () => {
    const { journal } = await open();
    await count(journal, 2);
    const before = disk.bytesOf(PATH);
    expect(await journal.append(1, [countDraft(9)])).toEqual({ kind: 'conflict', seq: 3 });
    expect(disk.bytesOf(PATH)).toEqual(before);
  });

  it('[P4] two appends at once take turns: the second finds that the journal has gone on', async () => {
    const { journal } = await open();
    const answers = await Promise.all([journal.append(1, [countDraft(1)]), journal.append(1, [countDraft(2)])]);
    expect(answers).toEqual([
      { kind: 'appended', seq: 2 },
      { kind: 'conflict', seq: 2 },
    ]);
    expect(countOf((await look()).lines)).toBe(1);
  });

  it('[P4] lines of another writer that got past the lock are taken up, not written over', async () => {
    const one = await open();
    const two = await open();
    await count(one.journal, 1);
    expect(await two.journal.append(1, [countDraft(2)])).toEqual({ kind: 'conflict', seq: 2 });
    expect(await two.journal.append(2, [countDraft(2)])).toEqual({ kind: 'appended', seq: 3 });
    expect(countOf((await open()).lines)).toBe(2);
  });

  it('[P2] a torn last line is kept aside and the batch resumes', async () => {
    const { journal } = await open();
    await count(journal, 2);
    const whole = disk.bytesOf(PATH);
    disk.place(PATH, Buffer.concat([whole, Buffer.from('{"v":2,"seq":4,"pr')]));
    const { lines, damage } = await open();
    expect(countOf(lines)).toBe(2);
    expect(damage).toMatchObject({ kind: 'torn', file: PATH, offset: whole.length, length: 18, wholeLinesAfter: 0 });
    expect(disk.bytesOf(damage?.keptIn ?? '').toString()).toBe('{"v":2,"seq":4,"pr');
    expect(disk.bytesOf(PATH)).toEqual(whole);
  });

  it('[P2] behind damage in the middle the prefix is kept, and the whole lines after it are told but not counted', async () => {
    const { journal } = await open();
    await count(journal, 5);
    const bytes = disk.bytesOf(PATH);
    const third = bytes.indexOf('"seq":4');
    bytes[third + 20] = 0;
    disk.place(PATH, bytes);
    const { lines, damage } = await open();
    expect(lines.map((line) => line.seq)).toEqual([1, 2, 3]);
    expect(damage).toMatchObject({ kind: 'damaged', wholeLinesAfter: 2 });
    expect(disk.bytesOf(damage?.keptIn ?? '')).toEqual(bytes.subarray(damage?.offset));
  });

  it('[P2] a finished copy of the rest is found again after a crash, another file of that name is not mistaken for it', async () => {
    const whole = disk.bytesOf(PATH);
    disk.place(PATH, Buffer.concat([whole, Buffer.from('torn')]));
    disk.place(`${FOLDER}/damaged-${whole.length}-1.jsonl`, Buffer.from('else'));
    disk.place(`${FOLDER}/damaged-${whole.length}-2.jsonl`, Buffer.from('torn'));
    expect((await open()).damage?.keptIn).toBe(`${FOLDER}/damaged-${whole.length}-2.jsonl`);
    disk.place(PATH, Buffer.concat([whole, Buffer.from('more')]));
    expect((await open()).damage?.keptIn).toBe(`${FOLDER}/damaged-${whole.length}-3.jsonl`);
  });

  it('[P8] reading stops at a largest size and at a largest number of lines, told apart from damage', async () => {
    const { journal } = await open();
    await count(journal, 9);
    const file = await disk.open(PATH, 'read');
    const seen: Line[] = [];
    const read = (limits: JournalLimits) => readLines(file, form, START, (line) => seen.push(line), limits);
    const { position, stop } = await read({ lines: 100, bytes: 1000 });
    expect(stop).toMatchObject({ kind: 'too long', reason: 'it is longer than 1000 bytes' });
    expect(stop?.offset).toBe(position.offset);
    expect(position.offset).toBeLessThanOrEqual(1000);
    expect(seen.length).toBe(4);
    seen.length = 0;
    const byLines = await read({ lines: 7, bytes: 1e6 });
    expect(byLines.stop).toMatchObject({ kind: 'too long', reason: 'it has more than 7 lines' });
    expect(seen.length).toBe(7);
  });

  it('[P2] looking at a damaged journal writes nothing', async () => {
    const { journal } = await open();
    await count(journal, 2);
    disk.place(PATH, Buffer.concat([disk.bytesOf(PATH), Buffer.from('torn')]));
    const [calls, print] = [disk.calls, disk.fingerprint()];
    const { lines, damage } = await look();
    expect(countOf(lines)).toBe(2);
    expect(damage).toMatchObject({ kind: 'torn', length: 4, keptIn: undefined });
    expect([disk.calls, disk.fingerprint()]).toEqual([calls, print]);
  });

  it('looking on follows the writer and notices a journal that was replaced', async () => {
    const { journal } = await open();
    const { look: looker } = await look();
    await count(journal, 2);
    const seen: Line[] = [];
    expect(await looker.readOn((line) => seen.push(line))).toEqual({ kind: 'read', lines: 2 });
    expect(countOf(seen)).toBe(2);
    disk.place(PATH, Buffer.alloc(0));
    expect(await looker.readOn(() => undefined)).toEqual({ kind: 'replaced' });
  });

  it('[P2] a journal without a good first line, or of another batch, is refused by name and left as it is', async () => {
    const spoiled = disk.bytesOf(PATH);
    spoiled[3] = 0;
    disk.place(PATH, spoiled);
    expect(await openJournal(disk, FOLDER, form, () => undefined)).toMatchObject({
      kind: 'fault',
      code: 65,
      what: expect.stringMatching(/first line/),
    });
    disk.place(PATH, encodeLine(form, beginDraft(), START, 'zzzzzzzzzzzz').bytes);
    expect(await openJournal(disk, FOLDER, form, () => undefined)).toMatchObject({
      kind: 'fault',
      code: 65,
      what: expect.stringMatching(/zzzzzzzzzzzz/),
    });
    expect(await disk.list(FOLDER)).toEqual(['journal.jsonl']);
  });

  it('an id that is taken begins no second batch', async () => {
    const again = await createBatch(disk, '/data/batches', BATCH, form, beginDraft('another plan'));
    expect(again).toMatchObject({ kind: 'fault', code: 73, what: expect.stringMatching(/exists already/) });
    expect((await open()).lines[0]?.events).toMatchObject([{ plan: 'keeper plates, 40 pieces' }]);
  });
});

describe('a journal on a failing disk', () => {
  it('[P3] a full disk counts nothing, leaves no half line, and counting goes on when room comes back', async () => {
    const { journal } = await open();
    await count(journal, 2);
    disk.fail = { atCall: disk.calls + 1, code: 'ENOSPC', forever: false, short: true };
    expect(await journal.append(3, [countDraft(3)])).toMatchObject({ kind: 'appended' });
    disk.fail = { atCall: disk.calls + 1, code: 'ENOSPC', forever: true, short: true };
    expect(await journal.append(4, [countDraft(4)])).toMatchObject({
      kind: 'fault',
      code: 74,
      what: expect.stringMatching(/the disk is full/),
    });
    expect(await journal.append(4, [countDraft(4)])).toMatchObject({ kind: 'fault', code: 74 });
    disk.fail = undefined;
    expect(await journal.append(4, [countDraft(4)])).toEqual({ kind: 'appended', seq: 5 });
    const { lines, damage } = await open(disk.afterPowerCut(() => 0));
    expect(countOf(lines)).toBe(4);
    expect(damage).toBeUndefined();
  });

  it('[P3] after a failed flush the handle is given up and nothing written through it is believed', async () => {
    const { journal } = await open();
    await count(journal, 2);
    disk.fail = { atCall: disk.calls + 2, code: 'EIO', forever: false };
    expect(await journal.append(3, [countDraft(3)])).toMatchObject({
      kind: 'fault',
      what: expect.stringMatching(/the disk reports an error/),
    });
    expect(await journal.append(3, [countDraft(3)])).toEqual({ kind: 'appended', seq: 4 });
    expect(countOf((await open(disk.afterPowerCut(() => 0))).lines)).toBe(3);
  });

  it('[P3] while a flush still fails nothing is written; what was cut is flushed before the next line', async () => {
    const { journal } = await open();
    disk.fail = { atCall: disk.calls + 1, code: 'EIO', forever: true, only: 'flush' };
    expect(await journal.append(1, [countDraft(1)])).toMatchObject({ kind: 'fault' });
    expect(disk.bytesOf(PATH).length).toBe(disk.afterPowerCut(() => 0).bytesOf(PATH).length);
    disk.fail = undefined;
    disk.log = [];
    expect(await journal.append(1, [countDraft(1)])).toMatchObject({ kind: 'appended' });
    expect(disk.log.map((call) => call.split(' ')[0])).toEqual(['flush', 'sync', 'write', 'flush']);
  });

  it('a lot of lines in one append is a bug, not a line that might half arrive', async () => {
    const { journal } = await open();
    const many = Array.from({ length: 400 }, (_, piece) => countDraft(piece));
    await expect(journal.append(1, many)).rejects.toThrow(/one append/);
    expect(await journal.append(1, [countDraft(1)])).toMatchObject({ kind: 'appended' });
  });

  it('[P3] a journal that vanished or was changed underneath counts nothing and says so', async () => {
    const { journal } = await open();
    await count(journal, 2);
    const bytes = disk.bytesOf(PATH);
    await disk.unlink(PATH);
    expect(await journal.append(3, [countDraft(3)])).toMatchObject({
      kind: 'fault',
      what: expect.stringMatching(/it is not there/),
    });
    disk.place(PATH, bytes.subarray(0, -9));
    expect(await journal.append(3, [countDraft(3)])).toMatchObject({
      kind: 'fault',
      what: expect.stringMatching(/no longer ends/),
    });
    disk.place(PATH, bytes);
    expect(await journal.append(3, [countDraft(3)])).toEqual({ kind: 'appended', seq: 4 });
  });
});
