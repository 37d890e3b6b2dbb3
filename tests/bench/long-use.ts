/**
 * Long use, over the disk of this computer: a batch of 10,000 pieces and one of 100,000 counts opened and pressed, 2,000
 * finished batches listed, an evening of twelve hours played through keys, journal, forecast and drawn frames, and the built
 * program asked about the longest journal of each kind.
 * Run: node tests/bench/run.mjs long-use [counts] [shelf] [evening] [longest]
 */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { rehearse, seededChance } from '../../src/batch/rehearsal.ts';
import { batchRow } from '../../src/cli/batches.ts';
import { makeServices } from '../../src/cli/services.ts';
import { makeController } from '../../src/screen/app/controller.ts';
import { drawApp } from '../../src/screen/app/draw.ts';
import type { Key } from '../../src/screen/terminal/key.ts';
import { readPastBatches } from '../../src/sitting/history.ts';
import { lookAtBatch, openBatch } from '../../src/sitting/opening.ts';
import { settingsSchema } from '../../src/sitting/settings.ts';
import { makeWorld, type World } from '../../src/sitting/world.ts';
import { listBatches, makeBatchId } from '../../src/store/batches.ts';
import { isFault } from '../../src/store/fault.ts';
import { instantAt, openingOf } from '../batch/playing.ts';
import { twoVariantPlan } from '../batch/sample-plan.ts';
import { askProgram } from '../faults/ask-program.ts';
import { type LongKind, longKinds, writeLongJournal } from '../faults/huge-journals.ts';
import { journalOf, longBatch } from '../faults/long-batch.ts';

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;
const options = { takeFromOtherHost: false, by: null, amendment: () => null };

function report(what: string, ...figures: readonly string[]): void {
  process.stdout.write(`${what.padEnd(58)} ${figures.join(', ')}\n`);
}

const inMs = (ms: number): string => `${ms < 10 ? ms.toFixed(2) : ms.toFixed(0)} ms`;

/** Median, 99th of a hundred, and slowest. */
function spread(times: readonly number[]): readonly string[] {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share: number): string =>
    inMs(sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? 0);
  return [`median ${at(0.5)}`, `p99 ${at(0.99)}`, `slowest ${at(1)}`];
}

async function timed<T>(act: () => Promise<T>): Promise<{ readonly got: T; readonly ms: number }> {
  const began = performance.now();
  const got = await act();
  return { got, ms: performance.now() - began };
}

async function medianOf(times: number, act: () => Promise<unknown>): Promise<string> {
  const taken: number[] = [];
  for (let turn = 0; turn < times; turn += 1) taken.push((await timed(act)).ms);
  return inMs(taken.sort((a, b) => a - b)[Math.floor(times / 2)] ?? 0);
}

function residentMb(): string {
  collect();
  const { rss, heapUsed } = process.memoryUsage();
  return `${(heapUsed / 1e6).toFixed(1)} MB heap, ${(rss / 1e6).toFixed(0)} MB resident`;
}

function aHome(): World {
  const root = mkdtempSync(join(tmpdir(), 'millside-long-'));
  mkdirSync(join(root, 'batches'), { recursive: true });
  process.on('exit', () => rmSync(root, { recursive: true, force: true }));
  return makeWorld({ ...process.env, MILLSIDE_HOME: root, MILLSIDE_CONFIG: join(root, 'config') });
}

/** Puts a batch of these lines into the data folder; the journal's size. */
function place(world: World, id: string, drafts: Parameters<typeof journalOf>[1]): number {
  const bytes = journalOf(id, drafts);
  mkdirSync(join(world.home.batches, id), { recursive: true });
  writeFileSync(join(world.home.batches, id, 'journal.jsonl'), bytes);
  return bytes.length;
}

async function counts(): Promise<void> {
  for (const [pieces, operations] of [
    [10_000, 1],
    [10_000, 10],
  ] as const) {
    const world = aHome();
    const id = makeBatchId();
    const bytes = place(world, id, longBatch(pieces, operations));
    const name = `${pieces * operations} counts (${(bytes / 1e6).toFixed(1)} MB)`;
    report(`${name}: looked at`, await medianOf(5, () => lookAtBatch(world, id)));
    const { got: opened, ms } = await timed(() => openBatch(world, id, options));
    if (opened.kind !== 'opened') throw new Error(JSON.stringify(opened));
    report(`${name}: opened to work`, inMs(ms), residentMb());
    const services = makeServices({ world, settings: settingsSchema.parse({}), plans: [], plan: stillWatch });
    const keys: number[] = [];
    const words: number[] = [];
    for (let key = 0; key < 300; key += 1) {
      const { state } = opened.sitting.read();
      const card = state.kind === 'none' ? undefined : state.cards[0];
      const { ms: pressed } = await timed(() =>
        opened.sitting.send(
          card === undefined
            ? { kind: 'count', quick: false }
            : { kind: 'passCard', id: card.id, shown_ms: 3000, answer: { kind: 'pass' } },
        ),
      );
      keys.push(pressed);
      const began = performance.now();
      services.outlook(opened.sitting.read().state, world.clock.now());
      words.push(performance.now() - began);
    }
    report(`${name}: a key, flushed`, ...spread(keys));
    report(`${name}: the first finish in words, behind the opening`, inMs(words[0] ?? Number.NaN));
    report(`${name}: the finish in words, behind each key`, ...spread(words.slice(1)));
    const back = await timed(() => opened.sitting.send({ kind: 'takeBack' }));
    const again = await timed(async () => services.outlook(opened.sitting.read().state, world.clock.now()));
    report(`${name}: take back, and the finish behind it`, inMs(back.ms), inMs(again.ms));
    await opened.leave('left');
  }
}

const stillWatch = { sight: () => ({ kind: 'as opened' }) as const, look: () => {} };

const SHELF = 2000;

async function shelf(): Promise<void> {
  const world = aHome();
  const plan = twoVariantPlan({ threaded: 3, clearance: 3, spares: 1 });
  for (let batch = 0; batch < SHELF; batch += 1) {
    const { lines } = rehearse(openingOf(plan), instantAt(batch * 90_000), seededChance(batch));
    place(
      world,
      makeBatchId(),
      lines.map((line) => ({ by: '', ...line })),
    );
  }
  const { got: entries, ms } = await timed(() => listBatches(world.disk, world.home));
  if (isFault(entries)) throw new Error(entries.what);
  report(`${entries.length} finished batches: folders listed`, inMs(ms));
  const rows = await timed(async () => {
    for (const entry of entries) await batchRow(world, entry);
  });
  report('  a row of each, as `millside batches` shows', inMs(rows.ms));
  const services = makeServices({ world, settings: settingsSchema.parse({}), plans: [], plan: stillWatch });
  report('  the list to choose from', await medianOf(3, () => services.offers()));
  report('  history, summaries made from the journals', inMs((await timed(() => readPastBatches(world))).ms));
  report('  history, summaries there', await medianOf(3, () => readPastBatches(world)), residentMb());
}

const HOURS = 12;
const COUNT_EVERY_S = 20;

/** Twelve hours at one batch: Enter every twenty seconds, a frame every second, memory each two hours. */
async function evening(): Promise<void> {
  let seconds = 0;
  const home = aHome();
  const clock = { now: () => instantAt(seconds), read: () => ({ wall_ms: 0, mono_ms: 0, boot_ms: 0 }) };
  const world: World = { ...home, clock };
  const id = makeBatchId();
  const plan = twoVariantPlan({ threaded: 2000, clearance: 2000 });
  place(world, id, [
    { by: '', at: instantAt(0), command: { kind: 'openBatch' }, events: [{ kind: 'BatchOpened', ...openingOf(plan) }] },
  ]);
  const services = makeServices({ world, settings: settingsSchema.parse({}), plans: [], plan: stillWatch });
  const controller = makeController({
    services,
    hand: 'right',
    ownKeys: {},
    guardMs: 1200,
    digitRows: 5,
    mayTry: false,
    isBellOn: false,
    bell: () => {},
    columns: () => 100,
    leave: () => {},
  });
  await controller.start({ kind: 'batch', id });
  const enter: Key = { name: 'enter', text: '', ctrl: false, alt: false, shift: false } as unknown as Key;
  const theme = { view: 'screen', colour: true, ascii: false, ground: 'dark' } as const;
  const frames: number[] = [];
  const memory: number[] = [];
  const began = performance.now();
  for (seconds = 10; seconds < HOURS * 3600; seconds += 1) {
    if (seconds % COUNT_EVERY_S === 0) {
      controller.press(enter);
      const { stage } = controller.read();
      while (stage.kind === 'batch' && stage.opened.sitting.read().savingSince !== null)
        await new Promise(setImmediate);
    }
    const drawn = performance.now();
    drawApp({ app: controller.read(), services, now: services.now(), theme, columns: 100, rows: 30 });
    frames.push(performance.now() - drawn);
    if (seconds % 7200 === 0) {
      collect();
      memory.push(process.memoryUsage().heapUsed);
    }
  }
  const { stage } = controller.read();
  const state = stage.kind === 'batch' ? stage.opened.sitting.read().state : null;
  const good = state === null || state.kind === 'none' ? [] : state.cells.map((cell) => cell.good);
  report(`${HOURS} hours, a key every ${COUNT_EVERY_S} s, a frame every second`, `counted ${good.join('/')}`);
  report('  played in', inMs(performance.now() - began));
  report('  a frame, finish in words included', ...spread(frames));
  report('  heap each two hours', memory.map((bytes) => (bytes / 1e6).toFixed(1)).join(' '), residentMb());
}

/** What `status` and `report` of the built program take for the longest journal of each kind: processor and memory. */
async function longest(): Promise<void> {
  for (const kind of Object.keys(longKinds) as LongKind[]) {
    const root = mkdtempSync(join(tmpdir(), 'millside-longest-'));
    const id = makeBatchId();
    mkdirSync(join(root, 'batches', id), { recursive: true });
    const lines = writeLongJournal(join(root, 'batches', id, 'journal.jsonl'), id, kind);
    for (const word of ['status', 'report']) {
      const env = { MILLSIDE_HOME: root, MILLSIDE_CONFIG: join(root, 'config') };
      const { cpu_ms, bytes } = await askProgram(env, word, id);
      report(`${lines} lines of ${kind}: ${word}`, inMs(cpu_ms), `${(bytes / 1e6).toFixed(0)} MB`);
    }
    rmSync(root, { recursive: true });
  }
}

const parts = { counts, shelf, evening, longest };
const wanted = process.argv.slice(2);
for (const [name, part] of Object.entries(parts)) {
  if (wanted.length === 0 || wanted.includes(name)) await part();
}
process.exit(0);
