/** `millside status [BATCH]`: where a batch stands now. The JSON shape is documented in src/sitting/standing.ts. */
import { holderOf } from '../sitting/holder.ts';
import { lookAtBatch } from '../sitting/opening.ts';
import { type Standing, standingOf } from '../sitting/standing.ts';
import { makeWorld } from '../sitting/world.ts';
import { isFault } from '../store/fault.ts';
import { printableWords, readWords } from './arguments.ts';
import { batchNamed } from './batch-words.ts';
import { exitCodes } from './exit-codes.ts';
import { type Io, writeJson } from './io.ts';
import { sayDamage, sayFault } from './say.ts';

export async function runStatus(args: readonly string[], io: Io): Promise<number> {
  const words = readWords('status', args, [0, 1], io);
  if (typeof words === 'number') return words;
  const world = makeWorld(io.env);
  const entry = await batchNamed(world, words.names[0]);
  if (isFault(entry)) return sayFault(io, entry);
  const looked = await lookAtBatch(world, entry.id);
  if (isFault(looked)) return sayFault(io, looked);
  if (looked.damage !== undefined) sayDamage(io, looked.damage);
  if (looked.state.kind === 'none') return exitCodes.badPlanOrJournal;
  const holder = await holderOf(world.disk, entry.folder, world.self);
  const standing = standingOf(entry.id, looked.state, world.clock.now(), holder);
  if (words.has('json')) writeJson(io, standing);
  else io.out(statusText(standing));
  return exitCodes.done;
}

function statusText(standing: Standing): string {
  const { at, finish } = standing;
  const held = standing.held_by === null ? '' : `, open in process ${standing.held_by.pid} on ${standing.held_by.host}`;
  const rows = standing.operations.map((row) => {
    const name = `${row.number} ${row.title}${row.variant === null ? '' : ` (${row.variant})`}`;
    const here = at !== null && at.operation === row.number && at.variant === row.variant ? '>' : ' ';
    const scrap = row.scrap === 0 ? '' : `, ${row.scrap} scrap`;
    return `${here} ${printableWords(name).padEnd(44).slice(0, 44)} ${String(row.good).padStart(4)} of ${row.ordered} good${scrap}, ${row.left} left`;
  });
  const ends = finish === null ? [] : [`batch ends ${finish.batch.p50} (${finish.batch.p10} to ${finish.batch.p90})`];
  return `${[`${printableWords(standing.job)}  ${standing.batch}  ${standing.state}${held}`, ...rows, ...ends].join('\n')}\n`;
}
