/** A tiny program over the terminal parts, for the stories that test them: it counts Enter and shows the last key. */
import { writeFileSync } from 'node:fs';
import { Box, render, Text } from 'ink';
import { type ReactNode, useSyncExternalStore } from 'react';
import { BlockDigits } from '../../../src/screen/parts/block-digits.tsx';
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
const listeners = new Set<() => void>();
function show(change: Partial<Shown>): void {
  shown = { ...shown, ...change };
  for (const listener of listeners) listener();
}

function App(): ReactNode {
  const { count, last, resumed, size, noise } = useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => shown,
  );
  return (
    <Box flexDirection="column">
      <BlockDigits text={String(count)} size={{ kind: 'block', font: '3x5', pixelColumns: 2, pixelRows: 1 }} />
      <Text>{`key <${last}> resumed ${resumed} size ${size}`}</Text>
      <Text>{noise}</Text>
    </Box>
  );
}

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
render(<App />, { stdout: session.painter.stream, debug: true, exitOnCtrlC: false, patchConsole: false });
