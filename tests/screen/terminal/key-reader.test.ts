import { EventEmitter } from 'node:events';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { keyId } from '../../../src/screen/terminal/key.ts';
import { readKeys } from '../../../src/screen/terminal/key-reader.ts';
import { makePacer } from '../../../src/screen/terminal/pacer.ts';

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'performance'] });
});
afterEach(() => {
  vi.useRealTimers();
});

function reading(): { send: (text: string) => void; ids: string[]; stop: () => void } {
  const source = new EventEmitter();
  const ids: string[] = [];
  const stop = readKeys(source, (key) => ids.push(keyId(key)));
  return { send: (text) => source.emit('data', Buffer.from(text)), ids, stop };
}

describe('reading keys', () => {
  it('a lone ESC waits for the rest of a key and is Escape after 40 ms', () => {
    const { send, ids } = reading();
    send('\u001b');
    vi.advanceTimersByTime(39);
    send('[A');
    expect(ids).toEqual(['up']);
    send('\u001b');
    vi.advanceTimersByTime(40);
    expect(ids).toEqual(['up', 'escape']);
  });

  it('a sequence in pieces over a slow line leaks nothing', () => {
    const { send, ids } = reading();
    for (const char of '\u001b[20;5~') {
      send(char);
      vi.advanceTimersByTime(char === '\u001b' ? 35 : 400);
    }
    expect(ids).toEqual(['ctrl-f9']);
  });

  it('[P6] a page pasted into a terminal without bracketed paste is one paste, its tail included', () => {
    const { send, ids } = reading();
    send('the quick brown fox jumps over the lazy dog\rq\r');
    vi.advanceTimersByTime(20);
    send('tail\r');
    vi.advanceTimersByTime(200);
    send('p');
    expect(ids).toEqual(['paste', 'p']);
  });

  it('what a gauge types and what a held key repeats is no paste', () => {
    const { send, ids } = reading();
    send('-12.345\r');
    send('+'.repeat(40));
    expect(ids).toEqual([...'-12.345', 'enter', ...'+'.repeat(40)]);
  });

  it('hands on nothing once stopped', () => {
    const { send, ids, stop } = reading();
    send('\u001b');
    stop();
    vi.advanceTimersByTime(1000);
    send('a');
    expect(ids).toEqual([]);
  });
});

describe('the pace of telling', () => {
  it('tells the first change at once and the last one when the interval ends', () => {
    const tell = vi.fn();
    const changed = makePacer(tell, 33);
    changed();
    expect(tell).toHaveBeenCalledTimes(1);
    for (let times = 0; times < 10; times += 1) changed();
    expect(tell).toHaveBeenCalledTimes(1);
    vi.advanceTimersByTime(33);
    expect(tell).toHaveBeenCalledTimes(2);
    vi.advanceTimersByTime(100);
    expect(tell).toHaveBeenCalledTimes(2);
    changed();
    expect(tell).toHaveBeenCalledTimes(3);
  });

  it('tells at most about 30 times a second', () => {
    const tell = vi.fn();
    const changed = makePacer(tell, 33);
    for (let ms = 0; ms < 1000; ms += 1) {
      changed();
      vi.advanceTimersByTime(1);
    }
    expect(tell.mock.calls.length).toBeLessThanOrEqual(31);
  });
});
