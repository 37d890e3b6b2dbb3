/**
 * Puts Ink's frames on the terminal. Ink (with `debug: true`) writes whole frames onto `painter.stream`; the painter
 * compares cells with what the terminal shows and sends only the difference. It owns the alternate screen, the
 * cursor and the modes of the terminal; it clears the screen only on entering and after a resize.
 *
 * P10: a frozen terminal stops no counting. While earlier bytes have not left, frames are dropped; when they have, the
 * newest frame is painted against what was last sent.
 */
import { Writable } from 'node:stream';
import { blankGrid, type Grid, makeFrameParser } from './cells.ts';
import { type Cursor, difference } from './difference.ts';
import { makeOutlet, type WriteSome } from './outlet.ts';

export type TerminalSize = { readonly rows: number; readonly columns: number };

export type PainterOptions = {
  readonly writeSome: WriteSome;
  /** The size of the terminal now; asked on entering and on each resize. */
  readonly size: () => TerminalSize;
  /** Called once when the terminal is gone. */
  readonly onLost: () => void;
};

export type Painter = {
  /** What Ink renders onto: `render(node, { stdout: painter.stream, debug: true, … })`. */
  readonly stream: NodeJS.WriteStream;
  /** Takes the terminal: alternate screen, no cursor, bracketed paste, numeric keypad; then the newest frame. */
  enter(): void;
  /**
   * Gives the terminal back and writes `words` on the normal screen, waiting at most 200 ms for a frozen terminal.
   * Frames are kept, not shown, until `enter`.
   */
  leave(words: string): void;
  /** Paints everything anew in the size there is now, once the storm of resizes has settled (16 ms). */
  resize(): void;
  /** Paints everything anew at once: the terminal's content was spoiled by something else. */
  repaint(): void;
  /** Rings the bell, if the terminal takes it now. */
  bell(): void;
  /** True while the terminal takes no more bytes and frames are being dropped. */
  isFrozen(): boolean;
};

const ENTER = '\u001b[?1049h\u001b[?25l\u001b[?2004h\u001b[?1l\u001b>';
const CLEAR = '\u001b[m\u001b[H\u001b[2J';
/** Also clears: the Linux console and a VT220 have no alternate screen to leave. */
const LEAVE = '\u001b[?2004l\u001b[m\u001b[H\u001b[2J\u001b[?1049l\u001b[?25h';
const BELL = '\u0007';
const LEAVING_MS = 200;
const SETTLE_MS = 16;
const unsure: Cursor = { at: undefined, style: '' };

/** Makes a painter; nothing is written before `enter`. Example: see session.ts. */
export function makePainter(options: PainterOptions): Painter {
  let { rows, columns } = options.size();
  const parse = makeFrameParser();
  let wanted = '';
  let shown: Grid = blankGrid(rows, columns);
  let cursor = unsure;
  let isEntered = false;
  let mustClear = true;
  let settling: NodeJS.Timeout | undefined;

  const paint = (): void => {
    if (!isEntered || settling || !outlet.isIdle()) return;
    const before = mustClear ? blankGrid(rows, columns) : shown;
    const from: Cursor = mustClear ? { at: { row: 0, column: 0 }, style: '' } : cursor;
    const after = parse(wanted, rows, columns);
    const change = difference(before, after, from);
    outlet.write((mustClear ? CLEAR : '') + change.bytes);
    shown = after;
    cursor = change.cursor;
    mustClear = false;
  };
  const outlet = makeOutlet(options.writeSome, paint, options.onLost);
  const takeSize = (): void => {
    ({ rows, columns } = options.size());
    mustClear = true;
  };
  const stream = makeStream(
    () => ({ rows, columns }),
    (frame) => {
      wanted = frame;
      paint();
    },
  );

  return {
    stream,
    enter: () => {
      takeSize();
      isEntered = true;
      outlet.write(ENTER);
      paint();
    },
    leave: (words) => {
      if (!isEntered) return;
      isEntered = false;
      clearTimeout(settling);
      settling = undefined;
      outlet.write(LEAVE + words.replaceAll('\n', '\r\n'));
      outlet.drain(LEAVING_MS);
    },
    resize: () => {
      takeSize();
      settling ??= setTimeout(() => {
        settling = undefined;
        paint();
      }, SETTLE_MS);
      stream.emit('resize');
    },
    repaint: () => {
      mustClear = true;
      paint();
    },
    bell: () => {
      if (isEntered && outlet.isIdle()) outlet.write(BELL);
    },
    isFrozen: () => !outlet.isIdle(),
  };
}

/** What Ink writes in debug mode that is no frame: the cursor shown on leaving, synchronised output, CI's newline. */
const noFrame = new Set(['', '\n', '\u001b[?25h', '\u001b[?25l', '\u001b[?2026h', '\u001b[?2026l']);

/** A stream with what Ink asks of a terminal. It says that it is none, so that Ink leaves the cursor to the painter. */
function makeStream(size: () => TerminalSize, onFrame: (frame: string) => void): NodeJS.WriteStream {
  const stream = new Writable({
    decodeStrings: false,
    write: (chunk: string | Buffer, _encoding, done) => {
      const text = chunk.toString();
      if (!noFrame.has(text)) onFrame(text);
      done();
    },
  });
  Object.defineProperties(stream, {
    columns: { get: () => size().columns },
    rows: { get: () => size().rows },
    isTTY: { value: false },
  });
  return stream as NodeJS.WriteStream;
}
