/**
 * Runs the built program in a pseudo-terminal, as a person at a keyboard would meet it: keys in, a screen out.
 * The pseudo-terminal is made by `script` of util-linux, the screen is kept by a headless terminal. Nothing here
 * sleeps: a story waits for a condition, and when it does not come the error shows the screen there was.
 */
import { type ChildProcess, execFileSync, spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import xterm from '@xterm/headless';
import { vi } from 'vitest';
import { type KeyPress, keyBytes } from './key-bytes.ts';
import { readScreen, type Screen } from './screen-text.ts';

export type StartOptions = {
  /** Arguments of `millside`. */
  readonly args?: readonly string[];
  readonly env?: Readonly<Record<string, string>>;
  readonly rows?: number;
  readonly cols?: number;
  readonly cwd?: string;
  /** Instead of `node dist/main.js`; the arguments are appended. */
  readonly program?: readonly string[];
};

export type Program = {
  /** The process id of the program itself, not of `script`. */
  readonly pid: number;
  /** Presses keys by name, one after the other ('enter', 'kp-plus', 'f9', 'ctrl-c', or a character). */
  press(...keys: KeyPress[]): void;
  /** Types a text, or sends any bytes. */
  type(text: string): void;
  screen(): Screen;
  /**
   * Waits until the screen is as asked; fails with the screen and the label after `timeoutMs` (60 s), or as soon as the
   * program has ended without it.
   */
  waitFor(isThere: (screen: Screen) => boolean, label: string, timeoutMs?: number): Promise<Screen>;
  /** How many bytes the program has written so far. */
  mark(): number;
  bytesSince(mark: number): Buffer;
  resize(rows: number, cols: number): void;
  /** Sends a signal to the program itself. */
  kill(signal: NodeJS.Signals): void;
  /** Closes the window: the program's terminal is gone. */
  hangUp(): void;
  /** The terminal stops taking bytes, and takes them again; keys come through meanwhile. */
  freeze(): void;
  thaw(): void;
  /** Waits for the end and gives the exit code (128 + n after a signal). Not after `hangUp`: see `gone`. */
  exit(timeoutMs?: number): Promise<number>;
  /** Whether the program has ended and everything it wrote has been read. */
  hasEnded(): boolean;
  /** Waits until the process is no more. */
  gone(timeoutMs?: number): Promise<void>;
};

const top = fileURLToPath(new URL('../..', import.meta.url));
const XON = '\u0011';
const XOFF = '\u0013';
const PATIENCE_MS = 60_000;
/** A story's own limit: far beyond what it takes, for it waits for conditions and a busy machine may stand still. */
const STORY_MS = 180_000;
/** Looks at a condition after the program's end before it is given up: its last bytes are still being drawn. */
const LOOKS_AFTER_END = 25;
vi.setConfig({ testTimeout: STORY_MS });

const running = new Set<{
  readonly script: ChildProcess;
  readonly folder: string;
  readonly pid: () => number | undefined;
}>();

/**
 * Whether stories can run here. Without `script` they are skipped on a developer's machine, with a word; under CI
 * that is an error, so that they never pass unseen. Use: `describe.skipIf(!canRunStories())(…)`.
 */
export function canRunStories(): boolean {
  if (spawnSync('script', ['--version']).status === 0) return true;
  if (process.env['CI']) throw new Error('stories need `script` (util-linux, package bsdutils), which is missing here');
  console.warn('stories skipped: `script` (util-linux) is missing');
  return false;
}

/** Starts the program and waits until it runs; whoever starts one ends it with `afterEach(stopAll)`. */
export async function startProgram(options: StartOptions = {}): Promise<Program> {
  const { rows = 24, cols = 80 } = options;
  const folder = mkdtempSync(join(tmpdir(), 'story-'));
  const whereabouts = join(folder, 'pid-and-tty');
  const script = spawn('script', ['-qfec', commandLine(options, rows, cols, whereabouts), '/dev/null'], {
    cwd: options.cwd ?? folder,
    env: { ...plainEnvironment(folder), ...options.env },
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  let pid: number | undefined;
  running.add({ script, folder, pid: () => pid });

  const terminal = new xterm.Terminal({ rows, cols, allowProposedApi: true, scrollback: 0 });
  const chunks: Buffer[] = [];
  let code: number | undefined;
  const { until, wake } = makeWaiter(() => code !== undefined);
  script.stdout.on('data', (chunk: Buffer) => {
    chunks.push(chunk);
    terminal.write(chunk, wake);
  });
  script.stdin.on('error', () => undefined);
  const screen = (): Screen => readScreen(terminal);
  const picture = (): string => `the screen (${terminal.rows}x${terminal.cols}):\n${screen().drawn.join('\n')}\n--`;
  script.on('close', (value) => {
    code = value ?? -1;
  });

  await until(
    () => existsSync(whereabouts),
    () => 'the program did not start',
    PATIENCE_MS,
  );
  const [own = 0, tty = ''] = readWhereabouts(whereabouts);
  pid = own;

  return {
    pid: own,
    press: (...keys) => {
      for (const key of keys) script.stdin.write(keyBytes(key));
    },
    type: (text) => void script.stdin.write(text),
    screen,
    waitFor: async (isThere, label, timeoutMs = PATIENCE_MS) => {
      await until(
        () => isThere(screen()),
        () => `waited ${timeoutMs} ms for ${label}; ${picture()}`,
        timeoutMs,
      );
      return screen();
    },
    mark: () => chunks.reduce((sum, chunk) => sum + chunk.length, 0),
    bytesSince: (mark) => Buffer.concat(chunks).subarray(mark),
    resize: (toRows, toCols) => {
      terminal.resize(toCols, toRows);
      execFileSync('stty', ['-F', tty, 'rows', String(toRows), 'cols', String(toCols)]);
    },
    kill: (signal) => {
      process.kill(own, signal);
      // `script` stops itself together with its child, and must be woken as well.
      if (signal === 'SIGCONT') script.kill(signal);
    },
    hangUp: () => void script.kill('SIGKILL'),
    freeze: () => {
      // Flow control: the terminal says stop (XOFF) while keys still come. To stop reading would stop `script` too.
      execFileSync('stty', ['-F', tty, 'ixon']);
      script.stdin.write(XOFF);
    },
    thaw: () => void script.stdin.write(XON),
    exit: async (timeoutMs = PATIENCE_MS) => {
      await until(
        () => code !== undefined,
        () => `waited ${timeoutMs} ms for the end; ${picture()}`,
        timeoutMs,
      );
      return code ?? -1;
    },
    hasEnded: () => code !== undefined,
    gone: (timeoutMs = PATIENCE_MS) =>
      until(
        () => !isAlive(own),
        () => `process ${own} still runs; ${picture()}`,
        timeoutMs,
      ),
  };
}

/** Tells where it runs, then becomes the program: the shell's process id is the program's. */
function commandLine(options: StartOptions, rows: number, cols: number, whereabouts: string): string {
  const program = [...(options.program ?? [process.execPath, join(top, 'dist/main.js')]), ...(options.args ?? [])];
  const file = quoted(whereabouts);
  return `stty rows ${rows} cols ${cols}; echo $$ $(tty) > ${file}.new; mv ${file}.new ${file}; exec ${program.map(quoted).join(' ')}`;
}

function readWhereabouts(file: string): readonly [number, string] {
  const [pid = '', tty = ''] = readFileSync(file, 'utf8').trim().split(' ');
  return [Number(pid), tty];
}

type Until = (isThere: () => boolean, fail: () => string, timeoutMs: number) => Promise<void>;

/** Waits for conditions, which are looked at whenever `wake` is called and every 20 ms besides, until the program has ended. */
function makeWaiter(hasEnded: () => boolean): { readonly until: Until; readonly wake: () => void } {
  const listeners = new Set<() => void>();
  const until: Until = async (isThere, fail, timeoutMs) => {
    if (isThere()) return;
    await new Promise<void>((resolve, reject) => {
      let looksLeft = LOOKS_AFTER_END;
      const done = (settle: () => void): void => {
        listeners.delete(check);
        clearInterval(often);
        clearTimeout(late);
        settle();
      };
      const check = (): void => {
        if (isThere()) done(resolve);
        else if (hasEnded()) looksLeft -= 1;
        if (looksLeft === 0) done(() => reject(new Error(`the program has ended: ${fail()}`)));
      };
      listeners.add(check);
      const often = setInterval(check, 20);
      const late = setTimeout(() => done(() => reject(new Error(fail()))), timeoutMs);
    });
  };
  const wake = (): void => {
    for (const listener of listeners) listener();
  };
  return { until, wake };
}

/** Ends every program a test left running, and removes what it wrote. */
export function stopAll(): void {
  for (const { script, folder, pid } of running) {
    const own = pid();
    if (own !== undefined && isAlive(own)) process.kill(own, 'SIGKILL');
    if (script.exitCode === null) script.kill('SIGKILL');
    rmSync(folder, { recursive: true, force: true, maxRetries: 3 });
  }
  running.clear();
}

function isAlive(pid: number): boolean {
  try {
    // A process that has ended but was not waited for is a zombie: state Z in its stat line.
    return !/^\d+ \(.*\) [ZX] /.test(readFileSync(`/proc/${pid}/stat`, 'utf8'));
  } catch {
    return false;
  }
}

/** Nothing of the tester's own terminal, colours, settings or batches. */
function plainEnvironment(folder: string): Record<string, string> {
  return {
    PATH: process.env['PATH'] ?? '/usr/bin:/bin',
    HOME: folder,
    MILLSIDE_HOME: join(folder, 'data'),
    MILLSIDE_CONFIG: join(folder, 'config'),
    LANG: 'C.UTF-8',
    SHELL: '/bin/sh',
    TERM: 'xterm-256color',
    TZ: 'UTC',
  };
}

function quoted(word: string): string {
  return `'${word.replaceAll("'", `'\\''`)}'`;
}
