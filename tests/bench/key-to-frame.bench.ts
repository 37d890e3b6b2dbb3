/**
 * From a key pressed to its frame on the terminal, through a pseudo-terminal: a bare program that echoes, and a small
 * program through Ink and the painter. Goal: the 99th percentile at most that of the bare program plus one frame of
 * a 60 Hz screen (16.7 ms), after warm-up.
 */
import { bench, describe } from 'vitest';
import { buildSmallProgram } from '../screen/terminal/build-small-program.ts';
import { canRunStories, type Program, startProgram, stopAll } from '../stories/harness.ts';

const echo = `process.stdin.setRawMode(true); process.stdout.write('ready'); let n = 0;
process.stdin.on('data', () => process.stdout.write('\\u001b[H' + ++n));`;

/** Presses a key and waits until bytes have come back. */
async function pressOnce(t: Program): Promise<void> {
  const mark = t.mark();
  t.press('enter');
  await t.waitFor(() => t.mark() > mark, 'an answer to the key');
}

describe.skipIf(!canRunStories())('key to frame', async () => {
  const bare = await startProgram({ program: [process.execPath, '-e', echo] });
  await bare.waitFor((screen) => screen.text.includes('ready'), 'the bare program');
  const small = await startProgram({ program: [process.execPath, await buildSmallProgram()] });
  await small.waitFor((screen) => screen.hasDigits('0'), 'the small program');

  const options = { time: 1500, warmupIterations: 50 };
  bench('a bare program', () => pressOnce(bare), options);
  bench('through Ink and the painter', () => pressOnce(small), {
    ...options,
    // Benchmarks run no afterAll; this is the last one.
    teardown: (_task, mode) => {
      if (mode === 'run') stopAll();
    },
  });
});
