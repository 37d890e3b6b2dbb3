/** The one Ink component: lines that are laid out already, drawn as they are. */
import { Box, Text } from 'ink';
import type { ReactNode } from 'react';
import { useSyncExternalStore } from 'react';

/** What the frame draws from: whole lines with their attributes, replaced when anything changes. */
export type FrameSource = {
  readonly subscribe: (listener: () => void) => () => void;
  readonly read: () => readonly string[];
};

export function Frame({ source }: { readonly source: FrameSource }): ReactNode {
  const lines = useSyncExternalStore(source.subscribe, source.read);
  return (
    <Box flexDirection="column">
      {lines.map((line, row) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a row of the screen has no identity but its place
        <Text key={row} wrap="truncate">
          {line === '' ? ' ' : line}
        </Text>
      ))}
    </Box>
  );
}
