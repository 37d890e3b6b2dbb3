// P5: durations come from the monotonic clock, wall time is a label; steps of years, daylight saving and suspend change no
// piece time; monotonic values are never used across a boot; no negative time is shown.
import { describe, expect, it } from 'vitest';
import type { Instant } from '../../src/batch/instant.ts';
import type { Batch } from '../../src/batch/state.ts';
import { makeReport } from '../../src/report/make-report.ts';
import { reportSettingsSchema } from '../../src/report/settings.ts';
import { beginBatch, type Opened, openBatch } from '../../src/sitting/opening.ts';
import type { World } from '../../src/sitting/world.ts';
import { openingOf } from '../batch/playing.ts';
import { anOperation, aVariant, samplePlan } from '../batch/sample-plan.ts';
import { SimulatedDisk } from '../store/simulated-disk.ts';

const id = 'k3v9x2m4p7q1';
const year_ms = 365 * 86_400_000;
const plan = samplePlan({ variants: [aVariant('only', 12)], operations: [anOperation(10)] });

/** Clocks that a test sets by hand: monotonic time goes on by `pass`, wall time by that and by whatever it is set by. */
function handClock(startWall_ms: number) {
  let at = { wall_ms: startWall_ms, zone: 'Europe/Berlin', mono_ms: 1_000_000, boot: 'first' };
  return {
    now: (): Instant => at,
    pass: (ms: number) => {
      at = { ...at, wall_ms: at.wall_ms + ms, mono_ms: at.mono_ms + ms };
    },
    setWall: (by_ms: number) => {
      at = { ...at, wall_ms: at.wall_ms + by_ms };
    },
    reboot: (off_ms: number) => {
      at = { ...at, wall_ms: at.wall_ms + off_ms, mono_ms: 5000, boot: 'second' };
    },
  };
}
type HandClock = ReturnType<typeof handClock>;

async function sitDown(clock: HandClock, disk = new SimulatedDisk()) {
  const world: World = {
    disk,
    home: { root: '/data', batches: '/data/batches' },
    configFolder: '/data/config',
    clock: { now: clock.now, read: () => ({ wall_ms: 0, mono_ms: 0, boot_ms: 0 }) },
    self: { host: 'shop', boot: clock.now().boot, pid: 7, started: '1', startOf: () => '1', hasSockets: false },
    host: 'shop',
  };
  if ((await disk.stat(`/data/batches/${id}`)) === undefined) {
    await beginBatch(world, id, 'AB', { kind: 'BatchOpened', ...openingOf(plan) });
  }
  const opened = await openBatch(world, id, { takeFromOtherHost: false, by: 'AB', amendment: () => null });
  if (opened.kind !== 'opened') throw new Error(JSON.stringify(opened));
  return opened;
}

function batchOf(opened: Opened): Batch {
  const { state } = opened.sitting.read();
  if (state.kind === 'none') throw new Error('no batch');
  return state;
}

/** Passes the cards that are up, three seconds each, then counts after `work_ms`. */
async function countAfter(opened: Opened, clock: HandClock, work_ms: number): Promise<void> {
  for (let card = batchOf(opened).cards[0]; card !== undefined; card = batchOf(opened).cards[0]) {
    clock.pass(3000);
    await opened.sitting.send({ kind: 'passCard', id: card.id, shown_ms: 3000, answer: { kind: 'pass' } });
  }
  clock.pass(work_ms);
  await opened.sitting.send({ kind: 'count', quick: false });
}

const works_ms = [61_000, 58_500, 60_200, 59_900, 62_300];

/** Counts five pieces; `meddle` is called in the middle of each. The times in the report and the accounts. */
async function timesOf(startWall_ms: number, meddle: (clock: HandClock, piece: number) => void) {
  const clock = handClock(startWall_ms);
  const opened = await sitDown(clock);
  for (const [piece, work_ms] of works_ms.entries()) {
    meddle(clock, piece);
    await countAfter(opened, clock, work_ms);
  }
  const batch = batchOf(opened);
  const settings = reportSettingsSchema.parse({});
  const report = makeReport(batch, clock.now(), { batch: id, settings });
  return {
    loads: report.loads.map((load) => load.time_s),
    piece: report.operations[0]?.piece,
    accounts: batch.accounts,
  };
}

const march_ms = Date.UTC(2027, 2, 1, 8);
const untouched = (): void => undefined;

describe('[P5] piece times', () => {
  it('are those of the monotonic clock', async () => {
    const { loads, accounts } = await timesOf(march_ms, untouched);
    expect(loads).toEqual(works_ms.map((ms) => ms / 1000));
    expect(accounts.run).toBe(works_ms.reduce((sum, ms) => sum + ms, 0));
  });

  it.each([
    ['a year forward', year_ms],
    ['a year back', -year_ms],
    ['half a century back, to when the battery was new', -50 * year_ms],
    ['an hour back', -3_600_000],
  ])('do not change when the wall clock is set %s in the middle of a piece', async (_, step_ms) => {
    const plain = await timesOf(march_ms, untouched);
    const stepped = await timesOf(march_ms, (clock, piece) => {
      if (piece === 2) clock.setWall(step_ms);
    });
    expect(stepped).toEqual(plain);
  });

  it('do not change when the clock jumps to and fro at every piece', async () => {
    const plain = await timesOf(march_ms, untouched);
    const stepped = await timesOf(march_ms, (clock, piece) => clock.setWall((piece % 2 === 0 ? 1 : -1) * year_ms));
    expect(stepped).toEqual(plain);
  });

  // Directive 2000/84/EC: summer time begins and ends at 01:00 UTC on the last Sunday of March and of October.
  it.each([
    ['begins', Date.UTC(2027, 2, 28, 0, 58)],
    ['ends', Date.UTC(2027, 9, 31, 0, 58)],
  ])('do not change over the night in which summer time %s', async (_, start_ms) => {
    expect(await timesOf(start_ms, untouched)).toEqual(await timesOf(march_ms, untouched));
  });

  it('leave out the time that the computer slept, and the piece in hand is marked', async () => {
    const clock = handClock(march_ms);
    const opened = await sitDown(clock);
    await countAfter(opened, clock, 60_000);
    clock.pass(20_000);
    // Asleep for two hours: the wall goes on, the monotonic clock stands.
    clock.setWall(7_200_000);
    await opened.sitting.send({ kind: 'noteSuspend', ms: 7_200_000 });
    await countAfter(opened, clock, 60_000);
    const batch = batchOf(opened);
    expect(batch.accounts.run).toBe(140_000);
    expect(batch.accounts.pause).toBe(7_200_000);
    const report = makeReport(batch, clock.now(), { batch: id, settings: reportSettingsSchema.parse({}) });
    expect(report.loads.map((load) => load.left_out)).toEqual([null, 'suspended']);
  });

  it('are never reckoned from monotonic values of two boots, nor negative when the clock was set back between', async () => {
    const clock = handClock(march_ms);
    const disk = new SimulatedDisk();
    const first = await sitDown(clock, disk);
    await countAfter(first, clock, 60_000);
    await first.leave('left');
    clock.reboot(-year_ms);
    const second = await sitDown(clock, disk);
    await countAfter(second, clock, 45_000);
    const batch = batchOf(second);
    const report = makeReport(batch, clock.now(), { batch: id, settings: reportSettingsSchema.parse({}) });
    for (const load of report.loads) expect(load.time_s === null || (load.time_s >= 0 && load.time_s <= 60)).toBe(true);
    for (const ms of Object.values(batch.accounts)) expect(ms).toBeGreaterThanOrEqual(0);
    expect(batch.accounts.run).toBe(105_000);
  });
});
