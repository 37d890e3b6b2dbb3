import { describe, expect, it } from 'vitest';
import { YARDS_IN_A_SECOND, yardsOf } from '../../yard.ts';
import { findingsOf, textOf } from '../plan-samples.ts';

const base = textOf('tests/samples/wrong-plans/burr-seat.neighbour.yaml');
const drilled = 'points: thread, depth: through }\n  - { number: 80';
const own = (text: string) => findingsOf(text).filter((one) => one.code === 'place-twice');

describe('a place that is come to twice', () => {
  it('is told with the lines of both entries, under the later one', () => {
    const text = base.replace(
      drilled,
      'points:\n    [\n      thread,\n      screw,\n      thread\n    ], depth: through }\n  - { number: 80',
    );
    const lines = text.split('\n');
    const [first, second] = [lines.indexOf('      thread,') + 1, lines.indexOf('      thread') + 1];
    const [hit] = own(text);
    expect(hit).toMatchObject({ line: second, operation: 70, severity: 'warn' });
    expect(hit?.message).toContain(`lines ${first} and ${second}`);
  });

  it('names the entry of an arrangement whose points meet', () => {
    const text = base
      .replace('points:\n', 'points:\n  row: { row: { start: { x: 5, y: 12.5 }, count: 3, pitch: 5 } }\n')
      .replace(drilled, 'points: [row, thread], depth: through }\n  - { number: 80');
    expect(own(text)[0]?.message).toMatch(/^"thread" stands where "row 3" does/);
  });

  it('says nothing of a place that one tool drills deeper later on', () => {
    const again = `  - { number: 65, title: Start, kind: drill, setup: top, tool: drill-5, points: thread, depth: 4 }\n  - { number: 70`;
    expect(own(base.replace('  - { number: 70', again))).toEqual([]);
  });

  it('answers at once when two thousand points stand at one place', () => {
    const many = Array.from({ length: 190 }, () => 'grid').join(', ');
    const text = base
      .replace(
        'points:\n',
        'points:\n  grid: { grid: { start: { x: 50, y: 12.5 }, columns: 2, rows: 5, column pitch: 0.0001, row pitch: 0.0001 } }\n',
      )
      .replace(drilled, `points: [${many}], depth: through }\n  - { number: 80`);
    let found = 0;
    const taken = yardsOf(() => {
      found = own(text).length;
    });
    expect(found).toBeGreaterThan(0);
    expect(taken).toBeLessThan(YARDS_IN_A_SECOND);
  });
});
