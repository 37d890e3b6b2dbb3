import { describe, expect, it } from 'vitest';
import { textOf, wrapText } from '../../../src/screen/parts/lines.ts';

const wrapped = (text: string, columns: number): string[] => wrapText(text, columns, 9).map(textOf);

describe('a text that takes more than one line', () => {
  it.each([
    ['> 2  machine: correct a target, tool changed', ['> 2  machine: correct a', '     target, tool changed']],
    ['  3  work: other operation, how to count', ['  3  work: other operation,', '     how to count']],
    ['!  Hands off the holder: a stuck tap swings', ['!  Hands off the holder: a', '   stuck tap swings']],
    ['12. Seat the part against the stop first', ['12. Seat the part against', '    the stop first']],
    ['  Counts the piece, or goes to the next point', ['  Counts the piece, or goes', '  to the next point']],
  ])('hangs under its words: %s', (text, lines) => {
    expect(wrapped(text, 27)).toEqual(lines);
  });

  it('hangs under what stands behind a name with a gap', () => {
    expect(wrapped('take back         Backspace u | keypad -', 38)).toEqual([
      'take back         Backspace u | keypad',
      '                  -',
    ]);
  });

  it('is not indented by a number that is no mark', () => {
    expect(wrapped('450 rpm, end mill 16, clear chips every 2 mm', 27)).toEqual([
      '450 rpm, end mill 16, clear',
      'chips every 2 mm',
    ]);
  });

  it('is not indented where the mark would take half of the line', () => {
    expect(wrapped('take back         Backspace u', 20)[1]).not.toMatch(/^ /);
  });
});
