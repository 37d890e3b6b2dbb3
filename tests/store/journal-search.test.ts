import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { holdsAny } from '../../src/store/journal-search.ts';
import { realDisk } from '../../src/store/real-disk.ts';

const folder = mkdtempSync(join(tmpdir(), 'millside-search-'));
const path = join(folder, 'journal.jsonl');
afterAll(() => rmSync(folder, { recursive: true }));

const CHUNK = 1024 * 1024;

describe('words in a journal', () => {
  it.each([0, 1, CHUNK - 8, CHUNK - 1, CHUNK, CHUNK + 7, 3 * CHUNK + 5])('[P8] are found at byte %i', async (at) => {
    const bytes = Buffer.alloc(4 * CHUNK, 'x');
    bytes.write('"BatchFinished"', at);
    writeFileSync(path, bytes);
    expect(await holdsAny(realDisk, folder, ['"BatchFinished"', '"BatchGivenUp"'])).toBe(true);
    expect(await holdsAny(realDisk, folder, ['"BatchGivenUp"'])).toBe(false);
  });

  it('[P8] are not looked for in an empty file, and a missing one is a fault', async () => {
    writeFileSync(path, '');
    expect(await holdsAny(realDisk, folder, ['"BatchFinished"'])).toBe(false);
    expect(await holdsAny(realDisk, join(folder, 'none'), ['x'])).toMatchObject({ kind: 'fault', code: 74 });
  });
});
