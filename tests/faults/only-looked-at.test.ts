import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { canRunStories } from '../stories/harness.ts';
import { closeShops, makeShop } from '../stories/shop.ts';
import { BATCH } from './real-batch.ts';
import { eveningOf, linesOf, sealed } from './real-journal.ts';

// The program in a terminal, told to go on with a batch that it must not write.

afterEach(closeShops);

const lines = linesOf(eveningOf(30), BATCH);
const journals: readonly (readonly [string, Buffer, string])[] = [
  ['of a newer version', Buffer.concat([...lines, sealed({ v: 3, seq: 32, something: 'new' })]), 'newer version'],
  ['whose first line is damaged', Buffer.from(Buffer.concat(lines)).fill(0x20, 100, 120), 'no good first line'],
];

describe.skipIf(!canRunStories())('a terminal told to go on with a journal', () => {
  it.each(journals)('[P2] [P13] %s says why not, writes nothing, and ends with 65', async (_, bytes, why) => {
    const shop = makeShop();
    const folder = join(shop.data, 'batches', BATCH);
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, 'journal.jsonl'), bytes);
    const program = await shop.open({ args: [BATCH] });
    await program.waitFor((screen) => screen.text.includes(why), 'the reason');
    program.press('kp-plus', 'enter', 'backspace', 'q');
    expect(await program.exit()).toBe(65);
    expect(readFileSync(join(folder, 'journal.jsonl')).equals(bytes)).toBe(true);
    expect(readdirSync(folder)).toEqual(['journal.jsonl']);
  });
});
