import { writeFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { runRehearse } from '../../src/cli/rehearse.ts';
import { runSteps } from '../../src/cli/steps.ts';
import { textOf } from '../plan/plan-samples.ts';
import { type Bench, makeBench } from './fake-io.ts';

let bench: Bench;
beforeEach(() => {
  bench = makeBench();
});
afterEach(() => bench.clear());

const plates = 'jobs/keeper-plates.yaml';
const said = /^THIS PLAN MUST NOT BE CUT AS IT STANDS; .*\n {2}STOP, operation \d+: .*\(tap-drill\)\n/;

/** Keeper plates with a tap drill of the outer diameter of the thread. */
function stopped(): string {
  const path = bench.at('p.yaml');
  writeFileSync(path, textOf(plates).replace('kind: drill, diameter: 5,', 'kind: drill, diameter: 6,'));
  return path;
}

describe('the stops of a plan', () => {
  it('stand above its steps', async () => {
    const told = await bench.run(runSteps, stopped());
    expect(told).toMatchObject({ code: 0, err: '' });
    expect(told.out).toMatch(said);
  });

  it('are said beside its steps as JSON, which stay JSON', async () => {
    const told = await bench.run(runSteps, stopped(), '--json');
    expect(told.err).toMatch(said);
    expect(JSON.parse(told.out)).toMatchObject({ format: 1 });
  });

  it('are said before it is rehearsed', async () => {
    const told = await bench.run(runRehearse, stopped());
    expect(told.err).toMatch(said);
    expect(told.out).toContain('REHEARSAL');
  });

  it('are not spoken of where there are none', async () => {
    expect((await bench.run(runSteps, plates)).out).not.toContain('MUST NOT');
    expect((await bench.run(runRehearse, plates)).err).toBe('');
  });
});
