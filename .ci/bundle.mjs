// Builds dist/ from src/ and gathers the licence notices of the libraries that the bundle carries.
// Runs on `npm ci` (prepare), before the tests and before the benchmarks; needs no network.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const top = dirname(dirname(fileURLToPath(import.meta.url)));
process.chdir(top);

let esbuild;
try {
  esbuild = await import('esbuild');
} catch {
  if (existsSync('dist/main.js')) {
    process.stderr.write('bundle: development packages are not installed; keeping the built program.\n');
    process.exit(0);
  }
  process.stderr.write('bundle: esbuild is not installed. Run `npm ci` with development packages.\n');
  process.exit(1);
}

const fresh = `dist.new-${process.pid}`;
const { version } = JSON.parse(readFileSync('package.json', 'utf8'));
const shared = {
  outdir: fresh,
  bundle: true,
  platform: 'node',
  target: 'node20',
  define: { 'process.env.NODE_ENV': '"production"', fetch: 'undefined', MILLSIDE_VERSION: JSON.stringify(version) },
  legalComments: 'none',
  logLevel: 'warning',
  metafile: true,
};
const banner = {
  js: "import { createRequire as __millsideRequire } from 'node:module'; const require = __millsideRequire(import.meta.url);",
};
// The way in is one small file; what it loads by import() are entries of their own, bundled below.
const loadedByMain = ['open', 'help', 'commands', 'json-shapes'];
const way = await esbuild.build({
  ...shared,
  entryPoints: { main: 'src/cli/main.ts' },
  format: 'esm',
  plugins: [{ name: 'loaded later', setup: (build) => build.onResolve({ filter: /^\.\// }, loadedLater) }],
});
const screen = await esbuild.build({
  ...shared,
  entryPoints: Object.fromEntries(loadedByMain.map((name) => [name, `src/cli/${name}.ts`])),
  splitting: true,
  format: 'esm',
  chunkNames: 'chunk-[hash]',
  alias: { 'react-devtools-core': './src/screen/no-devtools.ts' },
  banner,
});
// All subcommands in one file, which src/cli/commands.ts loads together with what the compiler made of it before.
const commands = await esbuild.build({
  ...shared,
  entryPoints: { commands: 'src/cli/runners.ts' },
  format: 'cjs',
  outExtension: { '.js': '.cjs' },
  supported: { 'dynamic-import': false },
  banner: { js: '(function (module, require) { var exports = module.exports;' },
  footer: { js: '})' },
});
keepCode();

const inputs = new Set([way, screen, commands].flatMap((one) => Object.keys(one.metafile.inputs)));
writeFileSync(join(fresh, 'NOTICES.txt'), notices([...inputs]));
mkdirSync('dist', { recursive: true });
const made = readdirSync(fresh);
for (const name of made) renameSync(join(fresh, name), join('dist', name));
for (const name of readdirSync('dist')) if (!made.includes(name)) rmSync(join('dist', name), { recursive: true });
rmSync(fresh, { recursive: true });

/** Where the way in finds what it loads by import(). */
function loadedLater({ path, kind }) {
  if (kind !== 'dynamic-import') return undefined;
  const name = path.replace(/^\.\/(.*)\.ts$/, '$1');
  if (!loadedByMain.includes(name)) throw new Error(`bundle: main.ts loads ${path}, which is no entry`);
  return { path: `./${name}.js`, external: true };
}

/** Has the compiled code of the subcommands kept; without it they only start slower. */
function keepCode() {
  const env = { ...process.env, NODE_OPTIONS: '' };
  const { status, stderr } = spawnSync(process.execPath, ['.ci/keep-code.mjs', fresh], { env, encoding: 'utf8' });
  if (status !== 0) process.stderr.write(`bundle: the compiled code of the subcommands was not kept.\n${stderr}`);
}

/** Name, version, licence and licence text of every package with a file in the bundle. */
function notices(inputs) {
  const folders = new Set();
  for (const input of inputs) {
    const found = /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(input);
    if (found?.[1]) folders.add(found[1]);
  }
  const parts = ['Libraries carried in this program, with their licences.\n'];
  for (const folder of [...folders].sort()) {
    const about = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
    const file = readdirSync(folder).find((name) => /^licen[cs]e/i.test(name));
    const text = file ? readFileSync(join(folder, file), 'utf8').trim() : '(no licence file in the package)';
    parts.push(`\n${'='.repeat(72)}\n${about.name} ${about.version}: ${about.license ?? 'see below'}\n\n${text}\n`);
  }
  return parts.join('');
}
