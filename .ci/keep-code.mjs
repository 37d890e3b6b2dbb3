// Runs a few subcommands of the program built in the folder given and keeps what the compiler made of them beside it
// (see src/cli/commands.ts). Usage: node .ci/keep-code.mjs dist
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';

const folder = resolve(process.argv[2] ?? 'dist');
const { keptCodePath, loadCommands, sealCode } = await import(pathToFileURL(join(folder, 'commands.js')).href);
const path = join(folder, 'commands.cjs');
const { commands, script } = loadCommands(path);

const empty = mkdtempSync(join(tmpdir(), 'millside-build-'));
process.on('exit', () => rmSync(empty, { recursive: true, force: true }));
const env = { MILLSIDE_HOME: empty, MILLSIDE_CONFIG: empty };
const io = { out: () => {}, err: () => {}, env, isTerminal: false, columns: 80 };
const job = 'jobs/keeper-plates.yaml';
for (const [name, ...args] of [
  ['check', job],
  ['check', job, '--json'],
  ['steps', job],
]) {
  const run = await commands.runners[name]();
  await run(args, io);
}
writeFileSync(keptCodePath(path), sealCode(readFileSync(path), script.createCachedData()));
