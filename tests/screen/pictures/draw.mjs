// Draws every moment of a plan as pages of pictures, each panel as large as it looks from where one stands. Run by hand:
//   node tests/screen/pictures/draw.mjs FOLDER [METRES] [PLAN]
// 2 m by default; 0.6 m is the desk. Open the pages in a browser at 100 % on a screen of 0.25 mm a pixel, 600 mm away.
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const [folder, metres = '2', plan] = process.argv.slice(2);
if (folder === undefined) throw new Error('Name the folder for the pages.');
const cache = fileURLToPath(new URL('../../../node_modules/.cache/millside/', import.meta.url));
mkdirSync(cache, { recursive: true });
const outfile = `${cache}pictures-${process.pid}.mjs`;
process.on('exit', () => rmSync(outfile, { force: true }));
await build({
  entryPoints: [fileURLToPath(new URL('sheets.ts', import.meta.url))],
  bundle: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  packages: 'external',
  outfile,
  // Plans are found from where the module that reads them lies, not from where the bundle does.
  define: { 'import.meta.url': JSON.stringify(new URL('../../plan/plan-samples.ts', import.meta.url).href) },
  logLevel: 'error',
});
const { planFor, sheetsOf } = await import(pathToFileURL(outfile).href);
mkdirSync(folder, { recursive: true });
for (const { name, html } of sheetsOf(planFor(plan), Number(metres))) {
  writeFileSync(join(folder, `${name}.html`), html);
  process.stdout.write(`${join(folder, `${name}.html`)}\n`);
}
