import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/plan/checks/check-plan.ts';
import { readPlan } from '../../src/plan/read/read-plan.ts';
import { resolvePlan } from '../../src/plan/resolve/resolve-plan.ts';
import { resolvedPlanSchema } from '../../src/plan/resolved.ts';
import { stepsOf } from '../../src/plan/steps.ts';
import { formatSteps } from '../../src/plan/steps-text.ts';
import { YARDS_IN_A_SECOND, yardsOf } from '../yard.ts';
import { plansIn, problemsOf, textOf } from './plan-samples.ts';

const texts = [...plansIn('jobs/'), ...plansIn('tests/samples/sound-plans/')].map(textOf);

/** Takes a text through everything; answers how it ended, and fails on any exception or number that is none. */
function through(text: string): 'refused' | 'resolved' {
  const reading = readPlan(text);
  if (!reading.ok) {
    expect(reading.problems.length).toBeGreaterThan(0);
    return 'refused';
  }
  const resolution = resolvePlan(reading.plan, { positions: reading.positions });
  if (!resolution.ok) {
    expect(resolution.problems.length).toBeGreaterThan(0);
    return 'refused';
  }
  expect(resolvedPlanSchema.safeParse(JSON.parse(JSON.stringify(resolution.plan))).success).toBe(true);
  const findings = checkPlan(reading.plan, resolution.plan, reading.positions);
  const steps = stepsOf(resolution.plan, resolution.computed);
  for (const [path, value] of numbersIn({ plan: resolution.plan, steps, findings })) {
    expect(Number.isFinite(value), `${path} is ${value}`).toBe(true);
  }
  // A title or name of the plan may hold such a word itself; numbers made into words must not.
  const shown = `${formatSteps(steps)}${JSON.stringify(findings)}`;
  for (const word of ['NaN', 'Infinity', 'undefined']) {
    if (!text.includes(word)) expect(shown).not.toMatch(new RegExp(`\\b${word}\\b`, 'u'));
  }
  return 'resolved';
}

/** Every number anywhere in a value, with where it stands. */
function numbersIn(value: unknown, path = ''): (readonly [string, number])[] {
  if (typeof value === 'number') return [[path, value]];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, part]) => numbersIn(part, `${path}/${key}`));
}

describe('[P8] any text at all', () => {
  it('random text is refused in words, never by an exception', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 400 }), (text) => through(text) === 'refused'),
      { numRuns: 200 },
    );
  });

  it('random YAML is refused in words, never by an exception', () => {
    const json = fc.json({ maxDepth: 5 });
    fc.assert(
      fc.property(json, (text) => through(text) === 'refused'),
      { numRuns: 100 },
    );
  });

  it('a sound plan with a word, a line or a number changed is resolved or refused, never a crash', () => {
    const word = fc.constantFrom(
      '0',
      '-1',
      '1e9',
      'NaN',
      '',
      'through',
      '[]',
      '{}',
      '1/0',
      '0.0001',
      '99999',
      'toString',
      '"',
      'x: y',
      'no. 7',
      'yes',
    );
    const spot = fc.record({ plan: fc.nat(texts.length - 1), at: fc.nat(100_000), word, line: fc.boolean() });
    fc.assert(
      fc.property(spot, ({ plan, at, word: instead, line }) => {
        const text = texts[plan] ?? '';
        const parts = line ? text.split('\n') : text.split(/(?<=[:,{[ ])(?=[^\s])/u);
        parts.splice(at % parts.length, 1, instead);
        through(parts.join(line ? '\n' : ''));
      }),
      { numRuns: 250 },
    );
  });

  it('the largest plan that is taken is read, resolved, checked and told in a second at most', () => {
    const operations = Array.from(
      { length: 99 },
      (_, at) => `  - { number: ${at + 1}, title: Drill, kind: drill, setup: top, tool: d, points: field, depth: 5 }`,
    );
    const head = textOf('tests/samples/wrong-plans/unused.neighbour.yaml').split('points:')[0] ?? '';
    const text = `${head.replace('length: 100, width: 25', 'length: 2000, width: 2000').replace('opening: 100', 'opening: 2500').replace('tools:', 'tools:\n  d: { kind: drill, diameter: 1 }')}points:\n  field: { grid: { start: { x: 10, y: 10 }, columns: 5, rows: 4, column pitch: 100, row pitch: 100 } }\noperations:\n${operations.join('\n')}\n`;
    let ended = '';
    const taken = yardsOf(() => {
      ended = through(text);
    });
    expect(ended).toBe('resolved');
    expect(taken).toBeLessThan(YARDS_IN_A_SECOND);
    const over = text.replace('columns: 5', 'columns: 50');
    expect(
      problemsOf(over)
        .map((problem) => problem.message)
        .join(),
    ).toContain('points');
  });
});
