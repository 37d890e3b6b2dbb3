/** Keeps the screen from being told of changes more often than it can use them. */

/**
 * A teller that calls `tell` at once (leading edge), then at most once each `intervalMs`; a change that came
 * meanwhile is told when the interval ends, so the last one is never lost. `intervalMs` 33 is about 30 a second.
 * Example: `const changed = makePacer(() => setState(read()), 33)`; call `changed()` on every event.
 */
export function makePacer(tell: () => void, intervalMs: number): () => void {
  let isResting = false;
  let isDue = false;

  const rest = (): void => {
    isResting = true;
    setTimeout(() => {
      isResting = false;
      if (!isDue) return;
      isDue = false;
      rest();
      tell();
    }, intervalMs);
  };
  return () => {
    if (isResting) {
      isDue = true;
      return;
    }
    rest();
    tell();
  };
}
