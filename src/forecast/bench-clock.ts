/**
 * The bench clock: wall time with the marked pauses taken out, and the closed hours of a night on which nobody pressed
 * the pause key. Unmarked interruptions stay in: they will eat shop time later too, and the forecast counts on them.
 */
import { closedStretches } from './calendar.ts';
import type { ShopHours } from './shop-hours.ts';

export type BenchClock = {
  /** Bench seconds so far. */
  readonly bench_s: number;
  /** Instant up to which they are counted. */
  readonly at_ms: number;
  readonly paused: boolean;
};

/** The clock at the start of a batch. */
export function startBenchClock(at_ms: number): BenchClock {
  return { bench_s: 0, at_ms, paused: false };
}

/**
 * The clock moved on to `at_ms`. A wall clock that was set back counts nothing and goes on from the new time.
 */
export function advanceClock(clock: BenchClock, at_ms: number, hours: ShopHours): BenchClock {
  if (clock.paused || at_ms <= clock.at_ms) return { ...clock, at_ms };
  return { ...clock, at_ms, bench_s: clock.bench_s + benchSeconds(hours, clock.at_ms, at_ms) };
}

/** The clock stopped (or set going again) at `at_ms`. */
export function pauseClock(clock: BenchClock, at_ms: number, hours: ShopHours, paused: boolean): BenchClock {
  return { ...advanceClock(clock, at_ms, hours), paused };
}

const shortGap_ms = 20 * 60_000;
const longClosed_ms = 3 * 3_600_000;

/**
 * Bench seconds of a gap without a marked pause. A closed stretch of more than 3 h that ends inside a gap of more than
 * 20 min was not worked; shorter ones (lunch) are left alone, for nobody knows whether they were.
 */
export function benchSeconds(hours: ShopHours, from_ms: number, to_ms: number): number {
  const gap_ms = to_ms - from_ms;
  if (gap_ms <= 0) return 0;
  if (gap_ms <= shortGap_ms) return gap_ms / 1000;
  let closed_ms = 0;
  for (const closed of closedStretches(hours, from_ms, to_ms)) {
    const inside = Math.min(closed.to_ms, to_ms) - Math.max(closed.from_ms, from_ms);
    if (inside > longClosed_ms) closed_ms += inside;
  }
  return (gap_ms - closed_ms) / 1000;
}
