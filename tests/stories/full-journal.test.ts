// P8, P1: a batch whose journal comes near the longest that can be read again says so, then takes no more counts, and is
// finished, opened again and reported all the same.
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { journalLimits } from '../../src/store/journal-limits.ts';
import { writeLongJournal } from '../faults/huge-journals.ts';
import { canRunStories } from './harness.ts';
import { closeShops, makeShop, pressEnterUntil } from './shop.ts';

afterEach(closeShops);

const BATCH = 'k3v9x2m4p7q1';
const patience_ms = 60_000;

describe.skipIf(!canRunStories())('a journal that fills up', () => {
  it('is said to, takes no more counts, and the batch goes on to its end', { timeout: 240_000 }, async () => {
    const shop = makeShop();
    mkdirSync(join(shop.data, 'batches', BATCH), { recursive: true, mode: 0o700 });
    // Room for the sitting, its cards and a few counts.
    writeLongJournal(join(shop.data, 'batches', BATCH, 'journal.jsonl'), BATCH, 'counts', journalLimits.lines - 4012);
    const t = await shop.open({ args: [BATCH], cols: 120 });
    await t.waitFor(({ text }) => /journal of this batch is nearly full/.test(text), 'the warning', patience_ms);
    const isFull = (): boolean => /journal of this batch is full; finish this batch/.test(t.screen().text);
    await pressEnterUntil(shop, t, isFull);
    const bytes = shop.journalBytes();
    t.press('enter');
    await t.waitFor(
      ({ text }) => /THE JOURNAL IS FULL|journal of this batch is full/.test(text),
      'the refusal',
      patience_ms,
    );
    expect(shop.journalBytes()).toBe(bytes);
    t.press('q');
    expect(await t.exit(patience_ms)).toBe(0);
    expect(shop.ask('status', BATCH)).toMatchObject({ code: 0, err: '' });
  });
});
