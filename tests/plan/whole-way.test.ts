// Plans built from the language at random: whatever passes `check` opens, runs to its end and reports; nothing crashes.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rehearse, seededChance } from '../../src/batch/rehearsal.ts';
import { checkPlan, hasStop } from '../../src/plan/checks/check-plan.ts';
import { readPlan } from '../../src/plan/read/read-plan.ts';
import { resolvePlan } from '../../src/plan/resolve/resolve-plan.ts';
import { stepsOf } from '../../src/plan/steps.ts';
import { formatSteps } from '../../src/plan/steps-text.ts';
import { describeReport } from '../../src/report/describe.ts';
import { formatReportText } from '../../src/report/forms/text.ts';
import { makeReport } from '../../src/report/make-report.ts';
import { instantAt, openingOf } from '../batch/playing.ts';
import { plansIn, textOf } from './plan-samples.ts';

const one = <Value>(...values: Value[]) => fc.constantFrom(...values);
const size = (min: number, max: number) => fc.integer({ min: min * 10, max: max * 10 }).map((tenths) => tenths / 10);
/** A key with its value, or nothing. */
const maybe = (key: string, value: fc.Arbitrary<string | number>) =>
  fc.option(value, { nil: undefined }).map((given) => (given === undefined ? '' : `, ${key}: ${given}`));

const when = one('first-off', 'last', 'every 2', 'every 2 loads', '[first-off, every 3, last]');
const check = fc.oneof(
  fc
    .tuple(size(1, 60), size(0.1, 1), when)
    .map(([nominal, within, due]) => `{ title: Size, nominal: ${nominal}, within: ${within}, when: ${due} }`),
  when.map((due) => `{ title: Plug, ask: Does it go?, when: ${due} }`),
);
const checks = fc
  .array(check, { maxLength: 2 })
  .map((all) => (all.length === 0 ? '' : `, checks: [${all.join(', ')}]`));
const variants = one('', '', '', ', variants: a', ', variants: b', ', variants: [a, b]');

const machine = fc
  .tuple(
    one('[90, 180, 360, 720, 1440]', '{ from: 50, to: 3000 }', '[2000]'),
    one('at once', 'after stopping', 'never'),
    one('belt', 'lever', 'knob'),
    one(
      'readout: 0.01',
      'readout: 0.005',
      'x: { per turn: 4, divisions: 200, clockwise moves: right, backlash: 0.1 }, y: { per turn: 4, divisions: 200, clockwise moves: towards }, z: { per turn: 2, divisions: 100, clockwise moves: up }',
    ),
  )
  .map(
    ([speeds, reverse, change, axes]) =>
      `{ station: mill, speeds: ${speeds}, speed change: ${change}, reverse: ${reverse}, stopping time: 2 s, ${axes}, vice: { jaw width: 125, jaw height: 40, opening: 120 } }`,
  );

const place = fc.tuple(size(8, 70), size(6, 34)).map(([x, y]) => `{ x: ${x}, y: ${y} }`);
const points = fc.oneof(
  place,
  fc
    .tuple(place, fc.integer({ min: 1, max: 4 }), size(4, 20), fc.integer({ min: -30, max: 90 }))
    .map(
      ([start, count, pitch, angle]) =>
        `{ row: { start: ${start}, count: ${count}, pitch: ${pitch}, angle: ${angle} deg } }`,
    ),
  fc
    .tuple(place, fc.integer({ min: 2, max: 5 }), size(8, 20), one('yes', 'no'))
    .map(
      ([centre, count, across, way]) =>
        `{ circle: { centre: ${centre}, diameter: ${across}, count: ${count}, clockwise: ${way} } }`,
    ),
  fc
    .tuple(fc.integer({ min: 1, max: 3 }), fc.integer({ min: 1, max: 2 }))
    .map(
      ([columns, rows]) =>
        `{ grid: { start: { x: 15, y: 12 }, columns: ${columns}, rows: ${rows}, column pitch: 18, row pitch: 14 } }`,
    ),
);

/** Work at one arrangement of points, in an order that can be done, or not quite. */
const holes = fc
  .record({
    thick: size(6, 25),
    at: one('p', 'q'),
    setup: one('top', 'top', 'under'),
    blind: fc.boolean(),
    checks,
    variants,
    kind: one('tap', 'ream', 'clear', 'group'),
  })
  .map(({ thick, at, setup, blind, checks: own, variants: only, kind }) => {
    const rest = `setup: ${setup}, points: ${at}${only}`;
    const deep = blind ? Math.max(2, Math.round(thick / 3)) : 'through';
    const spot = `title: Spot, kind: spot, tool: spot, top: 7, ${rest}`;
    const drill = (tool: string, depth: string | number) =>
      `title: Drill, kind: drill, tool: ${tool}, depth: ${depth}, ${rest}${own}`;
    if (kind === 'tap')
      return [
        spot,
        drill('drill-5', blind ? 'for the tap' : 'through'),
        `title: Tap, kind: tap, tool: tap, thread: M6, ${blind ? 'full thread: 2' : 'depth: through'}, ${rest}${own}`,
      ];
    if (kind === 'ream')
      return [
        spot,
        drill('drill-7.8', deep),
        `title: Ream, kind: ream, tool: reamer, depth: ${blind ? Math.max(1, Number(deep) - 2) : 'through'}, ${rest}${own}`,
      ];
    if (kind === 'clear')
      return [drill('drill-6.6', 'through'), `title: Sink, kind: countersink, tool: cone, top: 13.5, ${rest}${own}`];
    return [
      `title: Together, kind: drill, setup: ${setup}${only}, cuts: [{ kind: spot, tool: spot, points: ${at}, top: 6 }, { tool: drill-5, points: ${at}, depth: ${deep} }]${own}`,
    ];
  });
const other = fc.oneof(
  fc
    .tuple(one('deburr', 'hand work', 'inspect', 'round corners'), checks, variants)
    .map(([kind, own, only]) => [`title: Bench, kind: ${kind}${own}${only}`]),
  fc
    .tuple(size(1, 4), checks)
    .map(([depth, own]) => [`title: Face, kind: face, setup: top, tool: mill, depth: ${depth}${own}`]),
  fc
    .tuple(one('', ', in loads: yes', ', per load: 2', ', per load: 3'), checks)
    .map(([load, own]) => [
      `title: End, kind: mill to length, setup: ends, tool: mill, length: 80, depth: 26${load}${own}`,
    ]),
  fc
    .tuple(one('slot', 'step'), checks, one('', ', counting: piece', ', counting: point'))
    .map(([kind, own, counting]) => [
      `title: Line, kind: ${kind}, setup: top, tool: mill, lines: ${kind}${own}${counting}`,
    ]),
  one([
    `title: Out, kind: away, away: { to: plater, changes: [faces grow] }`,
    `title: Out, kind: away, away: { to: plater, days: 5 }`,
  ]),
  fc
    .tuple(checks)
    .map(([own]) => [`title: Saw, kind: saw, machine: saw, length: 82${own}`, 'title: Deburr, kind: deburr']),
);

const plans = fc
  .record({
    machine,
    p: points,
    q: points,
    thick: size(6, 25),
    work: fc.array(fc.oneof(holes, other), { minLength: 1, maxLength: 4 }),
    quantities: fc.tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 4 })),
    split: fc.boolean(),
    spares: one('', 'spares: 1\n', 'spares: { scrap: 5 %, sure: 90 % }\n'),
    lies: one('over about X', 'over about Y', 'end for end', 'as drawn'),
    material: one('mild steel', 'brass', 'aluminium', 'stainless steel', 'acetal', 'cast iron'),
    peck: maybe('peck', size(1, 4)),
  })
  .map((made) => {
    const setup = (name: string, more: string) =>
      `  ${name}: { machine: mill, hold: vice, stop: { side: left }, above jaws: 4${more}, zero: { x: { how: edge finder, tip: 10, against: stop }, y: { how: edge finder, tip: 10, against: fixed jaw }, z: { how: feeler, feeler: 0.05 } } }`;
    const named = made.work.flat().filter((line) => made.split || !/variants:/.test(line));
    const operations = (named.length === 0 ? ['title: Bench, kind: deburr'] : named).map(
      (line, at) => `  - { number: ${(at + 1) * 10}, ${line}${/kind: drill, tool/.test(line) ? made.peck : ''} }`,
    );
    const [a, b] = made.quantities;
    return `format: 1
id: random
job: Random
units: mm
material: ${made.material}
part: { length: 80, width: 40, thickness: ${made.thick} }
tolerance: ISO 2768-m
${made.split ? `variants: { a: { quantity: ${a}, marking: dot }, b: { quantity: ${b} } }` : `quantity: ${a}`}
${made.spares}machines:
  mill: ${made.machine}
  saw: { station: saw }
tools:
  mill: { kind: end mill, diameter: 10, flutes: 3 }
  spot: { kind: spot, diameter: 10 }
  drill-5: { kind: drill, diameter: 5, sharpen after: 20 }
  drill-6.6: { kind: drill, diameter: 6.6 }
  drill-7.8: { kind: drill, diameter: 7.8 }
  reamer: { kind: reamer, diameter: 8, lead: 1 }
  tap: { kind: tap, thread: M6, lead: 3 threads }
  cone: { kind: countersink, diameter: 20, tip flat: 1 }
setups:
${setup('top', '')}
${setup('under', `, lies: ${made.lies}`)}
${setup('ends', ', beyond jaws: 8')}
points:
  p: ${made.p}
  q: ${made.q}
lines:
  slot: { kind: slot, along: x, at: 20, from: 20, to: 60, ends: { from: closed, to: closed }, width: 10, depth: 3, passes: 2 }
  step: { kind: step, along: x, at: 30, from: 0, to: 80, side: rear, width: 10, depth: 2 }
operations:
${operations.join('\n')}
`;
  });

/** How far a text came; anything thrown fails the test. */
function wholeWay(text: string): 'refused' | 'stopped' | 'reported' {
  const reading = readPlan(text);
  if (!reading.ok) return 'refused';
  const resolution = resolvePlan(reading.plan, { positions: reading.positions });
  if (!resolution.ok) return 'refused';
  const { plan } = resolution;
  const findings = checkPlan(reading.plan, plan, reading.positions);
  expect(JSON.stringify(findings)).not.toMatch(/NaN|Infinity|undefined/);
  expect(formatSteps(stepsOf(plan, resolution.computed))).not.toMatch(/\bNaN\b|\bInfinity\b|\bundefined\b/);
  if (hasStop(findings)) return 'stopped';
  const played = rehearse(openingOf(plan), instantAt(0), seededChance(7));
  expect(played.state.kind).toBe('finished');
  const report = makeReport(played.state, played.ended, { batch: 'random' });
  expect(report.operations.length).toBeGreaterThan(0);
  expect(formatReportText(report, { columns: 80 })).not.toMatch(/\bNaN\b|\bInfinity\b|\bundefined\b/);
  expect(describeReport(report).blocks.length).toBeGreaterThan(0);
  return 'reported';
}

describe('a plan that passes check opens, runs and reports', () => {
  it('of plans built at random', () => {
    const ends = { refused: 0, stopped: 0, reported: 0 };
    fc.assert(
      fc.property(plans, (text) => {
        ends[wholeWay(text)] += 1;
      }),
      { numRuns: 120 },
    );
    // The builder is worth something only when many of its plans go all the way.
    expect(ends.reported).toBeGreaterThan(20);
  });

  it.each([...plansIn('jobs/'), ...plansIn('tests/samples/sound-plans/')])('%s', (name) => {
    expect(wholeWay(textOf(name))).toBe('reported');
  });
});
