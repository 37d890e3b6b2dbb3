import { existsSync, mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { canRunStories, type Program, startProgram, stopAll } from '../../stories/harness.ts';
import { buildSmallProgram } from './build-small-program.ts';

let built = '';
beforeAll(async () => {
  built = await buildSmallProgram();
});
afterEach(stopAll);

async function startSmall(env: Record<string, string> = {}): Promise<Program> {
  const t = await startProgram({ program: [process.execPath, built], env });
  await t.waitFor((screen) => screen.hasDigits('0') && screen.text.includes('key <>'), 'the first frame');
  return t;
}

/** The modes that must be back at the end, in the bytes written since `mark`. */
function expectGivenBack(bytes: string): void {
  for (const mode of ['\u001b[?1049l', '\u001b[?25h', '\u001b[?2004l']) expect(bytes).toContain(mode);
}

describe.skipIf(!canRunStories())('the session', () => {
  it('counts a key and writes only what changed', async () => {
    const t = await startSmall();
    const mark = t.mark();
    t.press('enter');
    await t.waitFor((screen) => screen.hasDigits('1') && screen.text.includes('<enter>'), 'the count');
    expect(t.bytesSince(mark).length).toBeLessThan(160);
    expect(t.bytesSince(mark).toString()).not.toContain('\u001b[2J');
  });

  it.each([
    ['SIGINT', 130],
    ['SIGTERM', 143],
    ['SIGQUIT', 131],
    ['SIGHUP', 129],
  ] as const)('[P10] %s gives the terminal back, leaves the last words and exits with %i', async (signal, code) => {
    const t = await startSmall();
    t.press('enter');
    await t.waitFor((screen) => screen.hasDigits('1'), 'the count');
    const mark = t.mark();
    t.kill(signal);
    expect(await t.exit()).toBe(code);
    expectGivenBack(t.bytesSince(mark).toString());
    expect(t.screen().isAlternate).toBe(false);
    expect(t.screen().lines).toContain('stands at 1');
  });

  it.each(['!', '^'])(
    'a bug (%s) restores the terminal, shows a short trace and where the batch stands, and exits with 70',
    async (key) => {
      const t = await startSmall();
      const mark = t.mark();
      t.press(key);
      expect(await t.exit()).toBe(70);
      expectGivenBack(t.bytesSince(mark).toString());
      expect(t.screen().text).toMatch(/millside found a bug of its own: (no such piece|thrown in a handler)/);
      expect(t.screen().lines).toContain('stands at 0');
      expect(t.screen().text).not.toContain('/tmp/');
    },
  );

  it('[P10] a closed window ends the program within 3 s', async () => {
    const t = await startSmall();
    t.hangUp();
    await t.gone(3000);
  });

  it('[P10] a frozen terminal stops no counting, and shows the newest count when it thaws', async () => {
    const beside = join(mkdtempSync(join(tmpdir(), 'beside-')), 'count');
    const t = await startSmall({ BESIDE: beside });
    t.freeze();
    const says = (what: string, ...keys: string[]): Promise<void> =>
      vi.waitFor(
        () => {
          t.press(...keys, 'w');
          expect(existsSync(beside) && readFileSync(beside, 'utf8')).toBe(what);
        },
        { timeout: 10_000, interval: 5 },
      );
    // A thousand cells change with each f: what the pipes between hold is soon full.
    await says('0 true', 'f');
    for (let press = 0; press < 300; press += 1) t.press('enter');
    await says('300 true');
    t.thaw();
    await t.waitFor((screen) => screen.hasDigits('300') && screen.text.includes('<w>'), '300 counted');
  });

  it('[P10] a frozen terminal does not keep the program from ending', async () => {
    const t = await startSmall();
    t.freeze();
    t.kill('SIGTERM');
    await t.gone(3000);
  });

  it('keeps its place through a storm of resizes and paints the last size', async () => {
    const t = await startSmall();
    t.press('enter', 'enter');
    await t.waitFor((screen) => screen.hasDigits('2'), 'two counted');
    for (let round = 0; round < 10; round += 1) t.resize(10 + round, 40 + round);
    t.resize(15, 50);
    await t.waitFor((screen) => screen.text.includes('size 15x50') && screen.hasDigits('2'), 'the last size');
  });

  it('[P12] SIGUSR1 opens no debugger port', async () => {
    const t = await startSmall();
    t.kill('SIGUSR1');
    t.press('enter');
    await t.waitFor((screen) => screen.hasDigits('1'), 'the count');
    expect(listeningPorts(t.pid)).toEqual([]);
    expect(t.screen().text).not.toContain('Debugger');
  });

  it('Ctrl-Z stops the program as the shell expects and fg brings the screen back', async () => {
    const shell = `set -m; "${process.execPath}" "${built}"; echo "STOPPED $?"; stty -a | grep -o -e ' -\\?icanon'; read x; fg; echo "ENDED $?"`;
    const t = await startProgram({ program: ['bash', '-c', shell] });
    await t.waitFor((screen) => screen.hasDigits('0'), 'the first frame');
    t.press('enter');
    await t.waitFor((screen) => screen.hasDigits('1'), 'the count');
    t.press('ctrl-z');
    await t.waitFor((screen) => screen.text.includes('STOPPED 148') && screen.text.includes(' icanon'), 'the shell');
    expect(t.screen().isAlternate).toBe(false);
    t.press('enter');
    await t.waitFor((screen) => screen.hasDigits('1') && screen.text.includes('resumed 1'), 'the screen again');
    t.press('enter');
    await t.waitFor((screen) => screen.hasDigits('2'), 'counting on');
    t.press('q');
    await t.waitFor((screen) => screen.text.includes('ENDED 0') && screen.text.includes('stands at 2'), 'the end');
  });

  it('Ctrl-Z without a shell to come back to goes on', async () => {
    const t = await startSmall();
    t.press('ctrl-z');
    await t.waitFor((screen) => screen.text.includes('resumed 1'), 'the screen again');
    t.press('enter');
    await t.waitFor((screen) => screen.hasDigits('1'), 'the count');
  });

  it('[P6] a bracketed paste is one key, whatever it holds', async () => {
    const t = await startSmall();
    t.type('\u001b[200~q\r\r\rq!\u001b[201~');
    await t.waitFor((screen) => screen.text.includes('key <paste>') && screen.hasDigits('0'), 'the paste');
  });

  it('a lone Escape is a key after a short wait', async () => {
    const t = await startSmall();
    t.press('escape');
    await t.waitFor((screen) => screen.text.includes('key <escape>'), 'the key');
  });
});

/** Local ports on which the process listens for TCP, from /proc (state 0A). */
function listeningPorts(pid: number): string[] {
  return ['tcp', 'tcp6'].flatMap((name) => {
    const file = `/proc/${pid}/net/${name}`;
    if (!existsSync(file)) return [];
    const lines = readFileSync(file, 'utf8').split('\n').slice(1);
    return lines
      .map((line) => line.trim().split(/\s+/))
      .filter((parts) => parts[3] === '0A')
      .flatMap((parts) => (parts[1]?.endsWith(':240D') ? [parts[1]] : []));
  });
}
