/** The outlook of a batch of 10,000 pieces: under two milliseconds a key; a take-back goes back to a kept stage. */
import { bench, describe } from 'vitest';
import { foldJournal, foldLine } from '../../src/batch/evolve.ts';
import { rehearse, seededChance } from '../../src/batch/rehearsal.ts';
import type { BatchState } from '../../src/batch/state.ts';
import { type Followed, followBatch } from '../../src/forecast/batch-forecast.ts';
import { groundLines, outlookAt, paceLines } from '../../src/forecast/outlook.ts';
import { instantAt, openingOf } from '../batch/playing.ts';
import { twoVariantPlan } from '../batch/sample-plan.ts';

const { lines } = rehearse(
  openingOf(twoVariantPlan({ threaded: 6000, clearance: 4000 })),
  instantAt(0),
  seededChance(1),
);
const half = Math.floor(lines.length / 2);
const middle = foldJournal(lines.slice(0, half));
const keys = lines.slice(half, half + 1000);
const once = { iterations: 3, time: 0, warmupIterations: 1, warmupTime: 0 };

/** Follows a thousand keys from the middle of the batch; with the page behind the key when `grounds`. */
function followKeys(grounds: boolean): void {
  let state: BatchState = middle;
  let followed: Followed | null = null;
  for (const line of keys) {
    state = foldLine(state, line);
    if (state.kind === 'none') continue;
    followed = followBatch(followed, state);
    const outlook = outlookAt(followed, state, line.at);
    paceLines(outlook, line.at);
    if (grounds) groundLines(followed, outlook, line.at);
  }
}

describe('a batch of 10,000 pieces', () => {
  bench('1,000 keys with the outlook', () => followKeys(false), once);
  bench('1,000 keys with the outlook and its grounds', () => followKeys(true), once);
  bench('the whole forecast folded anew', () => void (middle.kind === 'none' || followBatch(null, middle)), once);
});
