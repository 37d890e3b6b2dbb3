/**
 * `millside batches`: open and finished batches, the one worked on last first; with `--compare ID` the finished batches of
 * one plan side by side, with `--estimates` what past batches say of each kind of work. It reads only.
 *
 * `--json`, format 1 each (schemas in src/cli/batches-shape.ts):
 * - `{"format": 1, "batches": [{"batch", "plan", "job", "state", "held_by", "at", "good", "ordered", "opened", "changed"}]}`;
 *   a batch whose journal cannot be read has `"state": "unreadable"` and `"fault"`;
 * - `--compare`: `{"format": 1, "plan", "job", "batches": [{"batch", "opened", "good", "scrap", "worked_s", "per_good_s"}],
 *   "per_good_trend", "operations": [{"operation", "lane", "name", "medians_s", "trend"}]}`, oldest first;
 * - `--estimates`: `{"format": 1, "past_batches": 7, "estimates": [{"kind", "tools", "material", "batches",
 *   "timed_pieces", "piece_s", "least_s", "greatest_s", "over_plan"}]}`.
 */

import { goodOf } from '../batch/finished-pieces.ts';
import { orderedIn } from '../batch/lanes.ts';
import { type BatchFilter, comparePlan, isWanted, workEstimates } from '../report/history.ts';
import { plainLine } from '../report/neutral-text.ts';
import { isoInstant } from '../report/time-text.ts';
import { readPastBatches } from '../sitting/history.ts';
import { holderOf } from '../sitting/holder.ts';
import { lookAtBatch } from '../sitting/opening.ts';
import { placeNow, standingWord } from '../sitting/standing.ts';
import { makeWorld, type World } from '../sitting/world.ts';
import { type BatchEntry, listBatches } from '../store/batches.ts';
import { isFault } from '../store/fault.ts';
import { readWords, type Words } from './arguments.ts';
import type { BatchRow } from './batches-shape.ts';
import { comparisonText, estimatesText } from './batches-text.ts';
import { exitCodes } from './exit-codes.ts';
import { type Io, writeJson } from './io.ts';
import { sayFault } from './say.ts';

export async function runBatches(args: readonly string[], io: Io): Promise<number> {
  const words = readWords('batches', args, [0, 0], io);
  if (typeof words === 'number') return words;
  const wrong = wrongWord(words);
  if (wrong !== null) {
    io.err(`millside batches: ${plainLine(wrong)}. See millside batches --help.\n`);
    return exitCodes.usage;
  }
  const world = makeWorld(io.env);
  if (words.has('estimates') || words.valueOf('compare') !== undefined) return sayPast(world, words, io);
  const entries = await listBatches(world.disk, world.home);
  if (isFault(entries)) return sayFault(io, entries);
  const rows: BatchRow[] = [];
  for (const entry of entries) rows.push(await batchRow(world, entry));
  const wanted = rows.filter((row) => isRowWanted(row, words));
  if (words.has('json')) writeJson(io, { format: 1, batches: wanted });
  else if (rows.length === 0) io.out('There is no batch yet; open a plan: millside PLAN\n');
  else io.out(wanted.length === 0 ? 'No batch is like that.\n' : wanted.map(rowText).join(''));
  return exitCodes.done;
}

const dateText = /^\d{4}-\d{2}-\d{2}$/;

function wrongWord(words: Words): string | null {
  if (words.has('open') && words.has('finished')) return '--open and --finished together leave nothing';
  const flag = ['since', 'before'].find((one) => !dateText.test(words.valueOf(one) ?? '2027-03-01'));
  return flag === undefined ? null : `--${flag} wants a date such as 2027-03-01, not "${words.valueOf(flag)}"`;
}

const isOver = (row: BatchRow): boolean => row.state === 'finished' || row.state === 'given up';

function isRowWanted(row: BatchRow, words: Words): boolean {
  if (words.has('open') && (isOver(row) || row.state === 'unreadable')) return false;
  if (words.has('finished') && !isOver(row)) return false;
  const { plan, job, opened } = row;
  return isWanted({ plan: plan ?? '', job: job ?? '', opened: opened ?? '', state: row.state }, filterIn(words));
}

function filterIn(words: Words): BatchFilter {
  const parts = (['plan', 'job', 'since', 'before'] as const).flatMap((flag) => {
    const value = words.valueOf(flag);
    return value === undefined ? [] : [[flag, value] as const];
  });
  return Object.fromEntries(parts);
}

/** The two views of the history; exit 1 when it has nothing to say. */
async function sayPast(world: World, words: Words, io: Io): Promise<number> {
  const history = await readPastBatches(world);
  if (isFault(history)) return sayFault(io, history);
  for (const fault of history.faults) sayFault(io, fault);
  const plan = words.valueOf('compare');
  const summaries = history.summaries.filter((one) => isWanted(one, filterIn(words)));
  if (plan === undefined) {
    const estimates = workEstimates(summaries);
    if (words.has('json')) writeJson(io, { format: 1, past_batches: summaries.length, estimates });
    else io.out(estimatesText(estimates, summaries.length));
    return estimates.length === 0 ? exitCodes.refused : exitCodes.done;
  }
  const compared = comparePlan(summaries, plan);
  if (compared !== null) {
    if (words.has('json')) writeJson(io, { format: 1, ...compared });
    else io.out(comparisonText(compared, io.columns));
    return exitCodes.done;
  }
  const plans = [...new Set(summaries.map((one) => one.plan))].join(', ');
  io.err(
    `millside batches: no batch of plan "${plainLine(plan)}" is over yet${plans === '' ? '' : `; there are: ${plainLine(plans)}`}.\n`,
  );
  return exitCodes.refused;
}

/** What the list says of one batch. */
export async function batchRow(world: World, entry: BatchEntry): Promise<BatchRow> {
  const { zone } = world.clock.now();
  const changed = isoInstant(Math.round(entry.changed_ms), zone);
  const none = { plan: null, job: null, held_by: null, at: null, good: 0, ordered: 0, opened: null };
  const unknown = { batch: entry.id, ...none, changed, state: 'unreadable' as const };
  const looked = await lookAtBatch(world, entry.id);
  if (isFault(looked)) return { ...unknown, fault: looked.what };
  const { state } = looked;
  if (state.kind === 'none') return { ...unknown, fault: looked.damage?.reason ?? 'empty journal' };
  const holder = await holderOf(world.disk, entry.folder, world.self);
  const at = placeNow(state);
  return {
    batch: entry.id,
    plan: state.plan.id,
    job: state.plan.job,
    state: state.kind === 'given up' ? 'given up' : standingWord(state, holder !== null),
    held_by: holder === null ? null : { host: holder.host, pid: holder.pid },
    at: at === null ? null : { operation: at.operation, variant: at.variant },
    good: goodOf(state),
    ordered: orderedIn(state.plan, '*'),
    opened: isoInstant(state.opened.wall_ms, state.opened.zone),
    changed,
  };
}

function rowText(row: BatchRow): string {
  const at = row.at === null ? '' : `op ${row.at.operation}${row.at.variant === null ? '' : ` ${row.at.variant}`}`;
  const job = plainLine(row.job ?? row.fault ?? '');
  const day = (row.opened ?? row.changed).slice(0, 10);
  return `${row.batch}  ${day}  ${row.state.padEnd(10)} ${`${row.good}/${row.ordered}`.padEnd(9)} ${at.padEnd(16)} ${job}\n`;
}
