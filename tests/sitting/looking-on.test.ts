import { rmSync } from 'node:fs';
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

  it('at a batch that is not there is a fault', async () => {
    expect(isFault((await makeLookingOn(shop.world)('aaaaaaaaaaa9')) as never)).toBe(true);
  });
});
