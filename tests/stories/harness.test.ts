import { afterEach, describe, expect, it } from 'vitest';
import { canRunStories, startProgram, stopAll } from './harness.ts';

afterEach(stopAll);

const echo = `
process.stdin.setRawMode(true);
process.stdout.write('size ' + process.stdout.rows + 'x' + process.stdout.columns + '\\r\\n');
process.stdout.on('resize', () => process.stdout.write('now ' + process.stdout.rows + 'x' + process.stdout.columns + '\\r\\n'));
process.stdin.on('data', (b) => { if (String(b) === 'q') process.exit(7); process.stdout.write('got ' + b.toString('hex') + '\\r\\n'); });
`;
const program = [process.execPath, '-e', echo];

describe.skipIf(!canRunStories())('the story harness', () => {
  it('starts a program at a given size, presses keys, sees the screen and the exit code', async () => {
    const t = await startProgram({ program, rows: 15, cols: 50 });
    await t.waitFor((screen) => screen.text.includes('size 15x50'), 'the size');
    const mark = t.mark();
    t.press('up');
    await t.waitFor((screen) => screen.text.includes('got 1b5b41'), 'the bytes of the key');
    expect(t.bytesSince(mark).toString().trimEnd()).toBe('got 1b5b41');
    t.type('q');
    expect(await t.exit()).toBe(7);
  });

  it('resizes the terminal', async () => {
    const t = await startProgram({ program });
    await t.waitFor((screen) => screen.text.includes('size 24x80'), 'the size');
    t.resize(30, 100);
    await t.waitFor((screen) => screen.text.includes('now 30x100'), 'the new size');
  });

  it('kills the program itself and reports the signal', async () => {
    const t = await startProgram({ program });
    await t.waitFor((screen) => screen.text.includes('size'), 'the start');
    t.kill('SIGKILL');
    expect(await t.exit()).toBe(137);
  });

  it('closes the window', async () => {
    const t = await startProgram({ program });
    await t.waitFor((screen) => screen.text.includes('size'), 'the start');
    t.hangUp();
    await t.gone();
  });

  it('shows the screen when what it waits for does not come', async () => {
    const t = await startProgram({ program });
    await t.waitFor((screen) => screen.text.includes('size'), 'the start');
    await expect(t.waitFor(() => false, 'what never comes', 50)).rejects.toThrow(/what never comes[\s\S]*size 24x80/);
  });
});
