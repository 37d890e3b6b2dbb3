import { describe, expect, it } from 'vitest';
import { digitOf, parsePieces, parseTyped, pressInFlow, type Step, startFlow } from '../../../src/screen/flow/flow.ts';
import { keyOf } from '../app/rig.ts';

const note: Step = {
  kind: 'entry',
  prompt: 'NOTE',
  about: [],
  entry: 'text',
  onEmpty: { kind: 'close' },
  take: (text) => ({ kind: 'send', command: { kind: 'note', text } }),
};
const list: Step = {
  kind: 'choice',
  prompt: 'WHICH',
  about: [],
  options: Array.from({ length: 12 }, (_, index) => ({
    label: `line ${index + 1}`,
    next: { kind: 'send', command: { kind: 'note', text: String(index + 1) } } as const,
  })),
};
const outer: Step = {
  kind: 'choice',
  prompt: 'OUTER',
  about: [],
  options: [{ label: 'in', next: { kind: 'step', step: note } }],
};

/** Presses keys into a flow that starts with a step. */
function run(step: Step, keys: readonly string[]) {
  let answer = { flow: startFlow(step), next: null } as ReturnType<typeof pressInFlow>;
  for (const key of keys) if (answer.flow !== null) answer = pressInFlow(answer.flow, keyOf(key));
  return answer;
}
const noted = (answer: ReturnType<typeof run>): string | null =>
  answer.next?.kind === 'send' && answer.next.command.kind === 'note' ? answer.next.command.text : null;

describe('a text', () => {
  it('is taken with Enter, backspace takes a letter away', () => {
    expect(noted(run(note, ['a', 'x', 'backspace', 'b', 'enter']))).toBe('ab');
  });

  it('empty closes the flow and sends nothing', () => {
    expect(run(note, ['enter'])).toEqual({ flow: null, next: null });
  });

  it('of a page stops at sixty characters and says so', () => {
    const answer = run(
      note,
      Array.from({ length: 90 }, () => 'x'),
    );
    expect(answer.flow).toMatchObject({ typed: 'x'.repeat(60), wrong: 'at most 60 characters' });
  });
});

describe('a number on a bare keypad', () => {
  const number = (entry: 'number' | 'pieces' | 'range'): Step => ({
    kind: 'entry',
    prompt: 'HOW MANY',
    about: [],
    entry,
    onEmpty: { kind: 'close' },
    take: (text) => ({ kind: 'send', command: { kind: 'note', text } }),
  });

  it.each(['+', 'kp-plus', 'kp-enter'])('is taken with %s as well', (key) => {
    expect(noted(run(number('pieces'), ['1', '2', key]))).toBe('12');
    expect(noted(run(number('number'), ['-', '.', '0', '6', key]))).toBe('-.06');
  });

  it('is rubbed out whole with a minus where that is no sign and no mark', () => {
    expect(noted(run(number('pieces'), ['1', '2', 'kp-minus', '7', 'enter']))).toBe('7');
    expect(noted(run(number('number'), ['-', '3', 'kp-minus', 'kp-minus', '.', '0', '6', 'enter']))).toBe('-.06');
    expect(noted(run(number('range'), ['2', '-', '5', 'kp-minus', '3', '-', '4', 'enter']))).toBe('3-4');
  });

  it('has its sign first, where + is no answer yet', () => {
    expect(noted(run(number('number'), ['+', '5', '+']))).toBe('+5');
  });
});

describe('a list', () => {
  it('a digit chooses, wherever it lies', () => {
    for (const key of ['3', 'kp-3', 'page-down']) expect(noted(run(list, [key]))).toBe('3');
  });

  it('arrows move and Enter or + takes; - goes down and round, so that a keypad with NumLock on reaches every line', () => {
    expect(noted(run(list, ['down', 'down', 'up', 'enter']))).toBe('2');
    expect(noted(run(list, [...Array.from({ length: 11 }, () => 'kp-minus'), 'kp-plus']))).toBe('12');
    expect(noted(run(list, [...Array.from({ length: 12 }, () => 'kp-minus'), 'kp-enter']))).toBe('1');
    expect(noted(run(list, ['-', '-', '+']))).toBe('3');
  });

  it('a letter or a digit beyond the list does nothing', () => {
    expect(run(list, ['q', '0']).next).toBeNull();
  });
});

describe('going back', () => {
  it.each(['escape', 'kp-divide'])('%s goes one step, then out, and sends nothing', (key) => {
    const one = run(outer, ['1', 'a', key]);
    expect(one.flow?.steps.length).toBe(1);
    expect(run(outer, ['1', 'a', key, key])).toEqual({ flow: null, next: null });
  });
});

it('/ as a plain character goes back in a list and is text in a note', () => {
  expect(run(outer, ['/'])).toEqual({ flow: null, next: null });
  expect(noted(run(note, ['a', '/', 'b', 'enter']))).toBe('a/b');
});

describe('numbers', () => {
  it.each([
    ['3.06', 3.06],
    ['-.003', -0.003],
    ['+5', 5],
    ['3,06', 'use a point for decimals, not a comma'],
    ['3.0.6', '"3.0.6" is not a number'],
    ['-', '"-" is not a number'],
    ['9999999', '"9999999" is too large'],
  ])('%s', (text, wanted) => {
    expect(parseTyped(text)).toBe(wanted);
  });

  it('pieces are whole and within their bounds', () => {
    expect([parsePieces('7', 0, 9), parsePieces('10', 0, 9), parsePieces('1.5', 0, 9)]).toEqual([
      7,
      'from 0 to 9 pieces',
      '"1.5" is not a number of pieces',
    ]);
  });

  it('a keypad types digits whatever NumLock says', () => {
    expect(
      ['insert', 'end', 'down', 'page-down', 'left', 'begin', 'right', 'home', 'up', 'page-up']
        .map((name) => digitOf(keyOf(name)))
        .join(''),
    ).toBe('0123456789');
    expect(['kp-0', 'kp-9', 'delete', 'kp-decimal'].map((name) => digitOf(keyOf(name))).join('')).toBe('09..');
  });
});
