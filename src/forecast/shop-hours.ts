/**
 * When the shop is open: the shape of the settings section and of the plan's own hours. What follows from it stands in
 * calendar.ts.
 */
import * as z from 'zod';

/** Weekdays as the settings name them, Sunday first as calendars count. */
export const weekdays = ['sun', 'mon', 'tue', 'wed', 'thu', 'fri', 'sat'] as const;
export type Weekday = (typeof weekdays)[number];

const clockTime = z
  .string()
  .regex(/^([01]?\d|2[0-3]):[0-5]\d$|^24:00$/, 'a time of day such as 18:30 (24:00 for the end of the day)');
const stretch = z
  .tuple([clockTime, clockTime])
  .refine(([from, to]) => from !== to, 'an opening must end at another time than it begins')
  .describe('Opening and closing time; one that closes earlier than it opens runs past midnight.');
const day = z.array(stretch).max(12).describe('Openings of the day, none for a day off.');
const civilDate = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}$/, 'a date such as 2026-12-24')
  .refine(isCivilDate, 'a date that exists');

/** Settings section and plan section `shop hours`: when the shop is open. */
export const shopHoursSchema = z.strictObject({
  zone: z
    .string()
    .refine(isZone, 'a time zone such as Europe/Berlin')
    .describe('Time zone of the shop (IANA name); default: that of the computer.'),
  week: z
    .strictObject({ mon: day, tue: day, wed: day, thu: day, fri: day, sat: day, sun: day })
    .partial()
    .describe('Openings by weekday, for example mon: [["18:30", "21:30"]]; a weekday left out is closed.'),
  daysOff: z.array(civilDate).max(1000).optional().describe('Dates on which the shop is closed.'),
  changes: z
    .array(z.strictObject({ date: civilDate, open: day }))
    .max(1000)
    .optional()
    .describe('One-off openings that replace the usual ones of a date, for example tonight until 22:30.'),
});

export type ShopHours = z.infer<typeof shopHoursSchema>;

/** Always open: the calendar of a shop that has set no hours. */
export function alwaysOpen(zone: string): ShopHours {
  const open: [string, string][] = [['00:00', '24:00']];
  return { zone, week: { mon: open, tue: open, wed: open, thu: open, fri: open, sat: open, sun: open } };
}

/** Whether `2026-02-29` and its like name a day that there is. */
function isCivilDate(date: string): boolean {
  const [year = 0, month = 0, day = 0] = date.split('-').map(Number);
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const days = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1];
  return days !== undefined && day >= 1 && day <= days;
}

function isZone(zone: string): boolean {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: zone }).format !== undefined;
  } catch (error) {
    if (error instanceof RangeError) return false;
    throw error;
  }
}
