import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { lookAtBatch, openBatch } from '../../src/sitting/opening.ts';
import type { Sitting } from '../../src/sitting/sitting.ts';
import { makeWorld, type World } from '../../src/sitting/world.ts';
import { isFault } from '../../src/store/fault.ts';
import { fillAt, journalLimits } from '../../src/store/journal-limits.ts';
import { START } from '../../src/store/journal-line.ts';
import { type LongKind, longKinds, writeLongJournal } from '../faults/huge-journals.ts';

// P8 and P1: what is written can be read again. A journal near the longest there may be takes no more counts, one at its end
// takes nothing, and what a state may hold of one kind is asked before a line is written as when it is read.

const BATCH = 'k3v9x2m4p7q1';
const options = { takeFromOtherHost: false, by: null, amendment: () => null };
let top: string;
let world: World;
let journal: string;

beforeEach(() => {
  top = mkdtempSync(join(tmpdir(), 'millside-room-'));
  world = makeWorld({ MILLSIDE_HOME: top, MILLSIDE_CONFIG: join(top, 'config') });
  mkdirSync(join(top, 'batches', BATCH), { recursive: true });
  journal = join(top, 'batches', BATCH, 'journal.jsonl');
});
afterEach(() => rmSync(top, { recursive: true }));

async function open() {
  const opened = await openBatch(world, BATCH, options);
  if (opened.kind !== 'opened') throw new Error(JSON.stringify(opened));
  return opened;
}

/** Enter: the card that is up, or a count. What was answered. */
async function enter(sitting: Sitting): Promise<string> {
  const { state } = sitting.read();
  const card = state.kind === 'none' ? undefined : state.cards[0];
  const said = await sitting.send(
    card === undefined
      ? { kind: 'count', quick: false }
      : { kind: 'passCard', id: card.id, shown_ms: 3000, answer: { kind: 'pass' } },
  );
  return said.kind === 'refused' ? said.reason : said.kind;
}

describe('how full a journal is', () => {
  it.each([
    [0, 0, 'room'],
    [110_999, 0, 'room'],
    [111_000, 0, 'nearly full'],
    [115_999, 0, 'nearly full'],
    [116_000, 0, 'full'],
    [10, 36 * 2 ** 20 - 1, 'room'],
    [10, 36 * 2 ** 20, 'nearly full'],
    [10, 40 * 2 ** 20, 'full'],
  ] as const)('[P8] at line %i and byte %i: %s', (seq, offset, fill) => {
    expect(fillAt({ ...START, seq, offset })).toBe(fill);
  });
});

describe('a journal that fills up', () => {
  it('[P8] [P1] takes counts to a mark and says so before; beyond it is left, opened and finished', async () => {
    writeLongJournal(journal, BATCH, 'counts', journalLimits.lines - 4000 - 5);
    const { sitting, leave } = await open();
    expect(sitting.read().roomNote).toMatch(/nearly full; before long, finish this batch/);
    const answers: string[] = [];
    for (let press = 0; press < 8; press += 1) answers.push(await enter(sitting));
    expect(answers).toContain('counted');
    expect(answers.at(-1)).toMatch(/^not taken: the journal of this batch is full; finish this batch/);
    expect(sitting.read().roomNote).toMatch(/^THE JOURNAL IS FULL/);
    expect(await sitting.send({ kind: 'note', text: 'no room' })).toMatchObject({ kind: 'refused' });
    expect(await sitting.send({ kind: 'takeBack' })).toMatchObject({ kind: 'done' });
    expect(await leave('left')).toBeUndefined();

    const again = await open();
    const end = { kind: 'finish', short: true, reason: 'the journal is full' } as const;
    expect(await again.sitting.send(end)).toMatchObject({ kind: 'done' });
    await again.leave('left');
    const looked = await lookAtBatch(world, BATCH);
    expect(looked).toMatchObject({ kind: 'looked', damage: undefined, state: { kind: 'finished' } });
  }, 120_000);

  it('[P8] by its bytes takes no count either', async () => {
    writeLongJournal(journal, BATCH, 'longNotes', 16);
    const { sitting, leave } = await open();
    expect(await enter(sitting)).toBe('done');
    expect(await sitting.send({ kind: 'count', quick: false })).toMatchObject({ kind: 'refused' });
    expect(sitting.read().roomNote).toMatch(/^THE JOURNAL IS FULL/);
    expect(await leave('left')).toBeUndefined();
  });

  it('[P8] to its last line is not opened, is left as it is, and is looked at whole', async () => {
    writeLongJournal(journal, BATCH, 'counts');
    const bytes = readFileSync(journal);
    const full = { kind: 'fault', what: expect.stringContaining('the journal is full') };
    expect(await openBatch(world, BATCH, options)).toMatchObject(full);
    // The lock is free again: a second opener meets the same answer, not a holder.
    expect(await openBatch(world, BATCH, options)).toMatchObject(full);
    expect(readFileSync(journal).equals(bytes)).toBe(true);
    const looked = await lookAtBatch(world, BATCH);
    if (isFault(looked)) throw new Error(looked.what);
    expect(looked.damage).toBeUndefined();
  }, 120_000);
});

describe('a state that may hold no more of a kind', () => {
  it('[P8] takes no further plan that is declined, and what was taken is read again', async () => {
    writeLongJournal(journal, BATCH, 'declinedPlans', 1002);
    const { sitting, leave } = await open();
    const before = readFileSync(journal).length;
    expect(await sitting.send({ kind: 'declineAmendment', planSha256: 'another' })).toMatchObject({
      kind: 'refused',
      reason: expect.stringContaining('more than 1000 changed plans'),
    });
    expect(readFileSync(journal).length).toBe(before);
    expect(await leave('left')).toBeUndefined();
    expect(await lookAtBatch(world, BATCH)).toMatchObject({ damage: undefined });
  });

  const bounded: readonly (readonly [LongKind, RegExp])[] = [
    ['corrections', /line 2003 .* more than 2000 corrections/],
    ['suspects', /line 1003 .* more than 1000 ranges of suspect pieces/],
    ['declinedPlans', /line 1003 .* more than 1000 changed plans/],
    ['checksOfManyNames', /line 50[34] .* more than 500 tools, machines, checks or lanes/],
  ];
  it.each(bounded)('[P8] is not followed past it when it is read: %s', async (kind, reason) => {
    expect(Object.keys(longKinds)).toContain(kind);
    writeLongJournal(journal, BATCH, kind, 3000);
    expect(await lookAtBatch(world, BATCH)).toMatchObject({
      damage: { kind: 'impossible', reason: expect.stringMatching(reason) },
    });
  });
});
