/**
 * Holding a terminal that takes plain lines only: raw keys in, lines out, no cursor movement at all. P10 as for the full
 * screen: every catchable exit gives the terminal back.
 */
import { constants } from 'node:os';
import type { Key } from './key.ts';
import { keyId } from './key.ts';
import { readKeys } from './key-reader.ts';
import { shortTrace } from './short-trace.ts';

export type LineSessionOptions = {
  readonly stdin: NodeJS.ReadStream;
  readonly stdout: NodeJS.WriteStream;
  readonly onKey: (key: Key) => void;
  readonly lastWords: () => string;
  readonly exit: (code: number) => never;
};

const bug = 70;
const endingSignals = ['SIGINT', 'SIGTERM', 'SIGHUP', 'SIGQUIT'] as const;

/** Takes the terminal until the process ends; answers how a line is written. */
export function openLineSession(options: LineSessionOptions): (line: string) => void {
  const { stdin, stdout, exit } = options;
  const say = (line: string): void => {
    stdout.write(`${line}\r\n`);
  };
  const hangUp = (): void => exit(128 + constants.signals.SIGHUP);
  const fail = (error: unknown): never => {
    say(shortTrace(error));
    return exit(bug);
  };
  process.on('exit', () => {
    const words = options.lastWords();
    if (words !== '') say(words);
    if (stdin.isTTY) stdin.setRawMode(false);
  });
  for (const signal of endingSignals) process.on(signal, () => exit(128 + constants.signals[signal]));
  process.on('SIGUSR1', () => undefined);
  process.on('uncaughtException', fail);
  process.on('unhandledRejection', fail);
  stdin.on('end', hangUp);
  stdin.on('error', hangUp);
  stdout.on('error', hangUp);
  stdin.setRawMode(true);
  readKeys(stdin, (key) => {
    const isStop = keyId(key) === 'ctrl-z' || key.name === 'focus-in' || key.name === 'focus-out';
    if (!isStop) options.onKey(key);
  });
  return say;
}
