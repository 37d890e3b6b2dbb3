// P10: a bug of the program's own, in the middle of a batch, gives the terminal back, says where the batch stands and ends
// with 70; P1: the journal is whole, and the count is the same when the batch is opened again.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { canRunStories } from './harness.ts';
import { builtProgram, closeShops, countOne, makeShop, openToWork, passCards, shownGood } from './shop.ts';

afterEach(closeShops);

const preload = new URL('./break-program.mjs', import.meta.url).href;
/** Runs the program, then shows how it ended and how it left the terminal, until Enter. */
const andThen =
  '"$@"; echo "ended with $?"; stty -a | tr " ;" "\\n\\n" | grep -xE -- "-?(icanon|echo|isig|icrnl)" | xargs echo modes; read line';

describe.skipIf(!canRunStories())('a bug of the program itself', () => {
  it.each([
    ['while it draws', 'drawing', 'no such sign'],
    ['as a promise that nobody waits for', 'rejection', 'no such piece'],
  ])('%s gives the terminal back and says where the batch stands; nothing is lost', async (_, what, words) => {
    const shop = makeShop();
    const plan = shop.plan('thirty-blanks');
    const trigger = join(shop.folder, 'break');
    const env = { NODE_OPTIONS: `--import=${preload}`, BREAK_PROGRAM_FILE: trigger };
    const program = ['bash', '-c', andThen, 'bash', ...builtProgram];
    const t = await openToWork(shop, { program, args: [plan], env, cols: 100 });
    await passCards(shop, t);
    await countOne(shop, t);
    await countOne(shop, t);
    const lines = shop.journal().length;
    const bytes = shop.journalBytes();
    const mark = t.mark();

    writeFileSync(trigger, what);
    const screen = await t.waitFor(({ text }) => /modes .*echo/.test(text), 'the shell');
    expect(screen.text).toContain('ended with 70');
    expect(screen.isAlternate).toBe(false);
    expect(screen.text).toContain(`millside found a bug of its own: ${words}`);
    expect(screen.text).toMatch(/millside: Thirty blanks .* stands at .* 2 good; all is saved\./);
    // A terminal as the shell had it: whole lines, echo, signals by key, Enter as a newline.
    const modes = /modes (.*)/.exec(screen.text)?.[1]?.trim().split(' ') ?? [];
    expect([...modes].sort()).toEqual(['echo', 'icanon', 'icrnl', 'isig']);
    const last = t.bytesSince(mark).toString();
    // Cursor shown, bracketed paste off, alternate screen left: DECTCEM, xterm modes 2004 and 1049.
    for (const mode of ['\u001b[?25h', '\u001b[?2004l', '\u001b[?1049l']) expect(last).toContain(mode);

    // Nothing more was written by a program that could not be trusted any more: the sitting is as after a cut.
    expect([shop.journal().length, shop.journalBytes()]).toEqual([lines, bytes]);
    expect(shop.status()).toMatchObject({ state: 'left', held_by: null, operations: [{ good: 2 }] });
    const again = await openToWork(shop, { args: [plan] });
    expect(shownGood(again.screen())).toBe(2);
    await passCards(shop, again);
    expect(await countOne(shop, again)).toBe(3);
    expect(shop.events('SittingBegan').map((event) => event.afterCut)).toEqual([false, true]);
  });
});
