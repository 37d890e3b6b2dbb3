/** An Io that keeps what is said, and temporary folders for data, settings and files. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Io } from '../../src/cli/io.ts';
import type { Runner } from '../../src/cli/runners.ts';

export type Bench = {
  /** A path in the temporary folder. */
  readonly at: (name: string) => string;
  /** Runs a subcommand and answers all that it said. */
  readonly run: (runner: Runner, ...args: string[]) => Promise<{ code: number; out: string; err: string }>;
  readonly io: (said: { out: string; err: string }, env?: Record<string, string>) => Io;
  readonly clear: () => void;
};

/** A bench of its own for a test. */
export function makeBench(env: Record<string, string> = {}): Bench {
  const folder = mkdtempSync(join(tmpdir(), 'millside-cli-'));
  const at = (name: string) => join(folder, name);
  const io: Bench['io'] = (said, more = {}) => ({
    out: (text) => {
      said.out += text;
    },
    err: (text) => {
      said.err += text;
    },
    env: { MILLSIDE_HOME: at('home'), MILLSIDE_CONFIG: at('config'), ...env, ...more },
    isTerminal: false,
    columns: 80,
  });
  return {
    at,
    io,
    run: async (runner, ...args) => {
      const said = { out: '', err: '' };
      const code = await runner(args, io(said));
      return { code, ...said };
    },
    clear: () => rmSync(folder, { recursive: true, force: true }),
  };
}
