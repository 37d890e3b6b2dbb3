import { describe, expect, it } from 'vitest';
import { piecesDoneBy, piecesWithin } from '../../src/forecast/by-time.ts';
import { civilText, closingTime, instantOf, openSeconds } from '../../src/forecast/calendar.ts';
import { type ForecastEvent, foldForecast } from '../../src/forecast/forecaster.ts';
import { askForecast, chanceWithin, type ForecastAsk, quantilesOf } from '../../src/forecast/projection.ts';
import type { ShopHours } from '../../src/forecast/shop-hours.ts';
import { withClosingToday, withLoads } from '../../src/forecast/what-if.ts';

const operation = { setup_s: 900, piece_s: 60, pieces: 40 };
const job = {
  operations: [
    { ...operation, key: '10', piecesPerLoad: 1 },
    { ...operation, key: '20', piecesPerLoad: 6 },
  ],
};
const setup: ForecastEvent = { kind: 'setup-done', operation: '20', took_s: 900 };
const loads: ForecastEvent[] = [372, 355, 361, 366, 350].map((took_s) => ({
  kind: 'load',
  operation: '20',
  pieces: 6,
  took_s,
}));
const state = foldForecast(job, [setup, ...loads]);
const ask: ForecastAsk = { operation: '20', sinceLastPress_s: 0, left: [{ pieces: 0 }, { pieces: 40 }] };
const median = (question: ForecastAsk): number => quantilesOf(askForecast(state, question).batch).p50;
const hours: ShopHours = { zone: 'Europe/Berlin', week: { mon: [['18:30', '21:30']] } };
const at = (text: string): number => instantOf('Europe/Berlin', text);

describe('pieces done by a time', () => {
  it('come in whole loads, with a band around the middle', () => {
    const done = piecesWithin(state, ask, 3.5 * 370);
    expect(done.middle).toBe(18);
    expect(done.low).toBeLessThanOrEqual(18);
    expect(done.high).toBeGreaterThanOrEqual(18);
    expect(done.low % 6).toBe(0);
  });

  it('are none in no time and all in plenty', () => {
    expect(piecesWithin(state, ask, 0)).toMatchObject({ low: 0, middle: 0, high: 0 });
    const done = piecesWithin(state, ask, 1e6);
    expect(done).toMatchObject({ low: 40, middle: 40, high: 40 });
    expect(done.batchChance).toBeGreaterThan(0.999);
  });

  it('count only open hours', () => {
    const now = at('2026-03-02T21:00');
    const closing = piecesDoneBy(state, ask, hours, now, at('2026-03-02T21:30'));
    expect(piecesDoneBy(state, ask, hours, now, at('2026-03-05T12:00'))).toEqual(closing);
    expect(closing.middle).toBe(piecesWithin(state, ask, 1800).middle);
  });

  it('never contradict the finish', () => {
    const { p10, p90 } = quantilesOf(askForecast(state, ask).operation);
    expect(piecesWithin(state, ask, p90 + 1).low).toBe(40);
    expect(piecesWithin(state, ask, p10 - 1).high).toBeLessThan(40);
    expect(chanceWithin(askForecast(state, ask).batch, p90)).toBeCloseTo(0.9, 3);
  });
});

describe('what if', () => {
  it('fewer, fuller loads are quicker', () => {
    const three = withLoads(state, { ...ask, left: [{ pieces: 0 }, { pieces: 12 }] }, '20', 3);
    const two = withLoads(state, { ...ask, left: [{ pieces: 0 }, { pieces: 12 }] }, '20', 2);
    // 0.55 of a load for each loading: 360 s x 0.55.
    expect(median(three) - median(two)).toBeGreaterThan(150);
    expect(median(three) - median(two)).toBeLessThan(300);
  });

  it('closing earlier or later tonight changes tonight alone', () => {
    const now = at('2026-03-02T19:00');
    const early = withClosingToday(hours, now, 20 * 60);
    expect(civilText('Europe/Berlin', closingTime(early, now) ?? 0)).toBe('2026-03-02T20:00:00');
    const late = withClosingToday(hours, now, 22 * 60 + 30);
    expect(openSeconds(late, now, now + 86_400_000)).toBe(3.5 * 3600);
    const nextMonday = at('2026-03-09T12:00');
    expect(openSeconds(late, nextMonday, nextMonday + 86_400_000)).toBe(3 * 3600);
  });

  it('a closed evening can be opened, and an hour that has passed opens nothing', () => {
    const tuesday = at('2026-03-03T19:00');
    expect(openSeconds(withClosingToday(hours, tuesday, 21 * 60), tuesday, tuesday + 86_400_000)).toBe(2 * 3600);
    expect(openSeconds(withClosingToday(hours, tuesday, 18 * 60), tuesday, tuesday + 86_400_000)).toBe(0);
  });
});
