/**
 * The history of finished batches, the one reader of it: the forecast's past work, estimates by kind, tool and material,
 * batches of one plan side by side, and what the same operation took last time all come from here. Part of P14: a summary
 * is believed while it matches its journal, else made again from it; nothing stops when it cannot be kept.
 */

import type { Command } from '../batch/commands.ts';
import type { BatchEvent } from '../batch/events.ts';
import type { Batch, BatchState } from '../batch/state.ts';
import { noBatch } from '../batch/state.ts';
import { noPastWork, type PastWork, pastWorkFrom } from '../forecast/batch-job.ts';
import { batchLesson } from '../forecast/batch-lesson.ts';
import { pastTimeFrom } from '../forecast/history.ts';
import type { PastTimes } from '../plan/resolve/estimates.ts';
import { makeReport } from '../report/make-report.ts';
import { type BatchSummary, batchSummarySchema, summaryOf } from '../report/summary.ts';
import { type BatchEntry, listBatches } from '../store/batches.ts';
import { type Fault, isFault, makeFault } from '../store/fault.ts';
import { type History, type Rebuild, readHistory } from '../store/history.ts';
import { type JournalLimits, journalLimits } from '../store/journal-limits.ts';
import type { JournalLine } from '../store/journal-line.ts';
import { lookAtJournal } from '../store/journal-look.ts';
import { holdsAny } from '../store/journal-search.ts';
import { readSummary, writeSummary } from '../store/summary.ts';
import { followLine } from './following.ts';
import { batchLineForm, type World } from './world.ts';

export type PastBatches = {
  /** Batches that are over, oldest first. */
  readonly summaries: readonly BatchSummary[];
  /** What they teach the forecast of the next. */
  readonly past: PastWork;
  /** Batches whose journal cannot be read: left out. */
  readonly faults: readonly Fault[];
};

/** A shop without a batch that is over. */
export const noPastBatches: PastBatches = { summaries: [], past: noPastWork, faults: [] };

/** Reads the history; summaries that are missing or do not hold are made again. */
export async function readPastBatches(world: World): Promise<PastBatches | Fault> {
  const history: History<BatchSummary> | Fault = await readHistory(
    world.disk,
    world.home,
    batchSummarySchema,
    rebuildIn(world),
  );
  if (isFault(history)) return history;
  const summaries = history.finished
    .map((one) => one.summary)
    .sort((one, other) =>
      one.closed === other.closed ? (one.batch < other.batch ? -1 : 1) : one.closed < other.closed ? -1 : 1,
    );
  return { summaries, past: pastWorkFrom(summaries.flatMap((one) => one.lesson ?? [])), faults: history.faults };
}

/** What has to be said when the history is wanted beside other things: none at all rather than a stop. */
export async function readPastBatchesOrNone(world: World): Promise<PastBatches> {
  const read = await readPastBatches(world);
  return isFault(read) ? { ...noPastBatches, faults: [read] } : read;
}

/** What the finished batches say of work for which a plan states no time, in the form in which resolving asks for it. */
export async function readPastTimes(world: World): Promise<PastTimes> {
  const { past } = await readPastBatchesOrNone(world);
  return ({ plan, operation, kind, tool, material, computed_s }) => {
    const known = tool === undefined ? {} : { tool: tool.slice(0, 200) };
    const work = { kind, ...known, material: material.slice(0, 200), plan: plan.slice(0, 200), operation };
    return pastTimeFrom(past.lessons, work, computed_s);
  };
}

/** Whether a kept summary says that the batch is over; false where nobody can say without reading the journal. */
export const isKnownOver = async (world: World, entry: BatchEntry): Promise<boolean> =>
  (await readSummary(world.disk, entry.folder, entry.id, batchSummarySchema)) !== undefined;

/** Keeps the summary of a batch that has just ended; what goes wrong is left for the next reading of the history. */
export async function keepSummary(world: World, id: string): Promise<void> {
  const entries = await listBatches(world.disk, world.home);
  const entry = isFault(entries) ? undefined : entries.find((one) => one.id === id);
  if (entry === undefined) return;
  const made = await rebuildIn(world)(entry);
  if (made.kind === 'finished') await writeSummary(world.disk, entry.folder, id, entry.bytes, made.summary);
}

/**
 * How a summary is made again from a journal. Of a batch that goes on only the first line is read: folding all of it here
 * again would cost whoever asks for its status as much as the status itself.
 */
function rebuildIn(world: World): Rebuild<BatchSummary> {
  return async (entry) => {
    const mayBeOver = await holdsAny(world.disk, entry.folder, endings);
    if (isFault(mayBeOver)) return mayBeOver;
    const folded = await foldedCounts(world, entry, mayBeOver ? journalLimits : firstLine);
    if (isFault(folded)) return folded;
    const { state, counted } = folded;
    if (state.kind === 'none') return unreadable(entry);
    if (state.kind === 'open' || state.closed === null) return { kind: 'open' };
    const report = makeReport(state, state.closed, { batch: entry.id });
    const summary = summaryOf(report, batchLesson(state, counted));
    return summary === null ? { kind: 'open' } : { kind: 'finished', summary };
  };
}

/** The words of which one stands in the journal of every batch that is over. */
const endings = (['BatchFinished', 'BatchGivenUp'] as const).map((kind) => `"${kind}"`);
const firstLine = { ...journalLimits, lines: 1 };
/** Of a batch with more counts than this no stage is judged: keeping them would take hundreds of megabytes. */
const mostJudged = 20_000;

/** The state that a journal folds to, and the states after each of its loads; none of them where there are too many. */
async function foldedCounts(
  world: World,
  entry: BatchEntry,
  limits: JournalLimits,
): Promise<{ readonly kind: 'folded'; readonly state: BatchState; readonly counted: readonly Batch[] } | Fault> {
  let state: BatchState = noBatch;
  const counted: Batch[] = [];
  const visit = (line: JournalLine<Command, BatchEvent>): void => {
    state = followLine(state, line);
    const isCount = state.kind === 'open' && line.events.some((event) => event.kind === 'LoadCounted');
    if (isCount && counted.length <= mostJudged) counted.push(state as Batch);
  };
  const looked = await lookAtJournal(world.disk, entry.folder, batchLineForm, visit, limits);
  if (isFault(looked)) return looked;
  return { kind: 'folded', state, counted: counted.length > mostJudged ? [] : counted };
}

function unreadable(entry: BatchEntry): Fault {
  const what = 'the batch is not in the history: its journal tells nothing';
  return makeFault({ what, where: entry.folder, tryThis: 'look at it with: millside status', code: 65 });
}

/** The plan's newest finished batch other than this one; null for the first. */
export function lastTimeOf(summaries: readonly BatchSummary[], planId: string, notBatch: string): BatchSummary | null {
  return summaries.findLast((one) => one.plan === planId && one.batch !== notBatch && one.state === 'finished') ?? null;
}

/** Median of a piece that an operation had then, in seconds; null when it was not there or not timed. */
export function medianLastTime(then: BatchSummary | null, operation: number, lane: string): number | null {
  return then?.operations.find((row) => row.operation === operation && row.lane === lane)?.median_s ?? null;
}

/** Work for one good piece then, in seconds; null when none came out. */
export function workLastTime(then: BatchSummary | null): number | null {
  return then === null || then.good === 0 ? null : then.worked_s / then.good;
}
