/** Batches in a data folder of their own, written as the program writes them but at moments of the test's choosing. */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Opening } from '../../src/batch/decide/opening.ts';
import type { Instant } from '../../src/batch/instant.ts';
import { type RehearsedLine, rehearse, seededChance } from '../../src/batch/rehearsal.ts';
import type { Io } from '../../src/cli/io.ts';
import type { ResolvedPlan } from '../../src/plan/resolved.ts';
import { asSeconds } from '../../src/shop/quantities.ts';
import { loadPlan } from '../../src/sitting/plan-loading.ts';
import { batchLineForm, makeWorld, type World } from '../../src/sitting/world.ts';
import { isFault } from '../../src/store/fault.ts';
import { prepareHome } from '../../src/store/home.ts';
import { createBatch, openJournal } from '../../src/store/journal.ts';

export type Shop = { readonly world: World; readonly env: Readonly<Record<string, string>>; readonly folder: string };

/** An empty data folder and settings folder. */
export async function aShop(): Promise<Shop> {
  const folder = mkdtempSync(join(tmpdir(), 'millside-'));
  const env = { MILLSIDE_HOME: join(folder, 'data'), MILLSIDE_CONFIG: join(folder, 'config') };
  const world = makeWorld(env);
  const fault = await prepareHome(world.disk, world.home);
  if (fault !== undefined) throw new Error(fault.what);
  return { world, env, folder };
}

/** What a run of a subcommand said. */
export type Said = { readonly code: number; readonly out: string; readonly err: string };

/** Runs a subcommand in the shop, without a terminal. */
export async function runIn(
  shop: Shop,
  run: (args: readonly string[], io: Io) => Promise<number> | number,
  args: readonly string[],
): Promise<Said> {
  let [out, err] = ['', ''];
  const io: Io = {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    env: shop.env,
    isTerminal: false,
    columns: 80,
  };
  const code = await run(args, io);
  return { code, out, err };
}

/** The facts with which a plan file is opened, as the program opens it without settings. */
async function openingFor(world: World, path: string): Promise<Opening> {
  const loaded = await loadPlan(world.disk, path);
  if (isFault(loaded) || loaded.kind === 'problems') throw new Error(`${path} is no sound plan`);
  const { text, sha256 } = loaded.file;
  const plan = loaded.resolved;
  return {
    planText: text,
    planSha256: sha256,
    planPath: path,
    plan,
    zone: 'Europe/Berlin',
    hours: null,
    rate: null,
    overrides: [],
  };
}

/** The plan that an operator goes by who takes `times` as long for a piece. */
function slowed(plan: ResolvedPlan, times: number): ResolvedPlan {
  const operations = plan.operations.map((operation) => {
    const piece = asSeconds(operation.estimate.piece * times);
    return { ...operation, estimate: { ...operation.estimate, piece } };
  });
  return { ...plan, operations };
}

type KeptBatch = {
  readonly id: string;
  readonly start: string;
  readonly seed?: number;
  readonly part?: number;
  readonly slower?: number;
};

/**
 * A whole batch of the plan at `path`, led by an invented operator from `start` (ISO 8601) on; `part` below 1 leaves it
 * after that part of its lines, `slower` lets each piece take so many times its estimate. Answers its lines.
 */
export async function keepBatch(
  { world }: Shop,
  path: string,
  { id, start, seed = 1, part = 1, slower = 1 }: KeptBatch,
): Promise<readonly RehearsedLine[]> {
  const at: Instant = { wall_ms: Date.parse(start), zone: 'Europe/Berlin', mono_ms: 0, boot: 'then' };
  const opening = await openingFor(world, path);
  const { lines } = rehearse({ ...opening, plan: slowed(opening.plan, slower) }, at, seededChance(seed));
  const kept = lines.slice(0, Math.max(2, Math.round(lines.length * part)));
  const drafts = kept.map(({ at, command, events }) => ({
    by: '',
    at,
    command,
    events: events.map((event) => (event.kind === 'BatchOpened' ? { ...event, ...opening } : event)),
  }));
  const [first, ...rest] = drafts;
  if (first === undefined) throw new Error('a batch has a first line');
  const made = await createBatch(world.disk, world.home.batches, id, batchLineForm, first);
  if (isFault(made)) throw new Error(made.what);
  const opened = await openJournal(world.disk, made.folder, batchLineForm, () => {});
  if (isFault(opened)) throw new Error(opened.what);
  for (let done = 0; done < rest.length; done += 50) {
    await opened.journal.append(opened.journal.seq, rest.slice(done, done + 50));
  }
  await opened.journal.close();
  return kept;
}
