/** Reads the words after a subcommand: flags from its row of the table, and at most so many names. */

import { parseArgs } from 'node:util';
import { plainLine } from '../report/neutral-text.ts';
import { exitCodes } from './exit-codes.ts';
import type { Io } from './io.ts';
import { subcommands } from './subcommands.ts';

export type Words = {
  readonly names: readonly string[];
  readonly has: (flag: string) => boolean;
  readonly valueOf: (flag: string) => string | undefined;
};

/**
 * The words of subcommand `name`, or an exit code after saying what was wrong with them. `names` is how many names it
 * takes: at least the first, at most the second.
 */
export function readWords(
  name: string,
  args: readonly string[],
  names: readonly [number, number],
  io: Io,
): Words | number {
  const row = subcommands.find((one) => one.name === name);
  const options = Object.fromEntries(
    (row?.options ?? []).map((one) => [one.flag, { type: one.value === null ? 'boolean' : 'string' } as const]),
  );
  try {
    const read = parseArgs({ args: [...args], options, allowPositionals: true, strict: true });
    const [least, most] = names;
    if (read.positionals.length < least) return refuse(io, name, `wants ${row?.usage ?? name}`);
    if (read.positionals.length > most)
      return refuse(io, name, `does not know what to do with "${read.positionals[most]}"`);
    const values: Record<string, unknown> = read.values;
    return {
      names: read.positionals,
      has: (flag) => values[flag] === true,
      valueOf: (flag) => {
        const value = values[flag];
        return typeof value === 'string' ? value : undefined;
      },
    };
  } catch (error) {
    if (!(error instanceof TypeError)) throw error;
    return refuse(io, name, error.message.split('. ')[0] ?? error.message);
  }
}

function refuse(io: Io, name: string, why: string): number {
  io.err(`millside ${name}: ${plainLine(why)}. See millside ${name} --help.\n`);
  return exitCodes.usage;
}
