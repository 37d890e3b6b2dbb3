import { describe, expect, it, vi } from 'vitest';
import { makeOutlet } from '../../../src/screen/terminal/outlet.ts';
import { makePainter, type Painter, type TerminalSize } from '../../../src/screen/terminal/painter.ts';

/** A terminal that takes `room` bytes and then none, until there is room again. */
function fakeTerminal(): {
  sent: () => string;
  room: number;
  isGone: boolean;
  writeSome: (bytes: Uint8Array) => number;
} {
  const taken: number[] = [];
  const terminal = {
    room: Number.POSITIVE_INFINITY,
    isGone: false,
    sent: () => Buffer.from(taken).toString(),
    writeSome: (bytes: Uint8Array) => {
      if (terminal.isGone) throw new Error('EIO');
      const count = Math.min(bytes.length, terminal.room);
      terminal.room -= count;
      taken.push(...bytes.subarray(0, count));
      return count;
    },
  };
  return terminal;
}

type Bench = {
  painter: Painter;
  terminal: ReturnType<typeof fakeTerminal>;
  size: { now: TerminalSize };
  onLost: () => void;
};

function makeBench(): Bench {
  const terminal = fakeTerminal();
  const size = { now: { rows: 3, columns: 10 } };
  const onLost = vi.fn();
  const painter = makePainter({ writeSome: terminal.writeSome, size: () => size.now, onLost });
  return { painter, terminal, size, onLost };
}

function since(bench: Bench, act: () => void): string {
  const before = bench.terminal.sent().length;
  act();
  return bench.terminal.sent().slice(before);
}

describe('the painter', () => {
  it('writes nothing before it enters, then the newest frame, then only what changed', () => {
    const bench = makeBench();
    bench.painter.stream.write('one');
    bench.painter.stream.write('two');
    expect(bench.terminal.sent()).toBe('');
    bench.painter.enter();
    expect(bench.terminal.sent().startsWith('\u001b[?1049h')).toBe(true);
    expect(bench.terminal.sent().endsWith('\u001b[2Jtwo')).toBe(true);
    expect(since(bench, () => bench.painter.stream.write('tto'))).toBe('\b\bt');
    expect(since(bench, () => bench.painter.stream.write('tto'))).toBe('');
  });

  it("ignores what Ink's debug mode writes that is no frame", () => {
    const bench = makeBench();
    bench.painter.stream.write('frame');
    bench.painter.enter();
    const noise = ['', '\n', '\u001b[?25h', '\u001b[?25l', '\u001b[?2026h'];
    for (const chunk of noise) expect(since(bench, () => bench.painter.stream.write(chunk))).toBe('');
  });

  it('tells Ink the size, and that it is no terminal whose cursor Ink may show', () => {
    const { painter } = makeBench();
    expect([painter.stream.rows, painter.stream.columns, painter.stream.isTTY]).toEqual([3, 10, false]);
  });

  it('[P10] drops frames while the terminal is frozen and then paints the newest', async () => {
    const bench = makeBench();
    bench.painter.stream.write('0');
    bench.painter.enter();
    bench.terminal.room = 0;
    const whole = since(bench, () => {
      for (let count = 1; count <= 1000; count += 1) bench.painter.stream.write(`${count}`);
    });
    expect(whole).toBe('');
    expect(bench.painter.isFrozen()).toBe(true);
    const before = bench.terminal.sent().length;
    bench.terminal.room = Number.POSITIVE_INFINITY;
    await vi.waitFor(() => expect(bench.painter.isFrozen()).toBe(false));
    // The tail of the first frame, then one difference to the last.
    expect(bench.terminal.sent().slice(before)).toBe('\b1000');
  });

  it('[P10] a sequence cut in two by a full terminal is finished before anything else', async () => {
    const bench = makeBench();
    bench.painter.enter();
    bench.terminal.room = 2;
    bench.painter.stream.write('\u001b[7mab\u001b[27m');
    bench.painter.stream.write('\u001b[7mabc\u001b[27m');
    bench.terminal.room = Number.POSITIVE_INFINITY;
    await vi.waitFor(() => expect(bench.terminal.sent().endsWith('\u001b[7mabc')).toBe(true));
  });

  it('clears and paints anew after a resize, once for a storm of them, and tells Ink', async () => {
    const bench = makeBench();
    bench.painter.stream.write('one\ntwo');
    bench.painter.enter();
    const heard = vi.fn();
    bench.painter.stream.on('resize', heard);
    const before = bench.terminal.sent().length;
    for (const rows of [2, 5, 1]) {
      bench.size.now = { rows, columns: 4 };
      bench.painter.resize();
    }
    await vi.waitFor(() => expect(bench.terminal.sent().length).toBeGreaterThan(before));
    expect(bench.terminal.sent().slice(before)).toBe('\u001b[m\u001b[H\u001b[2Jone');
    expect(heard).toHaveBeenCalledTimes(3);
    expect(bench.painter.stream.rows).toBe(1);
  });

  it('gives the terminal back with the last words, once', () => {
    const bench = makeBench();
    bench.painter.enter();
    const bytes = since(bench, () => bench.painter.leave('stands at 7\n'));
    expect(bytes.endsWith('\u001b[?1049l\u001b[?25hstands at 7\r\n')).toBe(true);
    expect(since(bench, () => bench.painter.leave('again'))).toBe('');
    expect(since(bench, () => bench.painter.stream.write('unseen'))).toBe('');
  });

  it('[P10] says once that the terminal is gone, and swallows what comes after', () => {
    const bench = makeBench();
    bench.terminal.isGone = true;
    bench.painter.enter();
    bench.painter.stream.write('frame');
    bench.painter.leave('words');
    expect(bench.onLost).toHaveBeenCalledTimes(1);
  });
});

describe('the outlet', () => {
  it('drains for a while and no longer', () => {
    const terminal = fakeTerminal();
    terminal.room = 1;
    const outlet = makeOutlet(
      terminal.writeSome,
      () => undefined,
      () => undefined,
    );
    outlet.write('abc');
    const begun = performance.now();
    outlet.drain(30);
    expect(performance.now() - begun).toBeLessThan(500);
    expect(outlet.isIdle()).toBe(false);
    terminal.room = 10;
    outlet.drain(30);
    expect(terminal.sent()).toBe('abc');
  });
});
