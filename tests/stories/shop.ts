/**
 * A workshop of one story: its own data and settings folders, the program opened in it as often as the story likes, and
 * what an outsider can see of it: the answers of the reading commands and the lines of the journal.
 */
import { spawnSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { BatchEvent } from '../../src/batch/events.ts';
import { foldLine } from '../../src/batch/evolve.ts';
import type { Instant } from '../../src/batch/instant.ts';
import { type Batch, type BatchState, noBatch } from '../../src/batch/state.ts';
import type { Standing } from '../../src/sitting/standing.ts';
import { type Program, type StartOptions, startProgram, stopAll } from './harness.ts';
import type { Screen } from './screen-text.ts';

export type JournalLine = {
  readonly seq: number;
  readonly by: string;
  readonly at: Instant;
  readonly events: readonly BatchEvent[];
};
export type Answer = { readonly code: number | null; readonly out: string; readonly err: string };

export type Shop = {
  readonly folder: string;
  /** The data folder; it is there once the program has been opened. */
  readonly data: string;
  /** Copies a plan of tests/stories/plans (or any file) into the workshop and gives its path. */
  plan(name: string): string;
  /** Opens the program in a terminal; the guard is off unless the story sets it. */
  open(options?: StartOptions): Promise<Program>;
  /** Runs a command that needs no terminal to its end. */
  ask(...args: readonly string[]): Answer;
  status(): Standing;
  /** Folder of the only batch there is. */
  batchFolder(): string;
  /** Whole lines of the only batch's journal as they stand on the disk now; none before there is a batch. */
  journal(): readonly JournalLine[];
  /** Bytes of that journal now: 0 before there is one. */
  journalBytes(): number;
  /** What the journal's lines fold to now. */
  state(): Batch;
  /** Events of the journal of one kind. */
  events<Kind extends BatchEvent['kind']>(kind: Kind): readonly Extract<BatchEvent, { kind: Kind }>[];
};

const top = fileURLToPath(new URL('../..', import.meta.url));
const folders = new Set<string>();

/** The program as a shell starts it. */
export const builtProgram: readonly string[] = [process.execPath, join(top, 'dist/main.js')];

/** A new, empty workshop, its data folder where the story wants it; `closeShops` after each test removes it. */
export function makeShop(where: { readonly data?: string } = {}): Shop {
  const folder = mkdtempSync(join(tmpdir(), 'shop-'));
  folders.add(folder);
  const data = where.data ?? join(folder, 'data');
  const env = { MILLSIDE_HOME: data, MILLSIDE_CONFIG: join(folder, 'config'), MILLSIDE_GUARD_MS: '0', TZ: 'UTC' };

  const batchFolder = (): string => {
    const batches = join(data, 'batches');
    const names = existsSync(batches) ? readdirSync(batches).filter((name) => /^[0-9a-z]{12}$/.test(name)) : [];
    if (names.length > 1) throw new Error(`one batch was expected, not ${names.join(', ')}`);
    return join(batches, names[0] ?? 'none');
  };
  const journal = (): readonly JournalLine[] => {
    const path = join(batchFolder(), 'journal.jsonl');
    if (!existsSync(path)) return [];
    // The piece behind the last newline is none yet, or torn.
    const whole = readFileSync(path, 'utf8').split('\n').slice(0, -1);
    return whole.map((line) => JSON.parse(line) as JournalLine);
  };
  const ask: Shop['ask'] = (...args) => {
    const ran = spawnSync(process.execPath, [...builtProgram.slice(1), ...args], {
      cwd: folder,
      env: { PATH: process.env['PATH'] ?? '', HOME: folder, ...env },
      encoding: 'utf8',
    });
    return { code: ran.status, out: ran.stdout, err: ran.stderr };
  };

  return {
    folder,
    data,
    plan: (name) => {
      const from = name.includes('/') ? join(top, name) : join(top, 'tests/stories/plans', `${name}.yaml`);
      const to = join(folder, from.split('/').at(-1) ?? '');
      copyFileSync(from, to);
      return to;
    },
    open: (options = {}) => startProgram({ ...options, env: { ...env, ...options.env } }),
    ask,
    status: () => {
      const { code, out, err } = ask('status', '--json');
      if (code !== 0) throw new Error(`status ended with ${code}: ${err}`);
      return JSON.parse(out) as Standing;
    },
    batchFolder,
    journal,
    state: () => {
      const state = journal().reduce<BatchState>(foldLine, noBatch);
      if (state.kind === 'none') throw new Error('there is no batch yet');
      return state;
    },
    journalBytes: () => statSync(join(batchFolder(), 'journal.jsonl'), { throwIfNoEntry: false })?.size ?? 0,
    events: (kind) => journal().flatMap((line) => line.events.filter((event) => event.kind === kind)) as never,
  };
}

/** How many good pieces of the operation in hand the screen shows; undefined while it shows no batch. */
export function shownGood(screen: Screen): number | undefined {
  const shown = /\b(\d+) of \d+ good/.exec(screen.text)?.[1];
  return shown === undefined ? undefined : Number(shown);
}

/** Opens a batch and waits until it is on the screen. */
export async function openToWork(shop: Shop, options: StartOptions = {}): Promise<Program> {
  const t = await shop.open(options);
  await t.waitFor((screen) => shownGood(screen) !== undefined, 'the batch');
  return t;
}

/**
 * A condition for the answer to a press that is given next: `isAnswered`, or the screen says that the key did nothing (it met
 * a screen that was not drawn anew yet) and did not say so before. Only with that answer may a key be given again at once;
 * without one it is given again after `patienceMs`, long enough that no slow machine turns one press into two.
 */
export function answerTo(t: Program, isAnswered: () => boolean) {
  const isRefused = (): boolean => /too early|not taken|not up any more|no card is up/.test(t.screen().text);
  const wasRefused = isRefused();
  return {
    isThere: (): boolean => isAnswered() || (!wasRefused && isRefused()),
    patienceMs: wasRefused ? 4000 : 10_000,
  };
}

/**
 * Presses Enter until `isDone`, each press when the one before has been written. A press that met a screen not yet drawn
 * anew is refused by the program, so it is given again.
 */
export async function pressEnterUntil(shop: Shop, t: Program, isDone: () => boolean): Promise<void> {
  while (!isDone()) {
    const before = shop.journalBytes();
    const { isThere, patienceMs } = answerTo(t, () => isDone() || shop.journalBytes() > before);
    t.press('enter');
    await t.waitFor(isThere, 'an answer to Enter', patienceMs).catch(() => undefined);
  }
}

/** Passes the cards that stand before the next piece, with Enter. */
export async function passCards(shop: Shop, t: Program): Promise<void> {
  await pressEnterUntil(shop, t, () => shop.state().cards.length === 0);
}

/** Counts one piece at an operation without points and waits until the screen shows it. */
export async function countOne(shop: Shop, t: Program): Promise<number> {
  const next = (shownGood(t.screen()) ?? 0) + 1;
  const before = shop.events('LoadCounted').length;
  await pressEnterUntil(shop, t, () => shop.events('LoadCounted').length > before);
  await t.waitFor((screen) => shownGood(screen) === next, `count ${next}`);
  return next;
}

/** Ends every program and removes every workshop: `afterEach(closeShops)`. */
export function closeShops(): void {
  stopAll();
  for (const folder of folders) rmSync(folder, { recursive: true, force: true, maxRetries: 3 });
  folders.clear();
}
