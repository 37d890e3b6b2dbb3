import { runReckon } from '../../../src/cli/reckon/run-reckon.ts';

/** What `reckon` said to a line. */
export interface Said {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** The words of a line as a shell would split it: double quotes keep spaces. */
export const wordsOf = (line: string): string[] =>
  [...line.matchAll(/"([^"]*)"|(\S+)/g)].map((match) => match[1] ?? match[2] ?? '');

/** Runs `reckon` with the words of a line. */
export function ask(line: string): Said {
  let out = '';
  let err = '';
  const io = {
    out: (text: string) => {
      out += text;
    },
    err: (text: string) => {
      err += text;
    },
  };
  const code = runReckon(wordsOf(line), io);
  return { code, out, err };
}

/** The JSON answer to a line; throws when it was refused. */
export function askJson(line: string): Record<string, unknown> {
  const said = ask(`${line} --json`);
  if (said.code !== 0) throw new Error(said.err);
  return JSON.parse(said.out) as Record<string, unknown>;
}
