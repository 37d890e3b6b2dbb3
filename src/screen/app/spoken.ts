/**
 * The screen as plain lines said one after the other, for a dumb terminal, a screen reader or a line printer: what has
 * changed since the last time, and nothing twice. Times that tick are left out; a question or a card is said whole.
 */

import { plainLine } from '../../report/neutral-text.ts';
import type { Panel } from '../panel/panel.ts';

/** What was said last, by part. */
export type Spoken = {
  readonly headline: string;
  readonly readings: string;
  readonly counts: string;
  readonly words: readonly string[];
  readonly message: string;
};

/** A stopwatch: never said, or nothing else would be. */
const ticking = /^\d+:\d\d(:\d\d)?$/;

export const nothingSpoken: Spoken = { headline: '', readings: '', counts: '', words: [], message: '' };

/**
 * The lines to say now and what has been said after them.
 *
 * Example: after a count of the third piece only `Op 10 Saw blanks: 3 of 40 good, 39 left` and the new target, if it changed.
 */
export function speak(before: Spoken, panel: Panel): { readonly lines: readonly string[]; readonly spoken: Spoken } {
  const { banner } = panel;
  const place = [banner.place[0] ?? '', banner.title].filter((part) => part !== '').join(' ');
  const spoken: Spoken = {
    headline: panel.headline?.text ?? '',
    readings: panel.readings
      .filter(({ text }) => !ticking.test(text))
      .map(({ label, text, below }) => [label, text, below ?? ''].filter(isSaid).join(' '))
      .join(', '),
    counts: [place, banner.counts].filter(isSaid).join(': '),
    words: [...panel.facts, ...panel.cautions.map((caution) => `Caution: ${caution}`)],
    message: panel.message?.text ?? '',
  };
  const lines = [
    ...(spoken.counts === before.counts ? [] : [spoken.counts]),
    ...(spoken.headline === before.headline ? [] : [spoken.headline]),
    ...(spoken.readings === before.readings ? [] : [spoken.readings]),
    ...spoken.words.filter((words) => !before.words.includes(words)),
    ...(spoken.message === before.message ? [] : [spoken.message]),
  ];
  return { lines: lines.filter(isSaid).map(plainLine), spoken };
}

function isSaid(text: string): boolean {
  return text !== '';
}
