/** Other shop hours for a running batch: longer tonight, a day off. They move no count, only when the work will end. */
import type { CommandOf } from '../commands.ts';
import type { Batch } from '../state.ts';
import { type Decision, events, refused, whenOpen } from './decision.ts';

const clockTime = /^([01]?\d|2[0-3]):[0-5]\d$|^24:00$/;
const civilDate = /^\d{4}-\d{2}-\d{2}$/;
/** Dates that a calendar may hold, so that no journal line grows without bound. */
const mostDates = 1000;

/** Takes up other hours; refused when a time or date in them is none. */
export function decideChangeHours(batch: Batch, { hours }: CommandOf<'changeHours'>): Decision {
  return whenOpen(batch, () => {
    if (hours === null) return events({ kind: 'HoursChanged', hours });
    const openings = [...Object.values(hours.week), ...hours.changes.map((change) => change.open)].flat(2);
    const time = openings.find((text) => !clockTime.test(text));
    if (time !== undefined) return refused(`"${time}" is no time of day; write it as 21:30`);
    const dates = [...hours.daysOff, ...hours.changes.map((change) => change.date)];
    if (dates.length > mostDates) return refused(`more than ${mostDates} dates; leave out those that are over`);
    const date = dates.find((text) => !civilDate.test(text));
    if (date !== undefined) return refused(`"${date}" is no date; write it as 2027-03-01`);
    return events({ kind: 'HoursChanged', hours });
  });
}
