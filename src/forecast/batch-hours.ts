/** The shop hours of a batch, and other ones for tonight. */
import type { CommandOf } from '../batch/commands.ts';
import type { Batch } from '../batch/state.ts';
import { alwaysOpen, type ShopHours, shopHoursSchema } from './shop-hours.ts';
import { withClosingToday } from './what-if.ts';

/** Shop hours of a batch: those it was opened with or was given since, else always open. */
export function hoursOf(batch: Batch): ShopHours {
  const read = shopHoursSchema.safeParse({ zone: batch.zone, ...batch.hours });
  return read.success ? read.data : alwaysOpen(batch.zone);
}

/**
 * The command that keeps the shop open today until `minutes` after midnight (1350 for 22:30) and leaves all other days as
 * they are.
 */
export function openUntil(batch: Batch, now_ms: number, minutes: number): CommandOf<'changeHours'> {
  const { week, daysOff, changes } = withClosingToday(hoursOf(batch), now_ms, minutes);
  const kept = Object.fromEntries(
    Object.entries(week).flatMap(([day, open]) => (open === undefined ? [] : [[day, open]])),
  );
  return { kind: 'changeHours', hours: { week: kept, daysOff: daysOff ?? [], changes: changes ?? [] } };
}
