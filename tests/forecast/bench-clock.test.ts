import { describe, expect, it } from 'vitest';
import { advanceClock, benchSeconds, pauseClock, startBenchClock } from '../../src/forecast/bench-clock.ts';
import { instantOf } from '../../src/forecast/calendar.ts';
import type { ShopHours } from '../../src/forecast/shop-hours.ts';

const hours: ShopHours = {
  zone: 'UTC',
  week: {
    mon: [
      ['08:00', '12:00'],
      ['13:00', '17:00'],
    ],
    tue: [['08:00', '12:00']],
  },
};
const at = (text: string): number => instantOf('UTC', text);

describe('the bench clock', () => {
  it('stands still in a marked pause', () => {
    let clock = startBenchClock(at('2026-03-02T08:00'));
    clock = pauseClock(clock, at('2026-03-02T08:10'), hours, true);
    clock = pauseClock(clock, at('2026-03-02T09:00'), hours, false);
    expect(advanceClock(clock, at('2026-03-02T09:05'), hours).bench_s).toBe(15 * 60);
  });

  it('leaves a night out on which nobody pressed the pause key', () => {
    expect(benchSeconds(hours, at('2026-03-02T16:50'), at('2026-03-03T08:05'))).toBe(15 * 60);
  });

  it('leaves a lunch in: nobody knows whether it was worked', () => {
    expect(benchSeconds(hours, at('2026-03-02T11:50'), at('2026-03-02T13:10'))).toBe(80 * 60);
  });

  it('counts short gaps as they are, in closed hours too', () => {
    expect(benchSeconds(hours, at('2026-03-02T19:00'), at('2026-03-02T19:15'))).toBe(15 * 60);
  });

  it('counts work after closing that goes on without a night between', () => {
    expect(benchSeconds(hours, at('2026-03-02T16:30'), at('2026-03-02T17:30'))).toBe(3600);
  });

  it('counts nothing when the wall clock was set back', () => {
    const clock = advanceClock(startBenchClock(at('2026-03-02T09:00')), at('2026-03-02T08:00'), hours);
    expect(clock.bench_s).toBe(0);
    expect(advanceClock(clock, at('2026-03-02T08:01'), hours).bench_s).toBe(60);
  });
});
