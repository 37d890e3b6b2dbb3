import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  formatClockTime,
  formatDecimalHours,
  formatHours,
  formatSpan,
  isoInstant,
  wholeSecondParts,
} from '../../src/report/time-text.ts';

describe('times as text', () => {
  it('rounds to the second only when shown, and carries', () => {
    expect(formatClockTime(3725.4)).toBe('1:02:05');
    expect(formatClockTime(59.6)).toBe('0:01:00');
    expect(formatClockTime(3599.5)).toBe('1:00:00');
    expect(formatClockTime(-65)).toBe('-0:01:05');
    expect(formatClockTime(-0.2)).toBe('0:00:00');
    expect(formatClockTime(360_000)).toBe('100:00:00');
  });

  it('gives hours as h:mm and as a decimal from the same seconds', () => {
    expect([formatHours(3725), formatDecimalHours(3725)]).toEqual(['1:02', '1.03']);
    expect([formatHours(3599), formatDecimalHours(3599)]).toEqual(['1:00', '1.00']);
    expect([formatHours(0), formatDecimalHours(0)]).toEqual(['0:00', '0.00']);
  });

  it('speaks of short times in the words of the bench', () => {
    expect(formatSpan(42.34)).toBe('42.3 s');
    expect(formatSpan(59.97)).toBe('1 min 0 s');
    expect(formatSpan(130)).toBe('2 min 10 s');
    expect(formatSpan(7260)).toBe('2 h 1 min');
  });

  it('shows parts that add up to the total as shown, none moved by a second', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 10_000_000 }), { minLength: 1, maxLength: 7 }), (parts_ms) => {
        const parts = parts_ms.map((ms) => ms / 1000);
        const shown = wholeSecondParts(parts);
        expect(shown.reduce((sum, part) => sum + part, 0)).toBe(
          Math.round(parts_ms.reduce((sum, ms) => sum + ms, 0) / 1000),
        );
        for (const [index, part] of shown.entries()) expect(Math.abs(part - (parts[index] ?? 0))).toBeLessThan(1);
      }),
    );
  });
});

describe('instants in ISO 8601', () => {
  it('carry the offset of their zone in winter and in summer', () => {
    expect(isoInstant(Date.UTC(2027, 2, 1, 20, 5), 'Europe/Berlin')).toBe('2027-03-01T21:05:00+01:00');
    expect(isoInstant(Date.UTC(2027, 6, 1, 20, 5), 'Europe/Berlin')).toBe('2027-07-01T22:05:00+02:00');
    expect(isoInstant(Date.UTC(2027, 0, 1, 2, 0), 'America/St_Johns')).toBe('2026-12-31T22:30:00-03:30');
    expect(isoInstant(Date.UTC(2027, 0, 1), 'UTC')).toBe('2027-01-01T00:00:00+00:00');
  });

  it('name the same instant when read back, to the second', () => {
    const zones = fc.constantFrom('Europe/London', 'Asia/Kolkata', 'America/New_York', 'Pacific/Chatham');
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 4_000_000_000 }), zones, (second, zone) => {
        expect(Date.parse(isoInstant(second * 1000, zone))).toBe(second * 1000);
      }),
    );
  });

  it('of a spoiled clock are held between 1970 and 9998', () => {
    expect(isoInstant(-5, 'UTC')).toBe('1970-01-01T00:00:00+00:00');
    expect(isoInstant(9e15, 'UTC')).toMatch(/^9998-/);
  });
});
