/** Block digits on the screen. Drawn with reversed blanks, since cheap console fonts lack half blocks and braille. */
import { Box, Text } from 'ink';
import type { ReactNode } from 'react';
import { type DigitSize, digitLines } from './digits.ts';

/** What a pixel is drawn with: blanks in reverse (default), a full block, or '#' where the terminal has neither. */
export type DigitInk = 'reverse' | 'block' | 'hash';

type Props = {
  readonly text: string;
  readonly size: DigitSize;
  readonly ink?: DigitInk;
  /** Ground and digits change places: the sign of a new count. */
  readonly isReversed?: boolean;
};

/** `text` at `size`; see `digitExtent` for the room it takes. */
export function BlockDigits({ text, size, ink = 'reverse', isReversed = false }: Props): ReactNode {
  return (
    <Box flexDirection="column" flexShrink={0}>
      {digitLines(text, size).map((line, row) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a row of a drawing has no identity but its place
        <Text key={row} wrap="truncate">
          {size.kind === 'line' ? textLine(line, isReversed) : paintedLine(line, ink, isReversed)}
        </Text>
      ))}
    </Box>
  );
}

const REVERSE_ON = '\u001b[7m';
const REVERSE_OFF = '\u001b[27m';

function textLine(line: string, isReversed: boolean): string {
  return isReversed ? `${REVERSE_ON}${line}${REVERSE_OFF}` : `\u001b[1m${line}\u001b[22m`;
}

/** Attributes are written by hand: Ink leaves reverse out together with colour, and NO_COLOR speaks of colour only. */
function paintedLine(line: string, ink: DigitInk, isReversed: boolean): string {
  if (ink === 'reverse') {
    return line
      .replace(isReversed ? / +/g : /#+/g, (run) => REVERSE_ON + ' '.repeat(run.length) + REVERSE_OFF)
      .replaceAll('#', ' ');
  }
  const drawn = ink === 'block' ? line.replaceAll('#', '█') : line;
  return isReversed ? `${REVERSE_ON}${drawn}${REVERSE_OFF}` : drawn;
}
