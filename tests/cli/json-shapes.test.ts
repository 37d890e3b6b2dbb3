import { readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import * as z from 'zod';
import { jsonShapeOf } from '../../src/cli/json-shapes.ts';
import { runners } from '../../src/cli/runners.ts';
import { subcommands } from '../../src/cli/subcommands.ts';
import { aShop, keepBatch, runIn, type Shop } from './kept-batches.ts';

const plates = 'jobs/keeper-plates.yaml';
const jobs = readdirSync('jobs').flatMap((name) => (name.endsWith('.yaml') ? [`jobs/${name}`] : []));
let shop: Shop;
let broken: string;

beforeAll(async () => {
  shop = await aShop();
  await keepBatch(shop, plates, { id: 'aaaaaaaaaaa1', start: '2027-01-11T18:00:00Z', seed: 1 });
  await keepBatch(shop, plates, { id: 'aaaaaaaaaaa2', start: '2027-02-01T18:00:00Z', seed: 2 });
  await keepBatch(shop, plates, { id: 'aaaaaaaaaaa3', start: '2027-03-01T18:00:00Z', seed: 3, part: 0.4 });
  broken = join(shop.folder, 'broken.yaml');
  writeFileSync(broken, 'format: 1\njob: [\n');
}, 60_000);
afterAll(() => rmSync(shop.folder, { recursive: true, force: true }));

/** The same schema, refusing every field that it does not name. */
function closed(schema: unknown): unknown {
  if (Array.isArray(schema)) return schema.map(closed);
  if (typeof schema !== 'object' || schema === null) return schema;
  const within = Object.fromEntries(Object.entries(schema).map(([key, value]) => [key, closed(value)]));
  const names = 'properties' in within && !('additionalProperties' in within);
  return names ? { ...within, additionalProperties: false } : within;
}

async function answerOf(name: string, ...args: string[]): Promise<unknown> {
  const run = await runners[name]?.();
  if (run === undefined) throw new Error(`no runner for ${name}`);
  return JSON.parse((await runIn(shop, run, [...args, '--json'])).out);
}

const told = (name: string, answer: unknown) =>
  z.fromJSONSchema(closed(jsonShapeOf(name)) as Parameters<typeof z.fromJSONSchema>[0]).safeParse(answer);

describe('--json-shape', () => {
  it('is offered by every subcommand that answers in JSON, and by no other', () => {
    for (const { name, options } of subcommands) {
      const flags = options.map((one) => one.flag);
      expect([name, flags.includes('json-shape')]).toEqual([name, flags.includes('json')]);
      if (flags.includes('json'))
        expect(jsonShapeOf(name)).toMatchObject({ title: `millside ${name} --json, format 1` });
    }
  });

  it.each(['check', 'steps', 'bars', 'rehearse'])('holds for %s of every job, field by field', async (name) => {
    for (const job of jobs) expect([job, told(name, await answerOf(name, job)).error]).toEqual([job, undefined]);
  });

  it.each([
    ['check', ['--rules']],
    ['batches', []],
    ['batches', ['--estimates']],
    ['status', ['aaaaaaaaaaa3', '--until', '21:30']],
    ['status', ['aaaaaaaaaaa1']],
    ['report', ['aaaaaaaaaaa3']],
    ['report', ['aaaaaaaaaaa1']],
    ['settings', []],
    ['reckon', ['tap', '--thread', 'M6']],
  ])('holds for %s %j', async (name, args) => {
    expect(told(name, await answerOf(name, ...args)).error).toBeUndefined();
  });

  it('holds for batches of one plan side by side', async () => {
    const id = z.object({ batches: z.array(z.object({ plan: z.string() })) });
    const plan = id.parse(await answerOf('batches')).batches[0]?.plan ?? '';
    const compared = await answerOf('batches', '--compare', plan);
    expect(compared).toHaveProperty('per_good_trend');
    expect(told('batches', compared).error).toBeUndefined();
  });

  it.each(['check', 'steps', 'bars'])('holds for %s of a plan that cannot be read', async (name) => {
    const answer = await answerOf(name, broken);
    expect(answer).toHaveProperty('problems');
    expect(told(name, answer).error).toBeUndefined();
  });

  it('would tell a field that is missing, and one that nobody documented', async () => {
    const answer = z.record(z.string(), z.json()).parse(await answerOf('steps', plates));
    const { spares: _, ...less } = answer;
    expect(told('steps', less).success).toBe(false);
    expect(told('steps', { ...answer, extra: 1 }).success).toBe(false);
  });
});
