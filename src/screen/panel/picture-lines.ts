/** A drawing's cells as lines of roles: the hole in hand reversed, what is done plain, what holds the part plain. */
import type { CellMark, DrawnCell } from '../../plan/drawing-text.ts';
import type { Line, Role, Segment } from '../parts/lines.ts';

const roles: Record<CellMark, Role> = {
  plain: 'plain',
  part: 'plain',
  hold: 'plain',
  todo: 'strong',
  now: 'mark',
  done: 'plain',
  zero: 'strong',
};

/** One line a row of cells; neighbouring cells of one role become one segment. */
export function pictureLines(cells: readonly (readonly DrawnCell[])[]): Line[] {
  return cells.map((row) => {
    const segments: Segment[] = [];
    for (const cell of row) {
      const role = roles[cell.mark];
      const last = segments.at(-1);
      if (last !== undefined && last.role === role)
        segments[segments.length - 1] = { role, text: last.text + cell.text };
      else segments.push({ role, text: cell.text });
    }
    return segments;
  });
}
