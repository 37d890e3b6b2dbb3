import { describe, expect, it } from 'vitest';
import { BATCH, beginDraft, type Command, countDraft, type Event, form } from '../store/counting.ts';
import { exploreCrashes } from './crash-explorer.ts';
import type { Subject } from './sitting-script.ts';

const isLong = process.env['MILLSIDE_FAULTS'] === 'long';
const seed = Number(process.env['MILLSIDE_FAULTS_SEED'] ?? 4);
const wanted = Number(process.env['MILLSIDE_FAULTS_STATES'] ?? (isLong ? 200_000 : 12_000));

const counting: Subject<Command, Event> = {
  batch: BATCH,
  form,
  begin: () => beginDraft(),
  press: countDraft,
  pressesOf: (lines) => lines.flatMap((line) => (line.command.kind === 'count' ? [line.command.n ?? 0] : [])),
};

describe('a crash at any call', () => {
  it(`[P1] [P2] [P3] ${wanted} states, each opened again, its repair crashed too: no acknowledged piece is lost`, {
    timeout: isLong ? 3_600_000 : 120_000,
  }, async () => {
    const figures = await exploreCrashes(counting, seed, wanted);
    console.log(`crash states: ${JSON.stringify({ seed, ...figures })}`);
    expect(figures.broken).toEqual([]);
    expect(figures.states).toBeGreaterThanOrEqual(wanted);
    expect(figures.repaired).toBeGreaterThan(100);
    expect(figures.repairsCrashed).toBeGreaterThan(100);
  });
});
