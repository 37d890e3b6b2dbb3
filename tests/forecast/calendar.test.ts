import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  civilText,
  closingTime,
  finishTimes,
  instantOf,
  nextTimeOfDay,
  openSeconds,
  openStretches,
  shopClock,
} from '../../src/forecast/calendar.ts';
import { alwaysOpen, type ShopHours, shopHoursSchema } from '../../src/forecast/shop-hours.ts';

const berlin = 'Europe/Berlin';
const evenings: ShopHours = {
  zone: berlin,
  week: {
    mon: [['18:30', '21:30']],
    tue: [['18:30', '21:30']],
    wed: [['18:30', '21:30']],
    sat: [
      ['09:00', '12:30'],
      ['13:30', '17:00'],
    ],
  },
};

function finish(hours: ShopHours, now: string, work_s: number): string {
  const [at] = finishTimes(hours, instantOf(hours.zone, now), [work_s]);
  return at === null || at === undefined ? 'never' : civilText(hours.zone, at);
}

describe('a finish in shop hours', () => {
  it('falls at closing time when the work ends exactly then', () => {
    expect(finish(evenings, '2026-03-02T18:30', 3 * 3600)).toBe('2026-03-02T21:30:00');
    expect(finish(evenings, '2026-03-02T18:30', 3 * 3600 + 1)).toBe('2026-03-03T18:30:01');
  });

  it('is now when nothing is left, even in closed hours', () => {
    expect(finish(evenings, '2026-03-02T12:00', 0)).toBe('2026-03-02T12:00:00');
  });

  it('skips days off and takes one-off changes', () => {
    const hours: ShopHours = {
      ...evenings,
      daysOff: ['2026-03-03'],
      changes: [{ date: '2026-03-02', open: [['18:30', '22:30']] }],
    };
    expect(finish(hours, '2026-03-02T21:00', 5400)).toBe('2026-03-02T22:30:00');
    expect(finish(hours, '2026-03-02T21:00', 5401)).toBe('2026-03-04T18:30:01');
  });

  it('works through midnight where an opening closes earlier than it opens', () => {
    const nights: ShopHours = { zone: berlin, week: { fri: [['22:00', '02:00']] } };
    expect(finish(nights, '2026-03-06T23:00', 2 * 3600)).toBe('2026-03-07T01:00:00');
    expect(finish(nights, '2026-03-07T00:30', 3600)).toBe('2026-03-07T01:30:00');
    expect(finish(nights, '2026-03-07T01:00', 2 * 3600)).toBe('2026-03-13T23:00:00');
  });

  it('is never where the shop never opens', () => {
    expect(finish({ zone: berlin, week: {} }, '2026-03-02T12:00', 10)).toBe('never');
    expect(
      finish(
        { zone: berlin, week: {}, changes: [{ date: '2026-03-05', open: [['08:00', '09:00']] }] },
        '2026-03-02T12:00',
        3600,
      ),
    ).toBe('2026-03-05T09:00:00');
  });

  it('counts every hour of a shop that is always open', () => {
    expect(finish(alwaysOpen('UTC'), '2026-01-31T23:00', 40 * 86_400)).toBe('2026-03-12T23:00:00');
    expect(finish(alwaysOpen('UTC'), '2026-01-01T00:00', 900 * 86_400)).toBe('2028-06-19T00:00:00');
  });
});

describe('daylight saving', () => {
  it('a spring night is an hour shorter, an autumn night an hour longer (Europe/Berlin 2026: 29 March, 25 October)', () => {
    const nights: ShopHours = { zone: berlin, week: { sat: [['22:00', '06:00']] } };
    const spring = instantOf(berlin, '2026-03-28T12:00');
    expect(openSeconds(nights, spring, spring + 86_400_000)).toBe(7 * 3600);
    const autumn = instantOf(berlin, '2026-10-24T12:00');
    expect(openSeconds(nights, autumn, autumn + 86_400_000)).toBe(9 * 3600);
  });

  it('evenings keep their clock times on both sides of a change', () => {
    const sundays: ShopHours = { zone: berlin, week: { sat: [['18:00', '20:00']], sun: [['18:00', '20:00']] } };
    expect(finish(sundays, '2026-03-28T19:00', 2 * 3600)).toBe('2026-03-29T19:00:00');
    expect(finish(sundays, '2026-10-24T19:00', 2 * 3600)).toBe('2026-10-25T19:00:00');
  });

  it('a time that spring skips is the moment of the change, a repeated one the first', () => {
    expect(civilText(berlin, instantOf(berlin, '2026-03-29T02:30'))).toBe('2026-03-29T03:00:00');
    const first = instantOf(berlin, '2026-10-25T02:30');
    expect(civilText(berlin, first + 3_600_000)).toBe('2026-10-25T02:30:00');
  });

  it('holds where the change is half an hour or the zone lies far east', () => {
    for (const zone of [
      'Australia/Lord_Howe',
      'Pacific/Auckland',
      'America/New_York',
      'Asia/Kolkata',
      'Africa/Casablanca',
    ]) {
      for (let day = 1; day < 366; day += 1) {
        const noon = instantOf(zone, civilText('UTC', Date.UTC(2026, 0, day, 12)).slice(0, 16));
        expect(shopClock(zone, noon)).toMatchObject({ hour: 12, minute: 0 });
      }
    }
  });
});

describe('the open hours', () => {
  it('finish times and open seconds are each other turned round', () => {
    const from = Date.UTC(2026, 2, 20);
    const property = fc.property(
      fc.integer({ min: 0, max: 90 * 86_400 }),
      fc.integer({ min: 1, max: 400_000 }),
      (later, work_s) => {
        const now_ms = from + later * 1000;
        const [at] = finishTimes(evenings, now_ms, [work_s]);
        expect(openSeconds(evenings, now_ms, at ?? 0)).toBeCloseTo(work_s, 3);
      },
    );
    fc.assert(property, { numRuns: 60, seed: 3 });
  });

  it('come joined, in order and cut at the start', () => {
    const hours: ShopHours = { zone: 'UTC', week: { mon: [['20:00', '24:00']], tue: [['00:00', '02:00']] } };
    const from = instantOf('UTC', '2026-03-02T21:00');
    const [first] = openStretches(hours, from);
    expect(first).toEqual({ from_ms: from, to_ms: instantOf('UTC', '2026-03-03T02:00') });
  });

  it('close for the day at the end of the last opening', () => {
    const at = (text: string): string => {
      const closing = closingTime(evenings, instantOf(berlin, text));
      return closing === null ? 'none' : civilText(berlin, closing);
    };
    expect(at('2026-03-07T10:00')).toBe('2026-03-07T17:00:00');
    expect(at('2026-03-07T18:00')).toBe('none');
    expect(at('2026-03-05T10:00')).toBe('none');
  });

  it('find the next time of a clock', () => {
    const now = instantOf(berlin, '2026-03-28T22:00');
    expect(civilText(berlin, nextTimeOfDay(berlin, now, 21 * 60 + 30))).toBe('2026-03-29T21:30:00');
    expect(civilText(berlin, nextTimeOfDay(berlin, now, 22 * 60))).toBe('2026-03-28T22:00:00');
  });
});

describe('the settings of the shop hours', () => {
  it('take what the documentation shows', () => {
    expect(shopHoursSchema.parse({ ...evenings, daysOff: ['2026-12-24'] })).toMatchObject({ zone: berlin });
  });

  it.each([
    [{ zone: 'Nowhere/Land', week: {} }, 'time zone'],
    [{ zone: berlin, week: { mon: [['25:00', '26:00']] } }, 'time of day'],
    [{ zone: berlin, week: { mon: [['08:00', '08:00']] } }, 'another time'],
    [{ zone: berlin, week: {}, daysOff: ['2026-02-30'] }, 'date that exists'],
    [{ zone: berlin, week: { moon: [] } }, 'moon'],
  ])('refuse %j', (value, word) => {
    const parsed = shopHoursSchema.safeParse(value);
    expect(parsed.success).toBe(false);
    expect(JSON.stringify(parsed.error?.issues)).toContain(word);
  });
});
