import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import type { EstimateChange } from '../../src/report/model.ts';
import { writeEstimates } from '../../src/report/write-back.ts';

const change = (operation: number, field: 'setup' | 'piece', suggested_s: number): EstimateChange => ({
  operation,
  field,
  planned_s: 90,
  suggested_s,
  evidence: 'invented',
});

const plan = `# Gate plates
operations:
  - number: 10   # saw first
    title: "Saw"
    estimate: { setup: 5 min, piece: 90 s } # from the last one

  - number: 20
    title: Drill
    estimate:
      # slow quill
      setup: 20 min   # belt
  - number: 30
    title: Deburr # by hand
  - { number: 40, title: Tap }
`;

const written = (text: string, changes: readonly EstimateChange[]): string => {
  const result = writeEstimates(text, changes);
  if (!result.ok) throw new Error(result.problem.found);
  return result.value;
};

describe('writing estimates back', () => {
  it('touches the value and nothing else: comments, quotes and blanks stay', () => {
    expect(written(plan, [change(10, 'piece', 130)])).toBe(plan.replace('piece: 90 s', 'piece: 130 s'));
    expect(written(plan, [change(20, 'setup', 1500)])).toBe(plan.replace('setup: 20 min', 'setup: 25 min'));
  });

  it('adds what is missing: a field, a section, inside braces', () => {
    const text = written(plan, [change(20, 'piece', 42.5), change(30, 'setup', 300), change(40, 'piece', 75)]);
    expect(text).toContain('      # slow quill\n      piece: 42.5 s\n      setup: 20 min   # belt\n');
    expect(text).toContain('  - number: 30\n    estimate: { setup: 300 s }\n    title: Deburr # by hand\n');
    expect(text).toContain('  - { estimate: { piece: 75 s }, number: 40, title: Tap }\n');
    expect(parse(text).operations[1].estimate).toEqual({ piece: '42.5 s', setup: '20 min' });
  });

  it('writes both values of an operation that had none', () => {
    const text = written(plan, [change(30, 'setup', 300), change(30, 'piece', 60)]);
    expect(parse(text).operations[2].estimate).toEqual({ setup: '300 s', piece: '60 s' });
  });

  it('keeps the line ends of the file', () => {
    const text = written(plan.replaceAll('\n', '\r\n'), [change(30, 'setup', 300), change(20, 'piece', 9)]);
    expect(text.replaceAll('\r\n', '')).not.toContain('\n');
    expect(parse(text).operations[2].estimate.setup).toBe('300 s');
  });

  it('writes nothing at all when one operation is missing, the text is not YAML, or a value is shared', () => {
    expect(writeEstimates(plan, [change(10, 'piece', 130), change(99, 'piece', 1)]).ok).toBe(false);
    expect(writeEstimates('a: [', [change(10, 'piece', 130)]).ok).toBe(false);
    const shared = 'operations:\n  - number: 10\n    estimate: &e { piece: 9 s }\n  - number: 20\n    estimate: *e\n';
    expect(writeEstimates(shared, [change(10, 'piece', 8)]).ok).toBe(false);
    expect(writeEstimates(shared, [change(20, 'piece', 8)]).ok).toBe(false);
    expect(writeEstimates('operations: 3', [change(10, 'piece', 8)]).ok).toBe(false);
  });

  it('writes into the bundled plan without losing a line of it', () => {
    const text = readFileSync(new URL('../../jobs/keeper-plates.yaml', import.meta.url), 'utf8');
    const first = parse(text).operations[0].number as number;
    const lines = written(text, [change(first, 'piece', 55)]).split('\n');
    expect(lines.filter((line) => !text.split('\n').includes(line))).toHaveLength(1);
  });
});
