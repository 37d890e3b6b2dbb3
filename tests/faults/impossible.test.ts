import { describe, expect, it } from 'vitest';
import { decide } from '../../src/batch/decide.ts';
import { type BatchState, noBatch } from '../../src/batch/state.ts';
import { noPastWork } from '../../src/forecast/batch-job.ts';
import { formatReportText } from '../../src/report/forms/text.ts';
import { makeReport } from '../../src/report/make-report.ts';
import { followLine } from '../../src/sitting/following.ts';
import { lookAtBatch, openBatch } from '../../src/sitting/opening.ts';
import { standingOf } from '../../src/sitting/standing.ts';
import { isFault } from '../../src/store/fault.ts';
import { JOURNAL_VERSION } from '../../src/store/journal-line.ts';
import { instantAt, openingOf } from '../batch/playing.ts';
import { commandOf } from '../batch/random-commands.ts';
import { twoVariantPlan } from '../batch/sample-plan.ts';
import { makeChance, pickBelow } from './chance.ts';
import { FOLDER, PATH, worldWith } from './memory-world.ts';
import { BATCH } from './real-batch.ts';
import { crcOf, eveningOf, linesOf, rewritten } from './real-journal.ts';

// Journals whose checksums hold and whose lines have the right shape, but that no batch can have written: put together by a
// careful hand, or by a program that went wrong.

const lines = linesOf(eveningOf(40), BATCH);
const seed = Number(process.env['MILLSIDE_FAULTS_SEED'] ?? 8);
const TURNS = { long: 5000, few: 60 }[process.env['MILLSIDE_FAULTS'] ?? ''] ?? 300;
const PATIENCE_MS = TURNS > 1000 ? 3_600_000 : 90_000;
const options = { takeFromOtherHost: false, by: 'AB', amendment: () => null };

type Fields = Record<string, unknown> & { events: Record<string, unknown>[] };

/** The journal with line `index` changed, and all behind it chained to it anew. */
function changedAt(index: number, change: (fields: Fields) => void): Buffer {
  const made: Buffer[] = [];
  for (const [at, line] of lines.entries()) {
    const prev = at === 0 ? '00000000' : crcIn(made[at - 1] ?? Buffer.alloc(0));
    made.push(
      rewritten(line, (fields) => {
        if (at === index) change(fields as Fields);
        fields['prev'] = prev;
      }),
    );
  }
  return Buffer.concat(made);
}

function crcIn(line: Buffer): string {
  const text = line.toString();
  return crcOf(text.slice(0, text.lastIndexOf(',"crc"')));
}

function offsetOf(bytes: Buffer, line: number): number {
  let offset = 0;
  for (let before = 0; before < line; before += 1) offset = bytes.indexOf(10, offset) + 1;
  return offset;
}

const nowhere = { operation: 77, lane: '*' };
const impossible: readonly (readonly [string, number, (fields: Fields) => void])[] = [
  ['a second opening', 9, (fields) => Object.assign(fields, { events: [JSON.parse(String(lines[0])).events[0]] })],
  ['a first line that opens nothing', 0, (fields) => Object.assign(fields, { events: [] })],
  [
    'a count before the opening',
    0,
    (fields) =>
      Object.assign(fields, {
        events: [{ kind: 'LoadCounted', ...nowhere, good: 1, scrap: [], ms: null, leftOut: null, quick: false }],
      }),
  ],
  [
    'a count in an operation that is not there',
    20,
    (fields) =>
      Object.assign(fields, {
        events: [{ kind: 'LoadCounted', ...nowhere, good: 1, scrap: [], ms: null, leftOut: null, quick: false }],
      }),
  ],
  [
    'a card passed that was never raised',
    20,
    (fields) => Object.assign(fields, { events: [{ kind: 'CardPassed', id: 'card 900', proved: true, shown_ms: 1 }] }),
  ],
  [
    'a take-back of nothing',
    20,
    (fields) => Object.assign(fields, { events: [{ kind: 'TakenBack', entry: 900, what: 'LoadCounted' }] }),
  ],
  [
    'a plan of more pieces than a batch may have',
    0,
    ({ events }) => {
      const plan = events[0]?.['plan'] as { variants: { quantity: number }[] } | undefined;
      for (const variant of plan?.variants ?? []) variant.quantity = 6000;
    },
  ],
  [
    'more pieces begun than a batch may have',
    20,
    (fields) =>
      Object.assign(fields, {
        events: [{ kind: 'MoreStarted', operation: 10, lane: '*', pieces: 2 ** 40, reason: 'for stock' }],
      }),
  ],
  [
    'work behind the end',
    20,
    (fields) => Object.assign(fields, { events: [{ kind: 'BatchGivenUp', reason: 'no stock' }, { kind: 'Resumed' }] }),
  ],
];

describe('a journal whose lines are whole but make no sense', () => {
  it.each(impossible)(
    '[P2] [P8] %s: opening refuses with a reason and a place, and writes nothing',
    async (_, at, change) => {
      const bytes = changedAt(at, change);
      const world = worldWith(bytes);
      const opened = await openBatch(world, BATCH, options);
      if (!isFault(opened)) throw new Error(`it was ${opened.kind}`);
      expect(opened.code).toBe(65);
      expect(opened.what).toContain('the journal can only be looked at: ');
      expect(opened.where).toContain(`line ${at + 1}, byte ${offsetOf(bytes, at)}`);
      expect(world.disk.bytesOf(PATH).equals(bytes)).toBe(true);
      expect(world.disk.namesIn(FOLDER)).toEqual(['journal.jsonl']);
    },
  );

  it.each(impossible)(
    '[P2] [P8] %s: looking shows what stands before it and names the place',
    async (_, at, change) => {
      const bytes = changedAt(at, change);
      const looked = await lookAtBatch(worldWith(bytes), BATCH);
      if (isFault(looked)) throw new Error(looked.what);
      const offset = offsetOf(bytes, at);
      expect(looked.damage).toMatchObject({ kind: 'impossible', offset, length: bytes.length - offset });
      expect(looked.state.kind === 'none').toBe(at === 0);
    },
  );

  it(
    '[P8] numbers of any size in any event are answered by a state or a reason, never by a bug',
    async () => {
      const chance = makeChance(seed);
      const wild = [0, 1, 2, 3, 7, 99, 10_000, 2 ** 31, 1e15];
      const refused = { looked: 0, opened: 0 };
      for (let turn = 0; turn < TURNS; turn += 1) {
        const at = pickBelow(chance, lines.length);
        const bytes = changedAt(at, ({ events }) => {
          scramble(events, (value) => (chance() < 0.3 ? (wild[pickBelow(chance, wild.length)] ?? value) : value));
        });
        const name = `turn ${turn}, line ${at + 1}`;
        const world = worldWith(bytes);
        const looked = await lookAtBatch(world, BATCH);
        if (isFault(looked)) throw new Error(`${name}: ${looked.what}`);
        if (looked.damage !== undefined) refused.looked += 1;
        expectShown(looked.state, name);
        const opened = await openBatch(world, BATCH, options);
        if (isFault(opened)) expect(opened.code, name).toBe(65);
        if (isFault(opened)) refused.opened += 1;
        if (opened.kind !== 'opened') continue;
        for (const kind of ['count', 'takeBack', 'count'] as const) {
          await opened.sitting.send(kind === 'count' ? { kind, quick: false } : { kind });
          expectShown(opened.sitting.read().state, name);
        }
        await opened.leave('left');
      }
      expect(refused.opened).toBeGreaterThan(TURNS / 10);
      expect(refused.opened).toBe(refused.looked);
    },
    PATIENCE_MS,
  );
});

describe('lines that the program itself decides', { timeout: PATIENCE_MS }, () => {
  it('[P2] are followed when they are read, whatever commands they came from', () => {
    const chance = makeChance(seed + 1);
    for (let evening = 0; evening < TURNS; evening += 1) {
      const plan = twoVariantPlan({ threaded: 1 + (evening % 4), clearance: 2, spares: evening % 3 });
      let state: BatchState = noBatch;
      for (let seq = 1; seq <= 120; seq += 1) {
        const press = { pick: pickBelow(chance, 100), a: pickBelow(chance, 6), b: pickBelow(chance, 6), seconds: 0 };
        const command = commandOf(state, press);
        const at = instantAt(seq * 30);
        const outcome = decide(state, command, { at, opening: openingOf(plan) });
        if (outcome.kind === 'refused') continue;
        state = followLine(state, {
          v: JOURNAL_VERSION,
          seq,
          prev: '',
          batch: BATCH,
          crc: '',
          by: '',
          at,
          command,
          events: [...outcome.events],
        });
      }
      expect(state.kind).not.toBe('none');
    }
  });
});

describe('a journal whose moments make no sense', () => {
  const moments: readonly (readonly [string, Record<string, unknown>])[] = [
    ['a zone that is not there', { zone: 'Nowhere/At all' }],
    ['an empty zone', { zone: '' }],
    ['a year beyond every calendar', { wall_ms: 9e15 }],
    ['a year before every calendar', { wall_ms: -9e15 }],
    ['a wall clock of 1970', { wall_ms: 0 }],
    ['half milliseconds', { wall_ms: 1_803_888_000_000.5, mono_ms: 7.25 }],
    ['a monotonic clock that ran backwards', { mono_ms: -1e15 }],
    ['a monotonic clock far ahead', { mono_ms: 1e15 }],
    ['an empty boot', { boot: '' }],
  ];

  it.each(moments)('[P5] [P8] %s: status and report answer, or a reason does', async (name, wrong) => {
    for (const at of [0, 1, 20, lines.length - 1]) {
      const bytes = changedAt(at, (fields) => Object.assign(fields['at'] as object, wrong));
      const looked = await lookAtBatch(worldWith(bytes), BATCH);
      if (isFault(looked)) throw new Error(looked.what);
      expectShown(looked.state, `${name}, line ${at + 1}`);
      const opened = await openBatch(worldWith(bytes), BATCH, options);
      if (isFault(opened)) expect(opened.code).toBe(65);
      if (opened.kind === 'opened') expectShown(opened.sitting.read().state, `${name}, line ${at + 1}, opened`);
    }
  });

  it('[P5] [P8] a shop zone that is not there is answered too', async () => {
    const bytes = changedAt(0, (fields) => Object.assign(fields.events[0] ?? {}, { zone: 'Nowhere/At all' }));
    const looked = await lookAtBatch(worldWith(bytes), BATCH);
    if (isFault(looked)) throw new Error(looked.what);
    expectShown(looked.state, 'a wrong zone');
  });
});

/** Changes every number anywhere in `value` in place. */
function scramble(value: unknown, change: (value: number) => number): void {
  if (typeof value !== 'object' || value === null) return;
  const fields = value as Record<string, unknown>;
  for (const [key, inner] of Object.entries(fields)) {
    if (typeof inner === 'number') fields[key] = change(inner);
    else scramble(inner, change);
  }
}

/** What status and report say of a state must come without a bug. */
function expectShown(state: BatchState, name: string): void {
  if (state.kind === 'none') return;
  const now = instantAt(2_000_000);
  try {
    standingOf(BATCH, state, { now, holder: null, past: noPastWork, question: null });
    formatReportText(makeReport(state, now, { batch: BATCH }), { columns: 80 });
  } catch (error) {
    throw new Error(`${name}: ${error instanceof Error ? error.stack : error}`);
  }
}
