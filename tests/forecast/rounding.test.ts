import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { instantOf } from '../../src/forecast/calendar.ts';
import { roundingStep, spokenClock, spokenDuration, spokenFinish } from '../../src/forecast/rounding.ts';
import { alwaysOpen, type ShopHours } from '../../src/forecast/shop-hours.ts';

const evenings: ShopHours = { zone: 'Europe/Berlin', week: { mon: [['18:30', '21:30']], thu: [['18:30', '21:30']] } };
const at = (text: string): number => instantOf('Europe/Berlin', text);

function spoken(hours: ShopHours, now: string, p10: string, p50: string, p90: string): string {
  const { finish, band } = spokenFinish(hours, at(now), { p10_ms: at(p10), p50_ms: at(p50), p90_ms: at(p90) });
  return `${finish}, ${band}`;
}

describe('a rounded finish', () => {
  it('is as fine as its band bears', () => {
    expect(roundingStep(65 * 60)).toBe(300);
    expect(roundingStep(7)).toBe(1);
    expect(roundingStep(10 * 60)).toBe(60);
    expect(roundingStep(3 * 86_400)).toBe(14_400);
    expect(
      spoken(
        alwaysOpen('Europe/Berlin'),
        '2026-03-02T19:00',
        '2026-03-02T20:41',
        '2026-03-02T21:07',
        '2026-03-02T21:43',
      ),
    ).toBe('21:05, 20:40 to 21:45');
  });

  it('names the day where it is another one, and the date where it is far off', () => {
    expect(spoken(evenings, '2026-03-02T19:00', '2026-03-02T21:14', '2026-03-05T18:41', '2026-03-05T19:58')).toContain(
      'Thu',
    );
    const far = spokenClock('Europe/Berlin', at('2026-03-02T19:00'), at('2026-03-12T20:10'));
    expect(far).toBe('Thu 12 Mar 20:10');
    expect(spokenClock('Europe/Berlin', at('2026-03-02T19:00'), at('2027-03-12T20:10'))).toBe('Fri 12 Mar 2027 20:10');
  });

  it('stays inside the opening that it falls in', () => {
    // Nearly nine open hours are spoken to the hour; 18:00 would be before the opening, and now is later still.
    expect(spoken(evenings, '2026-03-02T18:35', '2026-03-02T18:40', '2026-03-05T18:31', '2026-03-09T21:30')).toBe(
      'Thu 19:00, 18:35 to Mon 9 Mar 21:30',
    );
  });

  it('is never in the past', () => {
    expect(spoken(evenings, '2026-03-02T19:04', '2026-03-02T19:05', '2026-03-02T19:40', '2026-03-02T21:00')).toBe(
      '19:40, 19:04 to 21:00',
    );
  });

  it('speaks the end of a day as 24:00', () => {
    expect(spokenClock('UTC', instantOf('UTC', '2026-03-02T19:00'), instantOf('UTC', '2026-03-03T00:00'))).toBe(
      '24:00',
    );
  });

  it('keeps the finish inside its band', () => {
    const property = fc.property(fc.nat(400_000), fc.nat(200_000), fc.nat(200_000), (a, b, c) => {
      const now = at('2026-03-02T18:30');
      const hours = alwaysOpen('Europe/Berlin');
      const [p10_ms, p50_ms, p90_ms] = [now + a * 1000, now + (a + b) * 1000, now + (a + b + c) * 1000];
      const said = spokenFinish(hours, now, { p10_ms, p50_ms, p90_ms });
      expect(`${said.finish} ${said.band}`).toMatch(/^[\w: ]+$/);
      expect(said.band).toContain(' to ');
    });
    fc.assert(property, { numRuns: 200, seed: 9 });
  });
});

describe('a spoken duration', () => {
  it.each([
    [5100, 300, '1 h 25 min'],
    [2390, 300, '40 min'],
    [10_800, 900, '3 h'],
    [47, 5, '45 s'],
    [100, 5, '1 min 40 s'],
    [119, 5, '2 min'],
    [20, 60, 'under 1 min'],
    [0, 60, '0 min'],
  ])('%d s to %d s is %s', (seconds, step_s, words) => {
    expect(spokenDuration(seconds, step_s)).toBe(words);
  });
});
