import { readlinkSync } from 'node:fs';
import { uptime } from 'node:os';
import type { Instant } from '../batch/instant.ts';
import { readBootId } from './boot.ts';
import { isDiskError } from './fault.ts';

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
  const zone = findZone(process.env['TZ'], Intl.DateTimeFormat().resolvedOptions().timeZone, localTimeLink());
  return {
    now: () => ({ wall_ms: Date.now(), zone, mono_ms: monotonic(), boot }),
    read: () => ({ wall_ms: Date.now(), mono_ms: monotonic(), boot_ms: Math.round(uptime() * 1000) }),
  };
}

/**
 * The time zone by its IANA name: what the system says, else what TZ or the link of the local time leads to, else UTC. A TZ
 * such as `:/etc/localtime`, an empty one or a misspelt one leaves the system without an answer.
 *
 * Example: `findZone(':/etc/localtime', undefined, '/usr/share/zoneinfo/Europe/Berlin')` is `Europe/Berlin`.
 */
export function findZone(tz: string | undefined, told: string | undefined, link: string | undefined): string {
  const candidates = [told, tz?.replace(/^:/, ''), link].map((text) => text?.replace(/^.*\/zoneinfo\//, ''));
  return candidates.find((zone) => zone !== undefined && isZone(zone)) ?? 'UTC';
}

function isZone(zone: string): boolean {
  if (zone === '' || zone === 'Etc/Unknown') return false;
  try {
    new Intl.DateTimeFormat('en', { timeZone: zone });
    return true;
  } catch (error) {
    if (error instanceof RangeError) return false;
    throw error;
  }
}

function localTimeLink(): string | undefined {
  try {
    return readlinkSync('/etc/localtime');
  } catch (error) {
    if (isDiskError(error)) return undefined;
    throw error;
  }
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
