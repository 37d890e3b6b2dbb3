import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

/** Bundles small-program.tsx as the real program is bundled and gives the path of the result. */
export async function buildSmallProgram(): Promise<string> {
  const here = fileURLToPath(new URL('.', import.meta.url));
  const outfile = join(mkdtempSync(join(tmpdir(), 'small-program-')), 'small-program.mjs');
  await build({
    entryPoints: [join(here, 'small-program.tsx')],
    outfile,
    bundle: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    jsx: 'automatic',
    define: { 'process.env.NODE_ENV': '"production"', fetch: 'undefined' },
    alias: { 'react-devtools-core': join(here, '../../../src/screen/no-devtools.ts') },
    banner: { js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);" },
    logLevel: 'warning',
  });
  return outfile;
}
