/**
 * Reads key presses from the terminal's byte stream and hands them on, one by one and in order. It owns the waiting
 * that decoder.ts leaves out, and nothing else. A burst of typing that no hand or gauge makes, as a terminal
 * without bracketed paste sends a pasted page, is reported as one paste.
 */
import { type DecoderState, decode, flush, startOfKeys, waitMs } from './decoder.ts';
import { type Key, typedText } from './key.ts';

type ByteSource = {
  on(event: 'data', listener: (chunk: Buffer) => void): unknown;
  off(event: 'data', listener: (chunk: Buffer) => void): unknown;
};

/**
 * Calls `onKey` for every key that `source` brings, until the returned function is called.
 * Example: `const stop = readKeys(process.stdin, (key) => …)`.
 */
export function readKeys(source: ByteSource, onKey: (key: Key) => void): () => void {
  let state: DecoderState = startOfKeys;
  let timer: NodeJS.Timeout | undefined;
  let pasteEndsAt = Number.NEGATIVE_INFINITY;

  const take = (decoded: { state: DecoderState; keys: readonly Key[] }): void => {
    state = decoded.state;
    const keys = withoutUnmarkedPaste(decoded.keys);
    const isBurst = keys !== decoded.keys;
    // A page comes in several reads; what follows at once is its tail, not a press.
    const isTail = performance.now() < pasteEndsAt;
    if (isBurst || isTail) pasteEndsAt = performance.now() + PASTE_TAIL_MS;
    if (!isTail) for (const key of keys) onKey(key);
  };
  const onData = (chunk: Buffer): void => {
    clearTimeout(timer);
    take(decode(state, chunk));
    const wait = waitMs(state);
    if (wait !== undefined) timer = setTimeout(() => take(flush(state)), wait);
  };

  source.on('data', onData);
  return () => {
    clearTimeout(timer);
    source.off('data', onData);
  };
}

/** A measuring gauge that types sends about a dozen characters; a page of text in one read is longer. */
const LONGEST_TYPED_AT_ONCE = 24;
/** A held key repeats one character, however long the program was busy. */
const FEWEST_DIFFERENT_IN_PASTE = 5;
const PASTE_TAIL_MS = 100;

/**
 * The keys of one read, with a burst of text replaced by a single 'paste': more than 24 characters at once, at
 * least 5 of them different. Anything less passes unchanged.
 */
function withoutUnmarkedPaste(keys: readonly Key[]): readonly Key[] {
  const texts = keys.map(typedText).filter((text) => text !== undefined);
  const isPaste = texts.length > LONGEST_TYPED_AT_ONCE && new Set(texts).size >= FEWEST_DIFFERENT_IN_PASTE;
  return isPaste ? [{ name: 'paste' }] : keys;
}
