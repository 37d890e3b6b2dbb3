import { readFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { runCheck } from '../../src/cli/check.ts';
import type { Turn } from '../../src/cli/new-plan/asking.ts';
import { runNew, writeNewPlan } from '../../src/cli/new-plan.ts';
import { readPlan } from '../../src/plan/read/read-plan.ts';
import { resolvePlan } from '../../src/plan/resolve/resolve-plan.ts';
import { settingsSchema } from '../../src/sitting/settings.ts';
import { readShopMachines, type ShopMachines } from '../../src/sitting/shop-machines.ts';
import { type Bench, makeBench } from './fake-io.ts';

let bench: Bench;
beforeEach(() => {
  bench = makeBench();
});
afterEach(() => bench.clear());

/** Answers by what a question begins with; each is given once, in order, and left out means the fallback. */
type Answers = readonly (readonly [begins: string, answer: string])[];

async function interview(answers: Answers, machines: ShopMachines = {}, name = bench.at('plan.yaml')) {
  const left = [...answers];
  const turns: Turn[] = [];
  const said = { out: '', err: '' };
  const code = await writeNewPlan(name, bench.io(said), machines, async (turn) => {
    turns.push(turn);
    if (turn.kind === 'say') return '';
    const at = left.findIndex(([begins]) => turn.text.startsWith(begins));
    const [found] = at < 0 ? [] : left.splice(at, 1);
    if (found !== undefined) return found[1];
    return turn.fallback !== null || turn.text.includes('empty:') ? '' : { kind: 'end' as const };
  });
  const says = turns.flatMap((turn) => (turn.kind === 'say' ? [turn.text] : []));
  return { code, ...said, says, left, asked: turns.map((turn) => turn.text) };
}

const part: Answers = [
  ['What is the job', 'Gate: strike "A" #1'],
  ['Length of the finished', '60'],
  ['Width', '30'],
  ['Thickness, along', '8'],
];
const mill: Answers = [
  ['Machine for the holes', 'mill'],
  ['Spindle speeds', '80 130 210 340 540 860 1380 2200'],
  ['Smallest step', '0.01'],
  ['Width of the vice', '125'],
  ['Height of the jaws', '40'],
  ['Widest', '100'],
  ['Height of the parallels', '35'],
  ['Their thickness', '6'],
];
const threaded: Answers = [
  ['Operation 30', 'spot'],
  ['Diameter of the spotting', '8'],
  ['Diameter wanted at', '6.3'],
  ['Points', '10 15, 50 15'],
  ['Operation 40', 'drill'],
  ['Diameter of the drill', '5'],
  ['Operation 50', 'tap'],
  ['Thread', 'M6'],
  ['Operation 60', 'deburr'],
];
const stock: Answers = [
  ['Variants', 'left 10, right 12'],
  ['Section', '30 x 8 flat'],
  ['Length of a bar', '3000'],
  ['Allowance left', '1'],
];

describe('millside new', () => {
  it('writes a plan that passes check, with the numbers that were answered', async () => {
    const told = await interview([...part, ...stock, ...mill, ...threaded]);
    expect(told).toMatchObject({ code: 0, left: [], says: [expect.stringMatching(/^Milling the ends/)] });
    expect(await bench.run(runCheck, bench.at('plan.yaml'))).toMatchObject({ code: 0, err: '' });
    const read = readPlan(readFileSync(bench.at('plan.yaml'), 'utf8'));
    if (!read.ok) throw new Error(read.problems[0]?.message);
    const resolved = resolvePlan(read.plan);
    if (!resolved.ok) throw new Error(resolved.problems[0]?.message);
    expect(resolved.plan).toMatchObject({ job: 'Gate: strike "A" #1', id: 'gate-strike-a-1', stock: { blank: 62 } });
    expect(resolved.plan.operations.map((one) => one.kind)).toEqual([
      'saw',
      'deburr',
      'spot',
      'drill',
      'tap',
      'deburr',
    ]);
    expect(resolved.plan.operations[3]?.cuts[0]?.points.map(({ x, y }) => [x, y])).toEqual([
      [10, -15],
      [50, -15],
    ]);
  });

  it('asks an answer again that will not do, and says why', async () => {
    const told = await interview([
      ['What is the job', 'x'],
      ['Length of the', 'long'],
      ['Length of the', '60'],
    ]);
    expect(told.says[0]).toMatch(/long/);
    expect(told.asked.filter((text) => text.startsWith('Length of the finished'))).toHaveLength(2);
  });

  it('proves each operation at once: a tap without a hole is said and asked again', async () => {
    const told = await interview([
      ...part,
      ['How many good', '20'],
      ...mill,
      ['Operation 10', 'tap'],
      ['Thread', 'M6'],
      ['Points', '10 15'],
      ['Operation 10', 'drill'],
      ['Diameter of the drill', '5'],
      ['Points', '10 15'],
    ]);
    expect(told.says.join('\n')).toMatch(/That will not do/);
    expect(told.code).toBe(0);
    const text = readFileSync(bench.at('plan.yaml'), 'utf8');
    expect(text).not.toContain('kind: tap');
    expect((await bench.run(runCheck, bench.at('plan.yaml'))).code).toBe(0);
  });

  it('takes a machine of the settings by name and writes no description of it', async () => {
    const written = { pillar: { station: 'pillar drill', speeds: [280, 450, 700, 1000, 1550, 2400] } };
    const machines = readShopMachines(settingsSchema.parse({ machines: written }).machines);
    const told = await interview(
      [
        ...part,
        ['How many good', '20'],
        ['Machine for the holes', 'pillar'],
        ['Operation 10', 'drill'],
        ['Diameter of the drill', '6.6'],
        ['Points', '10 15'],
      ],
      machines,
    );
    expect(told.code).toBe(0);
    const text = readFileSync(bench.at('plan.yaml'), 'utf8');
    expect(text).toContain('machine: pillar');
    expect(text).not.toContain('2400');
  });

  it('writes nothing when it is ended early', async () => {
    const told = await interview(part);
    expect(told.code).toBe(1);
    expect(told.err).toContain('nothing was written');
    expect(() => readFileSync(bench.at('plan.yaml'))).toThrow();
  });

  it('goes over no file, and hands the plan over all the same', async () => {
    const first = await interview([...part, ...stock, ...mill, ...threaded]);
    const before = readFileSync(bench.at('plan.yaml'), 'utf8');
    const second = await interview([...part, ...stock, ...mill, ...threaded]);
    expect([first.code, second.code]).toEqual([0, 73]);
    expect(second.out).toBe(before);
    expect(readFileSync(bench.at('plan.yaml'), 'utf8')).toBe(before);
  });

  it('says plainly that it needs a terminal', async () => {
    const told = await bench.run(runNew, bench.at('x.yaml'));
    expect(told).toMatchObject({ code: 64, out: '' });
    expect(told.err).toContain('terminal');
  });
});
