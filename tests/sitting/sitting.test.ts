import { describe, expect, it } from 'vitest';
import type { BatchEvent } from '../../src/batch/events.ts';
import { cellAt } from '../../src/batch/flow.ts';
import type { BatchState } from '../../src/batch/state.ts';
import { beginBatch, lookAtBatch, openBatch } from '../../src/sitting/opening.ts';
import type { World } from '../../src/sitting/world.ts';
import { isFault } from '../../src/store/fault.ts';
import { instantAt, openingOf } from '../batch/playing.ts';
import { anOperation, aVariant, samplePlan } from '../batch/sample-plan.ts';
import { SimulatedDisk } from '../store/simulated-disk.ts';

const id = 'k3v9x2m4p7q1';
const options = { takeFromOtherHost: false, by: 'AB', amendment: () => null };

/** A world on a disk in memory; every look at the clock is three seconds later. */
function aWorld(disk = new SimulatedDisk()): World & { readonly disk: SimulatedDisk } {
  let seconds = 0;
  const self = { host: 'shop', boot: 'first', pid: 7, started: '1', startOf: () => '1', hasSockets: false };
  return {
    disk,
    home: { root: '/data', batches: '/data/batches' },
    configFolder: '/data/config',
    clock: {
      now: () => {
        seconds += 3;
        return instantAt(seconds);
      },
      read: () => ({ wall_ms: 0, mono_ms: 0, boot_ms: 0 }),
    },
    self,
    host: 'shop',
  };
}

const plan = samplePlan({ variants: [aVariant('only', 3)], operations: [anOperation(10), anOperation(20)] });

async function begun(world: World) {
  const opening: BatchEvent & { kind: 'BatchOpened' } = { kind: 'BatchOpened', ...openingOf(plan) };
  expect(await beginBatch(world, id, 'AB', opening)).toBeUndefined();
  const opened = await openBatch(world, id, options);
  if (opened.kind !== 'opened') throw new Error(`not opened: ${JSON.stringify(opened)}`);
  return opened;
}

function goodAt10(state: BatchState): number {
  return state.kind === 'none' ? -1 : cellAt(state, 0).good;
}

/** Passes the cards that are up, then counts once. */
async function countOne(opened: Awaited<ReturnType<typeof begun>>) {
  for (;;) {
    const { state } = opened.sitting.read();
    const card = state.kind === 'none' ? undefined : state.cards[0];
    if (card === undefined) break;
    await opened.sitting.send({ kind: 'passCard', id: card.id, shown_ms: 5000, answer: { kind: 'pass' } });
  }
  return opened.sitting.send({ kind: 'count', quick: false });
}

describe('a sitting', () => {
  it('[P1] tells a count only when the journal on the disk has it flushed', async () => {
    const world = aWorld();
    const opened = await begun(world);
    const told: Promise<number>[] = [];
    opened.sitting.subscribe(() => {
      const shown = goodAt10(opened.sitting.read().state);
      if (shown === 0) return;
      // What a power cut at this very moment would leave of unflushed changes: nothing.
      const left = world.disk.afterPowerCut(() => 0);
      told.push(
        lookAtBatch({ ...world, disk: left }, id).then((look) => (isFault(look) ? -1 : goodAt10(look.state) - shown)),
      );
    });
    await countOne(opened);
    await countOne(opened);
    expect(told.length).toBeGreaterThan(1);
    for (const difference of await Promise.all(told)) expect(difference).toBeGreaterThanOrEqual(0);
  });

  it('[P3] counts nothing when the disk is full, says so, and goes on when there is room again', async () => {
    const world = aWorld();
    const opened = await begun(world);
    await countOne(opened);
    world.disk.fail = { atCall: world.disk.calls + 1, code: 'ENOSPC', forever: true, only: 'write' };
    const failed = await countOne(opened);
    expect(failed.kind === 'fault' && failed.fault.what).toContain('the disk is full');
    expect(goodAt10(opened.sitting.read().state)).toBe(1);
    world.disk.fail = undefined;
    expect((await countOne(opened)).kind).toBe('counted');
    expect(goodAt10(opened.sitting.read().state)).toBe(2);
  });

  it('takes presses in their order, each at the moment of its key', async () => {
    const opened = await begun(aWorld());
    await countOne(opened);
    const all = await Promise.all([
      opened.sitting.send({ kind: 'count', quick: false }),
      opened.sitting.send({ kind: 'takeBack' }),
      opened.sitting.send({ kind: 'count', quick: false }),
    ]);
    expect(all.map((said) => said.kind)).toEqual(['counted', 'done', 'counted']);
    expect(goodAt10(opened.sitting.read().state)).toBe(2);
  });

  it('[P3] a press while the batch is being left is refused, not passed over in silence', async () => {
    const opened = await begun(aWorld());
    const leaving = opened.leave('left');
    const late = await opened.sitting.send({ kind: 'count', quick: false });
    expect(late.kind).toBe('refused');
    await leaving;
  });

  it('[P14] what is reopened is what was left', async () => {
    const world = aWorld();
    const opened = await begun(world);
    await countOne(opened);
    await opened.leave('left');
    const before = opened.sitting.read().state;
    const again = await lookAtBatch(world, id);
    expect(!isFault(again) && again.state).toEqual(before);
  });

  it('[P4] a batch that is open in a running process is held, and its owner named', async () => {
    const world = aWorld();
    await begun(world);
    const second = { ...world, self: { ...world.self, pid: 8 } };
    const answer = await openBatch(second, id, options);
    expect(answer.kind === 'held' && answer.owner?.pid).toBe(7);
  });

  it('after a cut the time since the newest line is unknown, not run time', async () => {
    const world = aWorld();
    const opened = await begun(world);
    await countOne(opened);
    // The process is gone without a word: another one of the same computer goes on.
    const next = { ...world, self: { ...world.self, pid: 9, startOf: (pid: number) => (pid === 9 ? '1' : undefined) } };
    const again = await openBatch(next, id, options);
    const state = again.kind === 'opened' ? again.sitting.read().state : null;
    if (state === null || state.kind === 'none') throw new Error('not opened');
    expect(state.accounts.unknown).toBe(3000);
    expect(state.cards[0]?.kind).toBe('resume');
  });
});
