import { mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { Io } from '../../src/cli/io.ts';
import { runReport } from '../../src/cli/report.ts';
import { runStatus } from '../../src/cli/status.ts';
import { lookAtBatch, openBatch } from '../../src/sitting/opening.ts';
import { isFault } from '../../src/store/fault.ts';
import { makeChance } from './chance.ts';
import { type Spoiled, spoiledJournals } from './damage.ts';
import { FOLDER, PATH, worldWith } from './memory-world.ts';
import { BATCH, realBatch } from './real-batch.ts';
import { eveningOf, linesOf } from './real-journal.ts';

const drafts = eveningOf(40);
const lines = linesOf(drafts, BATCH);
const foreign = linesOf(eveningOf(40, 5000), 'zzzzzzzzzzzz');
const options = { takeFromOtherHost: false, by: 'AB', amendment: () => null };
const count = { long: 3000, few: 28 }[process.env['MILLSIDE_FAULTS'] ?? ''] ?? 140;
/** The first line holds the plan and is longest: it is left alone in half of the journals, so that the rest is hit too. */
const spoiled = [
  ...spoiledJournals(lines, foreign, count, makeChance(4)),
  ...spoiledJournals(lines.slice(1), foreign, count, makeChance(5)).map(({ name, bytes }) => ({
    name: `${name}, behind the first line`,
    bytes: Buffer.concat([lines[0] ?? Buffer.alloc(0), bytes]),
  })),
];

/** How many whole lines stand at the beginning as they were written, and how many bytes they have. */
function soundPart(bytes: Buffer): { readonly count: number; readonly length: number } {
  let length = 0;
  for (const [count, line] of lines.entries()) {
    if (!bytes.subarray(length, length + line.length).equals(line)) return { count, length };
    length += line.length;
  }
  return { count: lines.length, length };
}

function toldAfter(count: number): string {
  return realBatch.tell(
    drafts.slice(0, count).reduce((state, draft) => realBatch.fold(state, draft), realBatch.nothing),
  );
}

describe(`${spoiled.length} damaged journals of the program's own batch`, { timeout: 600_000 }, () => {
  it('[P2] [P8] looking shows the state of the good lines, names place and length of the rest, and writes nothing', async () => {
    for (const { name, bytes } of spoiled) {
      const world = worldWith(bytes);
      const print = world.disk.fingerprint();
      const sound = soundPart(bytes);
      const looked = await lookAtBatch(world, BATCH);
      if (isFault(looked)) throw new Error(`${name}: ${looked.what}`);
      expect(realBatch.tell(looked.state), name).toBe(toldAfter(sound.count));
      const rest = bytes.length - sound.length;
      if (rest === 0) expect(looked.damage, name).toBeUndefined();
      else expect(looked.damage, name).toMatchObject({ file: PATH, offset: sound.length, length: rest });
      expect([world.disk.calls, world.disk.fingerprint()], name).toEqual([0, print]);
    }
  });

  it('[P2] [P3] opening goes on behind the good lines, keeps the rest aside, or refuses by name and touches nothing', async () => {
    let refused = 0;
    for (const { name, bytes } of spoiled) {
      const world = worldWith(bytes);
      const sound = soundPart(bytes);
      const opened = await openBatch(world, BATCH, options);
      if (opened.kind !== 'opened') {
        refused += 1;
        expect(opened, name).toMatchObject({ kind: 'fault', code: 65, what: expect.stringMatching(/good first line/) });
        expect(sound.count, name).toBe(0);
        expect(world.disk.bytesOf(PATH).equals(bytes), name).toBe(true);
        expect(world.disk.namesIn(FOLDER), name).toEqual(['journal.jsonl']);
        continue;
      }
      const journal = world.disk.bytesOf(PATH);
      expect(journal.subarray(0, sound.length).equals(Buffer.concat(lines.slice(0, sound.count))), name).toBe(true);
      // The line of the sitting that began and, where there was damage, the one that notes it.
      const newLines = journal.subarray(sound.length).toString().split('\n').length - 1;
      expect(newLines, name).toBe(opened.damage === undefined ? 1 : 2);
      const rest = bytes.subarray(sound.length);
      expect(opened.damage?.offset, name).toBe(rest.length === 0 ? undefined : sound.length);
      if (opened.damage !== undefined) {
        expect(opened.damage.length, name).toBe(rest.length);
        expect(world.disk.bytesOf(opened.damage.keptIn ?? '').equals(rest), name).toBe(true);
      }
      expect(await opened.sitting.send({ kind: 'note', text: 'goes on' }), name).toMatchObject({ kind: 'done' });
      await opened.leave('left');
    }
    expect(refused).toBeLessThan(spoiled.length / 2);
  });
});

const top = mkdtempSync(join(tmpdir(), 'millside-damage-'));
afterAll(() => rmSync(top, { recursive: true }));

async function said(run: (args: readonly string[], io: Io) => Promise<number>, env: Io['env']) {
  let out = '';
  let err = '';
  const code = await run([BATCH], {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    env,
    isTerminal: false,
    columns: 80,
  });
  return { code, out, err };
}

function placeOnDisk({ bytes }: Spoiled): { readonly path: string; readonly env: Io['env'] } {
  const folder = join(top, 'batches', BATCH);
  mkdirSync(folder, { recursive: true });
  const path = join(folder, 'journal.jsonl');
  writeFileSync(path, bytes);
  return { path, env: { MILLSIDE_HOME: top, MILLSIDE_CONFIG: join(top, 'config') } };
}

describe('status and report of damaged journals', { timeout: 600_000 }, () => {
  it('of a batch that is not there end with 66 and a word', async () => {
    const { code, out, err } = await said(runStatus, { MILLSIDE_HOME: join(top, 'nothing') });
    expect([code, out]).toEqual([66, '']);
    expect(err).toContain('there is no batch');
  });

  it('[P2] [P8] name file, offset and length, show what is good, and change not a byte', async () => {
    for (const [index, journal] of spoiled.entries()) {
      const { path, env } = placeOnDisk(journal);
      const before = statSync(path);
      const sound = soundPart(journal.bytes);
      const { code, out, err } = await said(index % 4 === 0 ? runReport : runStatus, env);
      expect(code, journal.name).toBe(sound.count === 0 ? 65 : 0);
      expect(out !== '', journal.name).toBe(sound.count > 0);
      const rest = journal.bytes.length - sound.length;
      if (rest > 0) {
        for (const word of [path, `byte ${sound.length};`, `${rest} bytes`]) expect(err, journal.name).toContain(word);
      }
      expect(readFileSync(path).equals(journal.bytes), journal.name).toBe(true);
      expect(statSync(path).mtimeMs, journal.name).toBe(before.mtimeMs);
    }
  });
});
