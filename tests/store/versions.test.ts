import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { crc32 } from '../../src/store/crc32.ts';
import { isFault } from '../../src/store/fault.ts';
import { openJournal } from '../../src/store/journal.ts';
import { JOURNAL_VERSION } from '../../src/store/journal-line.ts';
import { lookAtJournal } from '../../src/store/journal-look.ts';
import { BATCH, countDraft, countOf, FOLDER, form, type Line } from './counting.ts';
import { SimulatedDisk } from './simulated-disk.ts';

const PATH = `${FOLDER}/journal.jsonl`;
const sample = (version: number) => readFileSync(new URL(`../samples/journals/form-${version}.jsonl`, import.meta.url));

function diskWith(bytes: Buffer): SimulatedDisk {
  const disk = new SimulatedDisk(['/data', '/data/batches', FOLDER]);
  disk.place(PATH, bytes);
  return disk;
}

describe('journals of other versions', () => {
  it.each(Array.from({ length: JOURNAL_VERSION }, (_, index) => index + 1))(
    '[P13] one of form %i opens, is not rewritten, and goes on in the newest form',
    async (version) => {
      const disk = diskWith(sample(version));
      const lines: Line[] = [];
      const opened = await openJournal(disk, FOLDER, form, (line) => lines.push(line));
      if (isFault(opened)) throw new Error(opened.what);
      expect(opened.damage).toBeUndefined();
      expect(countOf(lines)).toBe(3);
      expect(disk.bytesOf(PATH)).toEqual(sample(version));
      expect(await opened.journal.append(4, [countDraft(4)])).toMatchObject({ kind: 'appended', seq: 5 });
      const again: Line[] = [];
      await lookAtJournal(disk, FOLDER, form, (line) => again.push(line));
      expect(again.map((line) => line.seq)).toEqual([1, 2, 3, 4, 5]);
      expect(new Set(again.map((line) => line.batch))).toEqual(new Set([BATCH]));
    },
  );

  it('[P13] one with a line of a newer form is looked at up to there, never written', async () => {
    const head = `{"v":${JOURNAL_VERSION + 1},"seq":5,"something":"new"`;
    const newer = `${head},"crc":"${crc32(Buffer.from(head)).toString(16).padStart(8, '0')}"}\n`;
    const disk = diskWith(Buffer.concat([sample(2), Buffer.from(newer)]));
    const print = disk.fingerprint();
    const refused = await openJournal(disk, FOLDER, form, () => undefined);
    expect(refused).toMatchObject({ kind: 'fault', code: 65, what: expect.stringMatching(/newer version/) });
    const lines: Line[] = [];
    expect(await lookAtJournal(disk, FOLDER, form, (line) => lines.push(line))).toMatchObject({
      damage: { kind: 'newer' },
    });
    expect(countOf(lines)).toBe(3);
    expect([disk.calls, disk.fingerprint()]).toEqual([0, print]);
  });
});
