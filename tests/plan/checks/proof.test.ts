import { describe, expect, it } from 'vitest';
import { formatProof, proofOf } from '../../../src/plan/checks/proof.ts';
import { rules } from '../../../src/plan/checks/rules.ts';
import { proved, textOf } from '../plan-samples.ts';

const text = textOf('tests/samples/wrong-plans/burr-seat.neighbour.yaml');
const proofIn = (changed: string) => {
  const { plan, resolved, computed } = proved(changed);
  return proofOf(plan, resolved, computed);
};
const unproved = (changed: string) => proofIn(changed).unproved.join('\n');

describe('what the proof of a plan rests on', () => {
  it('counts what was looked at as the plan is written', () => {
    const proof = proofIn(text);
    const written = [...text.matchAll(/number: \d+/g)].length;
    expect(proof).toMatchObject({ rules: rules.length, operations: written, setups: 3, checks: 1 });
    expect(proof.computed.find(({ what }) => what === 'speed')?.count).toBeGreaterThan(5);
  });

  it('names what the plan would have to say, and no longer when it says it', () => {
    expect(unproved(text)).toContain('"drill-5"');
    const said = text.replace(
      'drill-5: { kind: drill, diameter: 5 }',
      'drill-5: { kind: drill, diameter: 5, stick out: 60, holder: 40 }',
    );
    expect(unproved(said)).not.toContain('"drill-5"');
    const reach = text.replace(
      'drill-5: { kind: drill, diameter: 5 }',
      'drill-5: { kind: drill, diameter: 5, reach: 52 }',
    );
    expect(unproved(reach)).not.toContain('"drill-5"');
  });

  it.each([
    ['    travel: { x: 400, y: 160, z: 300 }\n', '', 'travel of Bench mill'],
    [
      'stop: { side: left, height: 38 }\n    parallels: { height: 33',
      'stop: { side: left }\n    parallels: { height: 33',
      'whether the stop is met in "top"',
    ],
    [
      '    parallels: { height: 33, thickness: 5, where: along both jaws }\n    above jaws: 3\n',
      '',
      'how high the part stands in "top"',
    ],
    ['    vice: { jaw width: 125, jaw height: 40, opening: 100, fixed jaw: rear }\n', '', 'the machine names no vice'],
    [
      'number: 140, title: Look over, kind: inspect',
      'number: 140, title: Look over, kind: hand work',
      'hand work in operation 140',
    ],
  ])('without %j names it', (from, to, words) => {
    expect(text).toContain(from);
    expect(unproved(text)).not.toContain(words);
    expect(unproved(text.replace(from, to))).toContain(words);
  });

  it('is told in lines that say nothing of what is not there', () => {
    const proof = {
      rules: 60,
      operations: 1,
      setups: 0,
      tools: 0,
      points: 0,
      passes: 1,
      checks: 0,
      computed: [],
      unproved: [],
    };
    const lines = formatProof(proof).trimEnd().split('\n');
    expect(lines).toHaveLength(2);
    expect(lines[0]).toBe('Tried 60 rules on 1 operation, 1 pass.');
  });
});
