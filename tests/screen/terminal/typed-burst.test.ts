import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type Key, keyId } from '../../../src/screen/terminal/key.ts';
import { makeBurstReader } from '../../../src/screen/terminal/typed-burst.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

const keyOf = (text: string): Key => (text === '\r' ? { name: 'enter' } : { name: 'char', text });

/** What arrives of a text typed with so many ms between its characters: single keys, and bursts in brackets. */
function arrived(text: string, every_ms: number): string {
  const heard: string[] = [];
  const ids = (keys: readonly Key[]): string => keys.map(keyId).join('');
  const reader = makeBurstReader(
    (key) => heard.push(keyId(key)),
    (keys) => heard.push(`[${ids(keys)}]`),
  );
  for (const character of text) {
    reader.take(keyOf(character));
    vi.advanceTimersByTime(every_ms);
  }
  vi.advanceTimersByTime(1000);
  return heard.join(' ');
}

describe('a number at the pace of a gauge', () => {
  it.each([
    ['60.02\r', 0, '[60.02enter]'],
    ['10.02\r', 30, '[10.02enter]'],
    ['-0.15\r', 30, '[-0.15enter]'],
    ['+12.5\r', 5, '[+12.5enter]'],
    ['60\r', 10, '[60enter]'],
    ['60.02', 10, '[60.02]'],
  ])('%j every %i ms is one value', (text, every, heard) => {
    expect(arrived(text, every)).toBe(heard);
  });

  it.each([
    ['01\r', 100, '0 1 enter', 'a hand'],
    ['12', 20, '1 2', 'two quick keys without Enter or point'],
    ['1\r', 20, '1 enter', 'one digit'],
    ['000000', 33, '0 0 0 0 0 0', 'a held digit'],
    ['++++', 33, '+ + + +', 'a held count key'],
    ['--', 33, '- -', 'a held minus'],
    ['/21', 10, '/ 2 1', 'a menu'],
    ['\r\r', 10, 'enter enter', 'Enter alone'],
  ])('%j every %i ms is %s: %s', (text, every, heard) => {
    expect(arrived(text, every)).toBe(heard);
  });

  it('lets every other key pass at once, behind what was held', () => {
    const heard: string[] = [];
    const reader = makeBurstReader(
      (key) => heard.push(keyId(key)),
      () => heard.push('burst'),
    );
    reader.take(keyOf('4'));
    expect(heard).toEqual([]);
    reader.take(keyOf('p'));
    expect(heard).toEqual(['4', 'p']);
  });
});
