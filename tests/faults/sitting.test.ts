import { describe, expect, it } from 'vitest';
import { cellAt } from '../../src/batch/flow.ts';
import type { BatchState } from '../../src/batch/state.ts';
import { lookAtBatch, type Opened, openBatch } from '../../src/sitting/opening.ts';
import { batchLineForm, type World } from '../../src/sitting/world.ts';
import { isFault } from '../../src/store/fault.ts';
import { openJournal } from '../../src/store/journal.ts';
import { instantAt } from '../batch/playing.ts';
import type { SimulatedDisk } from '../store/simulated-disk.ts';
import { FOLDER, PATH, worldWith } from './memory-world.ts';
import { BATCH } from './real-batch.ts';
import { eveningOf, linesOf } from './real-journal.ts';

// A sitting whose journal is written by somebody else meanwhile, or that ends while something is under way.

const options = { takeFromOtherHost: false, by: 'AB', amendment: () => null };

function aWorld() {
  return worldWith(Buffer.concat(linesOf(eveningOf(6), BATCH)));
}

async function opened(world: World): Promise<Opened> {
  const answer = await openBatch(world, BATCH, options);
  if (answer.kind !== 'opened') throw new Error(JSON.stringify(answer));
  for (;;) {
    const { state } = answer.sitting.read();
    const card = state.kind === 'none' ? undefined : state.cards[0];
    if (card === undefined) return answer;
    await answer.sitting.send({ kind: 'passCard', id: card.id, shown_ms: 5000, answer: { kind: 'pass' } });
  }
}

/** A count of one piece at the first operation, written past the sitting. */
async function countFromOutside(disk: SimulatedDisk, seconds: number): Promise<void> {
  const other = await openJournal(disk, FOLDER, batchLineForm, () => undefined);
  if (isFault(other)) throw new Error(other.what);
  const counted = { operation: 10, lane: '*', good: 1, scrap: [], ms: null, leftOut: null, quick: false } as const;
  const events = [{ kind: 'LoadCounted' as const, ...counted, scrap: [] }];
  const line = { by: 'CD', at: instantAt(seconds), command: { kind: 'count' as const, quick: false }, events };
  expect(await other.journal.append(other.journal.seq, [line])).toMatchObject({ kind: 'appended' });
  await other.journal.close();
}

const goodAt10 = (state: BatchState): number => (state.kind === 'none' ? -1 : cellAt(state, 0).good);

async function goodOnDisk(world: World): Promise<number> {
  const looked = await lookAtBatch(world, BATCH);
  if (isFault(looked)) throw new Error(looked.what);
  expect(looked.damage).toBeUndefined();
  return goodAt10(looked.state);
}

describe('a sitting', () => {
  it('[P4] takes in what somebody else wrote before it decides', async () => {
    const world = aWorld();
    const { sitting, leave } = await opened(world);
    const before = goodAt10(sitting.read().state);
    await countFromOutside(world.disk, 1_000_500);
    expect(await sitting.send({ kind: 'count', quick: false })).toMatchObject({ kind: 'counted' });
    expect(goodAt10(sitting.read().state)).toBe(before + 2);
    expect(await goodOnDisk(world)).toBe(before + 2);
    await leave('left');
  });

  it('[P3] [P4] takes it in too when the press that found it failed', async () => {
    const world = aWorld();
    const { sitting, leave } = await opened(world);
    const before = goodAt10(sitting.read().state);
    await countFromOutside(world.disk, 1_000_500);
    world.disk.fail = { atCall: world.disk.calls + 1, code: 'EIO', forever: true, only: 'sync folder' };
    expect(await sitting.send({ kind: 'count', quick: false })).toMatchObject({ kind: 'fault' });
    expect(goodAt10(sitting.read().state)).toBe(before);
    world.disk.fail = undefined;
    expect(await sitting.send({ kind: 'note', text: 'one more in the tray' })).toMatchObject({ kind: 'done' });
    expect(goodAt10(sitting.read().state)).toBe(before + 1);
    await leave('left');
  });

  it('[P1] ends behind what is under way, and nothing comes behind its end', async () => {
    const world = aWorld();
    const { sitting, leave } = await opened(world);
    const before = goodAt10(sitting.read().state);
    const count = sitting.send({ kind: 'count', quick: false });
    const left = leave('left');
    const late = sitting.send({ kind: 'beginSitting', by: 'AB', host: 'shop' });
    expect(await late).toMatchObject({ kind: 'refused', reason: 'the batch is being left' });
    expect(await count).toMatchObject({ kind: 'counted' });
    expect(await left).toBeUndefined();
    const last = world.disk.bytesOf(PATH).toString().trimEnd().split('\n').at(-1) ?? '';
    expect(JSON.parse(last).events).toMatchObject([{ kind: 'SittingEnded', why: 'left' }]);
    expect(await goodOnDisk(world)).toBe(before + 1);
  });

  it('[P4] that cannot begin leaves no lock behind', async () => {
    const world = aWorld();
    // The first flush of a line fails and so does every one behind it; the lock and its owner file are made before.
    const rehearsal = aWorld();
    await openBatch(rehearsal, BATCH, options);
    const flush = rehearsal.disk.log.lastIndexOf('flush') + 1;
    world.disk.fail = { atCall: flush, code: 'EIO', forever: true, only: 'flush' };
    expect(await openBatch(world, BATCH, options)).toMatchObject({ kind: 'fault', code: 74 });
    world.disk.fail = undefined;
    expect(world.disk.namesIn(FOLDER)).toEqual(['journal.jsonl']);
    expect(await openBatch({ ...world, self: { ...world.self, pid: 8 } }, BATCH, options)).toMatchObject({
      kind: 'opened',
    });
  });
});
