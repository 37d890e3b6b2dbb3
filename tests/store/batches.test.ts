import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { findBatch, listBatches, makeBatchId, noteWorkedOn } from '../../src/store/batches.ts';
import { isFault } from '../../src/store/fault.ts';
import { type Rebuild, readHistory } from '../../src/store/history.ts';
import { createBatch } from '../../src/store/journal.ts';
import { beginDraft, form } from './counting.ts';
import { SimulatedDisk } from './simulated-disk.ts';

const home = { root: '/data', batches: '/data/batches' };

async function diskWith(...ids: string[]): Promise<SimulatedDisk> {
  const disk = new SimulatedDisk();
  for (const id of ids) await createBatch(disk, home.batches, id, form, beginDraft(`plan of ${id}`));
  return disk;
}

async function ids(disk: SimulatedDisk): Promise<string[]> {
  const entries = await listBatches(disk, home);
  if (isFault(entries)) throw new Error(entries.what);
  return entries.map((entry) => entry.id);
}

describe('the batches', () => {
  it('ids are twelve signs that cannot be misread, and differ', () => {
    const made = Array.from({ length: 1000 }, makeBatchId);
    expect(made.every((id) => /^[0-9a-hjkmnp-tv-z]{12}$/.test(id))).toBe(true);
    expect(new Set(made).size).toBe(1000);
  });

  it('the one worked on last comes first; strange names and unfinished folders are no batches', async () => {
    const disk = await diskWith('aaaaaaaaaaaa', 'bbbbbbbbbbbb', 'cccccccccccc');
    await disk.mkdir('/data/batches/.making-dddddddddddd');
    await disk.mkdir('/data/batches/eeeeeeeeeeee');
    await disk.mkdir('/data/batches/a copy of one');
    disk.place('/data/batches/.making-dddddddddddd/journal.jsonl', Buffer.from('half'));
    disk.place('/data/batches/a copy of one/journal.jsonl', Buffer.from('whole'));
    await noteWorkedOn(disk, home, 'bbbbbbbbbbbb');
    expect(await ids(disk)).toEqual(['bbbbbbbbbbbb', 'aaaaaaaaaaaa', 'cccccccccccc']);
    disk.place('/data/batches/worked-on-last', Buffer.from('../../etc/passwd'));
    expect(await ids(disk)).toEqual(['aaaaaaaaaaaa', 'bbbbbbbbbbbb', 'cccccccccccc']);
  });

  it('no data folder yet means no batches', async () => {
    expect(await listBatches(new SimulatedDisk([]), home)).toEqual([]);
  });

  it('[P8] a batch is found by the beginning of its id, and no text becomes a path', async () => {
    const disk = await diskWith('abcaaaaaaaaa', 'abdaaaaaaaaa');
    expect(await findBatch(disk, home, 'abc')).toMatchObject({ id: 'abcaaaaaaaaa' });
    expect(await findBatch(disk, home, 'abdaaaaaaaaa')).toMatchObject({ id: 'abdaaaaaaaaa' });
    for (const text of ['', 'ab', 'zzz', '..', '../batches', 'abc/../abd', 'ABC']) {
      expect(await findBatch(disk, home, text)).toMatchObject({ kind: 'fault', code: 66 });
    }
  });
});

describe('the history', () => {
  const schema = z.object({ good: z.int() });
  const rebuild: Rebuild<{ good: number }> = async (entry) =>
    entry.id.startsWith('open') ? { kind: 'open' } : { kind: 'finished', summary: { good: entry.bytes } };

  async function read(disk: SimulatedDisk) {
    const history = await readHistory(disk, home, schema, rebuild);
    if (isFault(history)) throw new Error(history.what);
    return history;
  }

  it('[P14] summaries are made from the journals when they are missing, and kept', async () => {
    const disk = await diskWith('aaaaaaaaaaaa', 'bbbbbbbbbbbb');
    const first = await read(disk);
    expect(first.rebuilt).toEqual(['aaaaaaaaaaaa', 'bbbbbbbbbbbb']);
    expect(await read(disk)).toEqual({ ...first, rebuilt: [] });
  });

  it('[P14] a summary with any byte spoiled, or older than its journal, is made again', async () => {
    const disk = await diskWith('aaaaaaaaaaaa');
    const { finished } = await read(disk);
    const path = '/data/batches/aaaaaaaaaaaa/summary.json';
    const whole = disk.bytesOf(path);
    for (let at = 0; at < whole.length; at += 1) {
      const spoiled = Buffer.from(whole);
      spoiled[at] = (spoiled[at] ?? 0) ^ 1;
      disk.place(path, spoiled);
      expect((await read(disk)).finished).toEqual(finished);
    }
    const journal = disk.bytesOf('/data/batches/aaaaaaaaaaaa/journal.jsonl');
    disk.place('/data/batches/aaaaaaaaaaaa/journal.jsonl', Buffer.concat([journal, journal]));
    expect((await read(disk)).rebuilt).toEqual(['aaaaaaaaaaaa']);
  });

  it('[P14] a disk that keeps no summary still gives the history', async () => {
    const disk = await diskWith('aaaaaaaaaaaa');
    disk.fail = { atCall: disk.calls + 1, code: 'ENOSPC', forever: true };
    expect((await read(disk)).finished).toHaveLength(1);
  });
});
