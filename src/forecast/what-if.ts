/**
 * What-if: the same forecast asked about another future. Each function returns a changed question (or changed shop hours)
 * and leaves the batch alone.
 */
import { shopClock } from './calendar.ts';
import type { ForecastAsk } from './projection.ts';
import type { ShopHours } from './shop-hours.ts';
import type { ForecastState } from './state.ts';
import { minutesOf, padded, timeOf } from './time-of-day.ts';

/** "With two loads instead of three": the pieces left of one operation in so many equal loads. */
export function withLoads(state: ForecastState, ask: ForecastAsk, operation: string, loads: number): ForecastAsk {
  const index = state.prepared.findIndex((entry) => entry.key === operation);
  return { ...ask, left: ask.left.map((entry, i) => (i === index ? { ...entry, loads } : entry)) };
}

/**
 * "If I stop at 21:00", "tonight until 22:30": the shop hours with today's last opening closing at `minutes` after
 * midnight. Openings after it fall away; when the shop is not open then, the last one before is lengthened, and a day
 * without any gets one from `now_ms` on.
 */
export function withClosingToday(hours: ShopHours, now_ms: number, minutes: number): ShopHours {
  const now = shopClock(hours.zone, now_ms);
  const date = `${now.year}-${padded(now.month)}-${padded(now.day)}`;
  const changed = hours.changes?.find((change) => change.date === date)?.open;
  const usual = changed ?? (hours.daysOff?.includes(date) ? [] : (hours.week[now.weekday] ?? []));
  const kept = usual.filter(([from]) => minutesOf(from) < minutes);
  const from = kept.at(-1)?.[0] ?? `${padded(now.hour)}:${padded(now.minute)}`;
  const last: [string, string][] = minutesOf(from) < minutes ? [[from, timeOf(minutes)]] : [];
  const open = [...kept.slice(0, -1), ...last];
  const others = (hours.changes ?? []).filter((change) => change.date !== date);
  return { ...hours, changes: [...others, { date, open }] };
}
