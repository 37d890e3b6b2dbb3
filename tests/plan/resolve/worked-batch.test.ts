// A worked batch in inches on a mill with dials: every number here was reckoned by hand from the plan's own figures
// (dial +-1 division, Z +-.003 in, turns +-0.5, speeds exact).
import { describe, expect, it } from 'vitest';
import { stepsOf } from '../../../src/plan/steps.ts';
import { formatSteps } from '../../../src/plan/steps-text.ts';
import type { Mm } from '../../../src/shop/quantities.ts';
import { mmToInches } from '../../../src/shop/units.ts';
import { operationOf, proved, textOf } from '../plan-samples.ts';

const { resolved, computed, findings } = proved(textOf('tests/samples/sound-plans/pump-spacer.yaml'));
const steps = stepsOf(resolved, computed);
const speedsOf = (number: number) => operationOf(resolved, number).cuts.map((cut) => cut.speed.set);
const depthsOf = (number: number, cut = 0) =>
  (operationOf(resolved, number).cuts[cut]?.points ?? []).map((point) => mmToInches((point.z ?? 0) as Mm));
const stepOf = (number: number) => steps.operations.find((operation) => operation.number === number);

describe('the pump spacer', () => {
  it('starts 63 for 60 good at 2 % scrap, 90 % sure', () => {
    expect(steps.start).toBe(63);
  });

  it('takes blanks of 2.560, 26 a bar, 3 bars', () => {
    expect(steps.stock).toMatchObject({ blank: 2.56, bars: [{ blanks_per_bar: 26, bars: 3 }] });
  });

  it('mills the ends in 32 loads, 31 of 2 and 1 of 1', () => {
    expect(operationOf(resolved, 30).loadSize).toBe(2);
    expect(computed.find((note) => note.operation === 30 && note.what === 'loads')?.value).toBe(
      '32 loads: 31 of 2 and 1 of 1',
    );
  });

  it.each([
    [30, [1600]],
    [40, [1600]],
    [60, [1600]],
    [70, [2700]],
    [80, [2700]],
    [100, [950, 950]],
    [110, [null]],
  ])('operation %i turns %j', (number, speeds) => {
    expect(speedsOf(number)).toEqual(speeds);
  });

  it('says that no. 29 wants more speed than there is, and why the 23/64 drill turns 950', () => {
    expect(operationOf(resolved, 70).cuts[0]?.speed.remark).toContain('5617');
    expect(operationOf(resolved, 100).cuts[0]?.speed.remark).toContain('1600 alone; 950');
  });

  it.each([
    [60, 0, [0.09, 0.09, 0.09, 0.09, 0.09, 0.09, 0.1975]],
    [70, 0, [0.603, 0.603, 0.603, 0.603, 0.603, 0.603]],
    [100, 0, [0.908]],
    [100, 1, [0.86]],
  ])('operation %i, cut %i goes %j deep', (number, cut, depths) => {
    const found = depthsOf(number, cut);
    expect(found).toHaveLength(depths.length);
    for (const [at, depth] of depths.entries()) expect(found[at]).toBeCloseTo(-depth, 3);
  });

  it('taps 17 turns by hand and says that the tap bottoms at 18', () => {
    const cut = operationOf(resolved, 110).cuts[0];
    expect(cut?.thread).toMatchObject({ byHand: true, turns: 17 });
    expect(cut?.points[0]?.note).toContain('bottoms at 18');
  });

  it('names the height of the thread and its bases: 69.0 % of the external depth, 82.8 % of 5H/8', () => {
    expect(stepOf(110)?.cuts[0]?.thread?.engagement).toBe('82.8 % of 5H/8, 69 % of 3H/4');
  });

  it('reads every point on the dials as turns and divisions from zero', () => {
    const points = stepOf(70)?.cuts[0]?.points ?? [];
    expect(points.map((point) => [point.name, point.x, point.y, point.dial.x, point.dial.y])).toEqual([
      ['ring 1', 1.433, -0.5, '7 + 33', '2 + 100'],
      ['ring 2', 1, -0.25, '5 + 0', '1 + 50'],
      ['ring 3', 0.567, -0.5, '2 + 167', '2 + 100'],
      ['ring 4', 0.567, -1, '2 + 167', '5 + 0'],
      ['ring 5', 1, -1.25, '5 + 0', '6 + 50'],
      ['ring 6', 1.433, -1, '7 + 33', '5 + 0'],
    ]);
    expect(points[0]?.dial.z).toBe('6 + 3.5');
    expect(stepOf(60)?.cuts[0]?.points[6]?.dial).toEqual({ x: '5 + 0', y: '3 + 150', z: '1 + 97.5' });
  });

  it('mills the slot from 2.675 to 1.875 in passes of .060 and .125', () => {
    const passes = stepOf(80)?.cuts[0]?.passes ?? [];
    expect(passes.map((pass) => [pass.from.x, pass.to.x, pass.from.y, pass.z])).toEqual([
      [2.675, 1.875, -0.5, -0.06],
      [2.675, 1.875, -0.5, -0.125],
    ]);
    expect(passes[0]?.dial).toEqual({ from: '13 + 75', to: '9 + 75', across: '2 + 100', z: '0 + 60' });
    expect(passes[1]?.dial.z).toBe('1 + 25');
  });

  it('mills the ends at 2.780 and 2.750, away from the user, across both blocks', () => {
    const [raw, finished] = [stepOf(30)?.cuts[0]?.passes[0], stepOf(40)?.cuts[0]?.passes[0]];
    expect(raw).toMatchObject({
      feed_axis: 'y',
      feed_towards: '+',
      from: { x: 2.78, y: -3.3 },
      to: { x: 2.78, y: 0.3 },
    });
    expect(raw?.dial).toEqual({
      from: '16 + 100',
      to: '1 + 100 below zero (scale 100)',
      across: '13 + 180',
      z: '7 + 80',
    });
    expect(finished?.dial.across).toBe('13 + 150');
  });

  it('sets +.100 in X and -.100 in Y at touch, both dials counting down', () => {
    const setup = resolved.setups.find((one) => one.id === 'holes');
    expect(mmToInches((setup?.x?.set ?? 0) as Mm)).toBeCloseTo(0.1, 9);
    expect(mmToInches((setup?.y?.set ?? 0) as Mm)).toBeCloseTo(-0.1, 9);
    expect([setup?.x?.touchedGoing, setup?.y?.touchedGoing]).toEqual(['-', '+']);
    expect(setup?.zZero).toContain('.002');
  });

  it('suggests the orders with 1 and 2 windings past', () => {
    const orders = computed.filter((note) => note.what === 'order of points');
    expect(orders.map((note) => [note.operation, note.value])).toEqual([
      [60, 'ring 6, ring 1, ring 2, centre, ring 5, ring 4, ring 3'],
      [70, 'ring 6, ring 1, ring 2, ring 5, ring 4, ring 3'],
    ]);
  });

  it('feels for 3.4 to 6.7 s a hole with no. 29', () => {
    const feel = operationOf(resolved, 70).cuts[0]?.feel;
    expect(feel?.from).toBeCloseTo(3.4, 1);
    expect(feel?.to).toBeCloseTo(6.7, 1);
  });

  it('trips no stop and no warning', () => {
    expect(findings.filter((finding) => finding.severity !== 'note')).toEqual([]);
  });

  it('is told in text with dials beside the coordinates', () => {
    const text = formatSteps(steps);
    expect(text).toContain('ring 1');
    expect(text).toContain('dials 7 + 33 | 2 + 100 | 6 + 3.5');
  });
});
