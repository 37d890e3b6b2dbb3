/**
 * A setup's drawing as text: plain box characters that every console font has, or ASCII. To scale as far as cells allow:
 * a cell is taken as twice as tall as wide. Rear of the machine is up, as the user sees it from the handles.
 */
import type { Drawing, Rectangle, Shape } from './drawing.ts';

/** What stands in a cell, so that a screen can give a role to the hole in hand. */
export type CellMark = 'plain' | 'part' | 'hold' | 'todo' | 'now' | 'done' | 'zero';
export type DrawnCell = { readonly text: string; readonly mark: CellMark };
export type HoleState = 'todo' | 'now' | 'done';

export type TextOptions = {
  readonly columns: number;
  readonly rows: number;
  readonly ascii: boolean;
  /** Draw the parallels as dots under the part; without, they are left out. */
  readonly parallels?: boolean;
  /** No drawing rather than one in which different holes lie on one cell. */
  readonly leaveOutCrowded?: boolean;
  /** State of a hole or pass; called with its shape. */
  readonly stateOf: (shape: Extract<Shape, { kind: 'hole' | 'pass' }>) => HoleState;
};

const boxed = { corner: '┌┐└┘', across: '─', down: '│', jaw: '▒', moving: '░', stop: '▒', parallel: '·', zero: '┼' };
const plain = { corner: '++++', across: '-', down: '|', jaw: '%', moving: ':', stop: '%', parallel: '.', zero: '+' };
const holes: Record<HoleState, { readonly box: string; readonly ascii: string }> = {
  todo: { box: 'o', ascii: 'o' },
  now: { box: '■', ascii: '@' },
  done: { box: '•', ascii: '*' },
};

/** At most `rows` lines of at most `columns` cells; smaller when the scale says so. Empty when there is no room. */
export function drawAsText(drawing: Drawing, options: TextOptions): DrawnCell[][] {
  const { extent } = drawing;
  const wide = Math.max(extent.x1 - extent.x0, 1e-6);
  const deep = Math.max(extent.y1 - extent.y0, 1e-6);
  if (options.columns < 8 || options.rows < 4) return [];
  const perColumn = Math.max(wide / (options.columns - 1), deep / (options.rows - 1) / 2);
  const at = {
    column: (x: number) => Math.round((x - extent.x0) / perColumn),
    row: (y: number) => Math.round((extent.y1 - y) / perColumn / 2),
  };
  if (options.leaveOutCrowded === true && isCrowded(drawing, at)) return [];
  const grid = makeGrid(Math.round(wide / perColumn) + 1, Math.round(deep / perColumn / 2) + 1);
  const glyphs = options.ascii ? plain : boxed;
  const order: readonly Shape['kind'][] = ['jaw', 'stop', 'part', 'parallel', 'pass', 'zero', 'hole'];
  for (const kind of order) {
    const shapes = drawing.shapes.filter((shape) => shape.kind === kind);
    for (const shape of kind === 'pass' ? inHandLast(shapes, options) : shapes)
      drawShape(grid, shape, at, glyphs, options);
  }
  return grid;
}

/** Do different holes fall on one cell? Then none of them can be told, and the one in hand not be marked. */
function isCrowded({ shapes }: Drawing, at: Places): boolean {
  const taken = new Map<string, string>();
  return shapes.some((shape) => {
    if (shape.kind !== 'hole') return false;
    const [cell, place] = [`${at.column(shape.x)}/${at.row(shape.y)}`, `${shape.x.toFixed(3)}/${shape.y.toFixed(3)}`];
    const other = taken.get(cell);
    taken.set(cell, place);
    return other !== undefined && other !== place;
  });
}

/**
 * Passes of one wall or slot lie on the same cells: the one in hand is drawn over the others, with its arrow. Where several
 * are (a piece counted at once), the first of them, for that is fed first.
 */
function inHandLast(shapes: readonly Shape[], { stateOf }: TextOptions): readonly Shape[] {
  const isNow = (shape: Shape) => shape.kind === 'pass' && stateOf(shape) === 'now';
  return [...shapes.filter((shape) => !isNow(shape)), ...shapes.filter(isNow).reverse()];
}

/**
 * What the signs of a drawing mean, only those that came to be drawn, on one line of at most 80 cells.
 *
 * @param drawn the cells of `drawAsText` with the same options
 *
 * Example: `▒ fixed jaw or stop  ░ moving jaw  · parallel  ┼ X0 Y0  o hole  ═▶ pass`.
 */
export function legendOf(
  drawing: Drawing,
  drawn: readonly (readonly DrawnCell[])[],
  options: Pick<TextOptions, 'ascii'>,
): string {
  const glyphs = options.ascii ? plain : boxed;
  const has = (wanted: (shape: Shape) => boolean) => drawing.shapes.some(wanted);
  const isDrawn = (text: string, mark: CellMark) =>
    drawn.some((line) => line.some((cell) => cell.text === text && cell.mark === mark));
  const fixed = [
    has((shape) => shape.kind === 'jaw' && shape.fixed) ? 'fixed jaw' : null,
    has((shape) => shape.kind === 'stop') ? 'stop' : null,
  ].filter((word) => word !== null);
  const hole = holes.todo[options.ascii ? 'ascii' : 'box'];
  const entries: readonly (readonly [string, string, boolean])[] = [
    [glyphs.jaw, fixed.join(' or '), isDrawn(glyphs.jaw, 'hold')],
    [glyphs.moving, 'moving jaw', isDrawn(glyphs.moving, 'hold')],
    [glyphs.parallel, 'parallel', isDrawn(glyphs.parallel, 'hold')],
    [glyphs.zero, 'X0 Y0', isDrawn(glyphs.zero, 'zero')],
    [hole, 'hole', has((shape) => shape.kind === 'hole')],
    [options.ascii ? '=>' : '═▶', 'pass', has((shape) => shape.kind === 'pass')],
  ];
  return entries.flatMap(([sign, words, shown]) => (shown ? [`${sign} ${words}`] : [])).join('  ');
}

type Grid = DrawnCell[][];
type Places = { readonly column: (x: number) => number; readonly row: (y: number) => number };

function makeGrid(columns: number, rows: number): Grid {
  return Array.from({ length: rows }, () => Array.from({ length: columns }, () => ({ text: ' ', mark: 'plain' })));
}

function put(grid: Grid, column: number, row: number, text: string, mark: CellMark): void {
  const line = grid[row];
  if (line !== undefined && column >= 0 && column < line.length) line[column] = { text, mark };
}

function drawShape(grid: Grid, shape: Shape, at: Places, glyphs: typeof boxed, options: TextOptions): void {
  switch (shape.kind) {
    case 'jaw':
      fill(grid, shape, at, shape.fixed ? glyphs.jaw : glyphs.moving);
      return;
    case 'stop':
      fill(grid, shape, at, glyphs.stop);
      return;
    case 'parallel':
      if (options.parallels === true) fillBlank(grid, shape, at, glyphs.parallel);
      return;
    case 'part':
      outline(grid, shape, at, glyphs);
      return;
    case 'zero':
      put(grid, at.column(shape.x), at.row(shape.y), glyphs.zero, 'zero');
      return;
    case 'pass':
      drawPass(grid, shape, at, options);
      return;
    case 'hole': {
      const state = options.stateOf(shape);
      put(grid, at.column(shape.x), at.row(shape.y), holes[state][options.ascii ? 'ascii' : 'box'], state);
      return;
    }
    default:
      shape satisfies never;
  }
}

function fill(grid: Grid, area: Rectangle, at: Places, text: string): void {
  for (let row = at.row(area.y1); row <= at.row(area.y0); row += 1) {
    for (let column = at.column(area.x0); column <= at.column(area.x1); column += 1)
      put(grid, column, row, text, 'hold');
  }
}

/** Under the part: only where nothing of it is drawn. */
function fillBlank(grid: Grid, area: Rectangle, at: Places, text: string): void {
  for (let row = at.row(area.y1); row <= at.row(area.y0); row += 1) {
    for (let column = at.column(area.x0); column <= at.column(area.x1); column += 1)
      if (grid[row]?.[column]?.text === ' ') put(grid, column, row, text, 'hold');
  }
}

function outline(grid: Grid, area: Rectangle, at: Places, glyphs: typeof boxed): void {
  const [left, right, top, bottom] = [at.column(area.x0), at.column(area.x1), at.row(area.y1), at.row(area.y0)];
  for (let row = top; row <= bottom; row += 1) {
    for (let column = left; column <= right; column += 1) put(grid, column, row, ' ', 'part');
  }
  for (let column = left; column <= right; column += 1) {
    put(grid, column, top, glyphs.across, 'part');
    put(grid, column, bottom, glyphs.across, 'part');
  }
  for (let row = top; row <= bottom; row += 1) {
    put(grid, left, row, glyphs.down, 'part');
    put(grid, right, row, glyphs.down, 'part');
  }
  const corners = [
    [left, top],
    [right, top],
    [left, bottom],
    [right, bottom],
  ] as const;
  corners.forEach(([column, row], index) => {
    put(grid, column, row, glyphs.corner[index] ?? '+', 'part');
  });
}

function drawPass(grid: Grid, shape: Extract<Shape, { kind: 'pass' }>, at: Places, options: TextOptions): void {
  const state = options.stateOf(shape);
  const [c0, c1, r0, r1] = [at.column(shape.from.x), at.column(shape.to.x), at.row(shape.from.y), at.row(shape.to.y)];
  const steps = Math.max(Math.abs(c1 - c0), Math.abs(r1 - r0), 1);
  const trail = options.ascii ? '=' : '═';
  const upright = options.ascii ? '"' : '║';
  for (let step = 0; step <= steps; step += 1) {
    const column = Math.round(c0 + ((c1 - c0) * step) / steps);
    const row = Math.round(r0 + ((r1 - r0) * step) / steps);
    put(grid, column, row, c1 === c0 ? upright : trail, state);
  }
  const heads = options.ascii ? '<>^v' : '◀▶▲▼';
  const head = c1 === c0 ? (r1 < r0 ? heads[2] : heads[3]) : c1 < c0 ? heads[0] : heads[1];
  put(grid, c1, r1, head ?? '>', state);
}
