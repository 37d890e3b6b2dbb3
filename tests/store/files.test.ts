import { execFileSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import * as z from 'zod';
import { writeExport } from '../../src/store/exports.ts';
import { isFault } from '../../src/store/fault.ts';
import { findConfigFolder, findHome, prepareHome } from '../../src/store/home.ts';
import { createBatch } from '../../src/store/journal.ts';
import { loadPlanFile, PLAN_CAP } from '../../src/store/plan-files.ts';
import { realDisk } from '../../src/store/real-disk.ts';
import { openSettings, saveSettings } from '../../src/store/settings.ts';
import { readSmall } from '../../src/store/whole-file.ts';
import { BATCH, beginDraft, form } from './counting.ts';
import { SimulatedDisk } from './simulated-disk.ts';

let folder: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'files-'));
});

afterEach(() => rmSync(folder, { recursive: true }));

const at = (name: string) => join(folder, name);
const mode = (name: string) => statSync(at(name)).mode & 0o777;

describe('the data folder', () => {
  it('is MILLSIDE_HOME, else under XDG_DATA_HOME when that is absolute, else under .local/share', () => {
    expect(findHome({ MILLSIDE_HOME: '/m', XDG_DATA_HOME: '/x' }, '/home/a').root).toBe('/m');
    expect(findHome({ MILLSIDE_HOME: '', XDG_DATA_HOME: '/x' }, '/home/a').root).toBe('/x/millside');
    expect(findHome({ XDG_DATA_HOME: 'x' }, '/home/a').batches).toBe('/home/a/.local/share/millside/batches');
    expect(findConfigFolder({}, '/home/a')).toBe('/home/a/.config/millside');
    expect(findConfigFolder({ MILLSIDE_CONFIG: '/c' }, '/home/a')).toBe('/c');
  });

  it.each([0o000, 0o022, 0o777])('[P11] folders are 0700 and files 0600 with umask %i', async (umask) => {
    const old = process.umask(umask);
    try {
      const home = { root: at('home'), batches: at('home/batches') };
      expect(await prepareHome(realDisk, home)).toBeUndefined();
      expect((await createBatch(realDisk, home.batches, BATCH, form, beginDraft())).kind).toBe('created');
      expect((await writeExport(realDisk, at('report.csv'), 'x', { overwrite: false })).kind).toBe('written');
      await saveSettings(at('config'), z.object({ bell: z.boolean().default(false) }), { bell: true });
    } finally {
      process.umask(old);
    }
    const folders = ['home', 'home/batches', `home/batches/${BATCH}`, 'config'].map(mode);
    const files = [`home/batches/${BATCH}/journal.jsonl`, 'report.csv', 'config/settings.json'].map(mode);
    expect([...new Set(folders)]).toEqual([0o700]);
    expect([...new Set(files)]).toEqual([0o600]);
  });

  it('[P1] folders that were made are there after a power cut', async () => {
    const disk = new SimulatedDisk([]);
    expect(await prepareHome(disk, { root: '/home/data', batches: '/home/data/batches' })).toBeUndefined();
    expect(disk.afterPowerCut(() => 0).namesIn('/home/data')).toEqual(['batches']);
  });

  it('[P3] one that cannot be made or written is a fault before a batch begins', async () => {
    writeFileSync(at('home'), 'a file where a folder is wanted');
    const fault = await prepareHome(realDisk, { root: at('home'), batches: at('home/batches') });
    expect(fault).toMatchObject({
      kind: 'fault',
      code: 73,
      what: expect.stringContaining('a file stands where a folder is needed'),
    });
    const full = new SimulatedDisk();
    full.fail = { atCall: 1, code: 'ENOSPC', forever: true };
    expect(await prepareHome(full, { root: '/data', batches: '/data/batches' })).toMatchObject({
      code: 73,
      what: expect.stringMatching(/disk is full/),
    });
  });
});

describe('a plan file', () => {
  it('[P8] is read whole with its hash; a byte order mark and Windows line ends are no harm', async () => {
    writeFileSync(at('plan.yaml'), '\ufeffformat: 1\r\npart: keeper plate\r\n');
    const plan = await loadPlanFile(realDisk, at('plan.yaml'));
    expect(plan).toMatchObject({
      kind: 'plan file',
      text: 'format: 1\r\npart: keeper plate\r\n',
      sha256: expect.stringMatching(/^[0-9a-f]{64}$/),
    });
  });

  it('[P7] of another content has another hash', async () => {
    writeFileSync(at('plan.yaml'), 'format: 1\n');
    const before = await loadPlanFile(realDisk, at('plan.yaml'));
    writeFileSync(at('plan.yaml'), 'format: 2\n');
    const after = await loadPlanFile(realDisk, at('plan.yaml'));
    expect(isFault(before) || isFault(after) || before.sha256 === after.sha256).toBe(false);
  });

  it('[P8] of 128 KiB is taken and a byte more is refused', async () => {
    writeFileSync(at('plan.yaml'), 'x'.repeat(PLAN_CAP));
    expect(await loadPlanFile(realDisk, at('plan.yaml'))).toMatchObject({ kind: 'plan file' });
    writeFileSync(at('plan.yaml'), 'x'.repeat(PLAN_CAP + 1));
    expect(await loadPlanFile(realDisk, at('plan.yaml'))).toMatchObject({ kind: 'fault', code: 65 });
  });

  it('[P8] no pipe, device or folder is waited for or read', async () => {
    execFileSync('sh', ['-c', 'mkfifo "$0"', at('pipe')]);
    for (const path of [at('pipe'), '/dev/zero', '/dev/tty', folder, at('none'), at('none\u001b[2J')]) {
      const fault = await loadPlanFile(realDisk, path);
      expect(fault).toMatchObject({ kind: 'fault', code: 66 });
      if (isFault(fault)) expect(fault.where).not.toContain('\u001b');
    }
  });

  it('[P8] that is not UTF-8 is refused with line and column', async () => {
    writeFileSync(at('plan.yaml'), Buffer.from('format: 1\nnote: "f\xfcr das Tor"\n', 'latin1'));
    expect(await loadPlanFile(realDisk, at('plan.yaml'))).toMatchObject({
      code: 65,
      where: `${at('plan.yaml')}:2:9`,
      what: expect.stringMatching(/0xfc/),
    });
    writeFileSync(at('plan.yaml'), Buffer.concat([Buffer.from('note: "\ufffd ok'), Buffer.from([0x80])]));
    expect(await loadPlanFile(realDisk, at('plan.yaml'))).toMatchObject({ code: 65, where: `${at('plan.yaml')}:1:12` });
    writeFileSync(at('plan.yaml'), Buffer.from('\ufeffformat: 1\n', 'utf16le'));
    expect(await loadPlanFile(realDisk, at('plan.yaml'))).toMatchObject({
      code: 65,
      what: expect.stringMatching(/UTF-16/),
    });
    writeFileSync(at('plan.yaml'), 'format: 1\nab\0c');
    expect(await loadPlanFile(realDisk, at('plan.yaml'))).toMatchObject({ code: 65, where: `${at('plan.yaml')}:2:3` });
  });
});

describe('a small file', () => {
  it('[P8] is read up to its bound; one byte more is refused', async () => {
    writeFileSync(at('small'), '12345');
    expect((await readSmall(realDisk, at('small'), 5))?.toString()).toBe('12345');
    await expect(readSmall(realDisk, at('small'), 4)).rejects.toMatchObject({ code: 'EFBIG' });
    expect(await readSmall(realDisk, at('none'), 5)).toBeUndefined();
  });
});

describe('an export', () => {
  it('[P9] is written whole, and never over an existing file unless that was asked for', async () => {
    expect(await writeExport(realDisk, at('r.csv'), 'one', { overwrite: false })).toMatchObject({
      kind: 'written',
      replaced: false,
    });
    expect(await writeExport(realDisk, at('r.csv'), 'two', { overwrite: false })).toMatchObject({
      kind: 'fault',
      code: 73,
    });
    expect(readFileSync(at('r.csv'), 'utf8')).toBe('one');
    expect(await writeExport(realDisk, at('r.csv'), 'two', { overwrite: true })).toMatchObject({
      kind: 'written',
      replaced: true,
    });
    expect(readFileSync(at('r.csv'), 'utf8')).toBe('two');
    expect(readdirSync(folder)).toEqual(['r.csv']);
  });

  it('[P9] never goes through a link, a folder or a pipe, asked for or not', async () => {
    symlinkSync(at('target'), at('dangling'));
    writeFileSync(at('kept'), 'kept');
    symlinkSync(at('kept'), at('link'));
    mkdirSync(at('folder'));
    execFileSync('sh', ['-c', 'mkfifo "$0"', at('pipe')]);
    for (const name of ['dangling', 'link', 'folder', 'pipe']) {
      for (const overwrite of [false, true]) {
        expect(await writeExport(realDisk, at(name), 'new', { overwrite })).toMatchObject({ kind: 'fault', code: 73 });
      }
    }
    expect(readFileSync(at('kept'), 'utf8')).toBe('kept');
    expect(existsSync(at('target'))).toBe(false);
  });

  it('[P9] on a disk that fills up at any call leaves either the old content or the new, and says which', async () => {
    for (let atCall = 1; ; atCall += 1) {
      const disk = new SimulatedDisk();
      disk.place('/data/r.csv', Buffer.from('old'));
      disk.fail = { atCall, code: 'ENOSPC', forever: true, short: true };
      const answer = await writeExport(disk, '/data/r.csv', 'new content', { overwrite: true });
      const content = disk.bytesOf('/data/r.csv').toString();
      if (answer.kind === 'written') expect(content).toBe('new content');
      else expect(['old', 'new content']).toContain(content);
      if (disk.calls < atCall) break;
      expect(answer).toMatchObject({ kind: 'fault', code: 74 });
    }
  });

  it('[P9] that was answered as written is there after a power cut', async () => {
    const disk = new SimulatedDisk();
    await writeExport(disk, '/data/r.csv', 'content', { overwrite: false });
    expect(
      disk
        .afterPowerCut(() => 0)
        .bytesOf('/data/r.csv')
        .toString(),
    ).toBe('content');
  });

  it('[P9] is old or new, never torn, after a power cut at any call', async () => {
    const states = new Set<string>();
    for (let stop = 0; stop < 12; stop += 1) {
      for (const share of [0, 0.5, 1]) {
        const disk = new SimulatedDisk();
        disk.place('/data/r.csv', Buffer.from('old'));
        disk.stopAfter = stop;
        await writeExport(disk, '/data/r.csv', 'new content', { overwrite: true }).catch(() => undefined);
        states.add(
          disk
            .afterPowerCut(() => share)
            .bytesOf('/data/r.csv')
            .toString(),
        );
      }
    }
    expect([...states].sort()).toEqual(['new content', 'old']);
  });
});

describe('settings', () => {
  const schema = z.object({ bell: z.boolean().default(false), metres: z.number().min(0.3).max(5).default(1) });

  it('[P14] that are missing are the defaults, and a set one is kept beside unknown keys', async () => {
    expect(openSettings(at('c'), schema)).toMatchObject({ values: { bell: false, metres: 1 }, notes: [] });
    expect(await saveSettings(at('c'), schema, { bell: true })).toMatchObject({ values: { bell: true } });
    const path = at('c/settings.json');
    writeFileSync(path, JSON.stringify({ ...JSON.parse(readFileSync(path, 'utf8')), later: 1 }));
    await saveSettings(at('c'), schema, { metres: 2 });
    expect(JSON.parse(readFileSync(path, 'utf8'))).toEqual({ bell: true, later: 1, metres: 2 });
  });

  it('[P14] in a spoiled file cost the defaults only; the file is set aside and named', async () => {
    mkdirSync(at('c'));
    for (const spoiled of ['{"bell": tr', '', '[]', '\0\0\0']) {
      writeFileSync(at('c/settings.json'), spoiled);
      const { values, notes } = openSettings(at('c'), schema);
      expect(values).toEqual({ bell: false, metres: 1 });
      expect(readFileSync(notes[0]?.where ?? '', 'utf8')).toBe(spoiled);
    }
    expect(await saveSettings(at('c'), schema, { bell: true })).toMatchObject({ values: { bell: true }, notes: [] });
  });

  it('[P14] with one value that does not fit keep the others and name it', () => {
    mkdirSync(at('c'));
    writeFileSync(at('c/settings.json'), '{"bell": true, "metres": 90}');
    const { values, notes } = openSettings(at('c'), schema);
    expect(values).toEqual({ bell: true, metres: 1 });
    expect(notes[0]?.what).toContain('metres');
    expect(existsSync(at('c/settings.json'))).toBe(true);
  });

  it('[P14] in a place that cannot be read or written stop nothing', async () => {
    writeFileSync(at('c'), 'a file where a folder is wanted');
    expect(openSettings(at('c'), schema).values).toEqual({ bell: false, metres: 1 });
    expect(await saveSettings(at('c'), schema, { bell: true })).toMatchObject({ kind: 'fault', code: 74 });
    mkdirSync(at('d/settings.json'), { recursive: true });
    expect(openSettings(at('d'), schema).values).toEqual({ bell: false, metres: 1 });
  });

  it('a value out of range is refused and nothing is written', async () => {
    expect(await saveSettings(at('c'), schema, { metres: 90 })).toMatchObject({
      kind: 'fault',
      what: expect.stringMatching(/metres/),
    });
    expect(existsSync(at('c'))).toBe(false);
  });
});
