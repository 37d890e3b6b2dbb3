/**
 * `millside completions SHELL`: completions for bash, zsh or fish, made from the table of subcommands, the topics of `reckon`
 * and the keys of the settings.
 */
import { plainLine } from '../report/neutral-text.ts';
import { suggestName } from '../shop/suggest-name.ts';
import { readWords } from './arguments.ts';
import { bashCompletions } from './completions/bash.ts';
import { fishCompletions } from './completions/fish.ts';
import { zshCompletions } from './completions/zsh.ts';
import { exitCodes } from './exit-codes.ts';
import type { Io } from './io.ts';

/** Shells and what makes their completions. */
export const shells: Readonly<Record<string, () => string>> = {
  bash: bashCompletions,
  zsh: zshCompletions,
  fish: fishCompletions,
};

export function runCompletions(args: readonly string[], io: Io): number {
  const words = readWords('completions', args, [1, 1], io);
  if (typeof words === 'number') return words;
  const name = words.names[0] ?? '';
  const make = Object.hasOwn(shells, name) ? shells[name] : undefined;
  if (make === undefined) {
    const near = suggestName(name, Object.keys(shells));
    const hint = near === undefined ? '' : `; did you mean ${near}?`;
    io.err(`millside completions: knows bash, zsh and fish, not "${plainLine(name)}"${hint}\n`);
    return exitCodes.usage;
  }
  io.out(make());
  return exitCodes.done;
}
