import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { decide } from '../../src/batch/decide.ts';
import { type BatchState, noBatch } from '../../src/batch/state.ts';
import { noPastWork } from '../../src/forecast/batch-job.ts';
import { lookAtBatch, openBatch } from '../../src/sitting/opening.ts';
import { standingOf } from '../../src/sitting/standing.ts';
import { isFault } from '../../src/store/fault.ts';
import { JOURNAL_VERSION } from '../../src/store/journal-line.ts';
import { instantAt, openingOf } from '../batch/playing.ts';
import { commandOf } from '../batch/random-commands.ts';
import { twoVariantPlan } from '../batch/sample-plan.ts';
import { makeChance, pickBelow } from '../faults/chance.ts';
import { FOLDER, PATH, worldWith } from '../faults/memory-world.ts';
import { BATCH, realBatch } from '../faults/real-batch.ts';
import { linesOf, sealed } from '../faults/real-journal.ts';

// P13: a sample of the program's own batch in every form that a journal ever had, with what it must fold to, kept for good.
// When a new form comes: MILLSIDE_NEW_SAMPLE=1 npx vitest run --config tests/vitest.config.ts tests/store/samples.test.ts
// writes the sample that is missing and no other. A sample that is there is never made again.

const folder = fileURLToPath(new URL('../samples/journals/', import.meta.url));
const samplePath = (version: number) => `${folder}batch-form-${version}.jsonl`;
const statePath = (version: number) => `${folder}batch-form-${version}.state.json`;
const versions = Array.from({ length: JOURNAL_VERSION }, (_, index) => index + 1);
const options = { takeFromOtherHost: false, by: 'AB', amendment: () => null };

/** What stays true of a batch for good, whatever the program is made of later. */
function toldOf(state: BatchState): unknown {
  if (state.kind === 'none') return null;
  const past = noPastWork;
  const { at, operations, elapsed_s, ...standing } = standingOf(BATCH, state, {
    now: state.last,
    holder: null,
    past,
    question: null,
  });
  return {
    kind: state.kind,
    job: standing.job,
    at,
    operations: operations.map(({ number, variant, ordered, good, scrap }) => ({
      number,
      variant,
      ordered,
      good,
      scrap,
    })),
    elapsed_s,
    allotted: state.allotted,
    cards: state.cards.map(({ kind, id }) => `${id} ${kind}`),
    corrections: state.corrections.length,
    suspects: state.suspects.map(({ operation, from, to }) => `${operation}: ${from} to ${to}`),
  };
}

describe('samples of journals', () => {
  it('there is one of every form with the state it must fold to', () => {
    if (process.env['MILLSIDE_NEW_SAMPLE'] === '1') for (const version of versions) makeSample(version);
    const names = readdirSync(folder);
    for (const version of versions) expect(names).toContain(`batch-form-${version}.jsonl`);
    expect(names.filter((name) => /^batch-form-\d+\.jsonl$/.test(name))).toHaveLength(JOURNAL_VERSION);
  });

  it.each(versions)(
    '[P13] [P14] the one of form %i folds to the counts, the place and the times that it always did',
    async (version) => {
      const looked = await lookAtBatch(worldWith(readFileSync(samplePath(version))), BATCH);
      if (isFault(looked)) throw new Error(looked.what);
      expect(looked.damage).toBeUndefined();
      expect(toldOf(looked.state)).toEqual(JSON.parse(readFileSync(statePath(version), 'utf8')));
    },
  );

  it.each(versions)(
    '[P13] the one of form %i is opened and gone on with; what stood there is not rewritten',
    async (version) => {
      const bytes = readFileSync(samplePath(version));
      const world = worldWith(bytes);
      const opened = await openBatch(world, BATCH, options);
      if (opened.kind !== 'opened') throw new Error(JSON.stringify(opened));
      expect(await opened.sitting.send({ kind: 'note', text: 'goes on' })).toMatchObject({ kind: 'done' });
      const told = realBatch.tell(opened.sitting.read().state);
      await opened.leave('left');
      const journal = world.disk.bytesOf(PATH);
      expect(journal.subarray(0, bytes.length).equals(bytes)).toBe(true);
      const added = journal.subarray(bytes.length).toString().trimEnd().split('\n');
      expect(added.map((line) => JSON.parse(line).v)).toEqual([JOURNAL_VERSION, JOURNAL_VERSION, JOURNAL_VERSION]);
      const again = await lookAtBatch(worldWith(journal), BATCH);
      if (isFault(again)) throw new Error(again.what);
      expect(piecesIn(realBatch.tell(again.state))).toEqual(piecesIn(told));
    },
  );

  it.each(versions)(
    '[P13] behind the one of form %i a line of a newer form is shown up to there and never written on',
    async (version) => {
      const bytes = readFileSync(samplePath(version));
      const newer = Buffer.concat([bytes, sealed({ v: JOURNAL_VERSION + 1, seq: 999, something: 'new' })]);
      const world = worldWith(newer);
      const refused = await openBatch(world, BATCH, options);
      expect(refused).toMatchObject({ kind: 'fault', code: 65, what: expect.stringMatching(/newer version/) });
      expect(world.disk.bytesOf(PATH).equals(newer)).toBe(true);
      expect(world.disk.namesIn(FOLDER)).toEqual(['journal.jsonl']);
      const looked = await lookAtBatch(world, BATCH);
      if (isFault(looked)) throw new Error(looked.what);
      expect(looked.damage).toMatchObject({ kind: 'newer', offset: bytes.length });
      expect(toldOf(looked.state)).toEqual(JSON.parse(readFileSync(statePath(version), 'utf8')));
    },
  );
});

/** What leaving changes nothing of: presence, cards and times do change. */
function piecesIn(told: string): unknown {
  const { cells, allotted, corrections, suspects } = JSON.parse(told) as Record<string, unknown>;
  return { cells, allotted, corrections, suspects };
}

const LINES = 180;

/** Writes the sample of a form, and what it folds to, where there is none: a long evening of every kind of command. */
function makeSample(version: number): void {
  if (existsSync(samplePath(version))) return;
  const drafts = everyCommand();
  const bytes = Buffer.concat(linesOf(drafts, BATCH).map((line) => inForm(line, version)));
  const state = drafts.reduce<BatchState>((folded, draft) => realBatch.fold(folded, draft), noBatch);
  writeFileSync(samplePath(version), bytes, { flag: 'wx' });
  writeFileSync(statePath(version), `${JSON.stringify(toldOf(state), null, 1)}\n`, { flag: 'wx' });
}

/** A line as form `version` had it: form 1 had neither `prev` nor `by`. */
function inForm(line: Buffer, version: number): Buffer {
  if (version === JOURNAL_VERSION) return line;
  const { prev: _, by: __, crc: ___, ...fields } = JSON.parse(line.toString()) as Record<string, unknown>;
  return sealed({ ...fields, v: version });
}

function everyCommand() {
  const plan = twoVariantPlan({ threaded: 3, clearance: 3, spares: 2 });
  const changed = twoVariantPlan({ threaded: 4, clearance: 3, spares: 2 });
  const chance = makeChance(13);
  const drafts: ReturnType<typeof realBatch.begin>[] = [];
  let state: BatchState = noBatch;
  for (let seconds = 0; drafts.length < LINES; seconds += 7 + pickBelow(chance, 90)) {
    const press = { pick: pickBelow(chance, 100), a: pickBelow(chance, 5), b: pickBelow(chance, 5), seconds: 0 };
    const command = commandOf(state, press);
    const at = instantAt(seconds, drafts.length < LINES / 2 ? 'first' : 'second');
    const amendment = { planText: 'format: 1 # changed', planSha256: 'e'.repeat(64), plan: changed };
    const outcome = decide(state, command, { at, opening: openingOf(plan), amendment });
    if (outcome.kind === 'refused') continue;
    const draft = { by: state.kind === 'none' ? '' : (state.by ?? ''), at, command, events: outcome.events };
    drafts.push(draft);
    state = realBatch.fold(state, draft);
    if (state.kind !== 'open') throw new Error('the sample ended too early; take another seed');
  }
  return drafts;
}
