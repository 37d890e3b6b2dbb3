import { describe, expect, it } from 'vitest';
import { isFault } from '../../src/store/fault.ts';
import { openJournal } from '../../src/store/journal.ts';
import { encodeLine, type Position, START } from '../../src/store/journal-line.ts';
import { lookAtJournal } from '../../src/store/journal-look.ts';
import { BATCH, beginDraft, countDraft, FOLDER, form, type Line } from '../store/counting.ts';
import { SimulatedDisk } from '../store/simulated-disk.ts';
import { makeChance } from './chance.ts';
import { type Spoiled, spoiledJournals } from './damage.ts';

const PATH = `${FOLDER}/journal.jsonl`;
const PIECES = 12;
const isLong = process.env['MILLSIDE_FAULTS'] === 'long';
const count = isLong ? 20_000 : 420;

function journalLines(batch: string): Buffer[] {
  const lines: Buffer[] = [];
  let position: Position = START;
  for (let piece = 0; piece <= PIECES; piece += 1) {
    const line = encodeLine(form, piece === 0 ? beginDraft() : countDraft(piece), position, batch);
    lines.push(line.bytes);
    position = line.position;
  }
  return lines;
}

const lines = journalLines(BATCH);
const spoiled = spoiledJournals(lines, journalLines('zzzzzzzzzzzz'), count, makeChance(4));

async function diskWith(bytes: Buffer): Promise<SimulatedDisk> {
  const disk = new SimulatedDisk(['/data', '/data/batches', FOLDER]);
  disk.place(PATH, bytes);
  return disk;
}

/** How many lines from the first on are the same bytes as in the sound journal. */
function soundLines(bytes: Buffer): number {
  let offset = 0;
  for (const [index, line] of lines.entries()) {
    if (!bytes.subarray(offset, offset + line.length).equals(line)) return index;
    offset += line.length;
  }
  return lines.length;
}

async function openSpoiled({ bytes }: Spoiled) {
  const disk = await diskWith(bytes);
  const read: Line[] = [];
  const opened = await openJournal(disk, FOLDER, form, (line) => read.push(line));
  return { disk, read, opened };
}

describe(`${count} damaged journals`, { timeout: 600_000 }, () => {
  it('[P2] exactly the lines before the first bad byte are counted', async () => {
    for (const journal of spoiled) {
      const { read } = await openSpoiled(journal);
      expect(
        read.map((line) => line.seq),
        journal.name,
      ).toEqual(Array.from({ length: soundLines(journal.bytes) }, (_, line) => line + 1));
    }
  });

  it('[P2] the rest is copied aside and named by file, offset and length, or the opening is refused and nothing touched', async () => {
    for (const journal of spoiled) {
      const { disk, read, opened } = await openSpoiled(journal);
      const sound = Buffer.concat(lines.slice(0, read.length));
      if (isFault(opened)) {
        expect(opened, journal.name).toMatchObject({ code: 65, what: expect.stringMatching(/no good first line/) });
        expect(disk.bytesOf(PATH).equals(journal.bytes), journal.name).toBe(true);
        continue;
      }
      expect(disk.bytesOf(PATH).equals(sound), journal.name).toBe(true);
      const rest = journal.bytes.subarray(sound.length);
      if (rest.length === 0) expect(opened.damage, journal.name).toBeUndefined();
      else {
        expect(opened.damage, journal.name).toMatchObject({ file: PATH, offset: sound.length, length: rest.length });
        expect(disk.bytesOf(opened.damage?.keptIn ?? '').equals(rest), journal.name).toBe(true);
      }
    }
  });

  it('[P2] behind the damage counting goes on, and whole lines of the rest are never counted again', async () => {
    for (const journal of spoiled) {
      const { disk, read, opened } = await openSpoiled(journal);
      if (isFault(opened)) continue;
      expect(await opened.journal.append(read.length, [countDraft(99)]), journal.name).toMatchObject({
        kind: 'appended',
      });
      const again: Line[] = [];
      expect(await openJournal(disk, FOLDER, form, (line) => again.push(line)), journal.name).toMatchObject({
        damage: undefined,
      });
      expect(again.length, journal.name).toBe(read.length + 1);
    }
  });

  it('[P2] looking shows the same lines and writes nothing', async () => {
    for (const journal of spoiled) {
      const disk = await diskWith(journal.bytes);
      const print = disk.fingerprint();
      const seen: Line[] = [];
      expect(await lookAtJournal(disk, FOLDER, form, (line) => seen.push(line)), journal.name).toMatchObject({
        kind: 'looked',
      });
      expect(seen.length, journal.name).toBe(soundLines(journal.bytes));
      expect([disk.calls, disk.fingerprint()], journal.name).toEqual([0, print]);
    }
  });

  it('[P2] a flipped bit in any byte of the journal is found', async () => {
    const sound = Buffer.concat(lines);
    for (let place = 0; place < sound.length; place += 1) {
      const bytes = Buffer.from(sound);
      bytes[place] = (bytes[place] ?? 0) ^ (1 << (place % 8));
      const seen: Line[] = [];
      await lookAtJournal(await diskWith(bytes), FOLDER, form, (line) => seen.push(line));
      expect(seen.length, `byte ${place}`).toBe(soundLines(bytes));
      expect(seen.length).toBeLessThan(lines.length);
    }
  });
});
