import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { hostname, uptime } from 'node:os';
import { isDiskError } from './fault.ts';

// Which boot of which computer this is, and since when a process runs. Part of P4 (a lock of a dead process, a reused
// process number or another boot never blocks) and of P5 (monotonic values are never used across a boot).

const BOOT_LENGTH = 12;
/** How coarsely a boot time is taken where the system gives no boot id; a clock step then looks like another boot. */
const DERIVED_STEP_MS = 600_000;
const DERIVED_MARK = 'about-';

/** This boot's id: twelve characters, the same for every process until the computer starts again. */
export function readBootId(): string {
  const told = readText('/proc/sys/kernel/random/boot_id') ?? askSystem('sysctl', ['-n', 'kern.bootsessionuuid']);
  if (told !== undefined) return told.replaceAll('-', '').toLowerCase().slice(0, BOOT_LENGTH);
  const started = Math.round((Date.now() - uptime() * 1000) / DERIVED_STEP_MS);
  return DERIVED_MARK + createHash('sha256').update(`${hostname()} ${started}`).digest('hex').slice(0, BOOT_LENGTH);
}

/** Whether two boot ids are certainly of different boots: derived ones may differ within one. */
export function isOtherBoot(one: string, other: string): boolean {
  return one !== other && !one.startsWith(DERIVED_MARK) && !other.startsWith(DERIVED_MARK);
}

/**
 * When the process started, in the system's own words (ticks since boot, or a date); `undefined` when there is no such
 * process. Two processes that had the same number one after the other differ in it.
 */
export function processStart(pid: number): string | undefined {
  if (!Number.isInteger(pid) || pid <= 0) return undefined;
  const stat = readText(`/proc/${pid}/stat`);
  if (stat === undefined)
    return process.platform === 'linux' ? undefined : askSystem('ps', ['-o', 'lstart=', '-p', String(pid)]);
  const [state, ...rest] = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
  const isDead = state === 'Z' || state === 'X';
  return isDead ? undefined : rest[START_FIELD];
}

/** `starttime` is field 22 of /proc/PID/stat (proc_pid_stat(5)); the state, field 3, has been taken off before. */
const START_FIELD = 18;

function readText(path: string): string | undefined {
  try {
    return readFileSync(path, 'utf8').trim();
  } catch (error) {
    if (isDiskError(error)) return undefined;
    throw error;
  }
}

function askSystem(command: string, words: readonly string[]): string | undefined {
  try {
    return execFileSync(command, words, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] }).trim() || undefined;
  } catch (error) {
    if (isDiskError(error) || (error instanceof Error && 'status' in error)) return undefined;
    throw error;
  }
}
