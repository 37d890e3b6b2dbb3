/**
 * Loads what runs the subcommands in the built program: one file for all of them (bundled from runners.ts) with what the
 * compiler made of it when it was built, so that a command that takes a moment does not spend three on being compiled.
 * What was kept of the compiler is used only when it is whole, belongs to this very file and fits this Node: a spoiled one
 * would end the process inside the engine. Else the file is compiled as ever; nothing is said, since nothing is lost.
 */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';
import { setFlagsFromString } from 'node:v8';
import { Script } from 'node:vm';
import type { runners } from './runners.ts';

export type Commands = { readonly runners: typeof runners };

/** Bytes of a SHA-256. */
const CHECK_BYTES = 32;
/** The engine of Node 20, for which the figure below was found; another one keeps its own. */
const knownEngine = /^11\.3\./;

/** The commands in the file at `path`, and the script that they came from. Throws when there is no such file. */
export function loadCommands(path: string): { readonly commands: Commands; readonly script: Script } {
  // A command is over before its functions, optimised in the background, are of use: wait eight times as long as usual.
  if (knownEngine.test(process.versions.v8)) setFlagsFromString('--interrupt-budget=1000000');
  const source = readFileSync(path);
  const cachedData = keptCode(path, source);
  const script = new Script(source.toString('latin1'), {
    filename: pathToFileURL(path).href,
    ...(cachedData === undefined ? {} : { cachedData }),
  });
  const module: { exports: unknown } = { exports: {} };
  const run = script.runInThisContext() as (module: { exports: unknown }, require: NodeJS.Require) => void;
  run(module, createRequire(path));
  return { commands: module.exports as Commands, script };
}

/** Where the compiled code of the file at `path` is kept. */
export const keptCodePath = (path: string): string => `${path}.code`;

/** Compiled code as it is kept: a check over it and its source, then the code. */
export function sealCode(source: Buffer, code: Buffer): Buffer {
  return Buffer.concat([checkOver(source, code), code]);
}

function keptCode(path: string, source: Buffer): Buffer | undefined {
  try {
    const kept = readFileSync(keptCodePath(path));
    const code = kept.subarray(CHECK_BYTES);
    return checkOver(source, code).equals(kept.subarray(0, CHECK_BYTES)) ? code : undefined;
  } catch {
    return undefined;
  }
}

const checkOver = (source: Buffer, code: Buffer): Buffer => createHash('sha256').update(source).update(code).digest();
