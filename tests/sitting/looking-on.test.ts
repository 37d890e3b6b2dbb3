import { appendFileSync, readdirSync, readFileSync, readlinkSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { makeLookingOn } from '../../src/sitting/looking-on.ts';
import { openBatch } from '../../src/sitting/opening.ts';
import { isFault } from '../../src/store/fault.ts';
import { aShop, keepBatch, type Shop } from '../cli/kept-batches.ts';

const id = 'aaaaaaaaaaa1';
let shop: Shop;

beforeEach(async () => {
  shop = await aShop();
  await keepBatch(shop, 'jobs/keeper-plates.yaml', { id, start: '2027-01-11T18:00:00Z', part: 0.3 });
});
afterEach(() => rmSync(shop.folder, { recursive: true, force: true }));

describe('looking on', () => {
  it('reads what another terminal adds, and answers with the same state while nothing is added', async () => {
    const look = makeLookingOn(shop.world);
    const before = await look(id);
    expect(before).toMatchObject({ kind: 'open' });
    expect(await look(id)).toBe(before);
    const opened = await openBatch(shop.world, id, { takeFromOtherHost: false, by: 'MK', amendment: () => null });
    if (isFault(opened) || opened.kind !== 'opened') throw new Error('not opened');
    await opened.sitting.send({ kind: 'note', text: 'vice slips' });
    expect(await look(id)).toEqual(opened.sitting.read().state);
    await opened.leave('left');
    expect(await look(id)).toMatchObject({ presence: 'left' });
  });

  it('holds no file open between two looks, whether the journal stayed, grew, was damaged or was replaced', async () => {
    const journal = join(shop.world.home.batches, id, 'journal.jsonl');
    const look = makeLookingOn(shop.world);
    const whole = readFileSync(journal);
    const changes = [
      () => undefined,
      () => appendFileSync(journal, 'torn'),
      () => writeFileSync(journal, whole),
      () => replaceBy(journal, whole.subarray(0, 400)),
      () => replaceBy(journal, whole),
    ];
    for (const change of changes) {
      change();
      await look(id);
      expect(openFiles(journal)).toEqual([]);
    }
    expect(await look(id)).toMatchObject({ kind: 'open' });
    expect(openFiles(journal)).toEqual([]);
  });

  it('at a journal of the same length put in the place of another reads that one', async () => {
    const journal = join(shop.world.home.batches, id, 'journal.jsonl');
    const look = makeLookingOn(shop.world);
    const before = await look(id);
    if (isFault(before as never) || before.kind !== 'open') throw new Error('not open');
    const lines = readFileSync(journal, 'utf8').trimEnd().split('\n');
    const shorter = `${lines.slice(0, 3).join('\n')}\n`;
    // The rest is no line of it: the file keeps its number and its length, and is another all the same.
    writeFileSync(journal, shorter.padEnd(lines.join('\n').length + 1, ' '));
    expect(await look(id)).not.toEqual(before);
  });

  it('at a batch that is not there is a fault', async () => {
    expect(isFault((await makeLookingOn(shop.world)('aaaaaaaaaaa9')) as never)).toBe(true);
  });
});

function replaceBy(path: string, bytes: Uint8Array): void {
  writeFileSync(`${path}.new`, bytes);
  renameSync(`${path}.new`, path);
}

/** Descriptors of this process that lead to `path`, by the system's own list. */
function openFiles(path: string): readonly string[] {
  return readdirSync('/proc/self/fd').filter((fd) => {
    try {
      return readlinkSync(`/proc/self/fd/${fd}`).startsWith(path);
    } catch {
      return false;
    }
  });
}
