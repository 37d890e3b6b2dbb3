/** A tiny program over the terminal parts, for the stories that test them: it counts Enter and shows the last key. */
import { writeFileSync } from 'node:fs';
import { render } from 'ink';
import { Frame } from '../../../src/screen/frame.tsx';
import { digitLines } from '../../../src/screen/parts/digits.ts';
import { keyId } from '../../../src/screen/terminal/key.ts';
import { openSession } from '../../../src/screen/terminal/session.ts';

type Shown = {
  readonly count: number;
  readonly last: string;
  readonly resumed: number;
  readonly size: string;
  readonly noise: string;
};

let shown: Shown = { count: 0, last: '', resumed: 0, size: '', noise: '' };
let lines: readonly string[] = [];
const listeners = new Set<() => void>();
function show(change: Partial<Shown>): void {
  shown = { ...shown, ...change };
  const digits = digitLines(String(shown.count), { kind: 'block', font: '3x5', pixelColumns: 2, pixelRows: 1 });
  lines = [
    ...digits.map((line) => line.replace(/#+/g, (run) => `\u001b[7m${' '.repeat(run.length)}\u001b[0m`)),
    `key <${shown.last}> resumed ${shown.resumed} size ${shown.size}`,
    ...(shown.noise.match(/.{1,70}/g) ?? []),
  ];
  for (const listener of listeners) listener();
}

const source = {
  subscribe: (listener: () => void) => {
    listeners.add(listener);
    return () => listeners.delete(listener);
  },
  read: () => lines,
};

const sizeNow = (): string => `${process.stdout.rows}x${process.stdout.columns}`;
const session = openSession({
  stdin: process.stdin,
  stdout: process.stdout,
  onKey: (key) => {
    const id = keyId(key);
    if (id === 'q') session.end(0);
    if (id === '!') setTimeout(() => session.fail(new Error('no such piece')), 0);
    if (id === '^') throw new Error('thrown in a handler');
    if (id === 'f') show({ noise: String(shown.noise.charCodeAt(0) % 10).repeat(1000) });
    // Said beside the screen, which may be frozen.
    if (id === 'w') writeFileSync(process.env['BESIDE'] ?? '', `${shown.count} ${session.painter.isFrozen()}`);
    show({ count: shown.count + (id === 'enter' ? 1 : 0), last: id });
  },
  onResume: () => show({ resumed: shown.resumed + 1 }),
  lastWords: () => `stands at ${shown.count}`,
  exit: process.exit,
});
process.stdout.on('resize', () => show({ size: sizeNow() }));
show({ size: sizeNow() });
render(<Frame source={source} />, {
  stdout: session.painter.stream,
  debug: true,
  exitOnCtrlC: false,
  patchConsole: false,
});
