/** Screws as plans name them: `M6`, `M6 close`, `M6 countersunk`, `M4 countersunk ISO 2009`, `M5 cap head`. */
import type { ClearanceFit } from '../../shop/clearance-holes.ts';
import { type HeadStandard, parseHeadStandard } from '../../shop/countersunk-heads.ts';
import { answer, type Result } from '../../shop/refusal.ts';
import { parseThread } from '../../shop/thread-names.ts';
import type { Thread } from '../../shop/threads.ts';

export interface Screw {
  readonly thread: Thread;
  readonly head: 'none' | 'countersunk' | 'cap head';
  /** Standard of a countersunk head; ISO 10642 when nothing is said. */
  readonly standard: HeadStandard;
  readonly fit: ClearanceFit | undefined;
}

const FITS: readonly ClearanceFit[] = ['fine', 'medium', 'coarse', 'close', 'normal', 'loose'];

/**
 * Reads a screw.
 *
 * Example: `M4 countersunk ISO 2009` is M4, countersunk, ISO 2009/7046.
 */
export function parseScrew(text: string): Result<Screw> {
  const match = /^(.*?)(?: (countersunk|cap head)(?: (.+))?)?$/iu.exec(text.trim());
  const [, before = '', head, standardText] = match ?? [];
  const fit = FITS.find((word) => before.toLowerCase().endsWith(` ${word}`));
  const name = fit === undefined ? before : before.slice(0, -fit.length - 1);
  const thread = parseThread(name);
  if (!thread.ok) return thread;
  const standard = standardText === undefined ? answer<HeadStandard>('ISO 10642') : parseHeadStandard(standardText);
  if (!standard.ok) return standard;
  const kind = head === undefined ? 'none' : (head.toLowerCase() as 'countersunk' | 'cap head');
  return answer({ thread: thread.value, head: kind, standard: standard.value, fit });
}
