import { describe, expect, it } from 'vitest';
import { operationOf, proved, textOf } from '../plan-samples.ts';

const text = textOf('tests/samples/sound-plans/jig-drilled.yaml');
const drilledIn = (plan: string) => operationOf(proved(plan).resolved, 30).estimate;
const suspected = (piece: string) =>
  proved(text.replace('depth: through }', `depth: through, estimate: { piece: ${piece} } }`)).findings.filter(
    (finding) => finding.code === 'estimate-off',
  );

// Common practice, no published source: three holes in a small part from a stop take about a minute a piece by hand.
describe('three holes drilled by hand from a stop', () => {
  it('are reckoned at about a minute a piece', () => {
    expect(drilledIn(text)).toMatchObject({ from: 'computed' });
    expect(drilledIn(text).piece).toBeGreaterThan(40);
    expect(drilledIn(text).piece).toBeLessThan(80);
  });

  it('spotted instead, they take about as long', () => {
    const spotted = text
      .replace(
        'drill-5: { kind: drill, diameter: 5 }',
        'spot: { kind: spot, diameter: 10 }\n  drill-5: { kind: drill, diameter: 5 }',
      )
      .replace(
        /\{ number: 30.*/u,
        '{ number: 30, title: Spot, kind: spot, machine: pillar, located by: fence and stop, tool: spot, points: bolts, top: 6 }',
      );
    expect(drilledIn(spotted).piece).toBeGreaterThan(40);
    expect(drilledIn(spotted).piece).toBeLessThan(80);
  });

  it('a stated minute stands; an estimate far from it is suspect', () => {
    expect(suspected('60 s')).toEqual([]);
    expect(suspected('5 s')).toHaveLength(1);
    expect(suspected('10 min')).toHaveLength(1);
  });
});
