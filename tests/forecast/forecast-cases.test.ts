import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { civilText, finishTimes, instantOf } from '../../src/forecast/calendar.ts';
import type { ShopHours } from '../../src/forecast/shop-hours.ts';
import { type Answer, type EventLine, type RunLine, type Session, takeLine } from '../bench/line-session.ts';

type Range = readonly [number, number];
type Accept = {
  readonly remaining_s?: Partial<Record<'p10' | 'p50' | 'p90', Range>>;
  readonly operation_remaining_s?: Partial<Record<'p10' | 'p50' | 'p90', Range>>;
  readonly ratio_p90_p10?: Range;
};
type ForecastCase = {
  readonly id: string;
  readonly title: string;
  readonly kind: 'forecast';
  readonly run: RunLine;
  readonly events: readonly EventLine[];
  readonly ask: { readonly type: 'ask'; readonly ask: number; readonly t_s: number };
  readonly accept: Accept;
};
type CalendarCase = {
  readonly id: string;
  readonly title: string;
  readonly kind: 'calendar';
  readonly calendar: ShopHours['week'];
  readonly now: string;
  readonly work_s: number;
  readonly accept: { readonly finish: string };
};

// Fixed cases with wide accepted bands: they reject wrong ideas, not other good methods.
const file = new URL('./fixtures/forecast-cases.json', import.meta.url);
const { cases } = JSON.parse(readFileSync(file, 'utf8')) as { cases: (ForecastCase | CalendarCase)[] };

function answerOf(entry: ForecastCase): Answer {
  let session: Session | null = null;
  for (const line of [entry.run, ...entry.events]) session = takeLine(session, line).session;
  const { answer } = takeLine(session, entry.ask);
  if (answer === null) throw new Error('no answer');
  return answer;
}

function expectWithin(name: string, value: number, [low, high]: Range): void {
  expect(value, `${name} at least`).toBeGreaterThanOrEqual(low);
  expect(value, `${name} at most`).toBeLessThanOrEqual(high);
}

describe('the fixed forecast cases', () => {
  it.each(cases.filter((entry) => entry.kind === 'forecast'))('$id $title', (entry) => {
    const answer = answerOf(entry);
    for (const name of ['remaining_s', 'operation_remaining_s'] as const) {
      for (const [point, range] of Object.entries(entry.accept[name] ?? {})) {
        expectWithin(`${name}.${point}`, answer[name][point as 'p10' | 'p50' | 'p90'], range);
      }
    }
    const ratio = entry.accept.ratio_p90_p10;
    if (ratio) expectWithin('p90 / p10', answer.remaining_s.p90 / answer.remaining_s.p10, ratio);
  });

  it.each(cases.filter((entry) => entry.kind === 'calendar'))('$id $title', (entry) => {
    const hours = { zone: 'UTC', week: entry.calendar };
    const [finish] = finishTimes(hours, instantOf('UTC', entry.now), [entry.work_s]);
    expect(civilText('UTC', finish ?? 0)).toBe(entry.accept.finish);
  });
});
