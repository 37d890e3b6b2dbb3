import * as z from 'zod';

// A moment as the program stores it. Keeps P5: a duration comes from the monotonic clock where it can, from wall time
// only across a boot and then says so, and is never negative. Reads no clock: the store makes instants.

/** The shape of an instant in a journal line. */
export const instantSchema = z.object({
  wall_ms: z.number().describe('Wall clock, milliseconds since 1970-01-01 UTC. A label: it may jump.'),
  zone: z.string().describe('Time zone in force, by its IANA name.'),
  mono_ms: z.number().describe('Monotonic clock, milliseconds; stands still while the computer sleeps.'),
  boot: z.string().describe('Which boot of which computer the monotonic value belongs to.'),
});

/** A moment: wall time as a label, monotonic time for durations, and the boot that makes the latter comparable. */
export type Instant = Readonly<z.infer<typeof instantSchema>>;

/** A duration and what it rests on. `doubtful` marks one that ran backwards and was set to zero. */
export interface InstantDuration {
  readonly ms: number;
  readonly by: 'monotonic' | 'wall';
  readonly doubtful: boolean;
}

/**
 * The time from `from` to `to` in whole milliseconds, never negative.
 *
 * Within one boot it is the monotonic difference, whatever the wall clock did. Across boots the monotonic values mean
 * nothing to each other, so it is the wall difference, marked `by: 'wall'`. A difference below zero (a wall clock that
 * was set back, a spoiled value) becomes zero and `doubtful`.
 *
 * Example: same boot, mono 5000 then 65000, wall set back a year between: `{ ms: 60000, by: 'monotonic', doubtful: false }`.
 */
export function durationBetween(from: Instant, to: Instant): InstantDuration {
  const by = from.boot === to.boot ? 'monotonic' : 'wall';
  const ms = by === 'monotonic' ? to.mono_ms - from.mono_ms : to.wall_ms - from.wall_ms;
  return ms < 0 ? { ms: 0, by, doubtful: true } : { ms, by, doubtful: false };
}
