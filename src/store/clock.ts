import { uptime } from 'node:os';
import type { Instant } from '../batch/instant.ts';
import { readBootId } from './boot.ts';

// The clock. Keeps P5 at its source: the monotonic clock (which stands still while the computer sleeps) gives durations, the
// wall clock is a label, and comparing them with the boot clock (which runs on in sleep) shows a suspend or a clock that was
// set. The floors below never read it; they get instants.

/** The three clocks at one moment, in milliseconds. */
export interface ClockReading {
  readonly wall_ms: number;
  readonly mono_ms: number;
  readonly boot_ms: number;
}

/** What happened to the clocks between two readings; a zero means nothing. */
export interface ClockJump {
  /** How long the computer slept. */
  readonly slept_ms: number;
  /** By how much the wall clock was set, forward positive. */
  readonly set_ms: number;
}

export interface Clock {
  now(): Instant;
  read(): ClockReading;
}

/** Smaller differences are the clocks' own grain and gentle correction. */
const NOTICED_MS = 1000;

/** The clock of this computer. Reads the boot id and the zone once. */
export function makeClock(): Clock {
  const boot = readBootId();
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  return {
    now: () => ({ wall_ms: Date.now(), zone, mono_ms: monotonic(), boot }),
    read: () => ({ wall_ms: Date.now(), mono_ms: monotonic(), boot_ms: Math.round(uptime() * 1000) }),
  };
}

/**
 * What happened between two readings of one boot: a sleep shows as boot time that is not monotonic time, a clock step as wall
 * time that is not boot time. Differences under a second count as nothing.
 *
 * Example: wall +3700 s, boot +3600 s, mono +60 s answers `{ slept_ms: 3540000, set_ms: 100000 }`.
 */
export function clockJump(before: ClockReading, after: ClockReading): ClockJump {
  const boot = after.boot_ms - before.boot_ms;
  return {
    slept_ms: Math.max(0, noticed(boot - (after.mono_ms - before.mono_ms))),
    set_ms: noticed(after.wall_ms - before.wall_ms - boot),
  };
}

function monotonic(): number {
  return Number(process.hrtime.bigint() / 1_000_000n);
}

function noticed(ms: number): number {
  return Math.abs(ms) < NOTICED_MS ? 0 : ms;
}
