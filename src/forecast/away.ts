/**
 * Work that goes out of the house. Where the plan gives the days until it is back, the finish waits for it: what comes after
 * in its lane is begun when the pieces are back, and other work is done meanwhile. Where it gives none, that time is in no
 * finish, and whoever shows one says so. No bench work is done away.
 */
import { leftByCell } from '../batch/expected.ts';
import { cellAt } from '../batch/flow.ts';
import type { Batch } from '../batch/state.ts';
import { daysLater, finishTimes } from './calendar.ts';
import { spokenDate } from './rounding.ts';
import type { ShopHours } from './shop-hours.ts';

/** Pieces that have still to go out, or are out. */
export type AwayAhead = {
  readonly operation: number;
  readonly to: string;
  /** Calendar days as the plan gives them; null where it gives none. */
  readonly days: number | null;
  /** When the last of them went, where none has still to go; null before. */
  readonly since_ms: number | null;
};

/** The away work still ahead of a batch, by operation; lanes of one operation are taken together. */
export function awayAhead(batch: Batch): readonly AwayAhead[] {
  const ahead = new Map<number, AwayAhead>();
  stretchesOf(batch).forEach(({ away }, at) => {
    const { operation } = batch.lanes.places[at] ?? {};
    if (away === null || operation === undefined) return;
    const known = ahead.get(operation.number);
    const isOut = away.since_ms !== null && (known === undefined || known.since_ms !== null);
    ahead.set(operation.number, {
      operation: operation.number,
      to: operation.away?.to ?? 'away',
      days: operation.away?.days ?? null,
      since_ms: isOut ? Math.max(away.since_ms ?? 0, known?.since_ms ?? 0) : null,
    });
  });
  return [...ahead.values()];
}

/**
 * How long pieces are away and when they are back, in words, for whoever sends them or waits for them; '' where the plan
 * gives no days. `sent_ms` is when the last of them went, or now while they are still here.
 *
 * Example: sent on Saturday 28 November for 5 days: `5 days, back about Thu 3 Dec`.
 */
export function backWords(zone: string, days: number | undefined, sent_ms: number, now_ms: number): string {
  if (days === undefined) return '';
  const back_ms = daysLater(zone, sent_ms, days);
  return `${days} ${days === 1 ? 'day' : 'days'}, back about ${spokenDate(zone, now_ms, back_ms)}`;
}

/** One cell of the route: what it waits for, and how long its pieces are away; null for bench work or a cell that is through. */
type Stretch = {
  readonly after: number | null;
  readonly away: { readonly days: number; readonly since_ms: number | null } | null;
};

function stretchesOf(batch: Batch): readonly Stretch[] {
  const left = leftByCell(batch);
  return batch.lanes.places.map(({ operation, inlet }, at) => {
    const { out, outSince } = cellAt(batch, at);
    const pieces = left[at] ?? 0;
    const after = inlet.kind === 'cell' ? inlet.at : inlet.kind === 'pool' ? batch.lanes.poolCell : null;
    if (operation.kind !== 'away' || pieces <= 0) return { after, away: null };
    const isOut = out > 0 && out >= pieces;
    return { after, away: { days: operation.away?.days ?? 0, since_ms: isOut ? (outSince?.wall_ms ?? null) : null } };
  });
}

/**
 * The instants at which the batch ends when its bench work takes `work_s` seconds in all, spread over its cells as
 * `means_s`; null where ten years of shop hours do not hold it. Without days away it is the calendar's plain finish.
 *
 * Example: two hours on Friday from 19:00, then 5 days at the plater, then half an hour, open 18:30 to 21:30 every day:
 * out on Friday 21:00, back on Wednesday 21:00, finished on Wednesday 21:30.
 */
export function finishesOf(
  batch: Batch,
  means_s: readonly number[],
  asked: { readonly hours: ShopHours; readonly now_ms: number; readonly work_s: readonly number[] },
): readonly (number | null)[] {
  const { hours, now_ms, work_s } = asked;
  const stretches = stretchesOf(batch);
  if (!stretches.some(({ away }) => away !== null && away.days > 0)) return finishTimes(hours, now_ms, work_s);
  const total = means_s.reduce((sum, mean) => sum + mean, 0);
  const ends = work_s.map((seconds) =>
    endOfRoute(
      stretches,
      means_s.map((mean) => (total > 0 ? (seconds * mean) / total : 0)),
      { hours, now_ms },
    ),
  );
  // Other work put in between may end a longer batch sooner by a little: a band keeps its order.
  let latest = now_ms;
  return ends.map((end) => {
    if (end === null) return null;
    latest = Math.max(latest, end);
    return latest;
  });
}

/** Plays the route: one pair of hands, which takes the first cell whose pieces are there. */
function endOfRoute(
  stretches: readonly Stretch[],
  work_s: readonly number[],
  { hours, now_ms }: { readonly hours: ShopHours; readonly now_ms: number },
): number | null {
  const done: (number | undefined)[] = stretches.map(() => undefined);
  let hands = now_ms;
  for (;;) {
    settleAway(stretches, work_s, done, { hours, now_ms });
    let next: { readonly at: number; readonly ready: number } | null = null;
    for (const [at, { after }] of stretches.entries()) {
      const ready = after === null ? now_ms : done[after];
      if (done[at] !== undefined || ready === undefined) continue;
      if (next === null || Math.max(ready, hands) < Math.max(next.ready, hands)) next = { at, ready };
    }
    if (next === null) break;
    const [end] = finishTimes(hours, Math.max(hands, next.ready), [work_s[next.at] ?? 0]);
    if (end == null) return null;
    hands = end;
    done[next.at] = end;
  }
  return Math.max(hands, ...done.map((end) => end ?? now_ms));
}

/** Marks what needs no hands as done: cells without work, and pieces that come back. A cell comes after what it waits for. */
function settleAway(
  stretches: readonly Stretch[],
  work_s: readonly number[],
  done: (number | undefined)[],
  { hours, now_ms }: { readonly hours: ShopHours; readonly now_ms: number },
): void {
  for (const [at, { after, away }] of stretches.entries()) {
    const ready = after === null ? now_ms : done[after];
    if (done[at] !== undefined || ready === undefined) continue;
    if (away !== null) done[at] = Math.max(ready, daysLater(hours.zone, away.since_ms ?? ready, away.days));
    else if ((work_s[at] ?? 0) <= 0) done[at] = ready;
  }
}
