/** A file that a subcommand writes for the user: whole or not at all, never over another without `--force` (P9). */
import { resolve } from 'node:path';
import { writeExport } from '../store/exports.ts';
import { isFault } from '../store/fault.ts';
import { realDisk } from '../store/real-disk.ts';
import { exitCodes } from './exit-codes.ts';
import type { Io } from './io.ts';
import { sayFault } from './say.ts';

/** Writes it and says so on standard error; the exit code is 0, or 73 or 74 after saying why not. */
export async function writeFileFor(
  io: Io,
  path: string,
  content: string,
  { force }: { readonly force: boolean },
): Promise<number> {
  const written = await writeExport(realDisk, resolve(path), content, { overwrite: force });
  if (isFault(written)) return sayFault(io, written);
  io.err(`millside: ${written.replaced ? 'replaced' : 'written'} ${path}\n`);
  return exitCodes.done;
}
