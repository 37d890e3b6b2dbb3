// Bundles one TypeScript file of this folder and runs it with the arguments that follow: Node 20 reads no TypeScript.
// Usage: node tests/bench/run.mjs forecast-lines
import { mkdirSync, rmSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const name = process.argv[2] ?? '';
if (!/^[a-z-]+$/.test(name)) throw new Error('Name a file of tests/bench without its ending.');
const cache = fileURLToPath(new URL('../../node_modules/.cache/millside/', import.meta.url));
mkdirSync(cache, { recursive: true });
const outfile = `${cache}${name}-${process.pid}.mjs`;
process.on('exit', () => rmSync(outfile, { force: true }));
await build({
  entryPoints: [fileURLToPath(new URL(`${name}.ts`, import.meta.url))],
  bundle: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  packages: 'external',
  outfile,
  // Files beside the sources are found from where the sources lie, not from where the bundle does.
  define: { 'import.meta.url': JSON.stringify(new URL(`${name}.ts`, import.meta.url).href) },
  logLevel: 'error',
});
process.argv.splice(1, 2, outfile);
await import(pathToFileURL(outfile).href);
