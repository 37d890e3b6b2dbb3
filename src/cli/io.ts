/**
 * What a subcommand may touch of the world outside: data goes to `out`, words to `err`. Text of files is made printable
 * before it comes here (P8); nothing is coloured.
 */
export type Io = {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly isTerminal: boolean;
  /** Columns to write for: the terminal's, else 80. */
  readonly columns: number;
};

/** The streams and environment of this process. */
export function processIo(): Io {
  return {
    out: (text) => {
      process.stdout.write(text);
    },
    err: (text) => {
      process.stderr.write(text);
    },
    env: process.env,
    // Asked when wanted: making the stream of the standard input takes longer than some commands.
    get isTerminal() {
      return process.stdin.isTTY === true && process.stdout.isTTY === true;
    },
    get columns() {
      return process.stdout.columns ?? 80;
    },
  };
}

/** One JSON value as a line of its own, indented for reading. */
export function writeJson(io: Io, value: unknown): void {
  io.out(`${JSON.stringify(value, null, 2)}\n`);
}
