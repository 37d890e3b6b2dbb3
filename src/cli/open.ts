/**
 * `millside [PLAN|BATCH]`: the screen. A plan goes on with the batch of it that is open, else begins a new one; a batch goes
 * on where it stood; nothing named lets one choose. `--bundled` is what `npm start` gives: the job that comes with the
 * program, rehearsed in plain text where there is no terminal.
 */

import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { plainLine } from '../report/neutral-text.ts';
import type { Target } from '../screen/app/services.ts';
import { suggestName } from '../shop/suggest-name.ts';
import { isKnownOver } from '../sitting/history.ts';
import { lookAtBatch } from '../sitting/opening.ts';
import { loadPlan } from '../sitting/plan-loading.ts';
import { loadSettings } from '../sitting/settings.ts';
import { loadShopMachines } from '../sitting/shop-machines-loading.ts';
import { makeWorld, type World } from '../sitting/world.ts';
import { findBatch, listBatches } from '../store/batches.ts';
import { type Fault, isFault } from '../store/fault.ts';
import { prepareHome } from '../store/home.ts';

import { exitCodes } from './exit-codes.ts';
import type { Io } from './io.ts';
import { sayFault, sayProblems } from './say.ts';
import { subcommands } from './subcommands.ts';

/** The job that comes with the program. */
export const bundledPlan = join(dirname(dirname(fileURLToPath(import.meta.url))), 'jobs', 'keeper-plates.yaml');

export async function runOpen(args: readonly string[], io: Io): Promise<number> {
  const bundled = args.includes('--bundled');
  const names = args.filter((arg) => arg !== '--bundled');
  const world = makeWorld(io.env);
  const mistyped = await mistypedSubcommand(world, names[0]);
  if (mistyped !== undefined) return usage(io, mistyped);
  const flag = names.find((name) => name.startsWith('-'));
  if (flag !== undefined) return usage(io, `does not know ${flag}`);
  if (names.length > 1) return usage(io, `takes one plan or batch, not ${names.length}`);
  const name = names[0] ?? (bundled ? bundledPlan : undefined);
  if (!io.isTerminal) {
    if (bundled && names.length === 0) return (await import('./rehearse.ts')).runRehearse([bundledPlan], io);
    io.err('millside: this needs a terminal. Without one: millside status, report, steps, check, rehearse.\n');
    return exitCodes.usage;
  }
  const target = await targetOf(world, name, io);
  if (typeof target === 'number') return target;
  return (await import('./take-terminal.ts')).takeTerminal({
    world,
    target,
    settings: loadSettings(world.configFolder),
    io,
    plans: [bundledPlan],
  });
}

/** Words for a first word that is neither file nor batch but near the name of a subcommand. */
async function mistypedSubcommand(world: World, word: string | undefined): Promise<string | undefined> {
  if (word === undefined || word.startsWith('-') || /[./]/.test(word) || existsSync(word)) return undefined;
  const near = suggestName(
    word,
    subcommands.map((one) => one.name),
  );
  if (near === undefined || !isFault(await findBatch(world.disk, world.home, word))) return undefined;
  return `there is no subcommand, plan or batch "${word}"; did you mean millside ${near}?`;
}

/** What the screen begins with. A bad plan or name is said before anything is created, and so is a bad data folder. */
async function targetOf(world: World, name: string | undefined, io: Io): Promise<Target | number> {
  const target = await targetNamed(world, name, io);
  if (typeof target === 'number') return target;
  const unwritable = await prepareHome(world.disk, world.home);
  return unwritable === undefined ? target : sayFault(io, unwritable);
}

async function targetNamed(world: World, name: string | undefined, io: Io): Promise<Target | number> {
  if (name === undefined) return { kind: 'choose' };
  const looksLikePlan = existsSync(name) || /[./]/.test(name);
  if (!looksLikePlan) {
    const entry = await findBatch(world.disk, world.home, name);
    return isFault(entry) ? sayFault(io, entry) : { kind: 'batch', id: entry.id };
  }
  const loaded = await loadPlan(world.disk, name, await loadShopMachines(world.configFolder));
  if (isFault(loaded)) return sayFault(io, loaded);
  if (loaded.kind === 'problems') {
    sayProblems(io, loaded, name);
    return exitCodes.badPlanOrJournal;
  }
  const open = await openBatchOf(world, loaded.resolved.id);
  // A data folder that cannot even be listed is found out by preparing it, which says what to do.
  if (isFault(open)) return { kind: 'plan', path: name };
  return open === null ? { kind: 'plan', path: name } : { kind: 'batch', id: open };
}

/** The open batch of a plan that was worked on last, if there is one; batches known to be over are not read again. */
async function openBatchOf(world: World, planId: string): Promise<string | null | Fault> {
  const entries = await listBatches(world.disk, world.home);
  if (isFault(entries)) return entries;
  for (const entry of entries) {
    if (await isKnownOver(world, entry)) continue;
    const looked = await lookAtBatch(world, entry.id);
    if (!isFault(looked) && looked.state.kind === 'open' && looked.state.plan.id === planId) return entry.id;
  }
  return null;
}

function usage(io: Io, why: string): number {
  io.err(`millside: ${plainLine(why)}${why.endsWith('?') ? '' : '.'} See millside --help.\n`);
  return exitCodes.usage;
}
