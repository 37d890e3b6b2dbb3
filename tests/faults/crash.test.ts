import { describe, expect, it } from 'vitest';
import { BATCH, beginDraft, type Command, countDraft, countOf, type Event, form } from '../store/counting.ts';
import { exploreCrashes, type Figures } from './crash-explorer.ts';
import { realBatch } from './real-batch.ts';
import type { Subject } from './sitting-script.ts';

// Together at least 10,000 distinct crash states a run: most of the smallest batch there is, whose lines are short, the rest
// of the program's own batch, whose lines come from commands. The long run explores twenty times as many.

const isLong = process.env['MILLSIDE_FAULTS'] === 'long';
const seed = Number(process.env['MILLSIDE_FAULTS_SEED'] ?? 4);
const wanted = Number(process.env['MILLSIDE_FAULTS_STATES'] ?? (isLong ? 140_000 : 7000));
const wantedReal = Number(process.env['MILLSIDE_FAULTS_STATES'] ?? (isLong ? 70_000 : 3500));
const timeout = isLong ? 7_200_000 : 120_000;

const counting: Subject<Command, Event, number> = {
  batch: BATCH,
  form,
  nothing: 0,
  begin: () => beginDraft(),
  press: (_, number) => countDraft(number),
  fold: (count, line) => count + countOf([line]),
  mark: (line) => String(line.command.n),
  tell: (count) => `${count} pieces`,
};

describe('a crash at any call', () => {
  it(`[P1] [P2] [P3] ${wanted} states, each opened again, its repair crashed too: no acknowledged piece is lost`, {
    timeout,
  }, async () => {
    expectKept(await exploreCrashes(counting, seed, wanted, { presses: 4, failures: 1 }), wanted);
  });

  it(`[P1] [P2] [P3] [P14] ${wantedReal} states of the program's own batch: counts, lanes and next point are as acknowledged`, {
    timeout,
  }, async () => {
    const commands = new Set<string>();
    const watched: typeof realBatch = {
      ...realBatch,
      press: (...at) => {
        const draft = realBatch.press(...at);
        commands.add(draft.command.kind);
        return draft;
      },
    };
    expectKept(await exploreCrashes(watched, seed, wantedReal, { presses: 14, failures: 0.15 }), wantedReal);
    console.log(`commands: ${[...commands].sort().join(' ')}`);
    for (const kind of ['beginSitting', 'count', 'passCard', 'takeBack', 'reject', 'pause', 'resume', 'recount'])
      expect(commands).toContain(kind);
  });
});

function expectKept(figures: Figures, states: number): void {
  console.log(`crash states: ${JSON.stringify({ seed, ...figures })}`);
  expect(figures.broken).toEqual([]);
  expect(figures.states).toBeGreaterThanOrEqual(states);
  expect(figures.repaired).toBeGreaterThan(100);
  expect(figures.repairsCrashed).toBeGreaterThan(100);
}
