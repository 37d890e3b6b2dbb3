import { describe, expect, it } from 'vitest';
import { type Cell, makeFrameParser, parseFrame } from '../../../src/screen/terminal/cells.ts';

const styled = (row: readonly Cell[] | undefined): string[] => (row ?? []).map((cell) => `${cell.text}|${cell.style}`);

describe('a frame as cells', () => {
  it('is cut to the rows and columns there are, and filled with blanks', () => {
    const grid = parseFrame('abc\nd\nx\ny', 3, 2);
    expect(grid.map((row) => row.map((cell) => cell.text).join(''))).toEqual(['ab', 'd ', 'x ']);
    expect(parseFrame('a', 2, 2)[1]?.map((cell) => cell.text)).toEqual([' ', ' ']);
  });

  it('carries attributes and colours from cell to cell and from line to line', () => {
    expect(styled(parseFrame('\u001b[1ma\u001b[31mb\u001b[22mc\u001b[39md', 1, 4)[0])).toEqual([
      'a|1',
      'b|1;31',
      'c|31',
      'd|',
    ]);
    expect(styled(parseFrame('\u001b[7ma\nb\u001b[27mc', 2, 2)[1])).toEqual(['b|7', 'c|']);
    expect(styled(parseFrame('\u001b[38;5;9ma\u001b[48;2;1;2;3mb\u001b[0mc', 1, 3)[0])).toEqual([
      'a|38;5;9',
      'b|38;5;9;48;2;1;2;3',
      'c|',
    ]);
  });

  it('one look has one style, in whatever order it was asked for', () => {
    const one = parseFrame('\u001b[1m\u001b[7mx', 1, 1);
    expect(parseFrame('\u001b[7;1mx', 1, 1)).toEqual(one);
    expect(styled(parseFrame('\u001b[1;31m \u001b[7m ', 1, 2)[0])).toEqual([' |', ' |1;7;31']);
  });

  it('a line that stood in the frame before is the same row, unless its style or the width is another', () => {
    const parse = makeFrameParser();
    const first = parse('ab\ncd', 2, 4);
    expect(parse('cd\nab', 2, 4)[1]).toBe(first[0]);
    expect(styled(parse('\u001b[7mx\nab', 2, 4)[1])).toEqual(['a|7', 'b|7', ' |', ' |']);
    expect(parse('ab', 1, 3)[0]?.length).toBe(3);
    expect(parse('\u001b[1mx\u001b[22m\nab', 2, 3)[1]).toEqual(parse('ab', 1, 3)[0]);
  });

  it('a wide character takes two columns, or none at the edge; combining marks stay with their letter', () => {
    expect(parseFrame('漢x', 1, 3)[0]?.map((cell) => cell.width)).toEqual([2, 0, 1]);
    expect(parseFrame('x漢', 1, 2)[0]?.map((cell) => cell.text)).toEqual(['x', ' ']);
    expect(parseFrame('e\u0301x', 1, 2)[0]?.map((cell) => cell.text)).toEqual(['e\u0301', 'x']);
  });

  it.each([
    ['a clear of the screen', 'a\u001b[2Jb'],
    ['a move of the cursor', 'a\u001b[5;5Hb'],
    ['a title', 'a\u001b]0;evil\u0007b'],
    ['an unended title', 'ab\u001b]0;evil'],
    ['a device string', 'a\u001bPq\u001b\\b'],
    ['a reset', 'a\u001bcb'],
    ['an 8-bit control sequence', 'a\u009b2Jb'],
    ['bell, backspace, return and delete', 'a\u0007\b\r\u007fb'],
    ['writing turned about and invisible marks', 'a\u202e\u200bb'],
  ])('[P8] %s in a text never reaches the terminal', (_name, text) => {
    expect(
      parseFrame(text, 1, 4)[0]
        ?.map((cell) => cell.text)
        .join(''),
    ).toBe('ab  ');
  });
});
