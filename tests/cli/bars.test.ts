import { writeFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { runBars } from '../../src/cli/bars.ts';
import { plansIn, textOf } from '../plan/plan-samples.ts';
import { type Bench, makeBench } from './fake-io.ts';

let bench: Bench;
beforeEach(() => {
  bench = makeBench();
});
afterEach(() => bench.clear());

const plates = textOf('jobs/keeper-plates.yaml');
async function barsOf(text: string) {
  writeFileSync(bench.at('p.yaml'), text);
  const told = await bench.run(runBars, bench.at('p.yaml'), '--json');
  return { ...told, answer: told.out === '' ? null : JSON.parse(told.out) };
}

describe('millside bars', () => {
  it('has the documented JSON shape, its example being the plates', async () => {
    const told = await bench.run(runBars, '--json', 'jobs/keeper-plates.yaml');
    // 42 blanks of 62 and 1.2 each are 2654.4; with 5 cropped off, 3000 - 2659.4 = 340.6 are left.
    expect(JSON.parse(told.out)).toEqual({
      format: 1,
      plan: 'jobs/keeper-plates.yaml',
      job: 'Keeper plates',
      kind: 'enough',
      section: '30 x 8 bright flat',
      blank_mm: 62,
      blanks: 42,
      kerf_mm: 1.2,
      end_trim_mm: 5,
      grip_mm: 40,
      on_hand: null,
      bars: 1,
      cuts: [{ bar_mm: 3000, times: 1, blanks: 42, left_mm: 340.6, keep: true }],
      taken_mm: 3000,
      waste_mm: 55.4,
      missing: 0,
      proven: true,
    });
    expect(told.code).toBe(0);
  });

  it.each(plansIn('jobs/'))('%s has enough, said in words', async (name) => {
    const told = await bench.run(runBars, name);
    expect(told).toMatchObject({ code: 0, err: '' });
    expect(told.out).toMatch(/left/);
  });

  it('says by how many the bars on hand are short, and exits 1', async () => {
    // A bar of 500: (500 - 5 - 40) / 63.2 = 7.2, so 7 blanks a bar, 14 of 42 from two.
    const told = await barsOf(plates.replace('bars: 3000', 'bars: 500\n  on hand: 2'));
    expect(told).toMatchObject({ code: 1, answer: { kind: 'short', missing: 28, bars: 2, on_hand: 2 } });
    expect((await bench.run(runBars, bench.at('p.yaml'))).out).toContain(
      'SHORT of 28 blanks: these bars give 14 of 42',
    );
  });

  it('takes every blank as missing with no bar on hand', async () => {
    const told = await barsOf(plates.replace('bars: 3000', 'bars: 3000\n  on hand: 0'));
    expect(told).toMatchObject({ code: 1, answer: { kind: 'short', missing: 42, bars: 0, cuts: [], taken_mm: 0 } });
  });

  it('with several lengths and too few bars for the least list lets the longest decide', async () => {
    // One of 3000 is enough; the least list takes shorter ones.
    const told = await barsOf(plates.replace('bars: 3000', 'bars: [1000, 3000]\n  on hand: 1'));
    expect(told).toMatchObject({ code: 0, answer: { kind: 'enough', cuts: [{ bar_mm: 3000, times: 1 }] } });
  });

  it('refuses a plan without stock, and a blank that fits no bar: exit 1 with the reason', async () => {
    const none = await barsOf(plates.replace(/\nstock:\n(?: {2}.*\n)+/, '\n'));
    expect(none).toMatchObject({ code: 1, out: '' });
    expect(none.err).toContain('stock');
    const long = await barsOf(plates.replace('bars: 3000', 'bars: 80'));
    expect(long).toMatchObject({ code: 1, out: '' });
    expect(long.err).toContain('longer bar');
  });

  it('exits 66 and 65 as every plan command does', async () => {
    expect((await bench.run(runBars, bench.at('none.yaml'))).code).toBe(66);
    expect((await barsOf('format: 2\n')).code).toBe(65);
    expect((await bench.run(runBars)).code).toBe(64);
  });
});
