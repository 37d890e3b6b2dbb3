import { closeSync, openSync, writeSync } from 'node:fs';
import type { BatchEvent } from '../../src/batch/events.ts';
import { journalLimits } from '../../src/store/journal-limits.ts';
import { openingOf } from '../batch/playing.ts';
import { aCheck, anOperation, aVariant, samplePlan } from '../batch/sample-plan.ts';
import { crcOf } from './real-journal.ts';

// Sound journals as long as they may be, each of one kind of line above all: what a hand, a script or a stuck key could make.

type Lines = Generator<readonly BatchEvent[]>;

const OPERATIONS = 99;
const at = { operation: 10, lane: '*' } as const;
const began: BatchEvent = { kind: 'SittingBegan', by: null, host: 'shop', afterCut: false };
const counted = { lane: '*', good: 1, scrap: [], ms: 20_000, leftOut: null, quick: false };

function* opened(lanes = 1): Lines {
  const variants = Array.from({ length: lanes }, (_, lane) => aVariant(`v${lane}`, Math.floor(10_000 / lanes)));
  const operations = Array.from({ length: OPERATIONS }, (_, index) =>
    anOperation(10 * (index + 1), {
      checks: [aCheck('width')],
      // An operation of one variant alone parts them all from there on.
      variants: lanes > 1 && index === 0 ? ['v0'] : [],
    }),
  );
  yield [{ kind: 'BatchOpened', ...openingOf(samplePlan({ variants, operations })) }];
  yield [began, { kind: 'OperationBegun', ...at, lane: lanes > 1 ? 'v0' : '*' }];
}

/** A count after the other, 10,000 through each operation. */
function* counts(): Lines {
  yield* opened();
  for (let operation = 10; ; operation += 10) {
    yield [{ kind: 'OperationBegun', operation, lane: '*' }];
    for (let piece = 0; piece < 10_000; piece += 1) yield [{ kind: 'LoadCounted', ...counted, operation }];
  }
}

/** The same, finished short: nothing of it is in a summary yet. */
function* finished(): Lines {
  let line = 0;
  for (const events of counts()) {
    line += 1;
    if (line === journalLimits.lines) break;
    yield events;
  }
  yield [{ kind: 'BatchFinished', short: {}, reason: 'enough' }];
}

/** Counts of nothing, all in one operation. */
function* emptyCounts(): Lines {
  yield* opened();
  for (;;) yield [{ kind: 'LoadCounted', ...counted, ...at, good: 0 }];
}

/** Counts in a plan of as many lanes and operations as there may be. */
function* countsInManyCells(): Lines {
  yield* opened(20);
  yield [{ kind: 'PoolAllotted', operation: 10, shares: { v0: 500 } }];
  for (let operation = 10; operation <= 10 * OPERATIONS; operation += 10) {
    yield [{ kind: 'OperationBegun', operation, lane: 'v0' }];
    for (let piece = 0; piece < 500; piece += 1) yield [{ kind: 'LoadCounted', ...counted, operation, lane: 'v0' }];
  }
  for (;;) yield [{ kind: 'LoadCounted', ...counted, operation: 10, lane: 'v0', good: 0 }];
}

/** Work here and there by turns. */
function* jumps(): Lines {
  yield* opened();
  for (;;) {
    yield [{ kind: 'OperationBegun', operation: 20, lane: '*' }];
    yield [{ kind: 'OperationBegun', operation: 10, lane: '*' }];
  }
}

function* pauses(): Lines {
  yield* opened();
  for (let number = 1; ; number += 1) {
    yield [{ kind: 'Paused', reason: `reason ${number}` }];
    yield [{ kind: 'Resumed' }];
  }
}

function* sittings(): Lines {
  yield* opened();
  for (let number = 1; ; number += 1) {
    yield [{ kind: 'InitialsGiven', by: `P${number}` }];
    yield [{ kind: 'SittingEnded', why: 'left' }];
    yield [began];
  }
}

function* notes(): Lines {
  yield* opened();
  for (;;) yield [{ kind: 'NoteMade', ...at, text: 'the vice slips '.repeat(13) }];
}

/** A check failed on each piece, then the count taken back. */
function* checksTakenBack(): Lines {
  yield* opened();
  for (let entry = 0; ; entry += 1) {
    yield [{ kind: 'LoadCounted', ...counted, ...at }];
    yield [{ kind: 'Checked', ...at, check: 'width', piece: 1, result: { kind: 'measured', value: 9, within: false } }];
    yield [{ kind: 'TakenBack', entry, what: 'LoadCounted' }];
  }
}

function* checks(): Lines {
  yield* opened();
  yield [{ kind: 'LoadCounted', ...counted, ...at }];
  for (let number = 1; ; number += 1)
    yield [
      {
        kind: 'Checked',
        ...at,
        check: 'width',
        piece: 1,
        result: { kind: 'measured', value: 3 + (number % 7) / 100, within: true },
      },
    ];
}

function* suspects(): Lines {
  yield* opened();
  for (let piece = 1; ; piece += 1) yield [{ kind: 'PiecesSuspected', ...at, check: 'width', from: piece, to: piece }];
}

function* corrections(): Lines {
  yield* opened();
  for (;;) yield [{ kind: 'TargetCorrected', ...at, cut: 0, axis: 'x', by: 0.1, reading: null, reason: 'too wide' }];
}

function* declinedPlans(): Lines {
  yield* opened();
  for (let number = 1; ; number += 1) yield [{ kind: 'PlanChangeDeclined', planSha256: String(number) }];
}

function* scrapReasons(): Lines {
  yield* opened();
  const scrap = Array.from({ length: 10 }, () => ({ place: null, reason: 'dropped' }));
  for (let entry = 0; ; entry += 1) {
    yield [{ kind: 'LoadCounted', ...counted, ...at, good: 0, scrap }];
    yield [{ kind: 'TakenBack', entry, what: 'LoadCounted' }];
  }
}

function* checksOfManyNames(): Lines {
  yield* opened();
  yield [{ kind: 'LoadCounted', ...counted, ...at }];
  for (let number = 1; ; number += 1)
    yield [{ kind: 'Checked', ...at, check: `check ${number}`, piece: 1, result: { kind: 'yes or no', yes: true } }];
}

function* cards(): Lines {
  yield* opened();
  for (let number = 1; ; number += 1) {
    yield [{ kind: 'CardsRaised', cards: [{ ...at, id: `c${number}`, kind: 'batch ended' }] }];
    yield [{ kind: 'CardPassed', id: `c${number}`, proved: false, shown_ms: 10 }];
  }
}

/** The whole plan again and again. */
function* amendments(): Lines {
  const [first, sat] = opened();
  if (first === undefined || sat === undefined) throw new Error('no opening');
  yield first;
  yield sat;
  const [opening] = first;
  if (opening?.kind !== 'BatchOpened') throw new Error('no plan');
  const { plan, planText, planSha256 } = opening;
  for (;;) yield [{ kind: 'PlanAmended', plan, planText, planSha256, changes: ['nothing'] }];
}

/** Notes of 3 MiB. */
function* longNotes(): Lines {
  yield* opened();
  for (;;) yield [{ kind: 'NoteMade', ...at, text: 'the vice slips '.repeat(200_000) }];
}

/** Every kind of long journal by what it is full of. */
export const longKinds = {
  counts,
  finished,
  emptyCounts,
  countsInManyCells,
  jumps,
  pauses,
  sittings,
  notes,
  checks,
  checksTakenBack,
  suspects,
  corrections,
  declinedPlans,
  scrapReasons,
  checksOfManyNames,
  cards,
  amendments,
  longNotes,
} as const satisfies Readonly<Record<string, () => Lines>>;

/** Writes a journal of `kind` to `path`: `most` lines, or as many as the bytes allow. Answers how many. */
export function writeLongJournal(path: string, batch: string, kind: LongKind, most = journalLimits.lines): number {
  const file = openSync(path, 'w', 0o600);
  let [prev, seq, bytes] = ['00000000', 0, 0];
  for (const events of longKinds[kind]()) {
    const at = {
      wall_ms: 1_800_000_000_000 + seq * 20_000,
      zone: 'Europe/Berlin',
      mono_ms: seq * 20_000,
      boot: 'first',
    };
    const command = seq === 0 ? { kind: 'openBatch' } : { kind: 'count', quick: false };
    const head = JSON.stringify({ v: 2, seq: seq + 1, prev, batch, by: 'AB', at, command, events }).slice(0, -1);
    const crc = crcOf(head);
    const line = Buffer.from(`${head},"crc":"${crc}"}\n`);
    if (seq === most || bytes + line.length > journalLimits.bytes) break;
    writeSync(file, line);
    [prev, seq, bytes] = [crc, seq + 1, bytes + line.length];
  }
  closeSync(file);
  return seq;
}

export type LongKind = keyof typeof longKinds;
