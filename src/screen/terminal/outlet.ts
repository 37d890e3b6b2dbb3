/**
 * The way out to the terminal, which never blocks (P10): what a frozen terminal does not take stays here as a tail
 * and is tried again later. A writer asks `isIdle()` first and drops its frame when the answer is no, so that the
 * tail stays as short as one frame, however long the terminal stands still.
 */
import { constants, openSync, writeSync } from 'node:fs';
import { isatty } from 'node:tty';

/** Writes some of `bytes` at once and says how many; 0 when the terminal takes none now. Throws when it is gone. */
export type WriteSome = (bytes: Uint8Array) => number;

export type Outlet = {
  /** Sends `text`, at once as far as the terminal takes it. Nothing after the terminal is lost. */
  write(text: string): void;
  /** True when everything sent so far has left. */
  isIdle(): boolean;
  /** Waits for the tail to leave, blocking for at most `ms`: only for the last bytes before the program stops. */
  drain(ms: number): void;
};

const FIRST_RETRY_MS = 10;
const LAST_RETRY_MS = 250;

/**
 * An outlet over `writeSome`. `onIdle` is called each time that a tail has left; `onLost` once, when writing fails for
 * good (the window is closed).
 */
export function makeOutlet(writeSome: WriteSome, onIdle: () => void, onLost: () => void): Outlet {
  let tail: Uint8Array = new Uint8Array();
  let isLost = false;
  let retryMs = FIRST_RETRY_MS;
  let timer: NodeJS.Timeout | undefined;

  const push = (): void => {
    try {
      const count = writeSome(tail);
      if (count > 0) retryMs = FIRST_RETRY_MS;
      tail = tail.subarray(count);
    } catch {
      // Whatever the reason, a terminal that refuses bytes for good cannot be told anything.
      isLost = true;
      tail = new Uint8Array();
      onLost();
    }
  };
  const retry = (): void => {
    timer = undefined;
    push();
    if (tail.length > 0) wait();
    else if (!isLost) onIdle();
  };
  const wait = (): void => {
    timer ??= setTimeout(retry, retryMs);
    retryMs = Math.min(LAST_RETRY_MS, retryMs * 2);
  };

  return {
    write: (text) => {
      if (isLost || text === '') return;
      tail = tail.length > 0 ? Buffer.concat([tail, Buffer.from(text)]) : Buffer.from(text);
      if (timer) return;
      push();
      if (tail.length > 0) wait();
    },
    isIdle: () => tail.length === 0,
    drain: (ms) => {
      const until = performance.now() + ms;
      while (tail.length > 0 && !isLost) {
        push();
        if (tail.length === 0 || performance.now() >= until) break;
        Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, FIRST_RETRY_MS);
      }
    },
  };
}

/**
 * A `WriteSome` for the terminal behind standard output, opened anew and non-blocking: first the very terminal of
 * descriptor 1 (Linux), then the controlling terminal. Where neither can be opened the descriptor itself is used,
 * which may block while the terminal is frozen; `canBlock` says so.
 */
export function openTerminal(descriptor = 1): { readonly writeSome: WriteSome; readonly canBlock: boolean } {
  for (const path of [`/proc/self/fd/${descriptor}`, '/dev/tty']) {
    const opened = openNonBlocking(path);
    if (opened !== undefined) return { writeSome: (bytes) => writeNow(opened, bytes), canBlock: false };
  }
  return { writeSome: (bytes) => writeNow(descriptor, bytes), canBlock: true };
}

function openNonBlocking(path: string): number | undefined {
  try {
    const opened = openSync(path, constants.O_WRONLY | constants.O_NONBLOCK | constants.O_NOCTTY);
    return isatty(opened) ? opened : undefined;
  } catch {
    // No such path on this system, or the terminal belongs to another user: the next way is tried.
    return undefined;
  }
}

function writeNow(descriptor: number, bytes: Uint8Array): number {
  try {
    return writeSync(descriptor, bytes);
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : undefined;
    if (code === 'EAGAIN' || code === 'EINTR') return 0;
    throw error;
  }
}
