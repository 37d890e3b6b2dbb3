#!/usr/bin/env node
/**
 * The way in: looks at the first word and loads only what it needs. `--version` and `--help` load nothing else; the
 * screen, and Ink with it, is loaded only when a terminal is to be taken over.
 */
import { fileURLToPath } from 'node:url';
import { exitCodes } from './exit-codes.ts';
import { type Io, processIo } from './io.ts';
import { subcommands } from './subcommands.ts';

async function main(args: readonly string[], io: Io): Promise<number> {
  const [first] = args;
  if (first === '--version' || first === '-V') {
    io.out(`millside ${MILLSIDE_VERSION}\n`);
    return exitCodes.done;
  }
  const known = subcommands.find((one) => one.name === first);
  if (known !== undefined) {
    if ((args.includes('--help') || args.includes('-h')) && known.name !== 'reckon') {
      io.out((await import('./help.ts')).helpOf(known));
      return exitCodes.done;
    }
    if (args.includes('--json-shape') && known.options.some((one) => one.flag === 'json-shape')) {
      const { jsonShapeOf } = await import('./json-shapes.ts');
      io.out(`${JSON.stringify(jsonShapeOf(known.name), null, 2)}\n`);
      return exitCodes.done;
    }
    const { loadCommands } = await import('./commands.ts');
    const { runners } = loadCommands(fileURLToPath(new URL('commands.cjs', import.meta.url))).commands;
    const runner = await runners[known.name]?.();
    if (runner === undefined) throw new Error(`no runner for ${known.name}`);
    return runner(args.slice(1), io);
  }
  if (args.includes('--help') || args.includes('-h')) {
    io.out((await import('./help.ts')).helpOfAll());
    return exitCodes.done;
  }
  return (await import('./open.ts')).runOpen(args, io);
}

/** A bug of ours outside the screen: one line, a short trace, exit 70. Inside the screen its own way out does the same. */
function reportBug(error: unknown, io: Io): number {
  const trace =
    error instanceof Error ? (error.stack ?? error.message).split('\n').slice(0, 6).join('\n') : String(error);
  io.err(`millside: a fault of the program itself; every count that was shown is kept.\n${trace}\n`);
  return exitCodes.ourBug;
}

// No debugger port may be opened by a signal (P12); a file that may grow no further is a fault to be told (P3), not an
// end; and a reader that goes away is not an error.
process.on('SIGUSR1', () => {});
if (process.platform !== 'win32') process.on('SIGXFSZ', () => {});
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(exitCodes.done);
  process.exit(exitCodes.cannotWrite);
});

const io = processIo();
try {
  process.exitCode = await main(process.argv.slice(2), io);
} catch (error) {
  process.exitCode = reportBug(error, io);
}
