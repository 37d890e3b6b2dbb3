/**
 * One stretch of holding the terminal: raw keys in, frames out, and the terminal given back however the program ends.
 *
 * P10: every catchable exit restores modes, screen and cursor ('exit' handler; INT, TERM, HUP and QUIT end with
 *      128 + n); a closed window ends the program at once; Ctrl-Z stops it as a shell expects and repaints after.
 * P12: SIGUSR1 is handled, so that it opens no debugger port.
 * P6:  a paste is one 'paste' key; focus reports are no keys at all.
 */
import { constants } from 'node:os';
import { type Key, keyId } from './key.ts';
import { readKeys } from './key-reader.ts';
import { openTerminal } from './outlet.ts';
import { makePainter, type Painter, type TerminalSize } from './painter.ts';
import { shortTrace } from './short-trace.ts';

export type SessionOptions = {
  readonly stdin: NodeJS.ReadStream;
  readonly stdout: NodeJS.WriteStream;
  /** Takes every key except Ctrl-Z (stops the program) and Ctrl-L (paints anew). */
  readonly onKey: (key: Key) => void;
  /** After a stop (by Ctrl-Z or by a signal from outside), when the terminal is ours again. */
  readonly onResume: () => void;
  /** The line left on the normal screen: where the batch stands. Asked once, at the end; '' for none. */
  readonly lastWords: () => string;
  /** Ends the process; it runs the 'exit' handlers. `process.exit` of the command line. */
  readonly exit: (code: number) => never;
};

export type Session = {
  readonly painter: Painter;
  /** Ends the program with an exit code, the terminal restored and the last words printed. */
  end(code: number): never;
  /** Ends the program after a bug: restored terminal, short trace, where the batch stands, exit code 70. */
  fail(error: unknown): never;
  /** Gives the terminal back and stops the program until the shell continues it. */
  suspend(): void;
};

const BUG = 70;
const endingSignals = ['SIGINT', 'SIGTERM', 'SIGHUP', 'SIGQUIT'] as const;
/** A shell that cannot stop its job (none is there) lets the program run on: then the terminal is taken again. */
const NOT_STOPPED_MS = 100;

/**
 * Takes the terminal of `stdin` and `stdout` (both must be terminals) until the process ends.
 * Example: `const session = openSession({ stdin: process.stdin, stdout: process.stdout, onKey, … })`, then
 * `render(app, { stdout: session.painter.stream, debug: true })`.
 */
export function openSession(options: SessionOptions): Session {
  const { stdin, stdout, exit } = options;
  let isSuspended = false;
  let trace = '';

  const end = (code: number): never => exit(code);
  const hangUp = (): void => exit(128 + constants.signals.SIGHUP);
  const fail = (error: unknown): never => {
    trace = shortTrace(error);
    return exit(BUG);
  };
  const painter = makePainter({ writeSome: openTerminal().writeSome, size: () => sizeOf(stdout), onLost: hangUp });

  const resume = (): void => {
    // The shell that had the terminal may have set it otherwise, and Node believes that nothing changed.
    setRaw(stdin, false);
    setRaw(stdin, true);
    if (isSuspended) process.on('SIGTSTP', suspend);
    isSuspended = false;
    painter.enter();
    options.onResume();
  };
  const suspend = (): void => {
    if (isSuspended) return;
    isSuspended = true;
    painter.leave('');
    setRaw(stdin, false);
    process.off('SIGTSTP', suspend);
    // The whole group, as the terminal itself would do it: the program may run under `npm start`.
    process.kill(0, 'SIGTSTP');
    setTimeout(() => isSuspended && resume(), NOT_STOPPED_MS);
  };
  const takeKey = (key: Key): void => {
    const id = keyId(key);
    if (id === 'ctrl-z') suspend();
    else if (id === 'ctrl-l') painter.repaint();
    else if (key.name !== 'focus-in' && key.name !== 'focus-out') options.onKey(key);
  };

  process.on('exit', () => {
    painter.leave(lastLines(trace, options.lastWords));
    if (!painter.isFrozen()) setRaw(stdin, false);
  });
  for (const signal of endingSignals) process.on(signal, () => end(128 + constants.signals[signal]));
  process.on('SIGUSR1', () => undefined);
  process.on('SIGTSTP', suspend);
  process.on('SIGCONT', resume);
  process.on('uncaughtException', fail);
  process.on('unhandledRejection', fail);
  stdin.on('end', hangUp);
  stdin.on('error', hangUp);
  stdout.on('error', hangUp);
  stdout.on('resize', () => painter.resize());
  setRaw(stdin, true);
  painter.enter();
  readKeys(stdin, takeKey);
  return { painter, end, fail, suspend };
}

function setRaw(stdin: NodeJS.ReadStream, isRaw: boolean): void {
  try {
    stdin.setRawMode(isRaw);
  } catch {
    // The terminal is gone; the 'end' or 'error' of stdin ends the program.
  }
}

/** Asked of the terminal itself: Node refreshes `columns` only on a signal that a stopped program does not get. */
function sizeOf(stdout: NodeJS.WriteStream): TerminalSize {
  const [columns, rows] = stdout.getWindowSize();
  return { columns: columns || 80, rows: rows || 24 };
}

/** A bug may have hurt what the last words are made from: the trace must still come out. */
function lastLines(trace: string, lastWords: () => string): string {
  try {
    const words = lastWords();
    return [trace, words]
      .filter((part) => part !== '')
      .map((part) => `${part}\n`)
      .join('');
  } catch (error) {
    return `${trace || shortTrace(error)}\n`;
  }
}
