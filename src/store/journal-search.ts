import { join } from 'node:path';
import type { Disk } from './disk.ts';
import { type Fault, orFault } from './fault.ts';
import { JOURNAL_NAME } from './journal-file.ts';
import { journalLimits } from './journal-limits.ts';
import { LINE_CAP } from './journal-line.ts';

// Whether words stand anywhere in a journal, without reading it line by line. Part of P8: what needs no fold costs none.

const CHUNK = 1024 * 1024;
/** No good line that is read ends behind this. */
const FARTHEST = journalLimits.bytes + LINE_CAP;

/**
 * Whether any of `words` stands in the bytes of the journal in `folder`, good or not, as far as journals are read. Where it
 * answers no, no line holds them; where it answers yes, one may.
 */
export async function holdsAny(disk: Disk, folder: string, words: readonly string[]): Promise<boolean | Fault> {
  const path = join(folder, JOURNAL_NAME);
  return orFault({ doing: 'the journal could not be read', where: path, code: 74 }, async () => {
    const file = await disk.open(path, 'read');
    try {
      const { kind, size } = await file.facts();
      // No pipe is waited for: whoever looks at the journal says what it is.
      if (kind !== 'file') return true;
      const overlap = Math.max(...words.map((word) => Buffer.byteLength(word))) - 1;
      const bytes = Buffer.allocUnsafe(Math.min(CHUNK, size + 1) + overlap);
      for (let at = 0; at < FARTHEST; ) {
        const got = await file.read(bytes, at);
        const found = words.some((word) => bytes.subarray(0, got).includes(word));
        if (found || got === 0) return found;
        at += Math.max(1, got - overlap);
      }
      return false;
    } finally {
      await file.close();
    }
  });
}
