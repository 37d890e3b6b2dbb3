import { rmSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runStatus } from '../../src/cli/status.ts';
import { type Standing, standingSchema } from '../../src/sitting/standing.ts';
import { aShop, keepBatch, runIn, type Said, type Shop } from './kept-batches.ts';

const plates = 'jobs/keeper-plates.yaml';
let shop: Shop;

beforeAll(async () => {
  shop = await aShop();
  await keepBatch(shop, plates, { id: 'aaaaaaaaaaa1', start: '2027-01-11T18:00:00Z', seed: 1 });
  await keepBatch(shop, plates, { id: 'aaaaaaaaaaa3', start: '2027-03-01T18:00:00Z', seed: 3, part: 0.4 });
}, 60_000);
afterAll(() => rmSync(shop.folder, { recursive: true, force: true }));

const status = (...args: string[]): Promise<Said> => runIn(shop, runStatus, args);
const standing = async (...args: string[]): Promise<Standing> =>
  standingSchema.parse(JSON.parse((await status('--json', ...args)).out));

describe('millside status', () => {
  it('gives the documented shape, strictly', async () => {
    const said = await status('--json', 'aaaaaaaaaaa3', '--until', '21:30', '--more', '5');
    expect(said.code).toBe(0);
    expect(said.err).toBe('');
    const value: unknown = JSON.parse(said.out);
    expect(standingSchema.strict().parse(value)).toEqual(value);
  });

  it('says when it ends, in order, and what it rests on with the past batch named', async () => {
    const { finish, rests_on, state, what_if } = await standing('aaaaaaaaaaa3');
    expect(state).toBe('left');
    expect(what_if).toBeNull();
    const { p10, p50, p90 } = finish?.batch ?? { p10: '', p50: '', p90: '' };
    expect([p50 >= p10, p90 >= p50, (finish?.remaining_s.p50 ?? 0) > 600]).toEqual([true, true, true]);
    expect(rests_on?.past_batches).toBe(1);
    expect(rests_on?.timed_loads).toBeGreaterThan(10);
    expect(rests_on?.estimates.every((one) => one.batches === 1)).toBe(true);
  });

  it('counts no hour after a cut as work on the piece in hand', async () => {
    // The last line is from March 2027 and the clock of this computer is any other time: nothing ran in between.
    const { finish } = await standing('aaaaaaaaaaa3');
    expect(finish?.remaining_s.p90).toBeLessThan(24 * 3600);
  });

  it('takes longer for more pieces, and for more loads', async () => {
    const now = await standing('aaaaaaaaaaa3');
    const more = await standing('aaaaaaaaaaa3', '--more', '10');
    expect(more.what_if?.finish.remaining_s.p50).toBeGreaterThan(now.finish?.remaining_s.p50 ?? 0);
    expect(more.finish?.remaining_s).toEqual(now.finish?.remaining_s);
    const fewer = await standing('aaaaaaaaaaa3', '--more=-2');
    expect(fewer.what_if?.finish.remaining_s.p50).toBeLessThan(now.finish?.remaining_s.p50 ?? 0);
  });

  it('answers "if I stop at" in words, with pieces and chance', async () => {
    const said = await status('aaaaaaaaaaa3', '--until', '21:30');
    expect(said.out).toMatch(
      /If I stop at 21:30:\n {2}by .*21:30: \d+.* more of this operation, the whole batch with (?:over |under )?\d+ % chance/,
    );
    expect(said.out).toMatch(/batch would end /);
  });

  it.each([[['--until', 'late']], [['--more', 'x']], [['--loads', '0']], [['--until', '25:00']]])(
    'refuses %j as usage',
    async (args) => {
      const said = await status('aaaaaaaaaaa3', ...args);
      expect(said.code).toBe(64);
      expect(said.out).toBe('');
    },
  );

  it('has no finish for a batch that is over, and exits 1 when asked what if', async () => {
    const over = await standing('aaaaaaaaaaa1');
    expect([over.state, over.finish, over.by_closing, over.rests_on]).toEqual(['finished', null, null, null]);
    const asked = await status('aaaaaaaaaaa1', '--more', '3');
    expect(asked.code).toBe(1);
    expect(asked.err).toContain('over');
  });

  it('exits 66 for a name that is none', async () => {
    expect((await status('zzz')).code).toBe(66);
  });
});
