import { createHash } from 'node:crypto';
import {
  appendFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Answer, allowed, askProgram, requireProgram } from './ask-program.ts';
import { BATCH } from './real-batch.ts';
import { eveningOf, linesOf, sealed } from './real-journal.ts';

// The built program asked about journals that are damaged, newer, cut, mixed up, or of a gigabyte: it answers within 6 s and
// 600 MB, names the place, never shows a trace, and changes nothing.

const GIGABYTE = 1024 ** 3;

const top = mkdtempSync(join(tmpdir(), 'millside-built-'));
const folder = join(top, 'data/batches', BATCH);
const journal = join(folder, 'journal.jsonl');
const lines = linesOf(eveningOf(40), BATCH);
const whole = Buffer.concat(lines);
const good = Buffer.concat(lines.slice(0, 20));
const newer = sealed({ v: 3, seq: 21, something: 'new' });

beforeAll(() => {
  requireProgram();
  mkdirSync(folder, { recursive: true });
});
afterAll(() => rmSync(top, { recursive: true }));

async function ask(...words: readonly string[]): Promise<Answer> {
  return askIn({}, ...words);
}

async function askIn(more: Readonly<Record<string, string>>, ...words: readonly string[]): Promise<Answer> {
  return askProgram({ ...more, MILLSIDE_HOME: join(top, 'data'), MILLSIDE_CONFIG: join(top, 'config') }, ...words);
}

const cases: Readonly<Record<string, { readonly make: () => void; readonly offset: number }>> = {
  'a flipped bit': {
    make: () => writeFileSync(journal, Buffer.from(whole).fill(0, good.length + 40, good.length + 41)),
    offset: good.length,
  },
  'cut in a line': { make: () => writeFileSync(journal, whole.subarray(0, good.length + 30)), offset: good.length },
  'two lines swapped': {
    make: () =>
      writeFileSync(
        journal,
        Buffer.concat([good, ...[lines[21], lines[20], ...lines.slice(22)].map((line) => line ?? Buffer.alloc(0))]),
      ),
    offset: good.length,
  },
  'a newer version': { make: () => writeFileSync(journal, Buffer.concat([good, newer])), offset: good.length },
  'a gigabyte of zeros behind it': {
    make: () => {
      writeFileSync(journal, good);
      truncateSync(journal, GIGABYTE);
    },
    offset: good.length,
  },
  'a gigabyte without a line end': {
    make: () => {
      writeFileSync(journal, good);
      appendFileSync(journal, Buffer.alloc(16 * 1024 * 1024, 'x'));
      truncateSync(journal, GIGABYTE);
    },
    offset: good.length,
  },
  'a gigabyte of nothing at all': {
    make: () => {
      writeFileSync(journal, '');
      truncateSync(journal, GIGABYTE);
    },
    offset: 0,
  },
  'other text': { make: () => writeFileSync(journal, 'to do: buy drills\n'.repeat(2000)), offset: 0 },
};

describe.each(Object.entries(cases))('the built program asked about a journal with %s', (_, { make, offset }) => {
  it('[P2] [P8] [P13] answers in time and memory, names the place, shows what is good, changes nothing', async () => {
    make();
    const before = { ...printOf(), names: readdirSync(folder) };
    const hasState = offset > 0;
    for (const word of ['status', 'report', 'batches']) {
      const answer = await ask(word, ...(word === 'batches' ? [] : [BATCH]));
      expect(answer.ms, `${word}: time`).toBeLessThan(allowed.ms);
      expect(answer.bytes, `${word}: memory`).toBeLessThan(allowed.bytes);
      expect(answer.bytes, `${word}: memory was told`).toBeGreaterThan(20e6);
      expect(`${answer.out}${answer.err}`, `${word}: a trace`).not.toMatch(/^\s+at .*:\d+/m);
      expect(answer.code, `${word}: ${answer.err}`).toBe(word === 'batches' || hasState ? 0 : 65);
      if (word === 'batches') expect(answer.out).toContain(BATCH);
      else {
        expect(answer.err).toContain(`${journal} is good up to byte ${offset}`);
        expect(answer.err).toContain(`${statSync(journal).size - offset} bytes`);
      }
    }
    expect({ ...printOf(), names: readdirSync(folder) }).toEqual(before);
  }, 60_000);
});

describe('the built program', () => {
  const plan = fileURLToPath(new URL('../../jobs/keeper-plates.yaml', import.meta.url));

  it.each(['', ':/etc/localtime', 'Nowhere/At', 'UTC'])('[P5] plays a batch where TZ is "%s"', async (TZ) => {
    const { code, out, err } = await askIn({ TZ }, 'rehearse', plan, '--json');
    expect(err).toBe('');
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({ rehearsal: true });
  });
});

/** Size, time and beginning of the journal. */
function printOf() {
  const { size, mtimeMs } = statSync(journal);
  const bytes = size > 1e8 ? '' : createHash('sha256').update(readFileSync(journal)).digest('hex');
  return { size, mtimeMs, bytes };
}
