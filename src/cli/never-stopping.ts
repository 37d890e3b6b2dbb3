/**
 * The one place where a bug is caught and said instead of thrown: words about the end of a batch. They are worked out on
 * every redraw from much arithmetic, and a screen that cannot tell them can still count. Nothing that is kept, counted or
 * decided may go through here.
 */

/** What `make` answers; where it throws, `instead` with the reason. */
export function wordsOr<Words>(make: () => Words, instead: (why: string) => Words): Words {
  try {
    return make();
  } catch (error) {
    return instead(error instanceof Error ? error.message : 'unknown');
  }
}
