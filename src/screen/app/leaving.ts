/**
 * Every way out of the program ends the sitting once and says where the batch stands.
 *
 * P10: by the person, a signal, a closed window or a bug, the process ends with its exit code; only the first of several
 * endings counts, and none cuts a last write short.
 */
import type { Fault } from '../../store/fault.ts';
import { lastWordsOf } from './last-words.ts';
import type { Stage } from './state.ts';

export type Leaving = {
  /** Leaves at the person's word with an exit code; 75 where the batch was another's and could only be looked at. */
  readonly leave: (code: number) => void;
  /** Ends because of a signal (128 + n), a closed window (129) or a bug (70). */
  readonly exit: (code: number) => never;
  readonly isUnderWay: () => boolean;
  readonly lastWords: () => string;
};

/** Exit code when the batch was another's and could only be looked at. */
const heldByAnother = 75;
const bug = 70;
const hangUp = 129;
/** How long a last write may take when the program is told to end. */
const lastWrite_ms = 2000;

/** The ways out of whatever `stage` stands at the time. */
export function makeLeaving(stage: () => Stage): Leaving {
  let leaving: Promise<void> | null = null;
  let unsaved: Fault | undefined;
  let isToldToEnd = false;

  const leaveSitting = async (why: 'left' | 'signal' | 'hang-up'): Promise<void> => {
    const now = stage();
    if (now.kind === 'batch') unsaved = await now.opened.leave(why);
  };
  return {
    leave: (code) => {
      if (leaving !== null) return;
      leaving = leaveSitting('left');
      const { kind } = stage();
      const asked = code === 0 && (kind === 'look' || kind === 'ask to take') ? heldByAnother : code;
      void leaving.finally(() => process.exit(asked === 0 && unsaved !== undefined ? unsaved.code : asked));
    },
    exit: ((code: number) => {
      // A bug may have hurt the sitting: then nothing more is written. Every other way out ends it with its own event.
      if (code === bug) process.exit(code);
      // A closed window says so several times over; only the first may end the sitting, none may cut that short.
      if (isToldToEnd) return;
      isToldToEnd = true;
      setTimeout(() => process.exit(code), lastWrite_ms);
      leaving ??= leaveSitting(code === hangUp ? 'hang-up' : 'signal');
      void leaving.finally(() => process.exit(code));
    }) as (code: number) => never,
    isUnderWay: () => leaving !== null,
    lastWords: () => {
      const now = stage();
      if (now.kind !== 'batch') return '';
      return lastWordsOf(now.opened.sitting.read().state, now.opened.id, unsaved?.what ?? null);
    },
  };
}
