/**
 * Lines of roles as text with attributes. Attributes are written by hand because Ink leaves bold and reverse out together
 * with colour, while NO_COLOR speaks of colour alone. Colour never carries meaning by itself: a role that has one is bold
 * or reversed as well.
 */
import type { Line, Role } from './lines.ts';

const ESC = '\u001b[';
const off = `${ESC}0m`;

const attributes: Record<Role, { readonly mono: string; readonly colour: string }> = {
  plain: { mono: '', colour: '' },
  strong: { mono: '1', colour: '1' },
  reverse: { mono: '7', colour: '7' },
  good: { mono: '1', colour: '1;32' },
  alarm: { mono: '1;7', colour: '1;7' },
  mark: { mono: '7', colour: '7' },
};

/** One line with its attributes; every segment ends by turning them off, so that a cropped line leaks none. */
export function ansiOf(line: Line, colour: boolean): string {
  return line
    .map(({ text, role }) => {
      const on = attributes[role][colour ? 'colour' : 'mono'];
      return on === '' ? text : `${ESC}${on}m${text}${off}`;
    })
    .join('');
}
