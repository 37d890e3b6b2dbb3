import { spawnSync } from 'node:child_process';
import {
  appendFileSync,
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { isFault } from '../../src/store/fault.ts';
import { createBatch, openJournal } from '../../src/store/journal.ts';
import { LINE_CAP } from '../../src/store/journal-line.ts';
import { lookAtJournal } from '../../src/store/journal-look.ts';
import { lockBatch, makeSelf } from '../../src/store/lock.ts';
import { openBatch } from '../../src/store/open-batch.ts';
import { realDisk } from '../../src/store/real-disk.ts';
import { BATCH, beginDraft, countDraft, countOf, form, type Line } from './counting.ts';

let work: string;
let batches: string;
let folder: string;
let path: string;

beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'journal-'));
});
afterAll(() => rmSync(work, { recursive: true }));

beforeEach(async () => {
  batches = mkdtempSync(join(work, 'batches-'));
  folder = join(batches, BATCH);
  path = join(folder, 'journal.jsonl');
  expect((await createBatch(realDisk, batches, BATCH, form, beginDraft())).kind).toBe('created');
});

async function open() {
  const lines: Line[] = [];
  const opened = await openJournal(realDisk, folder, form, (line) => lines.push(line));
  if (isFault(opened)) throw new Error(JSON.stringify(opened));
  return { ...opened, lines };
}

async function look() {
  const lines: Line[] = [];
  const looked = await lookAtJournal(realDisk, folder, form, (line) => lines.push(line));
  if (isFault(looked)) throw new Error(JSON.stringify(looked));
  return { ...looked, lines };
}

async function countThree() {
  const { journal } = await open();
  for (const piece of [1, 2, 3]) expect((await journal.append(piece, [countDraft(piece)])).kind).toBe('appended');
  await journal.close();
}

describe('a journal on a real disk', () => {
  it('[P1] [P2] pieces are there again, a torn end is set aside, and counting goes on', async () => {
    await countThree();
    const whole = readFileSync(path);
    appendFileSync(path, '{"v":2,"seq":5');
    const { journal, lines, damage } = await open();
    expect(countOf(lines)).toBe(3);
    expect(readFileSync(damage?.keptIn ?? '', 'utf8')).toBe('{"v":2,"seq":5');
    expect(readFileSync(path)).toEqual(whole);
    expect(await journal.append(4, [countDraft(4)])).toEqual({ kind: 'appended', seq: 5 });
    await journal.close();
    expect(countOf((await look()).lines)).toBe(4);
  });

  it('[P3] a folder that vanishes while the batch is open counts nothing, and counting goes on when it is back', async () => {
    const { journal } = await open();
    renameSync(folder, `${folder}-away`);
    expect(await journal.append(1, [countDraft(1)])).toMatchObject({ kind: 'fault', code: 74 });
    expect(await journal.append(1, [countDraft(1)])).toMatchObject({ kind: 'fault', code: 74 });
    renameSync(`${folder}-away`, folder);
    expect(await journal.append(1, [countDraft(1)])).toEqual({ kind: 'appended', seq: 2 });
    await journal.close();
    expect(countOf((await look()).lines)).toBe(1);
  });

  it('[P3] a journal cut or put back to an older copy while the batch is open is noticed and not written over', async () => {
    await countThree();
    copyFileSync(path, join(work, 'older'));
    const { journal } = await open();
    await journal.append(4, [countDraft(4)]);
    copyFileSync(join(work, 'older'), path);
    expect(await journal.append(5, [countDraft(5)])).toMatchObject({
      kind: 'fault',
      what: expect.stringMatching(/no longer ends/),
    });
    expect(readFileSync(path)).toEqual(readFileSync(join(work, 'older')));
    await journal.close();
  });

  it('[P4] a batch is opened under its lock; a second opening is told, and a failed one leaves no lock', async () => {
    const who = { self: makeSelf(), takeFromOtherHost: false };
    const first = await openBatch(realDisk, folder, form, () => undefined, who);
    expect(first.kind).toBe('opened');
    expect(await openBatch(realDisk, folder, form, () => undefined, who)).toMatchObject({
      kind: 'held',
      owner: { pid: process.pid },
    });
    if (first.kind === 'opened') await Promise.all([first.journal.close(), first.lock.release()]);
    truncateSync(path, 10);
    expect(await openBatch(realDisk, folder, form, () => undefined, who)).toMatchObject({ kind: 'fault', code: 65 });
    const lock = await lockBatch(realDisk, folder, who.self);
    expect(lock.kind).toBe('locked');
    if (lock.kind === 'locked') await lock.lock.release();
  });

  it('[P8] a journal of 1 GB behind good lines is looked at up to them; it is refused for writing and left as it is', async () => {
    await countThree();
    truncateSync(path, 1024 ** 3);
    const { lines, damage } = await look();
    expect(countOf(lines)).toBe(3);
    expect(damage).toMatchObject({ length: 1024 ** 3 - (damage?.offset ?? 0) });
    expect(await openJournal(realDisk, folder, form, () => undefined)).toMatchObject({ kind: 'fault', code: 65 });
  });

  it('[P8] a line without end is damage at its beginning', async () => {
    await countThree();
    appendFileSync(path, 'x'.repeat(LINE_CAP * 3));
    const { lines, damage } = await look();
    expect(countOf(lines)).toBe(3);
    expect(damage).toMatchObject({ kind: 'damaged', reason: expect.stringMatching(/more than/) });
  });

  it('[P8] a folder, a link to nothing or a pipe in the journal’s place is a fault, not a wait', async () => {
    for (const [index, put] of [
      () => mkdirSync(path),
      () => spawnSync('ln', ['-s', 'nothing', path]),
      () => spawnSync('sh', ['-c', 'mkfifo "$0"', path]),
    ].entries()) {
      rmSync(path, { recursive: true });
      put();
      expect(await openJournal(realDisk, folder, form, () => undefined), String(index)).toMatchObject({
        kind: 'fault',
        code: 66,
      });
      expect(await lookAtJournal(realDisk, folder, form, () => undefined), String(index)).toMatchObject({
        kind: 'fault',
        code: 66,
      });
    }
  });
});

describe('a journal under a size limit', () => {
  it('[P3] counts up to the limit, then says so for each press, and leaves no half line', async () => {
    const program = join(work, 'counter.mjs');
    await build({
      stdin: { contents: COUNTER, resolveDir: import.meta.dirname, loader: 'ts' },
      outfile: program,
      bundle: true,
      platform: 'node',
      format: 'esm',
    });
    const run = spawnSync('bash', ['-c', `ulimit -f 4; exec "$0" "$@"`, process.execPath, program, folder], {
      encoding: 'utf8',
    });
    const said = JSON.parse(run.stdout);
    expect(said.counted).toBeGreaterThan(5);
    expect(said.answers.slice(said.counted)).toEqual(
      Array(30 - said.counted).fill('not counted: a size limit was reached'),
    );
    const { lines, damage } = await look();
    expect(countOf(lines)).toBe(said.counted);
    expect(damage).toBeUndefined();
  });
});

const COUNTER = `
import { openJournal } from '../../src/store/journal.ts';
import { realDisk } from '../../src/store/real-disk.ts';
import { countDraft, form } from './counting.ts';
const { journal } = await openJournal(realDisk, process.argv[2], form, () => undefined);
const answers = [];
for (let piece = 1; piece <= 30; piece += 1) {
  const answer = await journal.append(journal.seq, [countDraft(piece)]);
  answers.push(answer.kind === 'fault' ? answer.what : answer.kind);
}
process.stdout.write(JSON.stringify({ answers, counted: answers.filter((answer) => answer === 'appended').length }));
`;

describe('the bounds of reading', () => {
  it('[P8] a journal of 1 GB without a newline takes less than 6 s and 600 MB', () => {
    writeFileSync(path, '');
    truncateSync(path, 1024 ** 3);
    const began = performance.now();
    return look().then(({ damage }) => {
      expect(damage).toMatchObject({ length: 1024 ** 3 });
      expect(performance.now() - began).toBeLessThan(6000);
      expect(process.memoryUsage().rss).toBeLessThan(600e6);
    });
  });
});
