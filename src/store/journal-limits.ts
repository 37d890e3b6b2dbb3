import type { Position } from './journal-line.ts';

// How long a journal may be. Part of P8: every journal, however it came about, is read within time and memory, so there is a
// longest one; and of P1: what the program writes it can read again, so nothing is ever written beyond it. A batch that comes
// near is said to be, then takes no more counts, and keeps room for being left, opened and finished.

/** Lines and bytes of good lines that are read of one journal. */
export interface JournalLimits {
  readonly lines: number;
  readonly bytes: number;
}

const MIB = 1024 * 1024;

/**
 * The longest journal. Lines, because each costs time to fold: a press is one, so this is 300 hours of a press every ten
 * seconds. Bytes, because a line may be of any size.
 */
export const journalLimits: JournalLimits = { lines: 120_000, bytes: 48 * MIB };

/** Room that no count takes: for opening, leaving and finishing, a thousand times over. */
const kept: JournalLimits = { lines: 4000, bytes: 8 * MIB };
/** From so much before the last count on, the screen says so. */
const near: JournalLimits = { lines: 5000, bytes: 4 * MIB };

/** How full a journal is: `nearly full` takes counts and is mentioned, `full` takes only what leads to the batch's end. */
export type Fill = 'room' | 'nearly full' | 'full';

/** How full the journal is that ends at `position`. Example: at line 116,000 it is `full`, at line 111,000 `nearly full`. */
export function fillAt({ seq, offset }: Position): Fill {
  const lines = journalLimits.lines - kept.lines - seq;
  const bytes = journalLimits.bytes - kept.bytes - offset;
  if (lines <= 0 || bytes <= 0) return 'full';
  return lines <= near.lines || bytes <= near.bytes ? 'nearly full' : 'room';
}

/** Why a journal that ends at `position` is too long to be read again, or nothing. */
export function beyondLimits({ seq, offset }: Position, limits: JournalLimits = journalLimits): string | undefined {
  if (seq > limits.lines) return `it has more than ${limits.lines} lines`;
  return offset > limits.bytes ? `it is longer than ${limits.bytes} bytes` : undefined;
}
