/**
 * What a batch may still take when its journal comes near the longest that can be read again (P8): first words of it on the
 * screen, then no more counts, only what leads to the end of the batch.
 */
import type { Command } from '../batch/commands.ts';
import type { Fill } from '../store/journal-limits.ts';

/** What a full journal still takes: opening, leaving, cards, taking back, what settles suspect pieces, and the end. */
const towardsEnd: ReadonlySet<Command['kind']> = new Set<Command['kind']>([
  'beginSitting',
  'endSitting',
  'passCard',
  'takeBack',
  'pause',
  'resume',
  'noteSuspend',
  'noteClockStep',
  'clearSuspects',
  'takeSkip',
  'finish',
  'giveUp',
]);

/** The way out of a full journal, as the screen says it. */
const wayOut = 'finish this batch as it is and open another for the pieces left';

/** Why a command is refused for want of room in the journal, or null. */
export function roomProblem(fill: Fill, command: Command): string | null {
  if (fill !== 'full' || towardsEnd.has(command.kind)) return null;
  return `not taken: the journal of this batch is full; ${wayOut}`;
}

/** What is to be said of the room in the journal, or null while there is enough. */
export function roomNote(fill: Fill): string | null {
  if (fill === 'room') return null;
  return fill === 'full'
    ? `THE JOURNAL IS FULL: ${wayOut}`
    : `the journal of this batch is nearly full; before long, ${wayOut}`;
}
