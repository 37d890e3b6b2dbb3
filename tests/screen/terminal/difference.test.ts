import xterm from '@xterm/headless';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { digitLines } from '../../../src/screen/parts/digits.ts';
import { blankGrid, type Grid, isSameCell, parseFrame } from '../../../src/screen/terminal/cells.ts';
import { type Cursor, difference } from '../../../src/screen/terminal/difference.ts';

const ROWS = 6;
const COLUMNS = 20;
const start: Cursor = { at: { row: 0, column: 0 }, style: '' };

const bytesBetween = (before: string, after: string): string =>
  difference(parseFrame(before, ROWS, COLUMNS), parseFrame(after, ROWS, COLUMNS), start).bytes;

describe('the difference of two frames', () => {
  it('is nothing when they look the same', () => {
    expect(bytesBetween('\u001b[1mab\u001b[22m cd', '\u001b[1mab\u001b[0m\u001b[1m\u001b[22m cd')).toBe('');
  });

  it('moves and writes in the shortest way', () => {
    expect(bytesBetween('', 'x')).toBe('x');
    expect(bytesBetween('', '\n\nx')).toBe('\u001b[3Hx');
    expect(bytesBetween('a\n\n', 'x\n\n z')).toBe('x\u001b[2Bz');
    expect(bytesBetween('', '\nx')).toBe('\u001bEx');
    expect(bytesBetween('', '     x')).toBe('\u001b[5Cx');
    expect(bytesBetween('abcd', 'xbcy')).toBe('xbcy');
    expect(bytesBetween('abc', 'xbz')).toBe('xbz');
    expect(bytesBetween('abcdefgh', 'xbcdefgz')).toBe('x\u001b[6Cz');
    expect(bytesBetween('abcdefghij', 'a')).toBe('a\u001b[K');
    expect(bytesBetween('', '\u001b[7m  \u001b[27m')).toBe('\u001b[7m  ');
  });

  it('goes by style where that is shorter', () => {
    const bytes = bytesBetween('', new Array(ROWS).fill('\u001b[7m \u001b[27mx').join('\n'));
    expect(bytes.split('\u001b[7m').length - 1).toBe(1);
    expect(bytes.length).toBeLessThan(ROWS * 9 + 12);
  });
});

/** A cell difference without art: for each run of changed cells a place, a style where it changes, the characters. */
function plainDifference(before: Grid, after: Grid): number {
  let bytes = 0;
  let style = '';
  after.forEach((row, y) => {
    row.forEach((cell, x) => {
      if (isSameCell(cell, before[y]?.[x] ?? cell)) return;
      const follows = x > 0 && !isSameCell(row[x - 1] ?? cell, before[y]?.[x - 1] ?? cell);
      if (!follows) bytes += `\u001b[${y + 1};${x + 1}H`.length;
      if (cell.style !== style) bytes += cell.style === '' ? 3 : cell.style.length + 3;
      style = cell.style;
      bytes += Buffer.byteLength(cell.text);
    });
  });
  return bytes;
}

describe('bytes', () => {
  const frame = (count: string): string =>
    [
      'OP 20 spot  keeper plate LEFT',
      ...digitLines(count, { kind: 'block', font: '5x7', pixelColumns: 2, pixelRows: 1 }).map((line) =>
        line.replace(/#+/g, (run) => `\u001b[7m${' '.repeat(run.length)}\u001b[27m`),
      ),
      `${count} of 200  this piece 0:31`,
    ].join('\n');

  it('a count in block digits takes at most as many as a plain cell difference, and 49 to 158', () => {
    let sum = 0;
    for (let count = 100; count < 200; count += 1) {
      const [before, after] = [frame(`${count}/200`), frame(`${count + 1}/200`)].map((text) =>
        parseFrame(text, 24, 80),
      );
      const { bytes } = difference(before ?? [], after ?? [], start);
      const plain = plainDifference(before ?? [], after ?? []);
      expect(Buffer.byteLength(bytes)).toBeLessThanOrEqual(plain);
      sum += Buffer.byteLength(bytes);
    }
    expect(sum / 100).toBeLessThan(110);
  });
});

describe('laws', () => {
  const text = fc.oneof(
    fc.constantFrom(' ', '  ', '     ', 'a', 'bc', '137', '│', '─█', '漢', 'é', 'e\u0301'),
    fc.string({ unit: fc.constantFrom(...'abc .'), maxLength: 8 }),
  );
  const run = fc
    .tuple(fc.constantFrom('0', '7', '1', '1;7', '31', '1;31;44', '38;5;9'), text)
    .map(([sgr, words]) => `\u001b[0;${sgr}m${words}`);
  const frame = fc
    .array(
      fc.array(run, { maxLength: 4 }).map((runs) => runs.join('')),
      { maxLength: ROWS + 1 },
    )
    .map((lines) => lines.join('\n'));

  it('a terminal that is sent the differences shows the last frame', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(frame, { minLength: 1, maxLength: 5 }), async (frames) => {
        const terminal = new xterm.Terminal({ rows: ROWS, cols: COLUMNS, allowProposedApi: true, scrollback: 0 });
        let shown = blankGrid(ROWS, COLUMNS);
        let cursor = start;
        let sent = '';
        for (const next of frames) {
          const after = parseFrame(next, ROWS, COLUMNS);
          const change = difference(shown, after, cursor);
          sent += change.bytes;
          shown = after;
          cursor = change.cursor;
        }
        await new Promise<void>((resolve) => terminal.write(sent, resolve));
        expect(picture(terminal)).toEqual(gridPicture(shown));
        terminal.dispose();
      }),
      { numRuns: 150 },
    );
  });
});

type Terminal = InstanceType<typeof xterm.Terminal>;

/** Each cell as its text and marks: ! reverse, * bold, colours. */
function picture(terminal: Terminal): string[] {
  return Array.from({ length: ROWS }, (_, y) => {
    const line = terminal.buffer.active.getLine(y);
    return Array.from({ length: COLUMNS }, (_, x) => {
      const cell = line?.getCell(x);
      if (!cell || cell.getWidth() === 0) return '';
      const text = cell.getChars() === '' ? ' ' : cell.getChars();
      if (text === ' ' && !cell.isInverse()) return cell.isBgDefault() ? ' ' : ' _';
      return `${text}${cell.isInverse() ? '!' : ''}${cell.isBold() ? '*' : ''}${cell.isFgDefault() ? '' : cell.getFgColor()}`;
    }).join('');
  });
}

function gridPicture(grid: Grid): string[] {
  return grid.map((row) =>
    row
      .map((cell) => {
        if (cell.width === 0) return '';
        const parts = cell.style.split(';');
        const isReverse = parts.includes('7');
        if (cell.text === ' ' && !isReverse) return parts.includes('44') ? ' _' : ' ';
        const colour = parts.includes('38') ? '9' : parts.includes('31') ? '1' : '';
        return `${cell.text}${isReverse ? '!' : ''}${parts.includes('1') ? '*' : ''}${colour}`;
      })
      .join(''),
  );
}
