/**
 * `millside status [BATCH]`: where a batch stands now and when it ends; with `--until`, `--more` or `--loads` also what if.
 * The JSON shape is documented in src/sitting/standing.ts. It reads only.
 */

import { hoursOf } from '../forecast/batch-hours.ts';
import { aheadWords, awayWords, finishWords, spokenChance } from '../forecast/outlook.ts';
import { spokenClock } from '../forecast/rounding.ts';
import type { ShopHours } from '../forecast/shop-hours.ts';
import { isTimeOfDay, type Supposition } from '../forecast/suppose.ts';
import { plainLine } from '../report/neutral-text.ts';
import { readPastBatchesOrNone } from '../sitting/history.ts';
import { holderOf } from '../sitting/holder.ts';
import { lookAtBatch } from '../sitting/opening.ts';
import { type Standing, standingOf } from '../sitting/standing.ts';
import { makeWorld } from '../sitting/world.ts';
import { isFault } from '../store/fault.ts';
import { readWords, type Words } from './arguments.ts';
import { batchNamed } from './batch-words.ts';
import { shortName } from './batches-text.ts';
import { exitCodes } from './exit-codes.ts';
import { type Io, writeJson } from './io.ts';
import { sayDamage, sayFault } from './say.ts';

export async function runStatus(args: readonly string[], io: Io): Promise<number> {
  const words = readWords('status', args, [0, 1], io);
  if (typeof words === 'number') return words;
  const question = questionIn(words);
  if (typeof question === 'string') return usage(io, question);
  const world = makeWorld(io.env);
  const entry = await batchNamed(world, words.names[0]);
  if (isFault(entry)) return sayFault(io, entry);
  const looked = await lookAtBatch(world, entry.id);
  if (isFault(looked)) return sayFault(io, looked);
  if (looked.damage !== undefined) sayDamage(io, looked.damage);
  if (looked.state.kind === 'none') return exitCodes.badPlanOrJournal;
  const holder = await holderOf(world.disk, entry.folder, world.self);
  const { past } = await readPastBatchesOrNone(world);
  const now = world.clock.now();
  const standing = standingOf(entry.id, looked.state, { now, holder, past, question });
  if (words.has('json')) writeJson(io, standing);
  else io.out(statusText(standing, { hours: hoursOf(looked.state), now_ms: now.wall_ms }));
  if (question === null || standing.what_if !== null) return exitCodes.done;
  io.err('millside status: the batch is over; there is nothing to ask what if about.\n');
  return exitCodes.refused;
}

/** The question that the flags ask, null without any, or what is wrong with them. */
function questionIn(words: Words): Supposition | null | string {
  const [until, more, loads] = ['until', 'more', 'loads'].map((flag) => words.valueOf(flag));
  if (until === undefined && more === undefined && loads === undefined) return null;
  if (until !== undefined && !isTimeOfDay(until)) return `--until wants a time of day such as 21:30, not "${until}"`;
  if (more !== undefined && !/^-?\d{1,5}$/.test(more)) return `--more wants a whole number of pieces, not "${more}"`;
  if (loads !== undefined && !/^[1-9]\d{0,4}$/.test(loads))
    return `--loads wants a whole number from 1, not "${loads}"`;
  return {
    ...(until === undefined ? {} : { until }),
    ...(more === undefined ? {} : { more: Number(more) }),
    ...(loads === undefined ? {} : { loads: Number(loads) }),
  };
}

function usage(io: Io, why: string): number {
  io.err(`millside status: ${plainLine(why)}. See millside status --help.\n`);
  return exitCodes.usage;
}

type Clock = { readonly hours: ShopHours; readonly now_ms: number };

function statusText(standing: Standing, clock: Clock): string {
  const { at } = standing;
  const held = standing.held_by === null ? '' : `, open in process ${standing.held_by.pid} on ${standing.held_by.host}`;
  const rows = standing.operations.map((row) => {
    const name = `${row.number} ${row.title}${row.variant === null ? '' : ` (${row.variant})`}`;
    const here = at !== null && at.operation === row.number && at.variant === row.variant ? '>' : ' ';
    const scrap = row.scrap === 0 ? '' : `, ${row.scrap} scrap`;
    return `${here} ${shortName(plainLine(name), 44).padEnd(44)} ${String(row.good).padStart(4)} of ${row.ordered} good${scrap}, ${row.left} left`;
  });
  const head = `${plainLine(standing.job)}  ${standing.batch}  ${standing.state}${held}`;
  return `${[head, ...rows, ...finishLines(standing, clock), ...whatIfLines(standing, clock)].join('\n')}\n`;
}

function finishLines({ finish, by_closing, rests_on }: Standing, clock: Clock): readonly string[] {
  if (finish === null) return [];
  const past = rests_on === null || rests_on.past_batches === 0 ? '' : `, ${rests_on.past_batches} past batches`;
  return [
    ...endLines(finish, clock, 'ends'),
    ...(by_closing === null ? [] : [doneLine(by_closing, finish.away.length > 0, clock)]),
    aheadWords(finish),
    `It rests on the plan and ${rests_on?.timed_loads ?? 0} timed loads${past}; the bands hold four of five.`,
  ];
}

function whatIfLines({ what_if }: Standing, clock: Clock): readonly string[] {
  if (what_if === null) return [];
  const { until, more, loads, finish, by } = what_if;
  const parts = [
    ...(until === null ? [] : [`I stop at ${until}`]),
    ...(more === null ? [] : [`I make ${more} more`]),
    ...(loads === null ? [] : [`the rest of this operation takes ${loads} loads`]),
  ];
  return [
    `If ${parts.join(' and ')}:`,
    ...(by === null ? [] : [`  ${doneLine(by, finish.away.length > 0, clock)}`]),
    ...endLines(finish, clock, 'would end').map((line) => `  ${line}`),
  ];
}

function endLines(finish: NonNullable<Standing['finish']>, clock: Clock, verb: string): readonly string[] {
  const words = (times: typeof finish.batch): string => finishSpoken(times, clock);
  return [`operation ${verb} ${words(finish.operation)}`, `batch ${verb} ${words(finish.batch)}${awayWords(finish)}`];
}

function finishSpoken(times: NonNullable<Standing['finish']>['batch'], { hours, now_ms }: Clock): string {
  const at = (text: string): number => Date.parse(text);
  const finish = times === null ? null : { p10_ms: at(times.p10), p50_ms: at(times.p50), p90_ms: at(times.p90) };
  return finishWords(hours, now_ms, finish);
}

function doneLine(by: NonNullable<Standing['by_closing']>, waitsForAway: boolean, { hours, now_ms }: Clock): string {
  const { low, high } = by.pieces;
  const range = low === high ? `${low}` : `${low} to ${high}`;
  const chance = waitsForAway ? '' : `, the whole batch with ${spokenChance(by.batch_chance)} chance`;
  return `by ${spokenClock(hours.zone, now_ms, Date.parse(by.at))}: ${range} more of this operation${chance}`;
}
