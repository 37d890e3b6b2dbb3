// P2: the good prefix is kept, the damage is copied aside and named; looking never writes. P13: a newer journal is looked at,
// never written.
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { crc32 } from '../../src/store/crc32.ts';
import { canRunStories } from './harness.ts';
import { closeShops, countOne, makeShop, openToWork, passCards, type Shop, shownGood } from './shop.ts';

afterEach(closeShops);

type Left = { readonly shop: Shop; readonly plan: string; readonly file: string; readonly lines: readonly string[] };

/** A batch with three pieces counted and nobody in it. */
async function batchLeft(): Promise<Left> {
  const shop = makeShop();
  const plan = shop.plan('thirty-blanks');
  const t = await openToWork(shop, { args: [plan] });
  await passCards(shop, t);
  for (let piece = 0; piece < 3; piece += 1) await countOne(shop, t);
  t.press('q');
  await t.exit();
  const file = join(shop.batchFolder(), 'journal.jsonl');
  return { shop, plan, file, lines: readFileSync(file, 'utf8').split('\n').slice(0, -1) };
}

const lineOfCount = ({ lines }: Left, piece: number): number => {
  const counts = lines.flatMap((line, index) => (line.includes('"LoadCounted"') ? [index] : []));
  return counts[piece - 1] ?? -1;
};

describe.skipIf(!canRunStories())('a journal that was', () => {
  it('edited by hand keeps what stands before the edit and names the rest, which is kept aside', async () => {
    const left = await batchLeft();
    const { shop, file, lines } = left;
    const at = lineOfCount(left, 3);
    const edited = lines.map((line, index) => (index === at ? line.replace('"good":1', '"good":9') : line));
    expect(edited[at]).not.toBe(lines[at]);
    const text = `${edited.join('\n')}\n`;
    writeFileSync(file, text);
    const offset = Buffer.byteLength(edited.slice(0, at).join('\n')) + 1;

    const looked = shop.ask('status', '--json');
    expect(looked.code).toBe(0);
    expect(looked.err).toContain(`good up to byte ${offset}`);
    expect(JSON.parse(looked.out)).toMatchObject({ operations: [{ good: 2 }] });
    expect(readFileSync(file, 'utf8')).toBe(text);

    const t = await shop.open({ args: [left.plan] });
    await t.waitFor((screen) => /DAMAGED/.test(screen.text), 'a word about the damage');
    const told = t.screen().text.replaceAll(/\s+/g, '');
    for (const fact of [
      'journal.jsonl',
      `byte${offset}`,
      `${Buffer.byteLength(text) - offset}bytes`,
      `damaged-${offset}-1.jsonl`,
    ]) {
      expect(told).toContain(fact);
    }
    t.press('enter');
    await t.waitFor((screen) => shownGood(screen) === 2, 'the batch');
    expect(shop.events('NoteMade')).toMatchObject([{ text: expect.stringContaining(`byte ${offset}`) }]);
    const aside = readdirSync(shop.batchFolder()).filter((name) => name.startsWith('damaged-'));
    expect(aside).toEqual([`damaged-${offset}-1.jsonl`]);
    expect(readFileSync(join(shop.batchFolder(), aside[0] ?? ''), 'utf8')).toBe(text.slice(offset));
    await passCards(shop, t);
    expect(await countOne(shop, t)).toBe(3);
  });

  it('torn in the middle of its last line keeps all before it', async () => {
    const left = await batchLeft();
    const at = lineOfCount(left, 3);
    writeFileSync(left.file, `${left.lines.slice(0, at).join('\n')}\n${left.lines[at]?.slice(0, 50)}`);
    const t = await left.shop.open({ args: [left.plan] });
    await t.waitFor((screen) => /DAMAGED/.test(screen.text), 'a word about the damage');
    t.press('enter');
    await t.waitFor((screen) => shownGood(screen) === 2, 'the batch');
    await passCards(left.shop, t);
    expect(await countOne(left.shop, t)).toBe(3);
  });

  it('written by a newer version is looked at as far as it is understood and never written', async () => {
    const { shop, plan, file, lines } = await batchLeft();
    const prev = /"crc":"([0-9a-f]{8})"\}$/.exec(lines.at(-1) ?? '')?.[1];
    const newer = `{"v":99,"seq":${lines.length + 1},"prev":"${prev}","something":"new"`;
    const crc = crc32(Buffer.from(newer)).toString(16).padStart(8, '0');
    const text = `${lines.join('\n')}\n${newer},"crc":"${crc}"}\n`;
    writeFileSync(file, text);
    const before = readdirSync(shop.batchFolder());

    const looked = shop.ask('status', '--json');
    expect(looked.code).toBe(0);
    expect(JSON.parse(looked.out)).toMatchObject({ operations: [{ good: 3 }] });
    expect(looked.err).toMatch(/newer/);

    const t = await shop.open({ args: [plan] });
    await t.waitFor((screen) => /newer/.test(screen.text), 'why it cannot be opened');
    t.press('enter');
    expect(await t.exit()).toBe(65);
    expect(readFileSync(file, 'utf8')).toBe(text);
    expect(readdirSync(shop.batchFolder()).filter((name) => name !== 'owner.json')).toEqual(before);
    expect(existsSync(join(shop.batchFolder(), 'owner.json'))).toBe(false);
  });
});
