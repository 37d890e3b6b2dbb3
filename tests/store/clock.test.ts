import { describe, expect, it } from 'vitest';
import { durationBetween } from '../../src/batch/instant.ts';
import { isOtherBoot, processStart, readBootId } from '../../src/store/boot.ts';
import { clockJump, findZone, makeClock } from '../../src/store/clock.ts';

const YEAR_MS = 31_557_600_000;
const at = (wall_ms: number, mono_ms: number, boot = 'a') => ({ wall_ms, mono_ms, boot, zone: 'Europe/Berlin' });

describe('a duration', () => {
  it('[P5] within a boot is monotonic, whatever the wall clock did', () => {
    expect(durationBetween(at(YEAR_MS, 5000), at(0, 65_000))).toEqual({ ms: 60_000, by: 'monotonic', doubtful: false });
    expect(durationBetween(at(0, 5000), at(YEAR_MS, 65_000))).toEqual({ ms: 60_000, by: 'monotonic', doubtful: false });
  });

  it('[P5] across boots is wall time and marked; monotonic values are not used', () => {
    expect(durationBetween(at(1000, 900_000), at(4000, 10, 'b'))).toEqual({ ms: 3000, by: 'wall', doubtful: false });
  });

  it('[P5] is never negative: a clock that ran back gives zero and doubt', () => {
    expect(durationBetween(at(YEAR_MS, 0), at(0, 10, 'b'))).toEqual({ ms: 0, by: 'wall', doubtful: true });
    expect(durationBetween(at(0, 10), at(0, 5))).toEqual({ ms: 0, by: 'monotonic', doubtful: true });
  });
});

describe('the clock', () => {
  const before = { wall_ms: 0, mono_ms: 0, boot_ms: 0 };

  it('[P5] a sleep shows as boot time that is not monotonic time, a clock step as wall time that is not boot time', () => {
    const after = { wall_ms: 3_700_000, boot_ms: 3_600_000, mono_ms: 60_000 };
    expect(clockJump(before, after)).toEqual({ slept_ms: 3_540_000, set_ms: 100_000 });
    expect(clockJump(before, { wall_ms: -YEAR_MS, boot_ms: 1000, mono_ms: 1000 })).toEqual({
      slept_ms: 0,
      set_ms: -YEAR_MS - 1000,
    });
  });

  it('[P5] the clocks’ own grain is no jump', () => {
    expect(clockJump(before, { wall_ms: 1010, boot_ms: 1000, mono_ms: 996 })).toEqual({ slept_ms: 0, set_ms: 0 });
  });

  it('two moments of this computer are of one boot and in order', () => {
    const clock = makeClock();
    const [first, second] = [clock.now(), clock.now()];
    expect(second.boot).toBe(first.boot);
    expect(durationBetween(first, second)).toMatchObject({ by: 'monotonic', doubtful: false });
    expect(Number.isInteger(first.mono_ms)).toBe(true);
    expect(clockJump(clock.read(), clock.read())).toEqual({ slept_ms: 0, set_ms: 0 });
  });
});

describe('the zone', () => {
  const link = '/usr/share/zoneinfo/Europe/Berlin';

  it.each([
    [undefined, 'America/Chicago', link, 'America/Chicago'],
    [':/etc/localtime', undefined, link, 'Europe/Berlin'],
    ['', 'Etc/Unknown', link, 'Europe/Berlin'],
    [':Asia/Tokyo', undefined, undefined, 'Asia/Tokyo'],
    ['Nowhere/At', undefined, undefined, 'UTC'],
    ['/usr/share/zoneinfo/Europe/Oslo', undefined, undefined, 'Europe/Oslo'],
  ])('[P5] with TZ %s, told %s and a link to %s is %s: one that calendars know, always', (tz, told, linked, zone) => {
    expect(findZone(tz, told, linked)).toBe(zone);
  });
});

describe('a boot and a process', () => {
  it('[P4] the boot id stays the same, and only certain ones tell boots apart', () => {
    expect(readBootId()).toBe(readBootId());
    expect(isOtherBoot('aaaa', 'bbbb')).toBe(true);
    expect(isOtherBoot('about-aaaa', 'about-bbbb')).toBe(false);
  });

  it('[P4] a process has a start, one that never was has none', () => {
    expect(processStart(process.pid)).toMatch(/./);
    expect(processStart(process.pid)).toBe(processStart(process.pid));
    expect(processStart(999_999_999)).toBeUndefined();
    expect(processStart(-1)).toBeUndefined();
  });
});
