/** What a headless terminal shows, in forms that a test can ask about. */
import type xterm from '@xterm/headless';
import { type DigitSize, digitLines } from '../../src/screen/parts/digits.ts';

export type Screen = {
  /** The text of each row, blanks at the end left out. */
  readonly lines: readonly string[];
  /** All rows joined by newlines. */
  readonly text: string;
  /** As `lines`, with '#' for each blank in reverse and for a full block: block digits can be seen. */
  readonly drawn: readonly string[];
  readonly isAlternate: boolean;
  /** Whether `text` stands somewhere in block digits, of any size the program can draw. */
  hasDigits(text: string): boolean;
};

type Terminal = InstanceType<typeof xterm.Terminal>;

/** Reads the terminal as it is now. */
export function readScreen(terminal: Terminal): Screen {
  const buffer = terminal.buffer.active;
  const rows = Array.from({ length: terminal.rows }, (_, row) => buffer.getLine(buffer.viewportY + row));
  const lines = rows.map((line) => line?.translateToString(true) ?? '');
  const drawn = rows.map((line) =>
    Array.from({ length: terminal.cols }, (_, column) => drawnCell(line?.getCell(column)))
      .join('')
      .trimEnd(),
  );
  return {
    lines,
    text: lines.join('\n'),
    drawn,
    isAlternate: buffer.type === 'alternate',
    hasDigits: (text) => sizes.some((size) => standsIn(drawn, digitLines(text, size))),
  };
}

type BufferCell = { getChars(): string; isInverse(): number; getWidth(): number };

function drawnCell(cell: BufferCell | undefined): string {
  if (!cell) return ' ';
  const chars = cell.getChars();
  if (chars === '█' || (cell.isInverse() !== 0 && (chars === ' ' || chars === ''))) return '#';
  return chars === '' && cell.getWidth() > 0 ? ' ' : chars;
}

const sizes: readonly DigitSize[] = (['3x5', '5x7'] as const).flatMap((font) =>
  [1, 2, 3, 4].flatMap((pixelRows) =>
    Array.from(
      { length: pixelRows + 1 },
      (_, more): DigitSize => ({ kind: 'block', font, pixelRows, pixelColumns: pixelRows + more }),
    ),
  ),
);

function standsIn(drawn: readonly string[], picture: readonly string[]): boolean {
  const width = picture[0]?.length ?? 0;
  return drawn.some((_, row) => {
    const rows = picture.map((_, down) => (drawn[row + down] ?? '').padEnd(width));
    const first = picture[0] ?? '';
    for (
      let column = rows[0]?.indexOf(first.trimEnd()) ?? -1;
      column >= 0;
      column = rows[0]?.indexOf(first.trimEnd(), column + 1) ?? -1
    ) {
      const isHere = picture.every(
        (line, down) => (rows[down] ?? '').padEnd(column + width).slice(column, column + width) === line,
      );
      if (isHere) return true;
    }
    return false;
  });
}
