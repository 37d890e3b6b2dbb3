// What a setup says of how the part was turned, and what a saw's stop is set to where the plan leaves it open.
import { describe, expect, it } from 'vitest';
import { turnedAgainst } from '../../../src/plan/resolve/frames.ts';
import { setupBlocks } from '../../../src/report/sheet/setup-blocks.ts';
import { proved, textOf } from '../plan-samples.ts';

const jobs = ['hinge-blocks', 'latch-bars', 'keeper-plates'].map((name) => proved(textOf(`jobs/${name}.yaml`)));

const layStep = (steps: readonly string[]) => steps.find((step) => step.startsWith('Lay the part:'));

describe('how the part was turned', () => {
  const hinge = proved(textOf('jobs/hinge-blocks.yaml')).resolved;
  const setupOf = (id: string) => {
    const found = hinge.setups.find((one) => one.id === id);
    if (found === undefined) throw new Error(id);
    return found;
  };

  it('is said against the setup before beside how it lies against the drawing', () => {
    // First end: end for end against the drawing. Second end: as drawn, so the other end is out.
    expect(layStep(setupOf('first-end').steps)).toBe('Lay the part: end for end against the drawing.');
    expect(layStep(setupOf('second-end').steps)).toBe(
      'Lay the part: as drawn; turned end for end since the setup before.',
    );
    expect(layStep(setupOf('top').steps)).toBe('Lay the part: as drawn; it lies as in the setup before.');
  });

  it('on the sheet names the setup that it was before', () => {
    const rows = setupBlocks(hinge, setupOf('second-end'), null).flatMap((block) =>
      block.kind === 'facts' ? block.rows : [],
    );
    expect(rows).toContainEqual(['Since setup first-end', 'turned end for end']);
    expect(rows.map(([name]) => name)).not.toContain('Turned');
    const first = setupBlocks(hinge, setupOf('first-end'), null).flatMap((block) =>
      block.kind === 'facts' ? block.rows : [],
    );
    expect(first).toContainEqual(['Lies against the drawing', 'end for end']);
  });

  it('in every job says for every setup but the first what was done since', () => {
    for (const { resolved } of jobs) {
      for (const [at, setup] of resolved.setups.entries()) {
        expect(/since|as in the setup before/u.test(layStep(setup.steps) ?? '')).toBe(at > 0);
      }
    }
  });

  it('is not claimed of a part that stood and is laid flat again', () => {
    expect(turnedAgainst('on edge', 'as drawn')).toBeNull();
    expect(turnedAgainst('on edge', 'on end')).toBe('on end');
    expect(turnedAgainst('on end', 'on end')).toBe('as before');
  });
});

describe('the stop of a saw', () => {
  const plan = (saw: string, stock: string) => `format: 1
id: t
job: T
units: mm
material: mild steel
part: { length: 60, width: 30, thickness: 8 }
quantity: 10
${stock}machines: { saw: { station: saw } }
tools: { b: { kind: saw blade } }
operations:
  - { number: 10, title: Saw, kind: saw, machine: saw, tool: b${saw} }
`;
  const stopOf = (saw: string, stock: string) => proved(plan(saw, stock)).resolved.operations[0]?.stopLength;
  const stock = 'stock: { section: 30 x 8, bars: 1000, kerf: 1.2, facing: 1 }\n';

  it.each([
    ['', stock, 62],
    ['', stock.replace('facing: 1', 'blank: 63'), 63],
    [', length: 61', stock, 61],
    [', length: 61, stop length: 64', stock, 64],
    ['', '', null],
  ])('"%s" with %j is %s', (saw, of, length) => {
    expect(stopOf(saw, of)).toBe(length);
  });

  it('is told as worked out', () => {
    expect(proved(plan('', stock)).computed).toContainEqual({
      operation: 10,
      what: 'stop length',
      value: '62 mm',
      because: 'the part and its facing at both ends',
    });
  });
});
