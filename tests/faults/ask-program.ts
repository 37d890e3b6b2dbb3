import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { Readable } from 'node:stream';
import { text } from 'node:stream/consumers';
import { fileURLToPath } from 'node:url';

// The built program asked from outside, with what it took.

const program = fileURLToPath(new URL('../../dist/main.js', import.meta.url));
const memory = new URL('../faults/tell-memory.mjs', import.meta.url).href;

/** What the program may take for any answer (P8). */
export const allowed = { ms: 6000, bytes: 600e6 } as const;

export interface Answer {
  readonly code: number;
  readonly out: string;
  readonly err: string;
  /** By the clock of the wall, and of the processor: a busy machine stretches the first. */
  readonly ms: number;
  readonly cpu_ms: number;
  /** The most memory that was resident. */
  readonly bytes: number;
}

/** Fails unless the program has been built. */
export function requireProgram(): void {
  if (!existsSync(program)) throw new Error('the program is not built; run: npm run build');
}

/** Runs the program with these words to its end. */
export async function askProgram(env: Readonly<Record<string, string>>, ...words: readonly string[]): Promise<Answer> {
  const began = performance.now();
  const run = spawn(process.execPath, ['--import', memory, program, ...words], {
    env: { PATH: process.env['PATH'], ...env },
    stdio: ['ignore', 'pipe', 'pipe', 'pipe'],
  });
  const pipes = run.stdio.slice(1).filter((pipe) => pipe instanceof Readable);
  const said = Promise.all(pipes.map((pipe) => text(pipe)));
  const [code] = (await once(run, 'close')) as [number];
  const [out = '', err = '', used = ''] = await said;
  const [bytes = 0, cpu_ms = 0] = used.split(' ').map(Number);
  return { code, out, err, ms: performance.now() - began, cpu_ms, bytes };
}
